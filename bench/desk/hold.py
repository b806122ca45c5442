"""How long a hold has run: inside one run of the program on a clock that nobody sets.

Invariant: pure; wall time counts only for what ran before this run of the program knew of the hold.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from bench.desk.token import Token
from bench.moments import seconds_between

if TYPE_CHECKING:
    from bench.desk.desk import Desk
    from bench.job.steps import Step

SELDOM_S, OFTEN_S = 300.0, 60.0
"""How often it is said what is left of a hold: while it is long, and towards its end."""


def begun(desk: Desk, stamp: str) -> Desk:
    """The desk that knows that a hold with this UTC text begins at this moment."""
    return replace(desk, holds={**desk.holds, (desk.file, stamp): desk.now})


def found(desk: Desk, token: object) -> Desk:
    """The desk that also knows the hold of the step shown, begun in an earlier run.

    What ran before is taken from the wall clock, once;
    a clock set back since starts the whole hold again, no more.
    """
    step = desk.step
    if not isinstance(token, Token) or not token.at or step is None or not (stamp := step.runs_since):
        return desk
    if (desk.file, stamp) in desk.holds:
        return desk
    began = desk.now - seconds_run(desk, stamp)
    return replace(desk, holds={**desk.holds, (desk.file, stamp): began})


def seconds_run(desk: Desk, stamp: str) -> float:
    """Seconds since the moment of a UTC text, at least 0; 0 where that is not known."""
    began = desk.holds.get((desk.file, stamp))
    run_s = seconds_between(stamp, desk.wall) if began is None else desk.now - began
    return max(0.0, run_s or 0.0)


def seconds_left(desk: Desk, step: Step) -> float:
    """Seconds until the first choice of a step opens, 0 when it is open."""
    if step.opens_after is None:
        return 0.0
    start, needed = step.opens_after
    return max(0.0, needed - seconds_run(desk, start))


def rings(step: Step) -> str:
    """Which end of a time is waited for on a step; empty where none is."""
    return f"{step.opens_after[0]} {step.opens_after[1]:g}" if step.opens_after else ""


def as_now(desk: Desk, step: Step) -> Step:
    """The step as it is shown at this moment: while its hold runs, what is done meanwhile."""
    if step.meanwhile is None or seconds_left(desk, step) <= 0:
        return step
    now = step.meanwhile
    return replace(step, title=now.title, say=now.say, cautions=now.cautions)


def is_shut(desk: Desk, step: Step, place: int) -> bool:
    """Whether the choice at a place of a step, from 0, is not open yet."""
    return place == 0 and step.kind != "number" and seconds_left(desk, step) > 0


def countdown(desk: Desk, step: Step) -> str:
    """How long is still to be waited, as a sentence; empty where nothing is."""
    left = seconds_left(desk, step)
    if left <= 0 or step.opens_after is None:
        return ""
    if step.kind == "number":
        return f"This reading is due in {lasting(left)}."
    return f"Another {lasting(left)} to hold, of {lasting(step.opens_after[1])}."


def share_run(desk: Desk, step: Step) -> float:
    """How much of the time that a step waits for has run, 0 to 1."""
    whole = step.opens_after[1] if step.opens_after else 0.0
    return 1.0 if whole <= 0 else 1.0 - seconds_left(desk, step) / whole


def until_next_word(desk: Desk, step: Step) -> float | None:
    """Seconds until it is said again what is left to be waited for; None where nothing is."""
    left = seconds_left(desk, step)
    every = SELDOM_S if left > SELDOM_S else OFTEN_S
    return left - every * (math.ceil(left / every) - 1) if left > 0 else None


def lasting(seconds: float) -> str:
    """A time to wait, rounded up to a second.

    >>> lasting(407.2), lasting(600), lasting(12)
    ('6 min 48 s', '10 min', '12 s')
    """
    minutes, rest = divmod(math.ceil(seconds - 1e-6), 60)
    return " ".join((f"{minutes} min",) * (minutes > 0) + (f"{rest} s",) * (rest > 0 or not minutes))


def ran_words(desk: Desk, step: Step) -> tuple[str, ...]:
    """How long a hold had run when its result was given, as it is written with the result; rounded down."""
    if not step.ran_since:
        return ()
    return (f"ran {math.floor(seconds_run(desk, step.ran_since) / 6.0) / 10.0:.1f} min",)
