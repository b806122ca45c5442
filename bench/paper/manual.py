"""The manual on paper, A4: a title with contents, then chapter by chapter, pictures of pages in frames.

Invariant: words and pictures are those of the chapters; a picture stands whole on one page.
"""

from __future__ import annotations

from pathlib import Path

from bench.manual.chapters import PICTURES, Chapter, ManualPiece, chapters
from bench.paper.page import MARGIN_MM, Paper
from bench.version import MADE_BY

BODY, CODE, PICTURE = 9.5, 9.0, 7.5
"""Type of the text, of what is typed, and of pictures, in points."""
HEADS = 12.5
WIDE, HIGH = 0.6 * PICTURE * 25.4 / 72.0, 1.2 * PICTURE * 25.4 / 72.0
"""A cell of a picture in mm: what one letter of the type takes, and a line of it."""
FIXED = "Courier"
HALVES = {"█": (0.0, 1.0), "▀": (0.0, 0.5), "▄": (0.5, 0.5)}
"""Where a filled part of a cell begins and how high it is, as parts of the cell."""
STROKES = {"─": ((0.0, 0.5), (1.0, 0.5)), "├": ((0.5, 0.0), (0.5, 1.0)), "┤": ((0.5, 0.0), (0.5, 1.0))}
"""From where to where a cell is crossed; the two that branch are crossed and met by their neighbour."""
SET_IN_MM = 6.0
"""How far items, cautions and what is typed stand in."""


def write_manual(path: Path) -> tuple[str, ...]:
    """Write the whole manual; gives what has to be said of the print. Raises NotOnPaper."""
    paper = Paper()
    paper.line("ringwright: the manual", size=20.0, gap_mm=30.0)
    paper.line(MADE_BY, size=BODY, gap_mm=2.0)
    paper.pdf.set_y(paper.pdf.get_y() + 12.0)
    contents = paper.pdf.get_y()
    starts = [chapter_on(paper, one) for one in chapters()]
    for page in range(2, paper.pdf.page + 1):
        numbered(paper, page)
    paper.pdf.page = 1
    for at, (one, page) in enumerate(zip(chapters(), starts, strict=True)):
        y = contents + 8.0 * at
        paper.at(MARGIN_MM, y, f"{one.number}  {one.title}", size=11.0)
        paper.at(paper.pdf.w - MARGIN_MM, y, str(page), size=11.0, align="right")
    paper.pdf.page = paper.pdf.pages_count
    return paper.save(path)


def numbered(paper: Paper, page: int) -> None:
    """The number of a page at its foot."""
    paper.pdf.page = page
    paper.at(paper.pdf.w / 2.0, paper.pdf.h - MARGIN_MM / 2.0, str(page), size=8.0, align="middle")


def chapter_on(paper: Paper, chapter: Chapter) -> int:
    """A chapter on a page of its own; the number of that page."""
    paper.pdf.add_page()
    begins: int = paper.pdf.page
    paper.line(f"{chapter.number}  {chapter.title}", size=17.0)
    before = ""
    for block in chapter.blocks:
        put(paper, block, gap_mm=0.8 if block.kind == before != "text" else 2.5)
        before = block.kind
    return begins


def put(paper: Paper, block: ManualPiece, *, gap_mm: float) -> None:
    """One block below the last."""
    if block.kind in PICTURES:
        picture(paper, block.text.splitlines())
    elif block.kind == "head":
        if not paper.room(30.0):
            paper.pdf.add_page()
        paper.line(block.text, size=HEADS, gap_mm=3.5)
    elif block.kind == "code":
        typed(paper, block.text.splitlines())
    elif block.kind == "item":
        marked(paper, block, gap_mm)
    else:
        paper.line(
            block.text, size=BODY, indent_mm=SET_IN_MM if block.kind == "caution" else 0.0, gap_mm=gap_mm
        )


def marked(paper: Paper, block: ManualPiece, gap_mm: float) -> None:
    """An item, its mark before it."""
    paper.pdf.set_y(paper.pdf.get_y() + gap_mm)
    if not paper.room(BODY):
        paper.pdf.add_page()
    paper.at(paper.pdf.l_margin + 1.5, paper.pdf.get_y() + 0.36 * BODY, block.mark, size=BODY)
    paper.line(block.text, size=BODY, indent_mm=SET_IN_MM)


def typed(paper: Paper, lines: list[str]) -> None:
    """What is typed, letter for letter."""
    paper.pdf.set_y(paper.pdf.get_y() + 2.0)
    for text in lines:
        paper.pdf.set_font(FIXED, size=CODE)
        paper.pdf.set_x(paper.pdf.l_margin + SET_IN_MM)
        paper.pdf.multi_cell(0, 0.5 * CODE, text, align="L", new_x="LMARGIN", new_y="NEXT")


def picture(paper: Paper, lines: list[str]) -> None:
    """A page of the program, its letters in their cells, in a frame."""
    wide, high = WIDE * max(map(len, lines)), HIGH * len(lines)
    if not paper.room(high + 9.0):
        paper.pdf.add_page()
    left, top = paper.pdf.l_margin + SET_IN_MM, paper.pdf.get_y() + 4.0
    paper.stroke(
        [
            (left - 2.0, top - 1.5),
            (left + wide + 2.0, top - 1.5),
            (left + wide + 2.0, top + high + 1.5),
            (left - 2.0, top + high + 1.5),
            (left - 2.0, top - 1.5),
        ],
        width_mm=0.15,
    )
    for row, text in enumerate(lines):
        paper.pdf.set_font(FIXED, size=PICTURE)
        letters = "".join(" " if one in HALVES or one in STROKES else one for one in text)
        paper.pdf.text(left, top + HIGH * row + 0.8 * HIGH, letters)
        for column, one in enumerate(text):
            drawn(paper, one, left + WIDE * column, top + HIGH * row)
    paper.pdf.set_y(top + high + 3.0)


def drawn(paper: Paper, one: str, x: float, y: float) -> None:
    """A cell that is drawn: filled in part, or crossed; every other one is a letter."""
    if one in HALVES:
        below, part = HALVES[one]
        paper.pdf.set_fill_color(0)
        paper.pdf.rect(x, y + HIGH * below, WIDE, HIGH * part, style="F")
    elif one in STROKES:
        ends = [(x + WIDE * across, y + HIGH * down) for across, down in STROKES[one]]
        paper.stroke(ends, width_mm=0.15)
