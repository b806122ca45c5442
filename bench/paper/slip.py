"""The slip for the bag on paper, 60 x 90 mm or as a label printer has it: a page of its true size.

Invariant: the sentences are those of the statements, all of them or no slip; only the drawing may be left
out, and the type set smaller. The code holds the number under which the list of jobs opens the job.
"""

from __future__ import annotations

from bisect import bisect_right as bisect
from pathlib import Path
from typing import Any

from bench.paper.code import SIDE_MM, draw_code
from bench.paper.page import NotOnPaper, Paper
from bench.paper.section import draw_section
from bench.seals import SEALS
from bench.sheet.customer_text import NOT_FINISHED
from bench.sheet.slip import slip
from bench.sheet.tongue import ENGLISH, Tongue

SLIP_MM = (60.0, 90.0)
LEAST_MM, MOST_MM = (25.0, 20.0), (210.0, 297.0)
"""The smallest and largest label, width and height."""
NARROW_MM = 45.0
"""Under this no words find room beside the code."""
SMALL_MM = 60.0
"""A side under this has a narrower margin."""
WAYS = ((True, 1.0), (True, 0.85), (False, 1.0), (False, 0.85), (False, 0.7))
"""With the drawing or without, and how large the type: what fits first is printed."""
NOTE_MM = 8.0
"""Room for what has to be said of the print."""


def write_slip(
    data: dict[str, Any],
    path: Path,
    *,
    opens_by: int | None = None,
    size_mm: tuple[float, float] = SLIP_MM,
    tongue: Tongue = ENGLISH,
) -> tuple[str, ...]:
    """Write the slip, with the code of the number that opens the job; gives what has to be said of the print.
    Raises NotOnPaper.
    """
    if (paper := that_fits(data, opens_by, size_mm, tongue)) is not None:
        return paper.save(path, tongue)
    wide, high = size_mm
    why = f"the slip does not fit {wide:g} x {high:g} mm in type that can be read; give a larger size"
    heights = range(int(high) + 1, int(MOST_MM[1]) + 1)
    at = bisect(heights, 0, key=lambda more: that_fits(data, opens_by, (wide, more), tongue) is not None)
    raise NotOnPaper(f"{why}: it fits {wide:g} x {heights[at]} mm" if at < len(heights) else why)


def that_fits(
    data: dict[str, Any], opens_by: int | None, size_mm: tuple[float, float], tongue: Tongue
) -> Paper | None:
    """The slip in the first way in which it fits; None where it fits in none."""
    for drawn, scale in WAYS:
        paper = laid_out(data, opens_by, size_mm, tongue, drawn=drawn, scale=scale)
        if paper.pdf.page == 1 and (not paper.notes() or paper.room(NOTE_MM)):
            return paper
    return None


def laid_out(
    data: dict[str, Any],
    opens_by: int | None,
    size_mm: tuple[float, float],
    tongue: Tongue,
    *,
    drawn: bool,
    scale: float,
) -> Paper:
    """The slip in one of the ways; on more than one page where it does not fit."""
    margin = 4.0 if min(size_mm) >= SMALL_MM else 2.0
    paper = Paper(width_mm=size_mm[0], height_mm=size_mm[1], margin_mm=margin)
    foot = coded(paper, data, opens_by) if opens_by is not None else 0.0

    def say(text: str, size: float, gap: float = 0.0) -> None:
        beside = paper.pdf.get_y() + gap < foot
        paper.pdf.set_right_margin(margin + SIDE_MM if beside else margin)
        paper.line(text, size=size * scale, gap_mm=gap)

    if size_mm[0] < NARROW_MM:
        paper.pdf.set_y(max(foot, paper.pdf.get_y()))
    say(short(data["job"], 20), 13.0)
    if data["watch"]:
        say(short(data["watch"], 60), 7.5)
    if not data["finished"]:
        say(tongue.words(NOT_FINISHED), 8.0, 0.5)
    if drawn and (drawing := SEALS[data["seal"]].drawing(data)) is not None:
        box, middle = (15.0, 14.0), size_mm[0] / 2.0 - 3.5
        top = max(paper.pdf.get_y(), foot) + 6.0
        below = draw_section(paper, drawing, middle=middle, top=top, box=box, size=6.0, tongue=tongue)
        paper.pdf.set_y(below + 0.5)
    for one in slip(data):
        say(tongue.sentence(one), 7.0, 0.7 * scale)
    for line in (data["shop_name"], data["tester_number"]):
        if line:
            say(short(line, 60), 6.0, 0.7 * scale)
    if notice := tongue.notice():
        say(" ".join(notice), 6.0, 0.7 * scale)
    return paper


def coded(paper: Paper, data: dict[str, Any], number: int) -> float:
    """The code in the upper right corner, on a narrow slip the left one; below it the number, where that is
    not the name of the job. Gives where it ends.
    """
    narrow = paper.pdf.w < NARROW_MM
    left, top = (0.0 if narrow else paper.pdf.w - SIDE_MM), 0.0
    draw_code(paper, number, left=left, top=top)
    if str(number) == data["job"]:
        return top + SIDE_MM
    paper.at(left + SIDE_MM / 2.0, top + SIDE_MM + 1.5, str(number), size=6.0, align="middle")
    return top + SIDE_MM + 2.0


def short(text: str, most: int) -> str:
    """A text cut to what a slip has room for."""
    return text if len(text) <= most else text[: most - 3] + "..."
