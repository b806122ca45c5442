"""A job is begun: a new session file and, where it is one like another, what is known of that.

Invariant: the other job is only read; where it cannot be, nothing is begun.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from bench.file.disk import REAL, Disk
from bench.file.entry import random_id
from bench.file.new_job import create
from bench.job.other_jobs import LIKE
from bench.version import MADE_BY

if TYPE_CHECKING:
    from bench.file.store import Session
    from bench.shop.shop import Shop


def begin(
    folder: Path,
    shop: Shop,
    *,
    number: int | None,
    like: Path | None,
    wall: Callable[[], str],
    disk: Disk = REAL,
    new_id: Callable[[], str] = random_id,
) -> Session:
    """The session of a new job, under `number` or the next free one, `like` the job in a file.

    Raises Refused where that cannot be used; NotSaved, CannotOpen, OSError.
    """
    known = read_of(like, shop) if like is not None else ()
    session = create(folder, number=number, made_by=MADE_BY, disk=disk, new_id=new_id)
    if known:
        session.append(kind="mark", key=LIKE, value=known, at=wall())
    return session


def read_of(like: Path, shop: Shop) -> tuple[str, ...]:
    """What is known of the job in a file, as one begun after it keeps that."""
    from bench.edits.stored import read  # few jobs are begun after another one
    from bench.stages.like import known_of

    return known_of(read(like, shop)[0], shop)
