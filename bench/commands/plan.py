"""`ringwright plan JOB`: the turning plan of a job as a sheet, as data, or as a PDF.

Invariant: the same job gives the same output; nothing is written but the PDF that was asked for.
"""

from __future__ import annotations

import argparse
from pathlib import Path

from bench.command import COULD_NOT_WRITE, DONE, Refused
from bench.commands.about import Subparsers, new
from bench.commands.for_programs import give
from bench.folder import shop_in
from bench.seals.seal import Drawing
from bench.sheet.turning import plan_json, plan_text
from rules.lengths import MM, speaking
from rules.turning.passes import Plan


def add(subparsers: Subparsers) -> None:
    """Register `plan`."""
    parser = new(subparsers, "plan")
    parser.add_argument("job", metavar="JOB", help="number of the job, or path of its file")
    parser.add_argument("--json", action="store_true", help="as one JSON object")
    parser.add_argument(
        "--pdf",
        metavar="FILE",
        type=Path,
        help="write the sheet with a section drawing as PDF; - for standard output",
    )
    parser.add_argument(
        "--seal",
        metavar="N",
        type=int,
        default=1,
        help="which seal of the job, where it has several (usual 1, the one it began with)",
    )
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Print the plan; with `--pdf` write it."""
    from bench.sheet.job_plan import plan_of

    with speaking(MM if arguments.json else shop_in(arguments.folder).works_in):
        return _said(arguments, *plan_of(arguments.folder, arguments.job, arguments.seal))


def _said(arguments: argparse.Namespace, plan: Plan, drawing: Drawing) -> int:
    """The plan as it was asked for."""
    from bench.sheet.pace import pace_in

    if arguments.pdf is not None:
        from bench.paper.page import NotOnPaper, said_of
        from bench.paper.plan import write_plan

        try:
            notes = write_plan(plan, drawing, title=f"job {arguments.job}", path=arguments.pdf)
        except NotOnPaper as why:
            raise Refused(str(why), COULD_NOT_WRITE) from why
        said_of(arguments.pdf, notes)
        return DONE
    if arguments.json:
        give(plan_json(plan), indent=1)
    else:
        print(plan_text(plan, pace_in(arguments.folder)), end="")
    return DONE
