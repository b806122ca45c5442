"""The sheet on paper: the customer's page (A5, A4 with curves), the bag slip (60 x 90 mm),
and the shop's own copy.

Invariant: the sentences are those of the text, the dimensions those of the data;
nothing is added but the drawing.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from bench.job import keys
from bench.paper.leak_chart import curve_of, draw_leak
from bench.paper.page import Paper
from bench.paper.section import draw_section
from bench.seals import SEALS
from bench.sheet.data import CAUTIONS
from bench.sheet.text import TESTED, result_text, sections

A5_MM, A4_MM = (148.0, 210.0), (210.0, 297.0)
SLIP_MM = (60.0, 90.0)
BODY = 7.5
HEAD = 9.0
LEAK_HIGH_MM = 22.0
ORIGIN = CAUTIONS[0]
"""Where the gasket comes from."""


def write_sheet(data: dict[str, Any], path: Path, *, more: Sequence[str] = ()) -> tuple[str, ...]:
    """Write the customer's sheet, with `more` lines the shop's copy; gives what has to be said of the print.

    Raises NotOnPaper.
    """
    page = A4_MM if any(test["readings"] and test["counts"] for test in data["tests"]) else A5_MM
    paper = Paper(width_mm=page[0], height_mm=page[1], margin_mm=10.0 if page is A5_MM else 18.0)
    title(paper, data, shop_copy=bool(more))
    drawing = SEALS[data["seal"]].drawing(data)
    for part in sections(data):
        paper.line(part.heading, size=HEAD, gap_mm=1.8)
        if part.drawn and drawing is not None:
            room(paper, 46.0)
            top = paper.pdf.get_y() + 7.0
            below = draw_section(paper, drawing, middle=page[0] / 2.0, top=top, box=(24.0, 20.0), size=7.5)
            paper.pdf.set_y(below + 1.0)
        for sentence in part.sentences:
            paper.line(sentence, size=BODY, indent_mm=3.0, gap_mm=0.3)
        if part.heading == TESTED:
            curves(paper, data)
    if more:
        paper.line("For the shop", size=HEAD, gap_mm=1.8)
        for sentence in more:
            paper.line(sentence, size=BODY, indent_mm=3.0, gap_mm=0.3)
    return paper.save(path)


def title(paper: Paper, data: dict[str, Any], *, shop_copy: bool) -> None:
    """Name of the shop, or a line to write it on, and what the sheet is about."""
    left, right = paper.pdf.l_margin + paper.pdf.c_margin, paper.pdf.w - paper.pdf.r_margin
    if data["shop_name"]:
        paper.line(data["shop_name"], size=11.0)
    else:
        paper.pdf.set_y(paper.pdf.get_y() + 5.0)
        blank(paper, "Shop", left, paper.pdf.get_y(), right)
        paper.pdf.set_y(paper.pdf.get_y() + 2.0)
    watch = f", {data['watch']}" if data["watch"] else ""
    what = "Shop copy, job" if shop_copy else "Glass gasket, job"
    paper.line(f"{what} {data['job']}{watch}", size=13.0, gap_mm=1.5)
    if not data["finished"]:
        paper.line("NOT FINISHED: what follows is how far the job has come.", size=HEAD, gap_mm=1.0)
    if not data["tester_number"] and data["tests"]:
        paper.pdf.set_y(paper.pdf.get_y() + 4.5)
        blank(paper, "Number of the tester", left, paper.pdf.get_y(), right)


def blank(paper: Paper, words: str, left: float, y: float, right: float) -> None:
    """A line to write on, its name before it."""
    paper.at(left, y, words, size=7.0)
    start = left + 1.5 + paper.pdf.get_string_width(words)
    paper.stroke([(start, y + 0.6), (right, y + 0.6)], width_mm=0.12)


def room(paper: Paper, high_mm: float) -> None:
    """A new page where a drawing would not find room on this one."""
    if paper.pdf.get_y() + high_mm > paper.pdf.h - paper.pdf.b_margin:
        paper.pdf.add_page()


def curves(paper: Paper, data: dict[str, Any]) -> None:
    """The curve of each test with readings that counts."""
    for test in data["tests"]:
        if not test["readings"] or not test["counts"]:
            continue
        room(paper, LEAK_HIGH_MM + 14.0)
        top, left = paper.pdf.get_y() + 8.0, paper.pdf.l_margin + 12.0
        name = keys.BY_NAME[test["sitting"]].heading
        paper.at(left, top - 4.0, f"{name}, {test['overpressure_bar']:g} bar over", size=6.5)
        wide = paper.pdf.w - paper.pdf.r_margin - left - 6.0
        draw_leak(paper, curve_of(test), left=left, top=top, wide=wide, high=LEAK_HIGH_MM)
        paper.pdf.set_y(top + LEAK_HIGH_MM + 5.0)


def write_slip(data: dict[str, Any], path: Path) -> tuple[str, ...]:
    """Write the slip for the bag; gives what has to be said of the print. Raises NotOnPaper."""
    paper = Paper(width_mm=SLIP_MM[0], height_mm=SLIP_MM[1], margin_mm=4.0)
    seal = SEALS[data["seal"]]
    drawing = seal.drawing(data)
    paper.line(short(f"Job {data['job']}", 20), size=13.0)
    if data["watch"]:
        paper.line(short(data["watch"], 60), size=7.5)
    if not data["finished"]:
        paper.line("NOT FINISHED", size=8.0, gap_mm=0.5)
    if drawing is not None:
        top = paper.pdf.get_y() + 6.0
        below = draw_section(
            paper, drawing, middle=SLIP_MM[0] / 2.0 - 3.5, top=top, box=(15.0, 20.0), size=6.0
        )
        paper.pdf.set_y(below + 0.5)
    else:
        paper.line(f"No {seal.short} accepted yet.", size=7.5, gap_mm=1.0)
    if said := seal.in_one_line(data):
        paper.line(said, size=7.5, gap_mm=1.0)
    paper.line(result_text(data), size=7.5, gap_mm=0.8)
    retest = (
        f"Test again by {data['retest']}."
        if data["retest"]
        else "No date for a retest: no test passed cased."
    )
    paper.line(retest, size=7.5, gap_mm=0.8)
    for line in (
        data["shop_name"],
        f"Tester {data['tester_number']}" if data["tester_number"] else "",
        ORIGIN,
    ):
        if line:
            paper.line(short(line, 60), size=6.0, gap_mm=0.8)
    return paper.save(path)


def short(text: str, most: int) -> str:
    """A text cut to what a slip has room for."""
    return text if len(text) <= most else text[: most - 3] + "..."
