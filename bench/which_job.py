"""The session file of a job that is named by its number or its path.

Invariant: of copies that went on apart none is taken for the job; which one is meant is for a person to say.
"""

from __future__ import annotations

import re
from contextlib import suppress
from pathlib import Path

from bench.clean import clean
from bench.file.listing import file_names
from bench.file.slug import JOBS, number_of, own_number
from bench.folder import shortened
from bench.refusal import Refused

NUMBER = re.compile(r"0*([0-9]{1,9})")
"""How the number of a job is written."""


def find_job(folder: Path, job: str) -> Path:
    """The session file of a job given by number or path, of copies the one that is gone on with; raises
    Refused when there is none, or copies went on apart.
    """
    found = files_of(folder, job)
    if len(found) == 1:
        return found[0]
    from bench.joining.twins import PARTED, twins_of  # few jobs have copies

    twins = twins_of(found[0].parent, [path.name for path in found])
    if apart := [path.name for path in found if path.name in twins and twins[path.name].state == PARTED]:
        raise Refused(
            f"job {job}: copies of it went on apart: {clean(', '.join(apart))}; "
            f"ringwright join {job} joins them, or name one of the files"
        )
    return next((path for path in found if path.name not in twins), found[0])


def files_of(folder: Path, job: str) -> list[Path]:
    """The session files of a job given by number, or the one given by path; raises Refused without any."""
    if job.isascii() and job.isdigit():
        number = NUMBER.fullmatch(job)
        found = [
            folder / JOBS / name
            for name in file_names(folder)
            if number and int(number[1]) in (number_of(name), own_number(name))
        ]
        if found:
            return found
        raise Refused(f"job {shortened(job)}: there is no such job in {folder}; ringwright jobs lists them")
    path = Path(job)
    with suppress(OSError, ValueError):
        if path.is_file():
            return [path]
    raise Refused(f"job {shortened(job)}: neither the number of a job in {folder} nor a session file")
