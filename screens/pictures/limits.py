"""The limits of a number as the lines that measure it on a drawing, the smallest first.

Invariant: each line is as long as it says, every one starts at the same edge, smaller is always shorter. What
all have in common is cut out at the break, so that they can be told apart; words and figures say each.
"""

from __future__ import annotations

from screens.raster import Style

_MARKS = {False: ("├", "┤", "─"), True: ("|", "|", "-")}
BREAK = "//"
"""Where the part that all have in common is left out."""
NOW = "keyed"
LEAST = 14
"""Cells of a line that can still be told from another."""
ROOM = 0.6
"""Seen beyond either limit, in parts of what lies between them."""


def limit_lines(
    *,
    low: float,
    high: float,
    target: float | None = None,
    half_width: float = 0.0,
    value: float | None = None,
    unit: str = "mm",
    decimals: int = 2,
    words: tuple[str, str, str] = ("under", "works", "over"),
    columns: int = 60,
    style: Style = "half",
) -> list[str]:
    """A line for each limit, for what is aimed at and for what is keyed, all of one width.

    `words`: what lies below `low`, between, and above `high`; `half_width`: how far to either side of the
    target most results land, said behind it. Raises ValueError where the two limits are one.
    """
    if low == high:
        raise ValueError(f"the limits {low} and {high} {unit} are one: give two different ones")
    low, high = min(low, high), max(low, high)
    said = [(_below(words[0]), low, ""), (f"{words[2]} over".replace("over over", "over"), high, "")]
    if target is not None:
        lands = f" cuts {'+-' if style == 'ascii' else '±'}{half_width:.{decimals}f}" if half_width else ""
        said.insert(1, ("aim", target, lands))
    if value is not None:
        said.append((NOW, value, f" {unit}: {place_of(value, low, high, words)}"))
    names = max(len(name) for name, _, _ in said)
    beside = len(f" {high:.{decimals}f} {unit}: ") + max(map(len, words))
    if columns - names - 2 - beside < LEAST:
        beside, said = len(f" {high:.{decimals}f}"), [(name, number, "") for name, number, _ in said]
    room = max(columns - names - 2 - beside, LEAST)
    lines = []
    for name, number, more in said:
        drawn = _line(_long(number, low, high, room), style)
        lines.append(f"{name.ljust(names)}  {drawn} {number:.{decimals}f}{more}".ljust(columns)[:columns])
    return lines


def place_of(value: float, low: float, high: float, words: tuple[str, str, str]) -> str:
    """What a number is, in the words of its limits."""
    return words[0] if value < low else words[2] if value > high else words[1]


def _below(word: str) -> str:
    return word if word == "under" else f"{word} under"


def _long(number: float, low: float, high: float, room: int) -> int:
    """Cells of a number's line, both ends counted."""
    part = ((number - low) / (high - low) + ROOM) / (1.0 + 2.0 * ROOM)
    least = len(BREAK) + 4
    return round(least + min(max(part, 0.0), 1.0) * (room - least))


def _line(cells: int, style: Style) -> str:
    """A line that measures, with its break."""
    first, last, body = _MARKS[style == "ascii"]
    return f"{first}{body}{BREAK}{body * (cells - len(BREAK) - 3)}{last}"
