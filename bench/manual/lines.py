"""A chapter of the manual as lines for a window or a terminal.

Invariant: no line of words is wider than asked; nothing is left out but a picture, and then it says so.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from bench.manual.chapters import PICTURES, Chapter, ManualPiece

ManualLine = tuple[str, str]
"""Text, and how it is shown: strong, ink, caution or note."""
AT_WORK = "at-work"
WIDER = "(A picture of a page, {wide} wide, does not find room here.)"
BEHIND = (
    "(A picture of a page at the lathe or the tester. In the program such a page stands behind its checks, "
    "with the figures of your own job alone; ringwright manual shows the picture, and so does paper.)"
)
CLOSE = ("item", "row")
"""Blocks of which one follows the other without a line between."""
ROLES = {"head": "strong", "caution": "caution"}


def lines_of(chapter: Chapter, columns: int, *, on_screen: bool) -> tuple[ManualLine, ...]:
    """The lines of a chapter below its title; on the screen of the program no picture of a page at work."""
    out: list[ManualLine] = []
    before = ""
    for block in chapter.blocks:
        if out and not (block.kind == before and before in CLOSE):
            out.append(("", "ink"))
        out += block_lines(block, columns, on_screen=on_screen)
        before = block.kind
    return tuple(out)


def block_lines(block: ManualPiece, columns: int, *, on_screen: bool) -> Iterator[ManualLine]:
    """The lines of one block."""
    if block.kind == AT_WORK and on_screen:
        yield from folded(BEHIND, columns, "note")
    elif block.kind == "head" and not on_screen:
        head = list(folded(block.text, columns, "strong"))
        yield from head
        yield "-" * max(len(text) for text, _ in head), "strong"
    elif block.kind in PICTURES:
        yield from pictured(block.text, columns)
    elif block.kind == "code":
        for text in block.text.splitlines():
            yield from folded(text, columns, "strong", first="    ", later="      ")
    else:
        first = f"{block.mark} " if block.kind == "item" else ""
        later = " " * len(first) or ("  " if block.kind == "row" else "")
        yield from folded(block.text, columns, ROLES.get(block.kind, "ink"), first=first, later=later)


def pictured(text: str, columns: int) -> Iterator[ManualLine]:
    """A picture in a frame at its left, or what stands for it where it is too wide."""
    lines = text.splitlines()
    wide = max(map(len, lines)) + 2
    if wide > columns:
        yield from folded(WIDER.format(wide=wide), columns, "note")
        return
    for one in lines:
        yield f"| {one}".rstrip(), "note"


def folded(text: str, columns: int, role: str, *, first: str = "", later: str = "") -> Iterator[ManualLine]:
    """A text over as many lines as it needs."""
    for one in textwrap.wrap(
        text, max(columns, 20), initial_indent=first, subsequent_indent=later, break_on_hyphens=False
    ):
        yield one, role
