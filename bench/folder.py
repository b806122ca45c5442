"""Where the jobs live: --folder, else RINGWRIGHT_HOME, else the user's data folder.

Invariant: nothing is created by looking.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

from bench.file.listing import names
from bench.file.slug import number_of
from bench.refusal import Refused

if TYPE_CHECKING:
    from bench.shop.shop import Shop

INDEX_NAME = ".jobs-index.json"


def home(given: Path | None = None) -> Path:
    """The ringwright folder."""
    if given is not None:
        return given
    named = os.environ.get("RINGWRIGHT_HOME")
    if named:
        return Path(named)
    from platformdirs import user_data_path

    return user_data_path("ringwright")


def shop_in(folder: Path) -> Shop:
    """The shop of a folder; raises Refused with file, line and reason when its file is wrong."""
    from bench.shop.shop import ShopWrong, load

    try:
        return load(folder)
    except ShopWrong as why:
        raise Refused(str(why)) from why


def find_job(folder: Path, job: str) -> Path:
    """The session file of a job given by number or path; raises Refused when there is none."""
    if job.isdigit():
        found = [path for path in names(folder) if number_of(path.name) == int(job)]
        if found:
            return found[0]
        raise Refused(f"job {job}: there is no such job in {folder}; ringwright jobs lists them")
    path = Path(job)
    if path.is_file():
        return path
    raise Refused(f"job {job}: neither the number of a job in {folder} nor a session file")
