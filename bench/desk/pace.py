"""When the keys of the answer line came: whether hands typed them or a machine, one stream of keys or two.

Invariant: pure, times in seconds on the monotonic clock of the tokens. A line that hands alone typed is never
called a machine's, nor mixed.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from bench.desk.bounce import EVEN_STEP_S

BURST_S = 0.03
"""Steps under this, most of them, are a machine's."""
HANDS_S = 0.1
"""Nobody strikes one key after another sooner; the slowest gauge takes 75 ms."""
QUIET_S = 0.5
"""So long nothing may have come before a machine is believed again; nobody measures twice within it."""
ON_THE_WAY_S = 0.4
"""Hands that strike a key so soon after a gauge's reading were keying while it came."""
STALL_S = 0.03
"""A busy computer may hand on a key of a burst so much later; a longer pause is the end of a stream."""
FIRST_OF_SERIES_S = 30.0
"""So long an announced series is waited for."""
NEXT_OF_SERIES_S = 3.0
"""So long the next reading of a series may take."""


@dataclass(frozen=True, slots=True)
class Pace:
    """What is remembered of the keys that build and end an answer."""

    last_at: float = -math.inf
    """When the last of them came."""
    steps: tuple[float, ...] = ()
    """Times between the keys that stand in the line."""
    soon: bool = False
    """The line was begun too soon after the last number."""
    unseen: bool = False
    """The line was begun before what is asked stood on the screen."""
    taken: str = ""
    """The reading accepted last, as it was sent; empty where hands keyed it."""
    after_s: float = math.inf
    """How soon after that reading the line was begun."""
    held: bool = False
    """What stands in the line waits for an Enter of the person."""
    jammed: bool = False
    """Two streams have met: nothing is taken until it has been quiet."""
    astray: bool = False
    """The last key, in machine pace, had no place in an answer."""
    number_at: float = -math.inf
    """When the last number was accepted or held."""
    broken_at: float = -math.inf
    """When a key was last lost, or a line not taken."""
    series_until: float = -math.inf
    """Up to when the next reading of an announced series may come."""

    def since(self, at: float) -> float:
        """Time since the last key."""
        return max(0.0, at - self.last_at)


def by_machine(steps: Sequence[float]) -> bool:
    """Whether a machine typed a line: most steps too short for hands, or a run of them too even."""
    from statistics import median  # only a number needs it

    return bool(steps) and (median(steps) < BURST_S or even_run(steps) < math.inf)


def quick_run(steps: Sequence[float]) -> float:
    """The longest step of the quickest three keys on end, where hands are slower; else infinite."""
    slowest = [max(pair) for pair in pairwise(steps)]
    return min((step for step in slowest if step < BURST_S), default=math.inf)


def even_run(steps: Sequence[float]) -> float:
    """The longest step of four keys on end, quicker and more even than hands; else infinite."""
    threes = [steps[place : place + 3] for place in range(len(steps) - 2)]
    even = [max(run) for run in threes if max(run) < HANDS_S and max(run) - min(run) < EVEN_STEP_S]
    return min(even, default=math.inf)


def mixed(steps: Sequence[float]) -> bool:
    """Whether a part of a line is a machine's, and a pause says that another part is of another hand."""
    return bool(steps) and max(steps) > min(quick_run(steps), even_run(steps)) + STALL_S


def with_key(pace: Pace, at: float, *, first: bool, unseen: bool) -> Pace:
    """One more key of an answer; `first` begins a line, `unseen` says that its question was not painted."""
    step = pace.since(at)
    if first:
        tail = max(0.0, at - pace.broken_at) < HANDS_S
        soon = max(0.0, at - pace.number_at) < QUIET_S
        unseen = unseen or (pace.unseen and step < HANDS_S)  # a sign came before it
        after_s = max(0.0, at - pace.number_at) if pace.taken else math.inf
        fresh = replace(pace, steps=(), soon=soon, unseen=unseen, after_s=after_s, held=False)
        return replace(fresh, last_at=at, jammed=tail, astray=False)
    steps = (*pace.steps, step)
    jammed = mixed(steps) or (pace.astray and step < BURST_S)
    return replace(pace, last_at=at, steps=steps, jammed=jammed, astray=False)


def one_less(pace: Pace, at: float, *, typing: bool) -> Pace:
    """A key that takes back, or does nothing while something is typed."""
    astray = typing and pace.since(at) < HANDS_S
    return replace(pace, last_at=at, broken_at=-math.inf, steps=pace.steps[:-1], astray=astray)


def lost(pace: Pace, at: float) -> Pace:
    """A key came that counts for nothing."""
    return replace(pace, last_at=at, broken_at=at)


def crosses(pace: Pace, text: str, *, ended: bool, fits: bool) -> bool:
    """Whether a line goes on where the reading just accepted ended, so that it ran through that reading.

    Keyed on by hands; or sent on sooner than hands could, and not of its form, digit for digit. What does
    not fit what is asked now (`fits`) is at best the same reading once more.
    """
    if not pace.taken:
        return False
    if pace.steps and pace.steps[-1] >= HANDS_S:
        return pace.after_s < ON_THE_WAY_S
    here, there = text, pace.taken
    if fits:
        here, there = (re.sub("[0-9]", "0", each) for each in (here, there))
    return pace.after_s < HANDS_S and here != (there if ended else there[: len(here)])
