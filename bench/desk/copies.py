"""Copies of one job on the list of jobs: looked for while nothing else is to be done, said, and compared.

Invariant: a copy that went on otherwise is not opened before the person has seen that there are two.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bench.desk.copy_effects import Asks, Compare, CopiesFound
from bench.desk.desk import Desk
from bench.desk.effects import Effect, Open
from bench.desk.pages import Outcome
from bench.desk.replacing import Sure, Way
from bench.desk.sure import asked
from bench.desk.typed import AnswerLine

PARTED = "parted"
"""State of a copy that went on otherwise than another."""


def looking(desk: Desk) -> bool:
    """Whether copies are still looked for: once for each list of jobs."""
    return desk.page == "jobs" and len(desk.names) > 1 and desk.twins_of is not desk.names


def found(desk: Desk, token: CopiesFound) -> Outcome:
    """Some more is known of copies."""
    return replace(desk, twins=token.twins, twins_of=desk.names if token.complete else desk.twins_of), ()


def chosen(desk: Desk, names: Sequence[str]) -> Effect | None:
    """What opens a job of which several copies fit: the only one that is gone on with, or two side by side;
    None where they are not copies of one job.
    """
    twins = [desk.twins[name] for name in names if name in desk.twins]
    of_one = {name for name in names if name in desk.twins} | {twin.other for twin in twins}
    if not twins or not of_one.issuperset(names):
        return None
    if (parted := next((name for name in names if is_parted(desk, name)), None)) is not None:
        return Compare((parted, desk.twins[parted].other))
    current = [name for name in names if name not in desk.twins]
    return Open(current[0]) if current and len(names) > 1 else None


def is_parted(desk: Desk, name: str) -> bool:
    """Whether a copy went on otherwise than another."""
    return name in desk.twins and desk.twins[name].state == PARTED


def asks(desk: Desk, token: Asks) -> Outcome:
    """The page that asks, in place of the one before."""
    ways = tuple(Way(word, text, leads=(effect,)) for word, text, effect in token.ways)
    under = replace(desk, page="jobs", trail=(), line=AnswerLine(), message="", scroll=0)
    return asked(under, Sure(token.heading, token.said, ways))
