"""Where each pass stands on the bar: the upper wall in section, chuck on the left, free end on the right.

Invariant: diameters share one scale, lengths another; the axis lies below the picture and is not shown.
"""

from __future__ import annotations

from collections.abc import Sequence

from bench.job.steps import Picture
from rules.lengths import bare
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
    """The wall of the bar from its surface to the smallest pass shown; sizes in mm, passes as diameters.

    The ring to be is filled; passes are dashed; the one to be taken now is a full line and named.
    """
    depth = (bar_mm - min(bore_mm, *bore_passes_mm, bore_mm if now_mm is None else now_mm)) / 2
    canvas = Canvas(1.15 * stick_out_mm, 1.35 * depth, stretch=True)
    end, chuck, passes = canvas.width, 0.15 * stick_out_mm, (*outside_passes_mm, *bore_passes_mm)
    turned = max(end - bored_mm, chuck)

    def y(diameter: float) -> float:
        return (bar_mm - diameter) / 2 + 0.12 * depth

    top, low = y(outside_mm), y(bore_mm)
    _in_the_chuck(canvas, chuck, turned, y(bar_mm), top, low)
    for diameter in passes:
        canvas.line((turned, y(diameter)), (end, y(diameter)), dashed=True)
    ring = max(end - height_mm, turned)
    canvas.polygon(((ring, top), (end, top), (end, low), (ring, low)), "cross")
    if now_mm is not None:
        canvas.line((turned, y(now_mm)), (end, y(now_mm)))
    canvas.label(chuck, y(bar_mm), f"bar {bare(bar_mm)}", right=1, down=1)
    named = _named(outside_mm, bore_mm, passes, now_mm)
    labels = _spaced([(y(size) / canvas.height * (rows - 1), text) for size, text in named], rows)
    drawn = enumerate(canvas.render(max(columns - LABEL_COLUMNS, 8), rows, style))
    return [f"{line} {labels.get(at, '')}".ljust(columns)[:columns] for at, line in drawn]


def _in_the_chuck(
    canvas: Canvas, chuck: float, turned: float, bar: float, outside: float, bore: float
) -> None:
    """The chuck and the bar in it, turned and bored from the free end."""
    end = canvas.width
    canvas.rect(0, 0, chuck, canvas.height, "diagonal")
    canvas.line((chuck, bar), (turned, bar), (turned, outside), (end, outside))
    canvas.line((end, outside), (end, bore), (turned, bore), (turned, canvas.height))
    canvas.label(0, canvas.height, "chuck")


def _named(
    outside_mm: float, bore_mm: float, passes: Sequence[float], now_mm: float | None
) -> list[tuple[float, str]]:
    """Diameters and what stands beside them; a pass by its bare size."""
    named = [(outside_mm, f"{bare(outside_mm)} outside"), (bore_mm, f"{bare(bore_mm)} bore")]
    named += [(size, bare(size)) for size in passes if size != now_mm]
    return named if now_mm is None else [*named, (now_mm, f"{bare(now_mm)} < now")]


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
