"""Refusals in plain words and the exit statuses of the program.

Invariant: whatever a refusal repeats of what was given can do nothing to the terminal.
"""

from __future__ import annotations

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


class HelpGiven(Exception):
    """What was asked of the parser itself is printed: nothing is left to do."""
