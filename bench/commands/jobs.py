"""`ringwright jobs`: the list of jobs, newest first.

Invariant: it only reads.
"""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

from bench.clean import clean
from bench.command import DONE
from bench.desk.desk import JobRow
from bench.file.listing import Index, names, rows
from bench.file.load import Loaded
from bench.file.store import JOBS
from bench.folder import INDEX_NAME, shop_in
from bench.shop.shop import FILE_NAME
from bench.summary import summary
from bench.version import VERSION
from bench.workbench import job_row


def add(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Register `jobs`."""
    parser = subparsers.add_parser("jobs", help="the list of jobs, newest first")
    parser.add_argument("--json", action="store_true", help="the same for a program")
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Print the jobs of the folder."""
    found = listed(arguments.folder)
    if arguments.json:
        print(json.dumps([as_json(row, arguments.folder) for row in found]))
        return DONE
    for row in found:
        waits = "finished" if row.finished else row.waiting_for or row.step
        print(clean(f"{row.number:>7}  {row.watch:<28.28}  {row.stage:<8}  {waits}"))
    return DONE


def listed(folder: Path) -> list[JobRow]:
    """All jobs with stage and open step worked out by walking each route."""
    shop = shop_in(folder)

    def summarise(loaded: Loaded) -> dict[str, str]:
        return exact(loaded, shop)

    index = Index(folder / INDEX_NAME, version=f"{VERSION} {stamp(folder)}")
    paths = names(folder)
    found = rows(paths, summarise=summarise, index=index)
    index.keep_only(paths)
    index.save()
    return [job_row(row.path.name, row.summary or {"waiting_for": row.message}) for row in found]


def stamp(folder: Path) -> str:
    """What the shop file was when a list was made: the open step of a job can depend on it."""
    try:
        found = (folder / FILE_NAME).stat()
    except OSError:
        return "built-in shop"
    return f"{found.st_size} {found.st_mtime_ns}"


def exact(loaded: Loaded, shop: Any) -> dict[str, str]:
    """Stage, step and what is waited for, from the route itself."""
    from bench.job.job import replay
    from bench.stages import walk

    said = summary(loaded)
    if loaded.gated or loaded.head is None:
        return said
    open_step = walk(replay(loaded.head, loaded.usable), shop).open
    if open_step is None:
        return {**said, "stage": "verify", "step": "", "waiting_for": "", "finished": "yes"}
    asked = said["waiting_for"] if open_step.guarded_by else open_step.title
    waits = open_step.waits_for or asked
    return {**said, "stage": open_step.stage, "step": open_step.key, "waiting_for": waits, "finished": ""}


def as_json(row: JobRow, folder: Path) -> dict[str, object]:
    """One job for a program."""
    return {
        "job": row.number,
        "file": str(folder / JOBS / row.file),
        "watch": row.watch,
        "stage": row.stage,
        "step": row.step,
        "waiting_for": row.waiting_for,
        "since": row.since,
        "attempt": row.attempt,
        "finished": row.finished,
    }
