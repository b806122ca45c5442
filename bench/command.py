"""Headless commands: one parser, one line on standard error for bad input, one exit status each.

Invariant: no command raises a traceback at the user; every refusal is a `Refused` with a status.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, NoReturn

from bench.refusal import (
    BAD_INPUT as BAD_INPUT,
    COULD_NOT_WRITE as COULD_NOT_WRITE,
    DONE as DONE,
    FOUND_SOMETHING as FOUND_SOMETHING,
    OUR_FAULT as OUR_FAULT,
    HelpGiven as HelpGiven,
    Refused as Refused,
)

if TYPE_CHECKING:
    from _typeshed import SupportsWrite


class Parser(argparse.ArgumentParser):
    """An argument parser that refuses in one line instead of printing its usage, and says it where its help
    could not be printed.
    """

    def error(self, message: str) -> NoReturn:
        raise Refused(message)

    def exit(self, status: int = 0, message: str | None = None) -> NoReturn:
        raise HelpGiven

    def _print_message(self, message: str, file: SupportsWrite[str] | None = None) -> None:
        print(message, end="", file=file)


RunCommand = Callable[[argparse.Namespace], int]


def report(run: RunCommand, arguments: argparse.Namespace) -> int:
    """Run one command; a refusal becomes one line on standard error and its status."""
    try:
        return run(arguments)
    except Refused as refused:
        print(f"ringwright: {' '.join(str(refused).split())}", file=sys.stderr)
        return refused.status


def parse(parser: Parser, words: Sequence[str]) -> argparse.Namespace:
    """Parse the words of a command line; raises Refused on bad input."""
    return parser.parse_args(list(words))
