"""`ringwright sheet JOB`: what was made and proved for the customer, everything for the workshop; as text, as
data, or on paper.

Invariant: it only reads, and never computes a finished job again; nothing is written but the PDF asked for.
"""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import Any

from bench.command import COULD_NOT_WRITE, DONE, Refused
from bench.commands.about import Subparsers, new
from bench.commands.for_programs import give
from bench.edits.stored import read
from bench.file.entry import Entry
from bench.file.slug import number_of, own_number
from bench.folder import shop_in
from bench.job.job import Job
from bench.job.standing import last_said
from bench.languages import LANGUAGES, language_words
from bench.seals.seal import Section
from bench.seals.several import seals_of
from bench.sheet.bench_time import bench_minutes
from bench.sheet.customer_text import customer_lines, papers_data
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from bench.sheet.tongue import ENGLISH, Tongue
from bench.sheet.turning import plan_lines
from bench.sheet.workshop import shop_copy
from bench.shop.shop import Shop, built_in
from bench.which_job import find_job
from rules.lengths import MM, speaking


def add(subparsers: Subparsers) -> None:
    """Register `sheet`."""
    parser = new(subparsers, "sheet")
    parser.add_argument("job", metavar="JOB", help="number of a job, or a session file")
    parser.add_argument("--json", action="store_true", help="everything for a program")
    parser.add_argument(
        "--shop",
        action="store_true",
        help="the workshop's sheet: every reading, uncertainty and attempt, tools and offsets, the plan, "
        "corrected results and the time at the bench",
    )
    parser.add_argument(
        "--pdf",
        metavar="FILE",
        type=Path,
        help="write it as PDF, with a section of the seal; - for standard output",
    )
    parser.add_argument(
        "--slip",
        metavar="FILE",
        type=Path,
        help="write the slip for the bag as PDF, with the job's number as a QR code; - for standard output",
    )
    parser.add_argument(
        "--size",
        metavar="WxH",
        help="size of the slip in mm, such as 62x40 for a label printer (usual 60x90)",
    )
    parser.add_argument(
        "--language",
        choices=tuple(LANGUAGES),
        help="language of the customer's sheet and of the slip (usual: that of the job, else of the shop); "
        + ", ".join(language_words()),
    )
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Print or write the sheet; raises Refused when the file cannot be used
    as it is or the PDF not written.
    """
    if arguments.json and (arguments.pdf or arguments.slip):
        raise Refused("give --json, or --pdf and --slip, not both")
    if arguments.size is not None and not arguments.slip:
        raise Refused("--size is the size of the slip: give --slip too")
    if arguments.language is not None and arguments.shop and not (arguments.slip or arguments.json):
        raise Refused("--language is for the customer's sheet and the slip; the workshop's is in English")
    path = find_job(arguments.folder, arguments.job)
    job, entries, shop = job_and_shop(path, arguments.folder)
    data = sheet_data(
        job,
        finished=shop is None or is_finished(job, shop),
        shop_name=shop.shop_name if shop else "",
        tester_number=shop.tester_number if shop else "",
    )
    data["opens_by"] = number_of(path.name) or own_number(path.name)
    minutes, tongue = bench_minutes(entries), tongue_for(arguments.language, data, shop)
    if arguments.json:
        give(for_programs(data, minutes, shop=arguments.shop, tongue=tongue))
        return DONE
    with speaking(shop.works_in if shop else MM):
        more = shop_copy(data, minutes, plan_of(job, shop, data)) if arguments.shop else None
        if arguments.pdf or arguments.slip:
            return on_paper(arguments, data, more, tongue)
        on_screen(data, more, tongue)
    return DONE


def tongue_for(asked: str | None, data: dict[str, Any], shop: Shop | None) -> Tongue:
    """The language of the customer's papers: as asked for, else that of the job, else of the shop."""
    own = (data["papers_in"], shop.papers_in if shop else ENGLISH.language.word)
    return Tongue(LANGUAGES[asked or next(word for word in own if word in LANGUAGES)])


