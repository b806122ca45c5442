"""The turning plan on paper: a section with its dimensions and limits, then the passes.

Invariant: every dimension on the drawing stands in the plan; the drawing is to scale, and says to what scale.
"""

from __future__ import annotations

from pathlib import Path

from bench.paper.page import Paper
from bench.paper.section import draw_section
from bench.seals.seal import Drawing
from bench.sheet.turning import plan_lines
from rules.turning.passes import Plan

BOX_MM = (60.0, 48.0)
"""The most the section itself may take, width and height."""
TOP_MM = 40.0


def write_plan(plan: Plan, drawing: Drawing, *, title: str, path: Path) -> tuple[str, ...]:
    """Write the sheet beside the lathe as PDF; gives what has to be said about the print.

    Raises NotOnPaper.
    """
    paper = Paper()
    paper.line(f"Turning plan, {title}", size=14.0)
    middle = paper.pdf.w / 2.0
    paper.pdf.set_y(draw_section(paper, drawing, middle=middle, top=TOP_MM, box=BOX_MM, size=9.0))
    for line in plan_lines(plan)[1:]:
        stripped = line.lstrip()
        paper.line(stripped, indent_mm=0.9 * (len(line) - len(stripped)), size=9.0)
    return paper.save(path)
