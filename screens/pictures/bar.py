"""Where each pass stands on the bar: the upper wall in section, chuck on the left, free end on the right.

Invariant: diameters share one scale, lengths another; the axis lies below the picture and is not shown.
"""

from __future__ import annotations

from collections.abc import Sequence

from bench.job.steps import Picture
from screens.raster import Canvas, Style

LABEL_COLUMNS = 15


def bar_passes(
    *,
    bar_mm: float,
    outside_mm: float,
    bore_mm: float,
    height_mm: float,
    bored_mm: float,
    stick_out_mm: float,
    outside_passes_mm: Sequence[float] = (),
    bore_passes_mm: Sequence[float] = (),
    now_mm: float | None = None,
    columns: int = 56,
    rows: int = 10,
    style: Style = "braille",
) -> list[str]:
    """The wall of the bar between its surface and the smallest pass shown; all sizes in mm, passes as diameters.

    The ring to be is filled; passes are dashed; the one to be taken now is a full line and named.
    """
    drawn = max(columns - LABEL_COLUMNS, 8)
    deepest = min(bore_mm, *bore_passes_mm, now_mm if now_mm is not None else bore_mm)
    depth = (bar_mm - deepest) / 2
    canvas = Canvas(1.15 * stick_out_mm, 1.35 * depth, stretch=True)
    chuck = 0.15 * stick_out_mm
    end = canvas.width

    def y(diameter: float) -> float:
        return (bar_mm - diameter) / 2 + 0.12 * depth

    turned = max(end - bored_mm, chuck)
    canvas.rect(0, 0, chuck, canvas.height, "diagonal")
    canvas.line((chuck, y(bar_mm)), (turned, y(bar_mm)), (turned, y(outside_mm)), (end, y(outside_mm)))
    canvas.line((end, y(outside_mm)), (end, y(bore_mm)), (turned, y(bore_mm)), (turned, canvas.height))
    for diameter in (*outside_passes_mm, *bore_passes_mm):
        canvas.line((turned, y(diameter)), (end, y(diameter)), dashed=True)
    ring = max(end - height_mm, turned)
    canvas.polygon(
        ((ring, y(outside_mm)), (end, y(outside_mm)), (end, y(bore_mm)), (ring, y(bore_mm))), "cross"
    )
    if now_mm is not None:
        canvas.line((turned, y(now_mm)), (end, y(now_mm)))
    canvas.label(chuck, y(bar_mm), f"bar {bar_mm:.2f}", right=1, down=1)
    canvas.label(0, canvas.height, "chuck")
    named = [(y(outside_mm), f"{outside_mm:.2f} outside"), (y(bore_mm), f"{bore_mm:.2f} bore")]
    named += [(y(size), f"{size:.2f}") for size in (*outside_passes_mm, *bore_passes_mm) if size != now_mm]
    if now_mm is not None:
        named.append((y(now_mm), f"{now_mm:.2f} < now"))
    labels = _spaced([(place / canvas.height * (rows - 1), text) for place, text in named], rows)
    picture = canvas.render(drawn, rows, style)
    return [f"{line} {labels.get(row, '')}".ljust(columns)[:columns] for row, line in enumerate(picture)]


def _spaced(wanted: list[tuple[float, str]], rows: int) -> dict[int, str]:
    """One label a row, in order and as near to its own row as that allows; bare sizes are left out first."""
    kept = sorted(sorted(wanted, key=lambda item: " " not in item[1])[:rows])
    placed: dict[int, str] = {}
    last = -1
    for number, (row, text) in enumerate(kept):
        last = max(min(round(row), rows - (len(kept) - number)), last + 1)
        placed[last] = text
    return placed


def draw(picture: Picture, *, columns: int, rows: int, style: Style) -> list[str]:
    """The bar that a step asks for, with its pass where there is one."""
    numbers = dict(picture.numbers)
    now = numbers.pop("now_mm") or None
    return bar_passes(**numbers, now_mm=now, columns=columns, rows=rows, style=style)  # type: ignore[arg-type]
