"""Readings of a diameter at the hours of the clock where they were taken, and how far from round it is.

Invariant: the outline is exaggerated so that the largest difference is plain to see; the figures are not.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from bench.job.steps import Picture
from rules.lengths import bare, length
from screens.raster import Align, Canvas, Style

_RADIUS, _BULGE = 7.5, 1.2
_CENTRE = (15.0, 10.0)


def clock(
    readings: Sequence[tuple[int, float]],
    *,
    decimals: int = 2,
    columns: int = 40,
    rows: int = 13,
    style: Style = "braille",
) -> list[str]:
    """Readings by clock position: each is (hour 1 to 12, diameter in mm);
    an outline that bulges where it is wide.

    The difference between the largest and the smallest stands in the middle.
    """
    canvas = Canvas(30, 20)
    radius = _outline(readings, least=0.5 * 10**-decimals)
    canvas.line(*(_at(radius(step * math.pi / 36), step * math.pi / 36) for step in range(73)))
    for hour, value in readings:
        angle = hour * math.pi / 6
        canvas.line(_at(radius(angle) - 1, angle), _at(radius(angle) + 0.6, angle))
        across = math.sin(angle)
        align: Align = "centre" if abs(across) < 0.3 else "left" if across > 0 else "right"
        x, y = _at(9.0, angle)
        canvas.label(x, y, f"{hour}h {bare(value, decimals)}", align)
    if readings:
        values = [value for _, value in readings]
        canvas.label(*_CENTRE, "largest - smallest", "centre", down=-1)
        canvas.label(*_CENTRE, length(max(values) - min(values), decimals), "centre")
    return canvas.render(columns, rows, style)


def _at(radius: float, angle: float) -> tuple[float, float]:
    """A point at an angle from twelve o'clock."""
    return _CENTRE[0] + radius * math.sin(angle), _CENTRE[1] - radius * math.cos(angle)


def _outline(readings: Sequence[tuple[int, float]], *, least: float) -> Callable[[float], float]:
    """Radius of the exaggerated outline: each reading counts for as much as its diameter is near."""
    values = [value for _, value in readings]
    mean = sum(values) / len(values) if values else 0.0
    worst = max((abs(value - mean) for value in values), default=0.0)

    def radius(angle: float) -> float:
        if worst < least:
            return _RADIUS
        weights = [math.cos(angle - hour * math.pi / 6) ** 8 + 1e-6 for hour, _ in readings]
        bulge = sum(weight * (value - mean) for weight, value in zip(weights, values, strict=True))
        return _RADIUS + _BULGE * bulge / sum(weights) / worst

    return radius


def draw(picture: Picture, *, columns: int, rows: int, style: Style) -> list[str]:
    """The readings that a step asks for; a clock position such as 1:30 is drawn at its hour."""
    hours = [(int(place.partition(":")[0]), value) for place, value in picture.series]
    return clock(hours, columns=columns, rows=rows + 2, style=style)
