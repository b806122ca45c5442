"""Changes in the text of shop.toml, value by value and section by section.

Invariant: every comment stays; a section that is not named is not touched.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from typing import Any

from bench.shop.layout import SectionText, comments, only_comments, pieces
from bench.shop.starter import sections_of

Address = tuple[str | int, ...]
"""From the head of the file to a table, such as ("lathe", 0, "cross")."""
OTHER_NAMES = {"carriage": "long"}
"""Sections that may be headed by another name."""
UNIT_ENDS = ("_mm", "_in")
"""A length is given under one of these two."""


class Pieces:
    """The text while it is changed."""

    def __init__(self, text: str) -> None:
        self._pieces = pieces(text)

    @property
    def text(self) -> str:
        """The text as it now is."""
        return "".join(piece.text for piece in self._pieces)

    def set(self, way: Address, name: str, value: Any) -> None:
        """Give a value, in its place where it stands already; the same length in the other unit goes."""
        for end, other in (UNIT_ENDS, UNIT_ENDS[::-1]):
            if name.endswith(end):
                self.remove(way, name.removesuffix(end) + other)
        self._change(way, lambda table: table.__setitem__(name, value))

    def remove(self, way: Address, name: str) -> None:
        """Take a value out; a comment behind it stays on a line of its own."""
        self._change(way, lambda table: table.pop(name, None))

    def add(self, way: Address, table: dict[str, Any]) -> None:
        """Another section of a list, behind those there are."""
        prefix = _path(way)
        mine = [at for at, piece in enumerate(self._pieces) if _within(piece.path, prefix)]
        parent = [at for at, piece in enumerate(self._pieces) if _within(piece.path, _path(way[:-1]))]
        at = (mine or parent)[-1]
        body, behind = self._pieces[at].above_the_next
        dotted = ".".join(step for step in way if isinstance(step, str))
        new = SectionText(f"{prefix}.new", "", sections_of({dotted: [table]}))
        self._pieces[at] = SectionText(self._pieces[at].path, self._pieces[at].header, body)
        self._pieces[at + 1 : at + 1] = [new, SectionText("", "", behind)]

    def take_out(self, way: Address) -> None:
        """A section of a list and all below it; its comments stay."""
        path = _path(way)
        for at, piece in enumerate(self._pieces):
            if _within(piece.path, path):
                self._pieces[at] = SectionText("", "", only_comments(piece))

    def _change(self, way: Address, change: Callable[[Any], object]) -> None:
        """Change a table; comments that stood within what is changed stay behind it."""
        found = self._where(way)
        if found is None:
            return
        at, document, inner = found
        before = comments(document.as_string())
        change(inner)
        body = document.as_string()
        for comment in comments(body):
            before.remove(comment)
        piece = self._pieces[at]
        body += "" if body.endswith("\n") or not body else "\n"
        kept = "".join(f"{comment}\n" for comment in before)
        self._pieces[at] = SectionText(piece.path, piece.header, body + kept + piece.above_the_next[1])

    def _where(self, way: Address) -> tuple[int, Any, Any] | None:
        """Number and document of the piece that holds a table, and the table in it; None where nothing does.

        The nearest piece above may hold it as a table within a line.
        """
        import tomlkit

        for cut in range(len(way), -1, -1):
            at = self._headed(way[:cut])
            if at is None:
                continue
            document = tomlkit.parse(self._pieces[at].above_the_next[0])
            inner: Any = document
            with suppress(KeyError, IndexError, TypeError):
                for step in way[cut:]:
                    inner = inner[step]
                return at, document, inner
        return None

    def _headed(self, way: Address) -> int | None:
        """Number of the piece with this header, by either of its names; the head of the file has none."""
        other = tuple(OTHER_NAMES.get(step, step) if isinstance(step, str) else step for step in way)
        paths = (_path(way), _path(other))
        if not way:
            return 0
        return next((at for at, one in enumerate(self._pieces) if one.path in paths), None)


def _path(way: Address) -> str:
    return ".".join(str(step) for step in way)


def _within(path: str, outer: str) -> bool:
    """Whether a piece stands in a section or is it; everything stands in the file."""
    return not outer or path == outer or path.startswith(f"{outer}.")
