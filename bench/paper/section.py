"""The section of a ring with its dimensions, drawn to scale in a box of paper.

Invariant: every dimension on the drawing stands in the sheet's data; the scale is said beside it.
"""

from __future__ import annotations

from typing import Any

from bench.paper.page import Paper, Point

SCALES = (50.0, 40.0, 30.0, 25.0, 20.0, 15.0, 12.0, 10.0, 8.0, 5.0, 4.0, 2.0, 1.0)


def drawable(ring: dict[str, Any]) -> bool:
    """Whether outside, bore, height and chamfers are all known."""
    sizes = ("outside_diameter_mm", "bore_mm", "height_mm", "chamfer_mm", "lower_chamfer_mm", "wall_mm")
    return all(ring[name] is not None for name in sizes) and ring["wall_mm"] > 0.0 < ring["height_mm"]


def scale_for(ring: dict[str, Any], wide_mm: float, high_mm: float) -> float:
    """The largest usual scale at which the wall fits into a box."""
    fitting = [
        scale
        for scale in SCALES
        if scale * ring["wall_mm"] <= wide_mm and scale * ring["height_mm"] <= high_mm
    ]
    return fitting[0] if fitting else SCALES[-1]


def draw_section(
    paper: Paper, ring: dict[str, Any], *, middle: float, top: float, box: tuple[float, float], size: float
) -> float:
    """Draw the wall in section with dimensions round it; gives the height on the page below it, mm.

    middle: of the wall, from the left edge; box: the most the wall itself may take, width and height, mm; size: of
    the type, points.
    """
    scale = scale_for(ring, *box)
    wide, high = scale * ring["wall_mm"], scale * ring["height_mm"]
    left, right, bottom = middle - wide / 2.0, middle + wide / 2.0, top + high
    paper.area(outline(ring, scale, left, top))
    paper.at(middle, top - 0.5 * size, "glass side", align="middle", size=size - 1.0)
    line = 0.45 * size
    across(paper, left, right, bottom + 1.3 * line, f"wall {ring['wall_mm']:.3f}", size)
    upright(paper, top, bottom, right + 1.2 * line, f"height {ring['height_mm']:.2f}", size)
    outside = f"outside \u2300 {ring['outside_diameter_mm']:.2f}"
    level = top + 0.72 * high
    leader(paper, (right, level), (right + 3.4 * line, level + 0.3 * line), outside, size)
    bore = f"bore \u2300 {ring['bore_mm']:.2f}"
    leader(paper, (left, top + 0.6 * high), (left - 2.0 * line, top + 0.6 * high), bore, size, to="left")
    entry, lower = scale * ring["chamfer_mm"] / 2.0, scale * ring["lower_chamfer_mm"] / 2.0
    if entry > 0.0:
        said = f"{ring['chamfer_mm']:.2f} x 45\u00b0"
        leader(paper, (left + entry, top + entry), (left - 2.0 * line, top - line), said, size, to="left")
    if lower > 0.0:
        said = f"{ring['lower_chamfer_mm']:.2f} x 45\u00b0"
        leader(paper, (right - lower, bottom - lower), (right + 2.0 * line, bottom + line), said, size)
    said = f"section of the wall, {scale:g} : 1, mm"
    paper.at(middle, bottom + 3.6 * line, said, align="middle", size=size - 1.0)
    return float(bottom + 4.4 * line)


def outline(ring: dict[str, Any], scale: float, left: float, top: float) -> list[Point]:
    """The wall in section, bore on the left, the side that the glass comes from on top."""
    wide, high = scale * ring["wall_mm"], scale * ring["height_mm"]
    entry, lower = scale * ring["chamfer_mm"], scale * ring["lower_chamfer_mm"]
    corners = [
        (entry, 0.0),
        (wide, 0.0),
        (wide, high - lower),
        (wide - lower, high),
        (0.0, high),
        (0.0, entry),
    ]
    return [(left + x, top + y) for x, y in corners]


def across(paper: Paper, x1: float, x2: float, y: float, said: str, size: float) -> None:
    """A dimension of the width below the drawing, its words below the line."""
    for x in (x1, x2):
        paper.stroke([(x, y - 0.45 * size), (x, y + 0.6)], width_mm=0.12)
    paper.stroke([(x1, y), (x2, y)], width_mm=0.12)
    paper.arrow((x1, y), (x2, y))
    paper.arrow((x2, y), (x1, y))
    paper.at((x1 + x2) / 2.0, y + 0.5 * size, said, align="middle", size=size)


def upright(paper: Paper, y1: float, y2: float, x: float, said: str, size: float) -> None:
    """A dimension of the height beside the drawing."""
    for y in (y1, y2):
        paper.stroke([(x - 0.45 * size, y), (x + 1.0, y)], width_mm=0.12)
    paper.stroke([(x, y1), (x, y2)], width_mm=0.12)
    paper.arrow((x, y1), (x, y2))
    paper.arrow((x, y2), (x, y1))
    paper.at(x + 1.2, y1 + 0.3 * (y2 - y1) + 0.1 * size, said, size=size)


def leader(paper: Paper, tip: Point, end: Point, said: str, size: float, *, to: str = "right") -> None:
    """A word with an arrow from it to the place it belongs to."""
    paper.stroke([tip, end], width_mm=0.12)
    paper.arrow(tip, end)
    away, align = (0.8, "left") if to == "right" else (-0.8, "right")
    paper.at(end[0] + away, end[1] + 0.12 * size, said, size=size, align=align)
