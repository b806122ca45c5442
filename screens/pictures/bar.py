"""Where each pass stands on the bar: the upper wall in section, chuck on the left, free end on the right.

Invariant: diameters share one scale, lengths another; the axis lies below the picture and is not shown.
"""

from __future__ import annotations

from collections.abc import Sequence

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
    depth = (bar_mm - min(bore_mm, *bore_passes_mm, bore_mm if now_mm is None else now_mm)) / 2
    canvas = Canvas(1.15 * stick_out_mm, 1.35 * depth, stretch=True)
    end, chuck = canvas.width, 0.15 * stick_out_mm
    turned = max(end - bored_mm, chuck)
    passes = (*outside_passes_mm, *bore_passes_mm)

    def y(diameter: float) -> float:
        return (bar_mm - diameter) / 2 + 0.12 * depth

    canvas.rect(0, 0, chuck, canvas.height, "diagonal")
    canvas.line((chuck, y(bar_mm)), (turned, y(bar_mm)), (turned, y(outside_mm)), (end, y(outside_mm)))
    canvas.line((end, y(outside_mm)), (end, y(bore_mm)), (turned, y(bore_mm)), (turned, canvas.height))
    for diameter in (*passes, *(() if now_mm is None else (now_mm,))):
        canvas.line((turned, y(diameter)), (end, y(diameter)), dashed=diameter != now_mm)
    canvas.rect(max(end - height_mm, turned), y(outside_mm), end, y(bore_mm), "cross")
    canvas.label(chuck, y(bar_mm), f"bar {bar_mm:.2f}", right=1, down=1)
    canvas.label(0, canvas.height, "chuck")
    row = (rows - 1) / canvas.height
    labels = _spaced([(y(d) * row, text) for d, text in _named(outside_mm, bore_mm, passes, now_mm)], rows)
    drawn = enumerate(canvas.render(max(columns - LABEL_COLUMNS, 8), rows, style))
    return [f"{line} {labels.get(at, '')}".ljust(columns)[:columns] for at, line in drawn]


def _named(
    outside_mm: float, bore_mm: float, passes: Sequence[float], now_mm: float | None
) -> list[tuple[float, str]]:
    """Diameters and what stands beside them; a pass by its bare size."""
    named = [(outside_mm, f"{outside_mm:.2f} outside"), (bore_mm, f"{bore_mm:.2f} bore")]
    named += [(size, f"{size:.2f}") for size in passes if size != now_mm]
    return named if now_mm is None else [*named, (now_mm, f"{now_mm:.2f} < now")]


def _spaced(wanted: list[tuple[float, str]], rows: int) -> dict[int, str]:
    """One label a row, in order and as near to its own row as that allows; bare sizes are left out first."""
    kept = sorted(sorted(wanted, key=lambda item: " " not in item[1])[:rows])
    placed: dict[int, str] = {}
    last = -1
    for number, (row, text) in enumerate(kept):
        last = max(min(round(row), rows - (len(kept) - number)), last + 1)
        placed[last] = text
    return placed
