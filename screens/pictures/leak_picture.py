"""What the gauge showed over time, the line fitted to it, and the line of a leak at the limit.

Invariant: readings are crosses, the fit is a line, the limit is dashed and named;
nothing is drawn that the curve does not hold.
"""

from __future__ import annotations

from bench.job.steps import Picture
from rules.testing.leak_curve import LeakCurve
from screens.raster import Canvas, Style

LEGENDS = ("crosses read, line fitted", "+ read  - fit", "")
"""What the marks are, the longest first; the limit has its name at its line."""
ENDS = 19
"""Cells that the two ends of the time and what stands round them take."""
_LEFT, _RIGHT, _TOP, _BOTTOM = 0.12, 0.98, 0.08, 0.86


def leak_picture(
    curve: LeakCurve, *, columns: int = 56, rows: int = 11, style: Style = "braille"
) -> list[str]:
    """The curve in a box of cells, its ends named in the unit of the gauge and in minutes."""
    (first, last), (low, high) = curve.minutes, curve.signals
    canvas = Canvas(1.0, 1.0, stretch=True)

    def place(point: tuple[float, float]) -> tuple[float, float]:
        return (
            _LEFT + (_RIGHT - _LEFT) * (point[0] - first) / (last - first),
            _TOP + (_BOTTOM - _TOP) * (high - point[1]) / ((high - low) or 1.0),
        )

    canvas.line((_LEFT, _TOP), (_LEFT, _BOTTOM), (_RIGHT, _BOTTOM))
    canvas.line(*map(place, curve.fitted))
    canvas.line(*map(place, curve.limit), dashed=True)
    for x, y in map(place, curve.readings):
        canvas.line((x - 0.012, y), (x + 0.012, y))
        canvas.line((x, y - 0.03), (x, y + 0.03))
    if curve.limit:
        canvas.label(*place(curve.limit[-1]), "limit", "right", down=-1)
    canvas.label(0, _TOP, f"{high:.3g}")
    canvas.label(0, _TOP, curve.unit, down=1)
    canvas.label(0, _BOTTOM, f"{low:.3g}")
    canvas.label(_LEFT, 1.0, f"{first:.3g}")
    canvas.label(_RIGHT, 1.0, f"{last:.3g} min", "right")
    legend = next(text for text in LEGENDS if len(text) <= columns - ENDS)
    canvas.label(_LEFT + 0.06, 1.0, legend)
    return canvas.render(columns, rows, style)


def draw(picture: Picture, *, columns: int, rows: int, style: Style) -> list[str]:
    """The curve that a step asks for."""
    if picture.curve is None:
        return []
    return leak_picture(picture.curve, columns=columns, rows=rows + 2, style=style)
