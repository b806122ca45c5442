"""The slip for the bag on paper, 60 x 90 mm.

Invariant: the sentences are those of the statements; nothing is added but the drawing.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from bench.paper.page import Paper
from bench.paper.section import draw_section
from bench.seals import SEALS
from bench.sheet.customer_text import NOT_FINISHED
from bench.sheet.slip import slip
from bench.sheet.tongue import ENGLISH, Tongue

SLIP_MM = (60.0, 90.0)


def write_slip(data: dict[str, Any], path: Path, *, tongue: Tongue = ENGLISH) -> tuple[str, ...]:
    """Write the slip; gives what has to be said of the print. Raises NotOnPaper."""
    paper = Paper(width_mm=SLIP_MM[0], height_mm=SLIP_MM[1], margin_mm=4.0)
    drawing = SEALS[data["seal"]].drawing(data)
    paper.line(short(data["job"], 20), size=13.0)
    if data["watch"]:
        paper.line(short(data["watch"], 60), size=7.5)
    if not data["finished"]:
        paper.line(tongue.words(NOT_FINISHED), size=8.0, gap_mm=0.5)
    if drawing is not None:
        top = paper.pdf.get_y() + 6.0
        middle = SLIP_MM[0] / 2.0 - 3.5
        below = draw_section(paper, drawing, middle=middle, top=top, box=(15.0, 14.0), size=6.0)
        paper.pdf.set_y(below + 0.5)
    for one in slip(data):
        paper.line(tongue.sentence(one), size=7.0, gap_mm=0.7)
    for line in (data["shop_name"], data["tester_number"]):
        if line:
            paper.line(short(line, 60), size=6.0, gap_mm=0.7)
    return paper.save(path)


def short(text: str, most: int) -> str:
    """A text cut to what a slip has room for."""
    return text if len(text) <= most else text[: most - 3] + "..."
