"""An O-ring squeezed in its groove, in section: groove below, what closes it above.

Invariant: drawn to scale from the numbers given; the ring is full, metal is hatched; where water presses it
inwards it lies on the inner wall, at the left. The last line gives cord, depth x width.
"""

from __future__ import annotations

import math

from bench.job.steps import Picture
from rules.lengths import bare
from rules.oring.housing import section_mm2
from screens.raster import Canvas, Style

ARC = 8
"""Lines of each rounded end."""


def oring_in_groove(
    *,
    depth_mm: float,
    width_mm: float,
    cord_mm: float,
    on_the_wall: bool = False,
    columns: int = 40,
    rows: int = 11,
    style: Style = "braille",
) -> list[str]:
    """The groove with the ring squeezed in it, to scale, lengths in mm; rubber keeps its section."""
    high = min(depth_mm, cord_mm)
    wide = (section_mm2(cord_mm) - section_mm2(high)) / high + high
    metal, land = 0.4 * depth_mm, 0.5 * width_mm
    canvas = Canvas(2 * land + max(width_mm, wide), depth_mm + 2 * metal)
    canvas.rect(0.0, 0.0, canvas.width, metal, "back")
    floor, wall = metal + depth_mm, land + width_mm
    canvas.rect(0.0, floor, canvas.width, metal, "diagonal")
    canvas.rect(0.0, metal, land, depth_mm, "diagonal")
    canvas.rect(wall, metal, canvas.width - wall, depth_mm, "diagonal")
    left = land if on_the_wall else land + max(0.0, (width_mm - wide) / 2.0)
    canvas.polygon(bulged(left, floor - high, wide, high), "solid")
    words = f"cord {bare(cord_mm)} in {bare(depth_mm)} x {bare(width_mm)}"
    lines = [*canvas.render(columns, max(rows - 1, 1), style), words.center(columns)[:columns]]
    return lines[-max(rows, 0) :]


def bulged(left: float, top: float, wide: float, high: float) -> list[tuple[float, float]]:
    """A squeezed cord: flat where it touches, half circles at its sides."""
    radius = high / 2.0
    turns = [math.pi * (n / ARC - 0.5) for n in range(ARC + 1)]
    right = [
        (left + wide - radius + radius * math.cos(one), top + radius + radius * math.sin(one))
        for one in turns
    ]
    mirrored = [(2 * left + wide - x, y) for x, y in reversed(right)]
    return [*right, *mirrored]


def draw(picture: Picture, *, columns: int, rows: int, style: Style) -> list[str]:
    """The ring that a step asks for."""
    numbers = dict(picture.numbers)
    on_the_wall = bool(numbers.pop("on_the_wall"))
    return oring_in_groove(**numbers, on_the_wall=on_the_wall, columns=columns, rows=rows, style=style)
