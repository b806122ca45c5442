"""A new session file: numbered, written whole beside its place, then put there.

Invariant: two windows that start a job at once never share a number or a file.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from bench.file import plain
from bench.file.codec import render_head, writable_text
from bench.file.disk import (
    REAL,
    Disk,
    make_folders,
    publish,
    stage,
)
from bench.file.entry import FORMAT, Head, random_id
from bench.file.plain import NotSaved
from bench.file.slug import JOBS, file_name, next_number, number_of
from bench.file.store import Session, open_session

_TRIES = 100


def create(
    folder: Path,
    *,
    job: str = "",
    made_by: str,
    slug: str = "",
    number: int | None = None,
    disk: Disk = REAL,
    new_id: Callable[[], str] = random_id,
) -> Session:
    """A new session file in `folder`/jobs under `number`, usually the next free one.

    Without `job` the number names the job. Raises NotSaved (also for a number that is taken) and CannotOpen.
    """
    jobs = folder / JOBS
    try:
        make_folders(disk, jobs)
        disk.flush_folder(folder)
        for _ in range(_TRIES):
            taken = _numbers(jobs, disk)
            if number in taken:
                raise NotSaved(plain.number_taken(number), certain=True)
            next_one = number if number is not None else next_number(taken)
            text = writable_text(job or str(next_one))
            head = Head(format=FORMAT, id=new_id(), job=text, made_by=writable_text(made_by))
            path = _written_head(jobs, next_one, slug, render_head(head), disk)
            if path is not None:
                return open_session(path, disk=disk)
    except OSError as error:
        raise NotSaved(plain.not_created(error), certain=True) from error
    except ValueError as bad:
        raise NotSaved(f"The new job was not made: {bad}.", certain=True) from bad
    raise NotSaved(plain.NO_NUMBER, certain=True)


def _written_head(jobs: Path, number: int, slug: str, head: bytes, disk: Disk) -> Path | None:
    """The new file under its number, or None if another window was quicker."""
    spare = jobs / f"{file_name(number=number)}.new"
    path = jobs / file_name(number=number, text=slug)
    try:
        stage(disk, spare, head)
    except FileExistsError:
        return None
    if _numbers(jobs, disk).count(number) > 1:
        disk.unlink(spare)
        return None
    publish(disk, spare, path, head)
    return path


def _numbers(jobs: Path, disk: Disk) -> list[int]:
    """The job numbers taken, those of files in the making included."""
    found = (number_of(name.removesuffix(".new")) for name in disk.names(jobs))
    return [number for number in found if number is not None]
