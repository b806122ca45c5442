"""The turning plan on paper: the ring in section, the bar with its lengths, the passes, lines to write on.

Invariant: every dimension on the drawings stands in the plan; they are to scale, and say to what scale.
"""

from __future__ import annotations

from pathlib import Path

from bench.paper.bar import draw_bar
from bench.paper.page import MARGIN_MM, Paper
from bench.paper.section import draw_section
from bench.seals.seal import Drawing
from bench.sheet.turning import plan_lines
from rules.turning.passes import Plan

BOX_MM = (60.0, 48.0)
"""The most the section itself may take, width and height."""
TOP_MM = 40.0
BLANK = 12 * "_"
READINGS = (
    ("outside on the bar, before its last pass", 2),
    ("wall over the open end, burrs off, before the last pass of the bore", 4),
    ("wall of the ring, burrs off, at four places", 4),
    ("height of the ring, dressed", 4),
)
"""What is read, and how many times."""


def write_plan(plan: Plan, drawing: Drawing, *, title: str, path: Path) -> tuple[str, ...]:
    """Write the sheet beside the lathe as PDF; gives what has to be said about the print.

    Raises NotOnPaper.
    """
    paper = Paper()
    paper.line(f"Turning plan, {title}", size=14.0)
    for words in drawing.made_for:
        paper.line(words, size=10.0)
    middle = paper.pdf.w / 2.0
    below = draw_section(paper, drawing, middle=middle, top=TOP_MM, box=BOX_MM, size=9.0)
    paper.pdf.set_y(draw_bar(paper, plan, left=2.0 * MARGIN_MM, top=below + 4.0))
    for line in plan_lines(plan)[1:]:
        stripped = line.lstrip()
        paper.line(stripped, indent_mm=0.9 * (len(line) - len(stripped)), size=9.0)
    paper.line("Read and written down", size=11.0, gap_mm=3.0)
    for words, blanks in READINGS:
        paper.line(f"{words}:  {'   '.join([BLANK] * blanks)}", gap_mm=2.5)
    return paper.save(path)
