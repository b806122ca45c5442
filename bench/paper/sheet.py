"""The workshop's sheet on paper, A4: everything the text says, with a section of the seal and the curves.

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
from bench.seals.seal import Section
from bench.sheet.one_seal import as_the_first
from bench.sheet.text import TESTED, sections

BODY = 7.5
HEAD = 9.0
LEAK_HIGH_MM = 22.0


def write_workshops(data: dict[str, Any], path: Path, more: Sequence[Section]) -> tuple[str, ...]:
    """Write the sheet, with `more` that only the workshop says; gives what has to be said of the print.

    Raises NotOnPaper.
    """
    paper = Paper(margin_mm=18.0)
    title(paper, data)
    each = {1: SEALS[data["seal"]].drawing(data)}
    each |= {one["number"]: seal.drawing(one) for seal, one in as_the_first(data)}
    for part in (*sections(data), *more):
        paper.line(part.heading, size=HEAD, gap_mm=1.8)
        if part.drawn and (drawing := each[part.of]) is not None:
            fresh_page(paper, 46.0)
            top = paper.pdf.get_y() + 7.0
            middle = paper.pdf.w / 2.0
            below = draw_section(paper, drawing, middle=middle, top=top, box=(24.0, 20.0), size=7.5)
            paper.pdf.set_y(below + 1.0)
        for sentence in part.sentences:
            paper.line(sentence, size=BODY, indent_mm=3.0, gap_mm=0.3)
        if part.heading == TESTED:
            curves(paper, data)
    return paper.save(path)


def title(paper: Paper, data: dict[str, Any]) -> None:
    """Name of the shop, or a line to write it on, and what the sheet is about."""
    if data["shop_name"]:
        paper.line(data["shop_name"], size=11.0)
    else:
        paper.blank("Shop")
    watch = f", {data['watch']}" if data["watch"] else ""
    paper.line(f"Shop copy, job {data['job']}{watch}", size=13.0, gap_mm=1.5)
    if not data["finished"]:
        paper.line("NOT FINISHED: what follows is how far the job has come.", size=HEAD, gap_mm=1.0)
    if not data["tester_number"] and data["tests"]:
        paper.blank("Number of the tester")


def fresh_page(paper: Paper, high_mm: float) -> None:
    """A new page where a drawing would not find room on this one."""
    if not paper.room(high_mm):
        paper.pdf.add_page()


def curves(paper: Paper, data: dict[str, Any]) -> None:
    """The curve of each test with readings that counts."""
    for test in data["tests"]:
        if not test["readings"] or not test["counts"]:
            continue
        fresh_page(paper, LEAK_HIGH_MM + 14.0)
        top, left = paper.pdf.get_y() + 8.0, paper.pdf.l_margin + 12.0
        name = keys.BY_NAME[test["sitting"]].heading
        paper.at(left, top - 4.0, f"{name}, {test['overpressure_bar']:g} bar over", size=6.5)
        wide = paper.pdf.w - paper.pdf.r_margin - left - 6.0
        draw_leak(paper, curve_of(test), left=left, top=top, wide=wide, high=LEAK_HIGH_MM)
        paper.pdf.set_y(top + LEAK_HIGH_MM + 5.0)
