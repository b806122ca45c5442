"""Too loose, works, too tight: where the target lies, where the cut lands, what is typed.

Invariant: the same four lines for every number, so that the eye finds them again; told without colour.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial

from screens.raster import Style

_MARKS = {
    "works": "░",
    "outside": "─",
    "landing": "▒",
    "target": "█",
    "edge": "│",
    "pointer": "▲",
    "give": "±",
}
_ASCII_MARKS = {
    "works": "-",
    "outside": " ",
    "landing": "=",
    "target": "T",
    "edge": "|",
    "pointer": "^",
    "give": "+-",
}


def window_bar(
    *,
    loose: float,
    tight: float,
    target: float,
    tolerance: float = 0.0,
    landing: tuple[float, float] | None = None,
    value: float | None = None,
    unit: str = "mm",
    decimals: int = 2,
    words: tuple[str, str, str] = ("too loose", "works", "too tight"),
    columns: int = 60,
    style: Style = "half",
) -> list[str]:
    """Four lines: words, bar, figures, what is typed.

    `loose` and `tight` are the two ends of what works, in `unit`; the bar runs from loose on the left to
    tight on the right whichever of the two is larger. `tolerance` counts to either side of the target;
    `landing` is where the cut is expected to land. Raises ValueError when the two ends are equal.
    """
    if loose == tight:
        raise ValueError(f"the window from {loose} to {tight} {unit} is empty: give two different ends")
    column = partial(_column, loose=loose, tight=tight, columns=columns)
    marks = _ASCII_MARKS if style == "ascii" else _MARKS
    left, right, aim = column(loose), column(tight), column(target)
    lands = sorted(map(column, landing or (target - tolerance, target + tolerance)))
    bar = _bar(marks, columns, (left, right), lands, aim)
    give = f" {marks['give']}{tolerance:.{decimals}f}" if tolerance else ""
    heads = ((left // 2, words[0]), ((left + right) // 2, words[1]), ((right + columns) // 2, words[2]))
    figures = (
        (aim, f"{target:.{decimals}f}{give}"),
        (left, f"{loose:.{decimals}f}"),
        (right, f"{tight:.{decimals}f}"),
    )
    typed = " " * columns
    if value is not None:
        place = (value - loose) / (tight - loose)
        where = words[0] if place < 0 else words[2] if place > 1 else words[1]
        typed = _pointed(columns, column(value), marks["pointer"], f"{value:.{decimals}f} {unit}: {where}")
    return [_row(columns, heads), bar, _row(columns, figures), typed]


def _column(number: float, *, loose: float, tight: float, columns: int) -> int:
    """Column of a number: what works takes the middle half of the bar."""
    part = (number - loose) / (tight - loose)
    return min(max(round((0.25 + 0.5 * part) * (columns - 1)), 0), columns - 1)


def _bar(
    marks: Mapping[str, str], columns: int, edges: tuple[int, int], lands: Sequence[int], aim: int
) -> str:
    """The bar alone: what works, where the cut lands, the target."""
    (left, right), (first, last) = edges, lands
    bar = [marks["works"] if left <= place <= right else marks["outside"] for place in range(columns)]
    bar[first : last + 1] = marks["landing"] * (last + 1 - first)
    bar[left] = bar[right] = marks["edge"]
    bar[aim] = marks["target"]
    return "".join(bar)


def _row(columns: int, items: Sequence[tuple[int, str]]) -> str:
    """Words centred on their columns; later ones stand beside those before, and are left out where they do
    not fit even so.
    """
    cells = [" "] * columns
    for column, text in items:
        outward, long = (1 if column > columns // 2 else -1), len(text)
        places = range(max(columns - long + 1, 0))
        for first in sorted(places, key=lambda at: (abs(at + long // 2 - column), -at * outward)):
            if abs(first + long // 2 - column) > long + 1:
                continue
            if not "".join(cells[max(first - 1, 0) : first + long + 1]).strip():
                cells[first : first + long] = text
                break
    return "".join(cells)


def _pointed(columns: int, column: int, pointer: str, text: str) -> str:
    """A pointer at its column, the words on the side where they fit."""
    if column + 2 + len(text) <= columns:
        return (" " * column + f"{pointer} {text}").ljust(columns)
    if column - 1 - len(text) >= 0:
        return (f"{text} {pointer}".rjust(column + 1)).ljust(columns)
    return (" " * column + pointer).ljust(columns)
