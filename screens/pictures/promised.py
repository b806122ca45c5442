"""What was promised beside what fitted: a mark for each tenth of the promise, and the line on which promises
come true.

Invariant: a mark with its interval as an upright line, where there are rings enough for one; the share is
always said in words and figures too.
"""

from __future__ import annotations

from collections.abc import Sequence

from bench.job.steps import Picture
from screens.raster import Canvas, Style

_LEFT, _RIGHT, _TOP, _BOTTOM = 0.12, 0.98, 0.08, 0.86
EACH = 4
"""Numbers of one mark: promised, fitted, low and high end, which are under 0 where there is no interval."""
LEGENDS = ("promised; dashed: as promised", "promised")


def promised_picture(
    marks: Sequence[tuple[float, float, float, float]],
    *,
    columns: int = 48,
    rows: int = 12,
    style: Style = "braille",
) -> list[str]:
    """The marks in a box of cells, both ways from 0 to 100 %."""
    canvas = Canvas(1.0, 1.0, stretch=True)

    def place(promised: float, fitted: float) -> tuple[float, float]:
        return _LEFT + (_RIGHT - _LEFT) * promised, _BOTTOM - (_BOTTOM - _TOP) * fitted

    canvas.line((_LEFT, _TOP), (_LEFT, _BOTTOM), (_RIGHT, _BOTTOM))
    canvas.line(place(0.0, 0.0), place(1.0, 1.0), dashed=True)
    for promised, fitted, low, high in marks:
        x, y = place(promised, fitted)
        canvas.line((x - 0.015, y), (x + 0.015, y))
        if low >= 0.0:
            canvas.line(place(promised, low), place(promised, high))
    canvas.label(0, _TOP, "100")
    canvas.label(0, _TOP, "fits", down=1)
    canvas.label(0, _BOTTOM, "0")
    canvas.label(_RIGHT, 1.0, "100 %", "right")
    legend = next(text for text in LEGENDS if len(text) <= columns - 16 or text == LEGENDS[-1])
    canvas.label(_LEFT + 0.02, 1.0, legend)
    return canvas.render(columns, rows, style)


def draw(picture: Picture, *, columns: int, rows: int, style: Style) -> list[str]:
    """The marks that a step asks for."""
    numbers = [value for _, value in picture.series]
    marks = [tuple(numbers[at : at + EACH]) for at in range(0, len(numbers), EACH)]
    return promised_picture(
        [(a, b, c, d) for a, b, c, d in marks], columns=columns, rows=rows + 2, style=style
    )
