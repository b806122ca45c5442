"""`ringwright shop --year`: a year of the shop, and what waits: as text, CSV, JSON or one page of PDF.

Invariant: it only reads, and writes nothing but the file that was asked for.
"""

from __future__ import annotations

import argparse
import sys
from dataclasses import asdict
from pathlib import Path
from typing import Any

from bench.clean import clean
from bench.clocks import wall_now
from bench.command import COULD_NOT_WRITE, DONE, Refused
from bench.commands.for_programs import give
from bench.desk.effects import JobRow
from bench.file.aside import write_aside
from bench.file.plain import cause
from bench.job_list import listed
from bench.progress import Progress
from bench.shop.shop import Shop
from bench.year.counted import NextTest, Year, due, year_of
from bench.year.look import facts_in
from bench.year.words import reminder_lines, table, year_lines
from rules.lengths import speaking

FIRST, LAST = 1970, 9999


def options(parser: argparse.ArgumentParser) -> None:
    """The options of a year."""
    parser.add_argument(
        "--year",
        nargs="?",
        type=int,
        const=0,
        metavar="YEAR",
        help="a year, usually this one, and what waits",
    )
    parser.add_argument("--csv", type=Path, metavar="FILE", help="that year as CSV; - for standard output")
    parser.add_argument(
        "--pdf", type=Path, metavar="FILE", help="that year as one page with plots; - for standard output"
    )


def run(arguments: argparse.Namespace, shop: Shop) -> int:
    """Count the year and give it as it was asked for."""
    today = wall_now()
    wanted = arguments.year or int(today[:4])
    if not FIRST <= wanted <= LAST:
        raise Refused(f"--year {wanted}: a year from {FIRST} to {LAST}")
    progress = Progress(sys.stderr, "jobs read")
    facts, unused = facts_in(arguments.folder, shop, told=progress.told)
    progress.clear()
    year, (soon, longer) = year_of(facts, wanted), due(facts, today)
    if arguments.csv is not None:
        return written(arguments.csv, table(year))
    if arguments.pdf is not None:
        return on_paper(arguments.pdf, year, shop)
    waiting = [row for row in listed(arguments.folder) if not row.finished]
    if arguments.json:
        give(year_json(year, unused, waiting, soon, longer))
        return DONE
    with speaking(shop.works_in):
        lines = [*year_lines(year, unused), *reminder_lines(waiting, soon, longer, today)]
    print("\n".join(map(clean, lines)))
    return DONE


def written(path: Path, text: str) -> int:
    """Write a table, or print it."""
    if str(path) == "-":
        print(text, end="")
        return DONE
    try:
        write_aside(path, text.encode("utf-8"))
    except OSError as why:
        raise Refused(f"{clean(str(path))} could not be written: {cause(why)}", COULD_NOT_WRITE) from why
    print(clean(str(path)))
    return DONE


def on_paper(path: Path, year: Year, shop: Shop) -> int:
    """Write the page."""
    from bench.paper.page import NotOnPaper, said_of
    from bench.paper.year import write_year

    try:
        with speaking(shop.works_in):
            notes = write_year(year, shop.shop_name, path)
    except NotOnPaper as why:
        raise Refused(str(why), COULD_NOT_WRITE) from why
    said_of(path, notes)
    return DONE


def year_json(
    year: Year, unused: int, waiting: list[JobRow], soon: tuple[NextTest, ...], longer: int
) -> dict[str, Any]:
    """The same for a program, times in minutes and lengths in mm."""
    return {
        "year": year.year,
        "jobs": year.jobs,
        "whole": asdict(year.whole),
        "months": [asdict(one) for one in year.months],
        "made": [{"kind": kind, "made": count} for kind, count in year.made],
        "bars": [{"bar": bar, "taken_mm": taken} for bar, taken in year.bars],
        "other_years": [{"year": one, "jobs": count} for one, count in year.others],
        "files_not_counted": unused,
        "waiting": [
            {"job": row.number, "watch": row.watch, "waiting_for": row.waiting_for, "since": row.since}
            for row in waiting
        ],
        "due": [asdict(one) for one in soon],
        "due_longer": longer,
    }
