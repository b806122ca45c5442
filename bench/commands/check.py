"""`ringwright check FILE`: what a session file is, in words a repairer understands.

Invariant: it never writes, neither to the file nor beside it.
"""

from __future__ import annotations

import argparse
from pathlib import Path

from bench.clean import clean
from bench.command import DONE, FOUND_SOMETHING, Refused
from bench.commands.about import Subparsers, new
from bench.commands.for_programs import give
from bench.edits.judging import judged
from bench.file.check import explain
from bench.folder import shop_in
from bench.shop.shop import Shop, built_in

_GOOD = frozenset({"fine", "unfinished"})


def add(subparsers: Subparsers) -> None:
    """Register `check`."""
    parser = new(subparsers, "check")
    parser.add_argument("file", metavar="FILE", type=Path, help="the session file")
    parser.add_argument("--json", action="store_true", help="the same for a program")
    parser.set_defaults(run=run)


def shop_of(folder: Path | None) -> Shop:
    """The shop of a folder; the built-in one where its file is wrong: `check` is about another file."""
    try:
        return shop_in(folder) if folder is not None else built_in()
    except Refused:
        return built_in()


def run(arguments: argparse.Namespace) -> int:
    """Print the explanation; status 0 for fine and unfinished, 1 otherwise, 2 for no such file."""
    path: Path = arguments.file
    shop = shop_of(arguments.folder)
    try:
        found = explain(path, lambda loaded: judged(loaded, shop))
    except OSError as error:
        raise Refused(f"no such file: {clean(str(path))}") from error
    if arguments.json:
        give(found.as_json(str(path)))
    else:
        print(f"{clean(str(path))}: {found.message}")
        for words in found.details:
            print(f"  {words}")
    return DONE if found.state in _GOOD else FOUND_SOMETHING
