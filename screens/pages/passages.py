"""The passages of a page that grow and shrink with the room there is.

Invariant: what is never left out is as it was; the highest ranks give way first, the lowest grow first.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from screens.layout import Line


@dataclass
class Passage:
    """Some lines of the page, and what may stand there instead where there is more room."""

    lines: list[Line]
    larger: tuple[tuple[int, list[Line]], ...] = ()
    """(rank, lines) in the order in which they are tried, the lowest rank of the page first."""
    missed: bool = True
    """Whether the page lacks something without the first of them."""
    tight: list[Line] | None = None
    """What stands there where not even the least of the page fits."""
    told: bool = False
    """Whether it says what is done now, so that its short form is a loss where more room could be had."""
    dropped: int = 0
    """Where it does not fit even so: all of the highest are left out first, 0 never."""


def taken(passages: Sequence[Passage]) -> int:
    """Rows that the passages take."""
    return sum(len(one.lines) for one in passages)


def cut_short(passages: Sequence[Passage]) -> int:
    """How many of those that say what is done now stand there in their short form."""
    return sum(one.told and bool(one.larger) and one.lines != one.larger[-1][1] for one in passages)


def enlarge(passages: Sequence[Passage], rows: int) -> bool:
    """Give the passages the room there is, by rank; says whether something had to be left out."""
    left_out = tightened(passages, rows)
    ranked = sorted(
        ((rank, at, lines) for at, passage in enumerate(passages) for rank, lines in passage.larger),
        key=lambda item: item[:2],
    )
    for _, at, lines in ranked:
        passage = passages[at]
        if taken(passages) - len(passage.lines) + len(lines) <= rows:
            passage.lines = lines
        else:
            left_out = left_out or (passage.missed and lines is passage.larger[0][1])
    return left_out


def tightened(passages: Sequence[Passage], rows: int) -> bool:
    """Shorten the least of the page, then leave out what may be, until it fits; says whether that was so."""
    left_out = False
    for passage in passages:
        if taken(passages) > rows and passage.tight is not None and len(passage.tight) < len(passage.lines):
            passage.lines, left_out = passage.tight, True
    for rank in sorted({one.dropped for one in passages if one.dropped}, reverse=True):
        if taken(passages) > rows:
            left_out = True
            for passage in (one for one in passages if one.dropped == rank):
                passage.lines, passage.larger = [], ()
    return left_out
