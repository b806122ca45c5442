"""A complete copy of a job, put where it can be put.

Invariant: a copy is said to be somewhere only once it is there.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from bench.file import plain
from bench.file.plain import NotSaved
from bench.file.store import Session

NAME_LIMIT = 60


def places() -> Iterator[Path]:
    """Where a copy may go, the best first: at home, in the folder one works in, among temporary files."""
    with suppress(RuntimeError):
        if os.environ.get("HOME") != "":  # an empty one would be the root of all
            yield Path.home()
    with suppress(OSError):
        yield Path.cwd()
    with suppress(OSError):
        yield Path(tempfile.gettempdir())


def save_copy(session: Session, *, stamp: str) -> Path:
    """A copy under a name of its own, the stamp in it; raises NotSaved where it can be put nowhere."""
    refused = NotSaved(plain.NO_PLACE, certain=True)
    for place in places():
        try:
            name = f"{session.path.stem[:NAME_LIMIT]}-copy-{stamp}{session.path.suffix}"
            return session.save_copy(place / name)
        except NotSaved as why:
            refused = why
    raise refused
