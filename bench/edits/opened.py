"""A session file opened for work, with what may be used of it by what its answers are answers to.

Invariant: what cannot be opened is closed again and refused in plain words.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from bench.edits import judging
from bench.file.disk import Disk
from bench.file.plain import CannotOpen
from bench.file.store import Session, open_session

if TYPE_CHECKING:
    from bench.shop.shop import Shop


def open_judged(path: Path, *, disk: Disk, shop: Shop) -> Session:
    """The session of a file, judged in a shop; raises CannotOpen, NotSaved, OSError."""
    session = open_session(path, disk=disk, judge=lambda loaded: judging.judged(loaded, shop))
    if session.head is None:
        message = session.loaded.message
        session.close()
        raise CannotOpen(message)
    return session
