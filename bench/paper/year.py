"""A year on paper, one page: its figures in sentences, and month by month as drawn bars.

Invariant: every bar stands for a figure of the year, which is written above it; nothing else is drawn.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from bench.paper.page import Paper
from bench.year.counted import Counted, Year
from bench.year.words import MONTHS, whole_lines
from rules.lengths import bare, short

HIGH_MM = 28.0
"""Height of a plot without its heading."""
APART_MM = 14.0
WIDE_OF_MONTH = 0.56
"""A bar takes so much of the width of its month."""
SMALL = 6.0
BARS_NAMED = 8
"""So many bars are named on the page; of more the rest stands in the text and the table."""


@dataclass(frozen=True, slots=True)
class Plot:
    """A figure of every month."""

    heading: str
    whole: Callable[[Counted], float]
    """How high the bar is."""
    part: Callable[[Counted], float] | None
    """How much of it is filled; all where there is none."""
    said: Callable[[Counted], str]
    """What stands above it."""


def plots() -> tuple[Plot, ...]:
    """What is drawn."""
    return (
        Plot("Seals made", lambda one: one.made, None, lambda one: f"{one.made}"),
        Plot(
            "Watches in which one was put in for the first time; filled: home at once",
            lambda one: one.first_tries,
            lambda one: one.first_home,
            lambda one: f"{one.first_home} of {one.first_tries}",
        ),
        Plot(
            "Tests that were judged; filled: passed",
            lambda one: one.passed + one.failed,
            lambda one: one.passed,
            lambda one: f"{one.passed} of {one.passed + one.failed}",
        ),
        Plot("Hours at the bench", lambda one: one.minutes, None, lambda one: f"{one.minutes / 60.0:.1f}"),
        Plot(f"Bar taken, {short()}", lambda one: one.bar_mm, None, lambda one: bare(one.bar_mm, 1)),
    )


def write_year(year: Year, shop_name: str, path: Path) -> tuple[str, ...]:
    """Write the page; gives what has to be said of the print. Raises NotOnPaper."""
    paper = Paper(margin_mm=18.0)
    if shop_name:
        paper.line(shop_name, size=11.0)
    paper.line(f"The year {year.year}", size=13.0, gap_mm=1.5)
    lines = whole_lines(year)
    named = len(lines) - len(year.bars) + BARS_NAMED
    for sentence in lines[:named]:
        of_a_bar = sentence.startswith(" ")
        text = sentence.strip() if of_a_bar else sentence[0].upper() + sentence[1:]
        paper.line(text, size=7.5, indent_mm=5.0 if of_a_bar else 3.0, gap_mm=0.3)
    if len(lines) > named:
        paper.line(f"... and {len(lines) - named} bars more", size=7.5, indent_mm=5.0, gap_mm=0.3)
    left, right = paper.pdf.l_margin + 2.0, paper.pdf.w - paper.pdf.r_margin
    top = paper.pdf.get_y() + 8.0
    room = (paper.pdf.h - paper.pdf.b_margin - top) / len(plots())
    for plot in plots():
        draw(
            paper,
            plot,
            year.months,
            left=left,
            top=top + 4.0,
            wide=right - left,
            high=min(HIGH_MM, room - APART_MM),
        )
        top += room
    paper.pdf.set_y(paper.pdf.h - paper.pdf.b_margin - 6.0)
    return paper.save(path)


def draw(
    paper: Paper, plot: Plot, months: Sequence[Counted], *, left: float, top: float, wide: float, high: float
) -> None:
    """Twelve bars on a base line, the months below; positions in mm."""
    base, each = top + high, wide / len(months)
    most = max(map(plot.whole, months)) or 1.0
    paper.at(left, top - 4.5, plot.heading, size=7.5)
    paper.stroke([(left, base), (left + wide, base)], width_mm=0.2)
    for at, (name, month) in enumerate(zip(MONTHS, months, strict=True)):
        middle = left + (at + 0.5) * each
        paper.at(middle, base + 3.2, name, size=SMALL, align="middle")
        tall = high * plot.whole(month) / most
        if not tall:
            continue
        half = WIDE_OF_MONTH * each / 2.0
        filled = tall if plot.part is None else high * plot.part(month) / most
        if filled:
            paper.area(box(middle - half, middle + half, base - filled, base))
        outline = box(middle - half, middle + half, base - tall, base)
        paper.stroke([*outline, outline[0]], width_mm=0.25)
        paper.at(middle, base - tall - 1.0, plot.said(month), size=SMALL, align="middle")


def box(left: float, right: float, top: float, bottom: float) -> list[tuple[float, float]]:
    """The corners of an upright box."""
    return [(left, bottom), (left, top), (right, top), (right, bottom)]
