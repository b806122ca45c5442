"""A section with its dimensions, drawn to scale in a box of paper.

Invariant: nothing stands on it but what the drawing says, and the scale beside it.
"""

from __future__ import annotations

from bench.paper.page import EDGE_MM, Paper
from bench.seals.seal import Drawing, Point
from bench.sheet.tongue import ENGLISH, Tongue

SCALES = (80.0, 50.0, 40.0, 30.0, 25.0, 20.0, 15.0, 12.0, 10.0, 8.0, 5.0, 4.0, 2.0, 1.0)


def scale_for(drawing: Drawing, wide_mm: float, high_mm: float) -> float:
    """The largest usual scale at which a drawing fits into a box."""
    fitting = [
        scale for scale in SCALES if scale * drawing.wide_mm <= wide_mm and scale * drawing.high_mm <= high_mm
    ]
    return fitting[0] if fitting else SCALES[-1]


def draw_section(
    paper: Paper,
    drawing: Drawing,
    *,
    middle: float,
    top: float,
    box: tuple[float, float],
    size: float,
    tongue: Tongue = ENGLISH,
) -> float:
    """Draw a section with dimensions round it; gives the height on the page below it, mm.

    middle: of the section, from the left edge; box: the most it may take itself, width and height, mm;
    size: of the type, points.
    """
    scale, say = scale_for(drawing, *box), tongue.on_drawing
    wide, high = scale * drawing.wide_mm, scale * drawing.high_mm
    left, right, bottom = middle - wide / 2.0, middle + wide / 2.0, top + high
    paper.area([(left + scale * x, top + scale * y) for x, y in drawing.outline])
    paper.at(middle, top - 0.5 * size, say(drawing.above), align="middle", size=size - 1.0)
    line = 0.45 * size
    across(paper, left, right, bottom + 1.3 * line, say(drawing.across), size)
    upright(paper, top, bottom, right + 1.2 * line, say(drawing.upright), size)
    for one in drawing.leaders:
        tip = (left + scale * one.point[0], top + scale * one.point[1])
        end = (tip[0] + line * one.away[0], tip[1] + line * one.away[1])
        leader(paper, tip, end, say(one.words), size, to="right" if one.away[0] > 0.0 else "left")
    caption = f"{say(drawing.of)}, {scale:g} : 1, {tongue.unit()}"
    paper.caption(middle, bottom + 3.6 * line, caption, size=size - 1.0)
    return float(bottom + 4.4 * line)


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
    place(paper, (x + 1.2, y1 + 0.3 * (y2 - y1) + 0.1 * size), said, size)


def leader(paper: Paper, tip: Point, end: Point, said: str, size: float, *, to: str = "right") -> None:
    """A word with an arrow from it to the place it belongs to."""
    paper.stroke([tip, end], width_mm=0.12)
    paper.arrow(tip, end)
    away = 0.8 if to == "right" else -0.8
    place(paper, (end[0] + away, end[1] + 0.12 * size), said, size, to=to)


def place(paper: Paper, at: Point, said: str, size: float, *, to: str = "right") -> None:
    """Words to one side of a place, in two lines where they would leave the paper."""
    room, align = (paper.pdf.w - EDGE_MM - at[0], "left") if to == "right" else (at[0] - EDGE_MM, "right")
    for n, line in enumerate(paper.lines(said, room, size=size)):
        paper.at(at[0], at[1] + 0.4 * size * n, line, size=size, align=align)
