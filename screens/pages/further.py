"""The figures behind the next ones: as a list, and how many of them wait behind the key for more.

Invariant: a list is read along its lines; a figure counts as shown only where it stands whole.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from bench.job.steps import Step, Target
from screens.layout import Line, line, text_of
from screens.pages.passages import Passage


def in_list(one: Target) -> str:
    """A target among others: its figure, and what that makes where it is not the size itself."""
    makes = re.search(r"makes [^,]+", one.words)
    return f"{one.figure} {makes[0]}" if makes else one.figure


def in_columns(texts: Sequence[str], columns: int) -> list[Line]:
    """Short texts in as many columns as fit, read along the line, each whole."""
    wide = max(map(len, texts)) + 2
    across = max((columns - 7) // wide, 1)
    starts = range(0, len(texts), across)
    rows = ["".join(text.ljust(wide) for text in texts[at : at + across]) for at in starts]
    return [line(f"  {'' if at else 'then':5}{row}".rstrip(), "note") for at, row in enumerate(rows)]


def waiting_of(step: Step, passages: Sequence[Passage]) -> int:
    """How many figures of the step no passage shows."""
    shown = "\n".join(text_of(one) for passage in passages for one in passage.lines)
    said = (rf"(?<![\d.]){re.escape(one.figure)}(?![\d.])" for one in step.targets if one.figure)
    return sum(re.search(figure, shown) is None for figure in said)


def counted(one: Line, waiting: int) -> Line:
    """The line that says that there is more, with how many figures wait there."""
    return (
        [
            (text.replace("there is more", f"on the next page {waiting} more {cuts(waiting)}"), role)
            for text, role in one
        ]
        if waiting
        else one
    )


def cuts(many: int) -> str:
    """The word for so many."""
    return "cut" if many == 1 else "cuts"
