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


def ran_words(desk: Desk, step: Step) -> tuple[str, ...]:
    """How long a hold had run when its result was given, as it is written with the result; rounded down."""
    if not step.ran_since:
        return ()
    return (f"ran {math.floor(seconds_run(desk, step.ran_since) / 6.0) / 10.0:.1f} min",)
