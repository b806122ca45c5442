"""The text of shop.toml as pieces that can be changed one by one: its head, and one piece a section.

Invariant: the pieces put together are the text; a piece that is not changed stays as it is, to the byte.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from bench.shop.file import HEADER, path_of

TRIPLE = ('"""', "'''")
COMMENT = "#"


@dataclass(frozen=True, slots=True)
class SectionText:
    """A header with all that stands below it, up to the next; the head of the file has none."""

    path: str
    """Such as `lathe.0.cross`; empty for the head."""
    header: str
    body: str

    @property
    def text(self) -> str:
        """As it stands in the file."""
        return self.header + self.body

    @property
    def above_the_next(self) -> tuple[str, str]:
        """The body in two: to its last value, and the comments and blank lines behind it."""
        lines = self.body.splitlines(keepends=True)
        last = max((at for at, (line, starts) in enumerate(marked(lines)) if starts != ""), default=-1)
        return "".join(lines[: last + 1]), "".join(lines[last + 1 :])


def pieces(text: str) -> list[SectionText]:
    """The pieces of a text that is TOML."""
    found, counts = [SectionText("", "", "")], dict[str, int]()
    for line, starts in marked(text.splitlines(keepends=True)):
        header = HEADER.match(line) if starts == "[" else None
        if header:
            path = path_of(header.group(2).replace(" ", ""), header.group(1) == "[[", counts)
            found.append(SectionText(path, line, ""))
        else:
            last = found[-1]
            found[-1] = SectionText(last.path, last.header, last.body + line)
    return found


def marked(lines: list[str]) -> Iterator[tuple[str, str]]:
    """Each line with what it is: `[` a header, `=` a value or part of one, nothing where it is none."""
    depth, quote = 0, ""
    for line in lines:
        inside = depth > 0 or bool(quote)
        first = line.lstrip()[:1]
        bare, _, quote = taken_apart(line, quote)
        if not inside and first == "[":
            yield line, "["
            continue
        depth += sum(bare.count(one) for one in "[{") - sum(bare.count(one) for one in "]}")
        yield line, "=" if inside or first not in ("", COMMENT) else ""


def taken_apart(line: str, quote: str = "") -> tuple[str, str, str]:
    """A line without its texts, its comment, and the quotes still open at its end; `quote`: those before."""
    bare, at = "", 0
    while at < len(line):
        if quote:
            if quote[0] == '"' and line[at] == "\\":
                at += 2
            elif line.startswith(quote, at):
                at, quote = at + len(quote), ""
            else:
                at += 1
        elif line[at] == COMMENT:
            return bare, line[at:].strip(), ""
        elif line[at] in "\"'":
            quote = next((one for one in TRIPLE if line.startswith(one, at)), line[at])
            at += len(quote)
        else:
            bare, at = bare + line[at], at + 1
    return bare, "", quote if quote in TRIPLE else ""


def comments(text: str) -> list[str]:
    """Every comment of a text that is TOML, in order."""
    found, quote = list[str](), ""
    for line in text.splitlines():
        _, comment, quote = taken_apart(line, quote)
        found += [comment] if comment else []
    return found


def only_comments(piece: SectionText) -> str:
    """What is left of a piece that is taken out: its comments, a line each."""
    return "".join(f"{one}\n" for one in comments(piece.text))
