"""A line of (text, role) as painted cells: one way for the first page and for every page after it.

Invariant: no character passes that a terminal could act on, and a line is exactly as wide as the window.
"""

from __future__ import annotations

from collections.abc import Sequence

from rich.segment import Segment
from rich.style import Style

from bench.clean import clean
from screens.look import plain

FILLED = ("key", "title")
"""Roles whose paper goes on to the edge."""


def cells(
    line: Sequence[tuple[str, str]], styles: dict[str, Style], columns: int, *, ascii_only: bool
) -> list[Segment]:
    """The line, filled up with paper or cut."""
    texts = ((plain(clean(text)) if ascii_only else clean(text), role) for text, role in line if text)
    paper = line[-1][1] if line and line[-1][1] in FILLED else "ink"
    segments = [Segment(text, styles[role]) for text, role in texts]
    return Segment.adjust_line_length(segments, columns, styles[paper])
