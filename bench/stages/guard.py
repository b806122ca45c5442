"""What stands behind the checks of the lathe: turning is neither asked nor shown before they were answered.

Invariant: nothing here knows what is turned; it only asks whether the next thing to do is done at the lathe.
"""

from __future__ import annotations

from dataclasses import replace

from bench.job.asking import Stage, T
from bench.job.job import Job

LATHE_CHECKS = ("lathe_hands", "lathe_eyes", "lathe_key", "lathe_bar", "lathe_speed")
"""Keys of the checks before anything turns, in the order in which they are asked."""
OFF_THE_LATHE = ("dress", "fresh_ring", "measure_again", "attempt")
"""Steps of the third stage that are done with the ring off the lathe."""


def still_at_the_lathe(job: Job, stage: Stage[object]) -> bool:
    """Whether the first step of a stage without an answer that counts is done at the lathe."""
    try:
        step = next(stage)
        while (answer := job.fresh(step.key, step.rests_on)) is not None:
            step = stage.send(answer)
    except StopIteration:
        return False
    return step.key not in OFF_THE_LATHE


def guarded(stage: Stage[T]) -> Stage[T]:
    """The same stage with every step at the lathe put behind the checks."""
    try:
        step = next(stage)
        while True:
            keys = () if step.key in OFF_THE_LATHE else LATHE_CHECKS
            answer = yield replace(step, guarded_by=keys)
            step = stage.send(answer)
    except StopIteration as end:
        result: T = end.value
        return result
