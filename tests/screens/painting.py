"""A page as it is painted: cells with their letters and styles, through the widget itself.

Invariant: what is looked at here is what the widget hands to the terminal, not what a page meant to show.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region

from bench.desk.desk import Desk
from screens.look import Look
from screens.page import Page
from screens.theme import Depth, Name, styles
from screens.view import view
from tests.screens.keying import at_size

Row = list[Segment]


@dataclass(frozen=True)
class Cell:
    """One letter as painted."""

    letter: str
    style: Style
    row: int


def rows_of(
    desk: Desk, size: tuple[int, int], role_styles: dict[str, Style], *, ascii_only: bool = False
) -> list[Row]:
    """The painted rows of a page."""
    columns, rows = size
    page = Page(ascii_only=ascii_only)
    lines = view(at_size(desk, columns, rows), Look("ascii" if ascii_only else "half"))
    page.show(lines, role_styles, columns, rows)
    return [list(row) for row in page.render_lines(Region(0, 0, columns, rows))]


def cells_of(rows: Sequence[Row]) -> Iterator[Cell]:
    """Every painted letter, blank ones left out."""
    for row, segments in enumerate(rows):
        for segment in segments:
            for letter in segment.text:
                if letter != " ":
                    yield Cell(letter, segment.style or Style(), row)


def text_of_row(row: Row) -> str:
    """The text of a painted row."""
    return "".join(segment.text for segment in row)


def usual_styles(depth: Depth = "full", name: Name = "day") -> dict[str, Style]:
    """The styles of a theme."""
    return styles(name=name, depth=depth)
