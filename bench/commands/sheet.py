"""`ringwright sheet JOB`: what was measured, made and proved, as text or as data.

Invariant: it only reads, and never computes a finished job again.
"""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from bench.command import DONE, Refused
from bench.file.entry import FILE_LIMIT
from bench.file.load import load
from bench.folder import find_job, shop_in
from bench.job import Job, replay
from bench.sheet import sheet_data
from bench.sheet_text import sheet_lines


def add(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Register `sheet`."""
    parser = subparsers.add_parser("sheet", help="print the sheet of a job")
    parser.add_argument("job", help="number of a job, or a session file")
    parser.add_argument("--json", action="store_true", help="the same for a program")
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Print the sheet; raises Refused when the file cannot be used as it is."""
    path = find_job(arguments.folder, arguments.job)
    job = job_at(path)
    data = sheet_data(job, finished=is_finished(job, arguments.folder))
    if arguments.json:
        print(json.dumps(data))
        return DONE
    from rich.console import Console
    from rich.text import Text

    console = Console(highlight=False, markup=False, emoji=False)
    for text in sheet_lines(data, columns=min(console.width, 80)):
        console.print(Text(text), soft_wrap=True)
    return DONE


def job_at(path: Path) -> Job:
    """The job in a session file; raises Refused while its values may not be used."""
    with path.open("rb") as file:
        loaded = load(file.read(FILE_LIMIT + 1))
    if loaded.head is None or loaded.gated:
        raise Refused(f"{path}: {loaded.message} Open the job and settle it first.")
    return replay(loaded.head, loaded.usable)


def is_finished(job: Job, folder: Path) -> bool:
    """Whether nothing is left to do in a job."""
    from bench.route import walk

    return walk(job, shop_in(folder)).open is None
