"""The customer's page on paper: the statements of the sheet, with a section of the seal; A5.

Invariant: the sentences are those of the statements; nothing is added but the drawing, and a line to write on
where the shop's name is not known.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from bench.paper.page import Paper
from bench.paper.section import draw_section
from bench.seals import SEALS
from bench.sheet.customer import customers_sheet, dated, titled
from bench.sheet.customer_text import NOT_FINISHED
from bench.sheet.tongue import ENGLISH, Tongue

A5_MM = (148.0, 210.0)


@dataclass(frozen=True, slots=True)
class Setting:
    """How large the page is set."""

    body: float
    """Type of the sentences, points; headings are a fifth larger."""
    drawn: bool
    """With the section of the seal."""


SETTINGS = (
    *(Setting(8.0, True), Setting(7.2, True), Setting(6.8, True)),
    *(Setting(7.2, False), Setting(6.5, False)),
)
"""Tried in turn until all stands on one page; two pages rather than smaller type."""


def write_customers(data: dict[str, Any], path: Path, *, tongue: Tongue = ENGLISH) -> tuple[str, ...]:
    """Write the page; gives what has to be said of the print. Raises NotOnPaper."""
    made = (set_page(data, tongue, setting) for setting in SETTINGS)
    paper = next((one for one in made if len(one.pdf.pages) == 1), None)
    return (paper or set_page(data, tongue, SETTINGS[0])).save(path, tongue)


def set_page(data: dict[str, Any], tongue: Tongue, setting: Setting) -> Paper:
    """The page in one setting."""
    paper = Paper(width_mm=A5_MM[0], height_mm=A5_MM[1], margin_mm=10.0)
    head(paper, data, tongue, setting.body)
    drawing = SEALS[data["seal"]].drawing(data) if data["fitted"] and setting.drawn else None
    for at, part in enumerate(customers_sheet(data)):
        paper.line(tongue.words(part.heading), size=1.2 * setting.body, gap_mm=0.25 * setting.body)
        for one in part.statements:
            paper.line(tongue.sentence(one), size=setting.body, indent_mm=3.0, gap_mm=0.05 * setting.body)
        if at == 0 and drawing is not None:
            top, middle = paper.pdf.get_y() + 5.5, A5_MM[0] / 2.0
            below = draw_section(
                paper, drawing, middle=middle, top=top, box=(16.0, 12.0), size=6.5, tongue=tongue
            )
            paper.pdf.set_y(below - 1.0)
    if notice := tongue.notice():
        paper.line(" ".join(notice), size=0.9 * setting.body, gap_mm=0.25 * setting.body)
    return paper


def head(paper: Paper, data: dict[str, Any], tongue: Tongue, body: float) -> None:
    """The shop, the job, the watch and the day."""
    if data["shop_name"]:
        paper.line(data["shop_name"], size=11.0)
    else:
        paper.blank(tongue.words("Workshop"))
    paper.line(tongue.sentence(titled(data)), size=13.0, gap_mm=1.5)
    if data["watch"]:
        paper.line(data["watch"], size=10.0, gap_mm=0.5)
    if (day := dated(data)) is not None:
        paper.line(tongue.sentence(day), size=body, gap_mm=0.5)
    if not data["finished"]:
        paper.line(tongue.words(NOT_FINISHED), size=1.2 * body, gap_mm=1.0)
