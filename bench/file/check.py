"""A session file explained without touching it.

Invariant: opened to read only, never locked, never written.
"""

from __future__ import annotations

import os
import stat
from dataclasses import dataclass
from pathlib import Path

from bench.file.disk import REAL, read_all
from bench.file.elsewhere import flags
from bench.file.entry import FILE_LIMIT
from bench.file.load import Loaded, load
from bench.file.plain import cause
from bench.file.store import Judge, as_it_is

_FLAGS = os.O_RDONLY | flags("O_NONBLOCK")


@dataclass(frozen=True, slots=True, kw_only=True)
class Explained:
    """What `check` says."""

    state: str
    """fine, unfinished, changed, by_hand, damaged, gap, newer or foreign."""
    message: str
    """The state in plain words."""
    format: int | None
    """Format number, None if it cannot be read."""
    entries: int
    """How many entries can be read."""
    used: int
    """How many entries count as the file stands."""
    lines: tuple[int, ...]
    """The lines that need a look."""
    details: tuple[str, ...] = ()
    """Each unsettled thing in words, if there are several, and each that was accepted."""
    accepted: tuple[str, ...] = ()
    """What was changed outside the program, or is missing, and had been accepted, each in words."""

    def as_json(self, file: str) -> dict[str, object]:
        """The same as plain data."""
        return {
            "file": file,
            "state": self.state,
            "format": self.format,
            "entries": self.entries,
            "used": self.used,
            "lines": list(self.lines),
            "message": self.message,
            "accepted": list(self.accepted),
        }


def explain(path: Path, judge: Judge = as_it_is) -> Explained:
    """Say what a file is; `judge` knows what its answers may be. Raises OSError if there is no such file."""
    try:
        found = path.stat()
    except ValueError as impossible:
        raise FileNotFoundError("no such name") from impossible
    if not stat.S_ISREG(found.st_mode):
        what = "a folder" if stat.S_ISDIR(found.st_mode) else "not an ordinary file"
        return _foreign(f"This is not a session file: it is {what}.")
    try:
        fd = os.open(path, _FLAGS)
        try:
            data = read_all(REAL, fd, FILE_LIMIT)
        finally:
            os.close(fd)
    except OSError as error:
        return _foreign(f"This file cannot be read: {cause(error)}.")
    return explained(judge(load(data)))


def explained(loaded: Loaded) -> Explained:
    """The explanation of a loaded file."""
    several = len(loaded.findings) > 1
    return Explained(
        state=loaded.state,
        message=loaded.message,
        format=loaded.head.format if loaded.head is not None else None,
        entries=len(loaded.entries),
        used=len(loaded.usable),
        lines=tuple(sorted({finding.line for finding in loaded.findings})),
        details=(
            *((finding.words for finding in loaded.findings) if several else ()),
            *(f"accepted before: {words}" for words in loaded.accepted),
        ),
        accepted=loaded.accepted,
    )


def _foreign(message: str) -> Explained:
    return Explained(state="foreign", message=message, format=None, entries=0, used=0, lines=())
