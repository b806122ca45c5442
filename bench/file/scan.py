"""The lines of a session file cut into blocks, before anything in them is understood.

Invariant: every byte belongs to the head, to one block, to blank or comment lines, to stray text or to the
tail. A block runs from its header line to its crc line; the tail is what follows the last closed block.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

_MARKS = re.compile(
    rb"^[ \t]*(?:(?P<header>\[\[[ \t]*entry[ \t]*\]\])|crc[ \t]*=[ \t]*(?:\"[^\"\n]*\"|'[^'\n]*'))"
    rb"[ \t]*(?:#[^\n]*)?\r?(?:\n|\Z)",
    re.MULTILINE,
)
_HARMLESS = re.compile(r"[ \t]*(?:#[^\x00-\x08\x0b-\x1f\x7f]*)?\r?")


@dataclass(frozen=True, slots=True)
class Block:
    """One run of lines from a header to its crc line, or to the next header when the crc line is missing."""

    start: int
    """Offset of the first byte."""
    body: int
    """Offset of the first byte after the header line."""
    end: int
    """Offset after the last byte."""
    line: int
    """Line number of the header, counted from 1."""
    closed: bool
    """True if it ends with a crc line."""


@dataclass(frozen=True, slots=True)
class Stray:
    """Text between blocks that is neither blank nor a comment."""

    start: int
    end: int
    line: int
    after: int
    """How many blocks stand before it."""


@dataclass(slots=True)
class Scan:
    """The pieces of one file."""

    head: Block
    blocks: list[Block] = field(default_factory=list)
    strays: list[Stray] = field(default_factory=list)
    trusted_end: int = 0
    """End of the last closed block."""
    torn: bytes = b""
    """Unfinished bytes after the trusted end; empty if only blank lines and comments follow it."""
    torn_headers: int = 0
    """How many entries begin in the torn bytes; more than one is not one torn append."""
    torn_line: int = 0
    """Line number of the first torn line."""


def first_stray(region: bytes) -> int | None:
    """Offset of the first line that is neither blank nor a clean comment, or None."""
    if not region.strip(b" \t\r\n"):
        return None
    offset = 0
    for line in region.split(b"\n"):
        try:
            harmless = _HARMLESS.fullmatch(line.decode("utf-8")) is not None
        except UnicodeDecodeError:
            harmless = False
        if not harmless:
            return offset
        offset += len(line) + 1
    return None


def scan(data: bytes, start: int = 0) -> Scan:
    """Cut the bytes from `start` (after a byte order mark) into blocks."""
    found = _walk(data, start)
    closed = [block for block in found.blocks if block.closed]
    if closed and _is_half_written(data[closed[-1].start : closed[-1].end]):
        closed.pop()
    if closed:
        found.trusted_end = closed[-1].end
    elif found.head.closed:
        found.trusted_end = found.head.end
    found.blocks = [block for block in found.blocks if block.end <= found.trusted_end]
    found.strays = [stray for stray in found.strays if stray.end <= found.trusted_end]
    tail = data[found.trusted_end :]
    strange = first_stray(tail)
    if strange is not None:
        found.torn = tail
        found.torn_line = data.count(b"\n", 0, found.trusted_end + strange) + 1
        found.torn_headers = sum(1 for mark in _MARKS.finditer(tail) if mark["header"])
    return found


def _is_half_written(block: bytes) -> bool:
    """A closed last block with zeros or broken text in it: a power cut left the room but not the words."""
    if b"\0" in block:
        return True
    try:
        block.decode("utf-8")
    except UnicodeDecodeError:
        return True
    return False


def _walk(data: bytes, start: int) -> Scan:
    found = Scan(head=Block(start=start, body=start, end=start, line=1, closed=False))
    opened: tuple[int, int, int] | None = (start, start, 1)
    is_head, done, line, counted = True, start, 1, 0

    def close(end: int, closed: bool) -> None:
        nonlocal opened, is_head, done
        if opened is not None:
            block = Block(start=opened[0], body=opened[1], end=end, line=opened[2], closed=closed)
            if is_head:
                found.head = block
            else:
                found.blocks.append(block)
        opened, is_head, done = None, False, end

    for mark in _MARKS.finditer(data, start):
        if mark["header"] is None:
            if opened is not None:
                close(mark.end(), True)
            continue
        if opened is not None:
            close(mark.start(), False)
        line += data.count(b"\n", counted, mark.start())
        counted = mark.start()
        strange = first_stray(data[done : mark.start()])
        if strange is not None:
            at = done + strange
            number = line - data.count(b"\n", at, mark.start())
            found.strays.append(Stray(start=at, end=mark.start(), line=number, after=len(found.blocks)))
        opened = (mark.start(), mark.end(), line)
    if opened is not None:
        close(len(data), False)
    return found
