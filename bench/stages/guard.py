"""What stands behind checks: turning, or raising pressure,
is neither asked nor shown before they were answered.

Invariant: nothing here knows what is turned or tested;
it only asks whether a step is done at lathe or tester.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from bench.job import keys
from bench.job.asking import Stage, T
from bench.job.job import Job
from bench.job.route import assumed_for, given
from bench.job.steps import Step, Words
from rules.turning import operations

LATHE_CHECKS = (keys.LATHE_HANDS, keys.LATHE_EYES, keys.LATHE_KEY, keys.LATHE_BAR, keys.LATHE_SPEED)
"""Keys of the checks before anything turns, in the order in which they are asked;
the last only where the lathe shows its speed.
"""
OFF_THE_LATHE = (operations.DRESS, keys.FRESH_RING, keys.MEASURE_AGAIN, keys.ATTEMPT)
"""Steps of the third stage that are done with the ring off the lathe."""


def at_the_lathe(step: Step) -> bool:
    """Whether a step of the third stage is done at the lathe."""
    return step.key not in OFF_THE_LATHE


def still_at_the_lathe(
    job: Job, stage: Stage[object], off: Callable[[Step], bool] = lambda step: not at_the_lathe(step)
) -> bool:
    """Whether the first step of a stage without an answer that counts is done at the lathe; `off` says which
    are not.
    """
    try:
        step = next(stage)
        while (answer := given(job, step) or (assumed_for(step) if step.optional else None)) is not None:
            step = stage.send(answer)
    except StopIteration:
        return False
    return not off(step)


def guarded(stage: Stage[T], checks: Words, behind: Callable[[Step], bool], *, by: Words = ()) -> Stage[T]:
    """The same stage with every step that `behind` names put behind the checks;
    `by`: what of the shop these go by.
    """
    try:
        step = next(stage)
        while True:
            answer = yield replace(step, guarded_by=checks, goes_by=by) if behind(step) else step
            step = stage.send(answer)
    except StopIteration as end:
        result: T = end.value
        return result
