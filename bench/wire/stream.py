"""Bytes of a serial line cut into its lines.

Invariant: pure, times in seconds on the monotonic clock. A piece of which the beginning may be missing is
never called a whole line.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

PAUSE_S = 0.5
"""After this long without a byte the next one begins a line."""
LONGEST = 200
"""Bytes of a line; what goes on longer is noise."""
ENDS = re.compile(rb"[\r\n]+")


@dataclass(frozen=True, slots=True)
class Stream:
    """What has come and is not a line yet."""

    at: float
    """When the last byte came, or the port was opened."""
    rest: bytes = b""
    sure: bool = False
    """Whether what comes next begins a line: after an end, or after quiet with nothing left over."""


def took(stream: Stream, data: bytes, at: float) -> tuple[Stream, tuple[bytes, ...], bool]:
    """The stream after some bytes, the whole lines in them, and whether a half one was left out."""
    quiet = at - stream.at >= PAUSE_S
    sure = stream.sure if stream.rest or not quiet else True
    rest, broken = stream.rest, False
    if quiet and rest:
        rest, sure, broken = b"", False, True
    *pieces, rest = ENDS.split(rest + data)
    if pieces and not sure:
        broken = broken or bool(pieces[0])
        del pieces[0]
        sure = True
    if len(rest) > LONGEST:
        return Stream(at, b"", sure=False), whole(pieces), True
    return Stream(at, rest, sure=sure), whole(pieces), broken


def whole(pieces: list[bytes]) -> tuple[bytes, ...]:
    """Lines with something in them and not too long."""
    return tuple(piece for piece in pieces if 0 < len(piece) <= LONGEST)
