"""`ringwright join A B`: two copies of one job that went on apart, joined into a third file.

Invariant: nothing is written before every question is answered, and neither copy is touched.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from bench.clean import clean
from bench.clocks import wall_now
from bench.command import COULD_NOT_WRITE, DONE, Refused
from bench.commands.about import Subparsers, new
from bench.file.plain import NotSaved
from bench.folder import shop_in
from bench.joining.asked import Question, Undecided
from bench.joining.twins import PARTED, twins_in
from bench.joining.writing import TwoCopies, pair_of, write_joined
from bench.side_by_side import asks
from bench.which_job import files_of, find_job

CHOICES = ("1", "2")


def add(subparsers: Subparsers) -> None:
    """Register `join`."""
    parser = new(subparsers, "join")
    parser.add_argument("one", metavar="A", help="number of a job, or a session file")
    parser.add_argument("other", metavar="B", nargs="?", help="the other copy; found in the folder without")
    parser.add_argument(
        "--decide", metavar="KEY=1|2", action="append", default=[], help="which copy is right about a key"
    )
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Ask what is not decided, write the third file and print its path."""
    folder: Path = arguments.folder
    shop = shop_in(folder)
    found = files_of(folder, arguments.one)
    one, other = (found[0], find_job(folder, arguments.other)) if arguments.other else apart(folder, found)
    pair = pair_of(one, other, shop)
    for line in asks(pair).said:
        print(clean(line))
    decided = given(arguments.decide)
    while True:
        try:
            made = write_joined(pair, decided, shop, at=wall_now())
        except Undecided as needed:
            decided[needed.question.key] = ask(pair, needed.question)
        except NotSaved as error:
            raise Refused(error.why, COULD_NOT_WRITE) from error
        else:
            print(clean(str(made)))
            return DONE


def apart(folder: Path, found: list[Path]) -> tuple[Path, Path]:
    """Two copies that went on apart, of the files of a job; raises Refused where there are none."""
    twins = twins_in(folder)
    for one in found:
        if one.name in twins and twins[one.name].state == PARTED:
            return one, one.with_name(twins[one.name].other)
    one = found[0]
    stands = f": {one.name} is {twins[one.name].words}" if one.name in twins else ""
    raise Refused(f"no copy of {clean(one.name)} that went on otherwise{clean(stands)}")


def given(decide: list[str]) -> dict[str, int]:
    """What was decided beforehand; raises Refused."""
    found: dict[str, int] = {}
    for text in decide:
        key, equals, choice = text.partition("=")
        if not equals or choice not in CHOICES:
            raise Refused(f"--decide {clean(text)}: a key, = and 1 or 2, such as glass_1=2")
        found[key] = CHOICES.index(choice)
    return found


def ask(pair: TwoCopies, question: Question) -> int:
    """One question in plain lines; raises Refused where the input ends."""
    print(clean(f"[{question.key}] {question.title}"))
    for number, said, name in zip(CHOICES, question.said, pair.names, strict=True):
        print(clean(f"  {number} {said}   ({name})"))
    while (line := sys.stdin.readline() if sys.stdin is not None else "") != "":
        if line.strip() in CHOICES:
            return CHOICES.index(line.strip())
        print("1 or 2")
    raise Refused(f"nothing is written: {question.key} is not decided; add --decide {question.key}=1 or =2")
