"""`ringwright new`: a new job, by itself or one like an old one, to be opened at the bench.

Invariant: the old job is only read; a number that is taken is refused.
"""

from __future__ import annotations

import argparse

from bench.begin import begin
from bench.clean import clean
from bench.clocks import wall_now
from bench.command import COULD_NOT_WRITE, DONE, Refused
from bench.commands.about import Subparsers, new
from bench.file.plain import CannotOpen, NotSaved
from bench.folder import shop_in
from bench.which_job import find_job


def add(subparsers: Subparsers) -> None:
    """Register `new`."""
    parser = new(subparsers, "new")
    parser.add_argument("number", nargs="?", type=int, metavar="NUMBER", help="as on the repair bag")
    parser.add_argument(
        "--like", metavar="JOB", help="offer what is known of that job; everything is measured again"
    )
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Begin the job and print its number and file."""
    shop = shop_in(arguments.folder)
    like = find_job(arguments.folder, arguments.like) if arguments.like is not None else None
    try:
        session = begin(arguments.folder, shop, number=arguments.number, like=like, wall=wall_now)
    except NotSaved as why:
        raise Refused(why.why, COULD_NOT_WRITE) from why
    except CannotOpen as why:
        raise Refused(why.why) from why
    with session:
        assert session.head is not None
        print(clean(f"job {session.head.job}: {session.path}"))
    return DONE
