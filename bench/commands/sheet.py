"""`ringwright sheet JOB`: what was measured, made and proved, as text, as data, or on paper.

Invariant: it only reads, and never computes a finished job again; nothing is written but the PDF asked for.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from bench.clean import clean
from bench.command import COULD_NOT_WRITE, DONE, Refused
from bench.edits.stored import read
from bench.file.entry import Entry
from bench.folder import find_job, shop_in
from bench.job.job import Job
from bench.job.standing import last_said
from bench.sheet.bench_time import bench_minutes
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from bench.sheet.workshop import shop_copy
from bench.shop.shop import Shop, built_in
from rules.lengths import MM, speaking


def add(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Register `sheet`."""
    parser = subparsers.add_parser("sheet", help="print the sheet of a job")
    parser.add_argument("job", help="number of a job, or a session file")
    parser.add_argument("--json", action="store_true", help="the same for a program")
    parser.add_argument(
        "--shop",
        action="store_true",
        help="the shop's own copy, with corrected results and the time at the bench",
    )
    parser.add_argument(
        "--pdf", metavar="FILE", type=Path, help="write it as PDF, with a section of the seal"
    )
    parser.add_argument(
        "--slip", metavar="FILE", type=Path, help="write the slip for the bag, 60 x 90 mm, as PDF"
    )
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Print or write the sheet; raises Refused when the file cannot be used
    as it is or the PDF not written.
    """
    if arguments.json and (arguments.pdf or arguments.slip):
        raise Refused("give --json, or --pdf and --slip, not both")
    path = find_job(arguments.folder, arguments.job)
    job, entries, shop = job_and_shop(path, arguments.folder)
    data = sheet_data(
        job,
        finished=shop is None or is_finished(job, shop),
        shop_name=shop.shop_name if shop else "",
        tester_number=shop.tester_number if shop else "",
    )
    minutes = bench_minutes(entries)
    if arguments.json:
        times = {"bench_minutes": round(minutes[0], 1), "parked_minutes": round(minutes[1], 1)}
        print(json.dumps({**data, **times}))
        return DONE
    with speaking(shop.works_in if shop else MM):
        more = shop_copy(data, minutes) if arguments.shop else ()
        if arguments.pdf or arguments.slip:
            return on_paper(arguments, data, more)
        on_screen(data, more)
    return DONE


def on_screen(data: dict[str, Any], more: tuple[str, ...]) -> None:
    """Print the sheet, with the shop's own lines below it."""
    from rich.console import Console
    from rich.text import Text

    console = Console(highlight=False, markup=False, emoji=False)
    below = ("", "For the shop", *(f"  {text}" for text in more)) if more else ()
    with console.capture() as printed:  # a reader that goes away early is no fault of the sheet
        for text in (*sheet_lines(data, columns=min(console.width, 80)), *below):
            console.print(Text(text), soft_wrap=True)
    print(printed.get(), end="", flush=True)


def on_paper(arguments: argparse.Namespace, data: dict[str, Any], more: tuple[str, ...]) -> int:
    """Write the PDFs that were asked for, and say where they are and what is to be said of them."""
    from bench.paper.page import NotOnPaper
    from bench.paper.sheet import write_sheet, write_slip

    if arguments.pdf and arguments.slip and arguments.pdf.resolve() == arguments.slip.resolve():
        raise Refused(f"{arguments.pdf}: sheet and slip need two files; give another name")
    try:
        notes: list[str] = []
        if arguments.pdf:
            notes += write_sheet(data, arguments.pdf, more=more)
            print(clean(str(arguments.pdf)))
        if arguments.slip:
            notes += write_slip(data, arguments.slip)
            print(clean(str(arguments.slip)))
        for note in dict.fromkeys(notes):
            print(note)
    except NotOnPaper as why:
        raise Refused(str(why), COULD_NOT_WRITE) from why
    return DONE


def job_and_shop(path: Path, folder: Path) -> tuple[Job, tuple[Entry, ...], Shop | None]:
    """The job, its entries and the shop; None where the shop file is wrong and the job finished without it:
    its sheet reads answers alone. Raises Refused.
    """
    try:
        shop = shop_in(folder)
    except Refused as wrong:
        job, entries = read(path, built_in())
        if not is_over(entries):
            raise
        print(f"ringwright: {wrong}; name and tester of the shop are left out", file=sys.stderr)
        return job, entries, None
    return *read(path, shop), shop


def is_over(entries: Sequence[Entry]) -> bool:
    """Whether a job says of itself that it is finished."""
    said = last_said(reversed(entries))
    return said is not None and said.over


def is_finished(job: Job, shop: Shop) -> bool:
    """Whether nothing is left to do in a job."""
    from bench.stages.whole import walk

    return walk(job, shop).open is None
