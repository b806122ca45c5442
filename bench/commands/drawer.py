"""`ringwright drawer`: rings that no job has used, and what is left of bars, from the jobs alone.

Invariant: it only reads.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable
from dataclasses import asdict
from functools import partial
from typing import Any

from bench.clean import clean
from bench.clocks import wall_now
from bench.command import DONE
from bench.commands.about import Subparsers, new
from bench.commands.for_programs import give
from bench.folder import shop_in
from bench.in_numbers import apply_to_many
from bench.job.drawer_said import EMPTY, drawer_words
from bench.job.in_drawer import Drawer, Lying
from bench.past.drawer import drawer_in
from bench.progress import Progress
from rules.lengths import speaking


def add(subparsers: Subparsers) -> None:
    """Register `drawer`."""
    parser = new(subparsers, "drawer")
    parser.add_argument("--json", action="store_true", help="the same for a program, lengths in mm")
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Print what lies in the drawer of the folder."""
    progress = Progress(sys.stderr, "jobs looked at")
    shop = shop_in(arguments.folder)
    found = drawer_in(arguments.folder, wall_now, apply=partial(apply_to_many, told=progress.told))
    progress.clear()
    if arguments.json:
        give(drawer_data(found))
        return DONE
    with speaking(shop.works_in):
        print("\n".join(map(clean, lines_of(found))))
    return DONE


def lines_of(drawer: Drawer) -> Iterable[str]:
    """The drawer, a line each."""
    parts = drawer_words(drawer)
    for heading, lines in parts:
        yield heading
        yield from (f"  {line}" for line in lines)
    if not parts:
        yield EMPTY


def drawer_data(drawer: Drawer) -> dict[str, Any]:
    """The drawer for a program."""
    return {"rings": list(map(ring_data, drawer.rings)), "bars": [asdict(one) for one in drawer.bars]}


def ring_data(ring: Lying) -> dict[str, Any]:
    """A ring for a program."""
    return {**asdict(ring), "walls_mm": list(ring.walls_mm), "offered": offered(ring)}


def offered(ring: Lying) -> bool:
    """Whether it is offered where it fits."""
    return bool(ring.free and ring.walls_mm and ring.plastic)
