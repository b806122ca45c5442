"""The turning plan on paper: a section of the ring with its dimensions and limits, then the passes.

Invariant: every dimension on the drawing stands in the plan; the drawing is to scale, and says to what scale.
"""

from __future__ import annotations

from pathlib import Path

from bench.paper.page import Paper, Point
from bench.sheet.turning import plan_lines
from rules.ring import Ring
from rules.turning.passes import HEIGHT_UNDER_MM, OUTSIDE_LIMIT_MM, WALL_LIMIT_MM, Plan

SECTION_HIGH_MM = 48.0
SECTION_WIDE_MM = 60.0
SCALES = (80.0, 50.0, 40.0, 25.0, 20.0, 10.0, 5.0)
ROOM_FOR_WORDS_MM = 34.0
TOP_MM = 40.0
LEFT_MM = 75.0


def write_plan(plan: Plan, *, title: str, path: Path) -> tuple[str, ...]:
    """Write the sheet beside the lathe as PDF; gives what has to be said about the print. Raises NotOnPaper."""
    paper = Paper()
    paper.line(f"Turning plan, {title}", size=14.0)
    below = draw_section(paper, plan, left=LEFT_MM, top=TOP_MM)
    paper.pdf.set_y(below)
    for line in plan_lines(plan)[1:]:
        stripped = line.lstrip()
        paper.line(stripped, indent_mm=0.9 * (len(line) - len(stripped)), size=9.0)
    return paper.save(path)


def section_scale(ring: Ring) -> float:
    """The largest scale at which wall and height find room."""
    fitting = [
        scale
        for scale in SCALES
        if scale * ring.wall_mm <= SECTION_WIDE_MM and scale * ring.height_mm <= SECTION_HIGH_MM
    ]
    return fitting[0] if fitting else SCALES[-1]


def outline(ring: Ring, scale: float, left: float, top: float) -> list[Point]:
    """The wall in section, bore on the left, the side that the glass comes from on top."""
    wide, high = scale * ring.wall_mm, scale * ring.height_mm
    entry, lower = scale * ring.chamfer_mm, scale * ring.lower_chamfer_mm
    corners = [
        (entry, 0.0),
        (wide, 0.0),
        (wide, high - lower),
        (wide - lower, high),
        (0.0, high),
        (0.0, entry),
    ]
    return [(left + x, top + y) for x, y in corners]


def draw_section(paper: Paper, plan: Plan, *, left: float, top: float) -> float:
    """Draw the section with its dimensions; gives the height on the page below it, mm."""
    ring = plan.order.ring
    scale = section_scale(ring)
    wide, high = scale * ring.wall_mm, scale * ring.height_mm
    right, bottom = left + wide, top + high
    paper.area(outline(ring, scale, left, top))
    paper.at(left + wide / 2.0, top - 5.0, "glass side", align="middle", size=7.0)
    _horizontal(paper, left, right, bottom + 9.0, f"wall {ring.wall_mm:.3f} \u00b1 {WALL_LIMIT_MM:.3f}")
    paper.stroke([(left, bottom + 1.0), (left, bottom + 11.0)], width_mm=0.15)
    paper.stroke([(right, bottom + 1.0), (right, bottom + 11.0)], width_mm=0.15)
    _vertical(paper, top, bottom, right + 8.0, f"height {ring.height_mm:.2f} +0/-{HEIGHT_UNDER_MM:.2f}")
    paper.stroke([(right + 1.0, top), (right + 10.0, top)], width_mm=0.15)
    paper.stroke([(right + 1.0, bottom), (right + 10.0, bottom)], width_mm=0.15)
    middle = top + high / 2.0
    outside = f"\u2300 {ring.outside_diameter_mm:.2f} \u00b1 {OUTSIDE_LIMIT_MM:.3f} outside"
    _leader(paper, (right, middle), (right + 22.0, middle + 6.0), outside, "left")
    _leader(
        paper, (left, middle), (left - 14.0, middle), f"\u2300 {ring.bore_mm:.2f} bore (by the wall)", "right"
    )
    entry = scale * ring.chamfer_mm / 2.0
    if ring.chamfer_mm > 0.0:
        said = f"entry chamfer {ring.chamfer_mm:.2f} x 45\u00b0"
        _leader(paper, (left + entry, top + entry), (left - 14.0, top - 4.0), said, "right")
    lower = scale * ring.lower_chamfer_mm / 2.0
    if ring.lower_chamfer_mm > 0.0:
        said = f"{ring.lower_chamfer_mm:.2f} x 45\u00b0"
        _leader(paper, (right - lower, bottom - lower), (right + 22.0, bottom + 4.0), said, "left")
    paper.at(
        left + wide / 2.0, bottom + 16.0, f"section of the wall, {scale:g} : 1, mm", align="middle", size=7.0
    )
    return bottom + 22.0


def _horizontal(paper: Paper, x1: float, x2: float, y: float, said: str) -> None:
    paper.stroke([(x1, y), (x2, y)], width_mm=0.15)
    paper.arrow((x1, y), (x2, y))
    paper.arrow((x2, y), (x1, y))
    if x2 - x1 > ROOM_FOR_WORDS_MM:
        paper.at((x1 + x2) / 2.0, y - 1.0, said, align="middle")
    else:
        paper.at(x2 + 2.0, y + 1.0, said)


def _vertical(paper: Paper, y1: float, y2: float, x: float, said: str) -> None:
    paper.stroke([(x, y1), (x, y2)], width_mm=0.15)
    paper.arrow((x, y1), (x, y2))
    paper.arrow((x, y2), (x, y1))
    paper.at(x + 2.0, (y1 + y2) / 2.0 - 2.0, said)


def _leader(paper: Paper, tip: Point, end: Point, said: str, side: str) -> None:
    paper.stroke([tip, end], width_mm=0.15)
    paper.arrow(tip, end)
    shift = 1.0 if side == "left" else -1.0
    paper.at(end[0] + shift, end[1] + 1.0, said, align=side)