def for_programs(
    data: dict[str, Any], minutes: tuple[float, float], *, shop: bool, tongue: Tongue = ENGLISH
) -> dict[str, Any]:
    """Everything for a program; the workshop's own notes only where its sheet is asked for."""
    times = {"bench_minutes": round(minutes[0], 1), "parked_minutes": round(minutes[1], 1)}
    return {**data, **({} if shop else {"shop_notes": []}), **times, **papers_data(data, tongue)}


def plan_of(job: Job, shop: Shop | None, data: dict[str, Any]) -> tuple[str, ...]:
    """The turning plan of a job that is over, by which nobody turns any more; else where it is to be had."""
    found = {one.number: one.seal.plan(one.job, shop)[0] for one in seals_of(job)} if shop else {}
    lines: list[str] = []
    for number, plan in found.items():
        if plan is None:
            continue
        if number > 1:
            lines.append(f"Seal {number}:")
        if data["finished"]:
            lines += [line for line in plan_lines(plan[0])[1:] if line]
        else:
            lines.append(f"Pass by pass: ringwright plan {data['job']}" + f" --seal {number}" * (number > 1))
    return tuple(lines)


def on_screen(data: dict[str, Any], more: Sequence[Section] | None, tongue: Tongue) -> None:
    """Print the customer's sheet, or the workshop's with what only that says."""
    from rich.console import Console
    from rich.text import Text

    console = Console(highlight=False, markup=False, emoji=False)
    columns = min(console.width, 80)
    if more is None:
        lines = customer_lines(data, tongue, columns=columns)
    else:
        lines = sheet_lines(data, more, columns=columns)
    with console.capture() as printed:  # a reader that goes away early is no fault of the sheet
        for text in lines:
            console.print(Text(text), soft_wrap=True)
    print(printed.get(), end="", flush=True)


def on_paper(
    arguments: argparse.Namespace, data: dict[str, Any], more: Sequence[Section] | None, tongue: Tongue
) -> int:
    """Write the PDFs that were asked for, and say where they are and what is to be said of them."""
    from bench.paper.customer import write_customers
    from bench.paper.page import NotOnPaper, said_of
    from bench.paper.sheet import write_workshops
    from bench.paper.slip import write_slip

    if arguments.pdf and arguments.slip and arguments.pdf.resolve() == arguments.slip.resolve():
        raise Refused(f"{arguments.pdf}: sheet and slip need two files; give another name")
    try:
        if arguments.pdf:
            written = partial(write_customers, tongue=tongue)
            if more is not None:
                written = partial(write_workshops, more=more)
            said_of(arguments.pdf, written(data, arguments.pdf))
        if arguments.slip:
            number, size = data["opens_by"], label_mm(arguments.size)
            notes = write_slip(data, arguments.slip, opens_by=number, size_mm=size, tongue=tongue)
            said_of(arguments.slip, notes)
    except NotOnPaper as why:
        raise Refused(str(why), COULD_NOT_WRITE) from why
    return DONE


def label_mm(text: str | None) -> tuple[float, float]:
    """Width and height of the slip; raises Refused."""
    from bench.paper.slip import LEAST_MM, MOST_MM, SLIP_MM

    if text is None:
        return SLIP_MM
    found = re.fullmatch(r"(\d{1,3}(?:[.,]\d{1,2})?)x(\d{1,3}(?:[.,]\d{1,2})?)", text.strip().lower())
    sides = [float(side.replace(",", ".")) for side in found.groups()] if found else []
    spans = list(zip(LEAST_MM, MOST_MM, strict=True))
    if not sides or not all(low <= side <= high for side, (low, high) in zip(sides, spans, strict=True)):
        (least_w, most_w), (least_h, most_h) = spans
        raise Refused(
            f"--size {text}: give width x height in mm, such as 62x40 "
            f"(allowed: {least_w:g} to {most_w:g} wide, {least_h:g} to {most_h:g} high)"
        )
    return sides[0], sides[1]


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
