"""The chapters of the manual, read from Markdown into blocks.

Invariant: what a chapter says stands in its file alone; screen, terminal and paper set the same blocks.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from markdown_it.token import Token

NAME = re.compile(r"([1-9])-([a-z-]+)\.md")
"""The file of a chapter: its number, by which it is chosen, and its name."""


PICTURES = ("page", "at-work")
"""Pictures of pages: any, and one that says how to turn or to raise pressure, which stands behind checks."""
OPENS = {"heading_open": "head", "list_item_open": "item", "blockquote_open": "caution", "table_open": "row"}
CLOSES = {"heading_close", "list_item_close", "blockquote_close", "table_close"}


@dataclass(frozen=True, slots=True)
class ManualPiece:
    """One piece of a chapter."""

    kind: str
    """head, text, item, caution, row of a table, code, or a picture, of PICTURES."""
    text: str
    mark: str = ""
    """What stands before an item: - or its number."""


@dataclass(frozen=True, slots=True)
class Chapter:
    """One chapter."""

    number: int
    name: str
    title: str
    blocks: tuple[ManualPiece, ...]
    """Everything below its title."""


@lru_cache(maxsize=1)
def chapters() -> tuple[Chapter, ...]:
    """All chapters in their order."""
    from importlib.resources import files  # only a reader of the manual needs it

    named = {one.name: one for one in files("bench").joinpath("data", "manual").iterdir()}
    return tuple(
        chapter_of(name, named[name].read_text(encoding="utf-8"))
        for name in sorted(named)
        if NAME.fullmatch(name)
    )


def chapter_of(file_name: str, text: str) -> Chapter:
    """A chapter from the name and the text of its file; the first heading is its title."""
    found = NAME.fullmatch(file_name)
    assert found is not None, f"{file_name}: no name of a chapter"
    title, *blocks = blocks_of(text)
    return Chapter(int(found[1]), found[2], title.text, tuple(blocks))


def chapter_named(words: str) -> Chapter | None:
    """The chapter of this number, or whose name begins so; None where there is none, or more than one."""
    fit = [one for one in chapters() if words == str(one.number) or one.name.startswith(words.lower() or "?")]
    return fit[0] if len(fit) == 1 else None


def blocks_of(text: str) -> Iterator[ManualPiece]:
    """The blocks of a Markdown text; comments are left out."""
    from markdown_it import MarkdownIt

    kind, mark = "text", ""
    heads: list[str] = []
    cells: list[str] = []
    for token in MarkdownIt("commonmark").enable("table").parse(text):
        if token.type == "fence":
            word = token.info if token.info in PICTURES else "code"
            yield ManualPiece(word, token.content.rstrip("\n"))
        elif token.type == "inline" and kind == "row":
            cells.append(in_words(token.children or ()))
        elif token.type == "inline":
            yield ManualPiece(kind, in_words(token.children or ()), mark)
        elif token.type == "thead_close":
            heads = cells
        elif token.type == "tr_open":
            cells = []
        elif token.type == "tr_close" and heads:
            yield ManualPiece("row", row(heads, cells))
        elif token.type in OPENS:
            kind = OPENS[token.type]
            mark = (f"{token.info}." if token.info else "-") if kind == "item" else ""
        elif token.type in CLOSES:
            kind, mark, heads = "text", "", []


def row(heads: Sequence[str], cells: Sequence[str]) -> str:
    """A row of a table in words: its first two cells, then each other one after its head."""
    first, second, *rest = cells
    more = (f"; {head}: {cell}" for head, cell in zip(heads[2:], rest, strict=True) if cell)
    return f"{first}: {second}{''.join(more)}"


def in_words(tokens: Sequence[Token]) -> str:
    """A line of text as it is read, without its marks; a link to another chapter says which."""
    said, leads = "", ""
    for token in tokens:
        if token.type == "link_open" and (found := NAME.fullmatch(str(token.attrs["href"]))):
            leads = f" (chapter {found[1]})"
        elif token.type == "link_close":
            said, leads = said + leads, ""
        else:
            said += " " if token.type == "softbreak" else token.content
    return said
