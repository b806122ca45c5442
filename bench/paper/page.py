"""Paper: pages as PDF in one bundled font, text that the font lacks printed as ? and said so.

Invariant: nothing is written until the whole document is made; a file that is no PDF is never written over.
The PDF library is an extra and is loaded only here, when paper is asked for.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from importlib.resources import as_file, files
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING

from bench.clean import clean
from bench.file.aside import write_aside
from bench.file.ordinary import read_regular
from bench.file.plain import cause
from bench.job.statement import Statement
from bench.seals.seal import Point
from bench.sheet.tongue import ENGLISH, Tongue

if TYPE_CHECKING:
    from fpdf import FPDF

FONT = "DejaVu"
MARGIN_MM = 15.0
EDGE_MM = 1.0
"""No word begins nearer to the left edge of the paper: what is too long in the middle of it moves right."""
STANDARD_OUTPUT = Path("-")
"""Named instead of a file: the document goes to standard output, and nothing else does."""
LACKS = "the font lacks {names}: printed as ?"
LINE_OF_SIZE = 0.5
"""Line height in mm for one point of type."""


class NotOnPaper(Exception):
    """The document could not be made or written; one line of plain words."""


class Paper:
    """One document; positions and sizes in mm from the top left corner, type in points."""

    def __init__(
        self, *, width_mm: float = 210.0, height_mm: float = 297.0, margin_mm: float = MARGIN_MM
    ) -> None:
        try:
            from fpdf import FPDF
        except ImportError as why:
            raise NotOnPaper(
                "a PDF needs the library fpdf2; install ringwright with its extra 'paper'"
            ) from why
        self.pdf: FPDF = FPDF(unit="mm", format=(width_mm, height_mm))
        self.pdf.set_creator("ringwright")
        self.pdf.set_margin(margin_mm)
        self.pdf.set_auto_page_break(True, margin=margin_mm)
        with as_file(files("bench").joinpath("fonts", "DejaVuSans.ttf")) as font:
            self.pdf.add_font(FONT, fname=str(font))
        self.pdf.set_font(FONT, size=9)
        self.pdf.add_page()
        self.has = set(getattr(self.pdf.fonts[FONT.lower()], "cmap", ()))
        self.lacking: dict[str, None] = {}

    def plain(self, text: str) -> str:
        """The text as it can be printed: what the font lacks becomes ? and is remembered."""
        safe = clean(text)
        for character in dict.fromkeys(safe):
            if ord(character) not in self.has or character == "\ufffd":
                self.lacking[character] = None
                safe = safe.replace(character, "?")
        return safe

    def line(self, text: str, *, size: float = 9.0, indent_mm: float = 0.0, gap_mm: float = 0.0) -> None:
        """A paragraph below the last one, wrapped at the right margin."""
        self.pdf.set_font(FONT, size=size)
        self.pdf.set_y(self.pdf.get_y() + gap_mm)
        self.pdf.set_x(self.pdf.l_margin + indent_mm)
        self.pdf.multi_cell(
            0, LINE_OF_SIZE * size, self.plain(text) or " ", align="L", new_x="LMARGIN", new_y="NEXT"
        )

    def room(self, high_mm: float) -> bool:
        """Whether so much finds room below the last line of this page."""
        return bool(self.pdf.get_y() + high_mm <= self.pdf.h - self.pdf.b_margin)

    def blank(self, words: str) -> None:
        """A line to write on, its name before it."""
        left, right = self.pdf.l_margin + self.pdf.c_margin, self.pdf.w - self.pdf.r_margin
        y = self.pdf.get_y() + 5.0
        self.at(left, y, words, size=7.0)
        start = left + 1.5 + self.pdf.get_string_width(words)
        self.stroke([(start, y + 0.6), (right, y + 0.6)], width_mm=0.12)
        self.pdf.set_y(y + 2.0)

    def at(self, x: float, y: float, text: str, *, size: float = 8.0, align: str = "left") -> None:
        """A word at a place: its left end, middle or right end there."""
        self.pdf.set_font(FONT, size=size)
        safe = self.plain(text)
        width = self.pdf.get_string_width(safe)
        left = x - {"left": 0.0, "middle": width / 2.0, "right": width}[align]
        self.pdf.text(max(left, EDGE_MM), y, safe)

    def lines(self, text: str, room_mm: float, *, size: float) -> tuple[str, ...]:
        """A text in one line, its last word in a second where it finds no room."""
        self.pdf.set_font(FONT, size=size)
        first, _, last = text.rpartition(" ")
        return (first, last) if first and self.pdf.get_string_width(self.plain(text)) > room_mm else (text,)

    def caption(self, middle: float, y: float, text: str, *, size: float) -> None:
        """A line round a place, moved and set smaller as far as it would leave the page."""
        room, safe = self.pdf.w - 2.0, self.plain(text)
        self.pdf.set_font(FONT, size=size)
        size *= min(1.0, room / max(self.pdf.get_string_width(safe), 1.0))
        self.pdf.set_font(FONT, size=size)
        half = self.pdf.get_string_width(safe) / 2.0
        self.at(min(max(middle, 1.0 + half), self.pdf.w - 1.0 - half), y, text, size=size, align="middle")

    def stroke(self, points: Sequence[Point], *, width_mm: float = 0.25) -> None:
        """A line through the points."""
        self.pdf.set_line_width(width_mm)
        for (x1, y1), (x2, y2) in pairwise(points):
            self.pdf.line(x1, y1, x2, y2)

    def area(self, points: Sequence[Point]) -> None:
        """A closed outline filled with grey."""
        self.pdf.set_line_width(0.35)
        self.pdf.set_fill_color(215)
        self.pdf.polygon(list(points), style="DF")

    def arrow(self, tip: Point, away: Point) -> None:
        """A small arrow head at the tip of a dimension line that comes from `away`."""
        (x, y), (far_x, far_y) = tip, away
        length = ((far_x - x) ** 2 + (far_y - y) ** 2) ** 0.5 or 1.0
        along_x, along_y = 1.6 * (far_x - x) / length, 1.6 * (far_y - y) / length
        side_x, side_y = -0.3 * along_y, 0.3 * along_x
        self.pdf.set_fill_color(0)
        self.pdf.polygon(
            [
                (x, y),
                (x + along_x + side_x, y + along_y + side_y),
                (x + along_x - side_x, y + along_y - side_y),
            ],
            style="F",
        )

    def notes(self, tongue: Tongue = ENGLISH) -> tuple[str, ...]:
        """What has to be said about the print."""
        if not self.lacking:
            return ()
        names = ", ".join(f"U+{ord(character):04X}" for character in self.lacking)
        return (tongue.sentence(Statement("font_lacks", LACKS, {"names": names})),)

    def save(self, path: Path, tongue: Tongue = ENGLISH) -> tuple[str, ...]:
        """Write the document and give its notes, which it says itself in its language; raises NotOnPaper."""
        for note in self.notes(tongue):
            self.line(note, size=7.0, gap_mm=2.0)
        made = bytes(self.pdf.output())
        if path == STANDARD_OUTPUT:
            give(made)
            return self.notes()
        if not path.parent.is_dir():
            where = f"no such folder: {clean(str(path.parent))}"
            raise NotOnPaper(f"{clean(str(path))} could not be written: {where}")
        try:
            if path.exists() and read_regular(path, 5)[:5] != b"%PDF-":
                raise NotOnPaper(f"{clean(str(path))} is there and no PDF; give another name")
            write_aside(path, made)
        except OSError as why:
            raise NotOnPaper(f"{clean(str(path))} could not be written: {cause(why)}") from why
        return self.notes()


def give(document: bytes) -> None:
    """Write a document to standard output; raises NotOnPaper where that is a terminal, OSError."""
    if sys.stdout is None:
        raise NotOnPaper("standard output is closed: name a file")
    if sys.stdout.isatty():
        raise NotOnPaper("a PDF is nothing to read on a terminal; name a file, or send it on with > or |")
    sys.stdout.flush()
    sys.stdout.buffer.write(document)
    sys.stdout.buffer.flush()


def said_of(path: Path, notes: Sequence[str]) -> None:
    """Say where a document is and what is to be said of its print, beside it and never in it."""
    out = sys.stderr if path == STANDARD_OUTPUT else sys.stdout
    for line in (*(() if path == STANDARD_OUTPUT else (clean(str(path)),)), *notes):
        print(line, file=out)
