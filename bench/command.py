"""Headless commands: one parser, one line on standard error for bad input, one exit status each.

Invariant: no command raises a traceback at the user; every refusal is a `Refused` with a status.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Sequence
from typing import NoReturn

from bench.clean import clean

DONE = 0
FOUND_SOMETHING = 1
BAD_INPUT = 2
COULD_NOT_WRITE = 3
OUR_FAULT = 4


class Refused(Exception):
    """A plain-words refusal and the exit status that goes with it."""

    def __init__(self, why: str, status: int = BAD_INPUT) -> None:
        super().__init__(clean(why))
        self.status = status


class Parser(argparse.ArgumentParser):
    """An argument parser that refuses in one line instead of printing its usage."""

    def error(self, message: str) -> NoReturn:
        raise Refused(message)


Run = Callable[[argparse.Namespace], int]


def report(run: Run, arguments: argparse.Namespace) -> int:
    """Run one command; a refusal becomes one line on standard error and its status."""
    try:
        return run(arguments)
    except Refused as refused:
        print(f"ringwright: {' '.join(str(refused).split())}", file=sys.stderr)
        return refused.status


def parse(parser: Parser, words: Sequence[str]) -> argparse.Namespace:
    """Parse the words of a command line; raises Refused on bad input."""
    return parser.parse_args(list(words))
