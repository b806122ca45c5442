"""`ringwright jobs`: the list of jobs, newest first.

Invariant: it only reads.
"""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path

from bench.clean import clean
from bench.command import DONE
from bench.commands.about import Subparsers, new
from bench.commands.for_programs import numbered
from bench.desk.effects import JobRow
from bench.desk.finding import finds
from bench.file.slug import JOBS
from bench.folder import wrong_shop
from bench.job_list import listed
from bench.joining.twins import Twin, twins_in
from bench.moments import to_the_minute
from bench.progress import Progress


def add(subparsers: Subparsers) -> None:
    """Register `jobs`."""
    parser = new(subparsers, "jobs")
    parser.add_argument("--json", action="store_true", help="the same for a program")
    parser.add_argument(
        "--find",
        nargs="+",
        metavar="WORDS",
        help="only jobs in which every word is found: number, watch, remark, size of seat, glass "
        "or ring, plastic, date, result, stage",
    )
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Print the jobs of the folder."""
    progress = Progress(sys.stderr, "jobs looked at")
    found = listed(arguments.folder, open_steps=arguments.json, told=progress.told)
    progress.clear()
    twins = twins_in(arguments.folder)
    if arguments.find:
        words = " ".join(arguments.find).replace(",", ".")
        found = [row for row in found if finds(row, words)]
    if arguments.json:
        if why := wrong_shop(arguments.folder):
            print(f"ringwright: {why}; the open steps are left out", file=sys.stderr)
        print(json.dumps([numbered(as_json(row, twins.get(row.file), arguments.folder)) for row in found]))
        return DONE
    if not found:
        print(f"no jobs in {clean(str(arguments.folder))}")
    for row in found:
        print(
            clean(f"{row.number:>7}  {row.watch:<28.28}  {row.stage:<8}  {stands(row, twins.get(row.file))}")
        )
    return DONE


def stands(row: JobRow, twin: Twin | None) -> str:
    """What a job waits for, or its end and result, and since when; its next test, the job it belongs with,
    and how it stands to another copy of it.
    """
    waits = "finished" if row.finished else row.waiting_for or row.step
    since = to_the_minute(row.since)
    parts = (
        waits,
        row.result if row.finished else "",
        f"since {since}" if since else "",
        f"next test {row.retest}" if row.finished and row.retest else "",
        f"with job {row.linked}" if row.linked else "",
        twin.words if twin else "",
    )
    return ", ".join(part for part in parts if part)


def as_json(row: JobRow, twin: Twin | None, folder: Path) -> dict[str, object]:
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
        "seat": row.seat.split(", ") if row.seat else [],
        "glass": row.glass.split(", ") if row.glass else [],
        "result": row.result,
        "remark": row.remark,
        "plastic": row.plastic,
        "ring": row.ring.split(", ") if row.ring else [],
        "retest": row.retest,
        "like": row.like,
        "linked": row.linked,
        "copy": twin.state if twin else "",
        "copy_of": twin.other if twin else "",
    }
