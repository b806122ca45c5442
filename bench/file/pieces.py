"""Each block of a file read on its own.

Invariant: a block that cannot be read never takes its neighbours with it and never raises.
"""

from __future__ import annotations

import re
import zlib
from dataclasses import dataclass

from bench.file.codec import HAND, BadShape, TooNew, crc_of, read_fields, shape_entry, shape_head
from bench.file.entry import Entry, Head
from bench.file.scan import Block

OK, EDITED, BY_HAND, DAMAGED, REPEATED, NEWER = "ok", "edited", "hand", "damaged", "repeated", "newer"

_VALUE_LINE = re.compile(rb"^[ \t]*(?:value|job)[ \t]*=", re.MULTILINE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """What one block says."""

    found: str
    """ok, edited, hand, damaged or newer."""
    line: int
    """Line of the header, counted from 1; of the value if it was edited."""
    mark: str
    """Identifies the content: the right checksum of what it now says, or one of its raw bytes if damaged."""
    content: Head | Entry | None
    """What it holds, if that can be read."""
    n: int | None
    """The number it claims, if that can be read."""
    why: str = ""
    """Why it is damaged or newer, in words."""


def read_block(data: bytes, block: Block, *, salt: str, is_head: bool = False) -> Piece:
    """Read one block; what cannot be understood comes back as damaged with the reason in words."""
    raw = data[block.body : block.end]
    if not block.closed:
        return _damaged(raw, block, "it has no crc line at its end", None)
    try:
        fields = read_fields(raw)
    except BadShape as bad:
        return _damaged(raw, block, str(bad), None)
    stated = fields.get("crc")
    claimed = fields.get("n")
    n = claimed if isinstance(claimed, int) and not isinstance(claimed, bool) else None
    try:
        computed = crc_of(salt, fields)
    except BadShape as bad:
        return _damaged(raw, block, str(bad), n)
    try:
        content = shape_head(fields) if is_head else shape_entry(fields)
    except BadShape as bad:
        if isinstance(bad, TooNew) and stated == computed:
            return Piece(found=NEWER, line=block.line, mark=computed, content=None, n=n, why=str(bad))
        return _damaged(raw, block, str(bad), n)
    if stated == computed:
        return Piece(found=OK, line=block.line, mark=computed, content=content, n=n)
    found = BY_HAND if stated == HAND else EDITED
    return Piece(found=found, line=_line_to_look_at(raw, block), mark=computed, content=content, n=n)


def _damaged(raw: bytes, block: Block, why: str, n: int | None) -> Piece:
    mark = f"raw {zlib.crc32(raw):08x}"
    return Piece(found=DAMAGED, line=block.line, mark=mark, content=None, n=n, why=why)


def _line_to_look_at(raw: bytes, block: Block) -> int:
    """The line of the value (in the head, of the job), which is what people change; else the header."""
    found = _VALUE_LINE.search(raw)
    if found is None:
        return block.line
    return block.line + (1 if block.body > block.start else 0) + raw.count(b"\n", 0, found.start())
