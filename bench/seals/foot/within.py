"""What the ring with a foot takes from another kind of seal: its stages, asked under keys of its own.

Invariant: such a stage sees the answers of the ring with a foot alone, under the keys it knows, and what it
asks goes into the file under other keys; what every kind shares keeps its key.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from bench.job import keys
from bench.job.asking import Stage, T
from bench.job.job import Answer, Job
from bench.job.steps import Choice, Step
from bench.seals.foot import own_keys
from bench.stages.again import SEARCHED
from bench.stages.guard import LATHE_CHECKS

SHARED = frozenset((keys.SITTING, keys.SEAL, keys.LATHE_SLIP, *LATHE_CHECKS, *SEARCHED, "jobs", "shop", ""))
"""Keys that every kind of seal has alike, and places that a choice may lead to."""
OF_TESTS = re.compile("|".join([*(f"{one.name}_.+" for one in keys.SITTINGS), keys.asked_in_search(".+")]))
"""Keys of the tests and of the search for a leak."""
NAMED = {keys.RING: own_keys.ACCEPTED, keys.FIT_OUTCOME: own_keys.LAID}
"""Keys that have a name of their own here: what is accepted, and how it is put in, are found by them."""
BACK = {own: key for key, own in NAMED.items()}
Restated = Callable[[Step], Step]


def own(key: str) -> str:
    """The key under which it is kept; one of this seal is kept as it is."""
    if key in SHARED or OF_TESTS.fullmatch(key) or own_keys.without(key):
        return key
    return NAMED.get(key) or own_keys.of(key)


def theirs(key: str) -> str:
    """The key that a stage of another kind knows it by; empty where it may not see it."""
    if key in SHARED or OF_TESTS.fullmatch(key):
        return key
    return BACK.get(key) or own_keys.without(key)


def seen(job: Job) -> Job:
    """The job as a stage of another kind sees it."""
    return job.renamed(theirs)


def own_step(step: Step) -> Step:
    """A step of another kind under the keys of this one; nothing is looked up in other jobs for it."""
    return replace(
        step,
        key=own(step.key),
        rests_on=tuple(map(own, step.rests_on)),
        choices=tuple(map(_leading, step.choices)),
        learns=(),
        looks_for=(),
    )


def _leading(choice: Choice) -> Choice:
    return replace(choice, goto=own(choice.goto)) if choice.goto else choice


def as_own(
    stage: Stage[T], *, change: Restated | None = None, taken: Mapping[str, str] | None = None
) -> Stage[T]:
    """A stage of another kind asked under the keys of this one.

    `change`: how a step is said here, under the key that the stage knows; `taken`: what is not asked here, by
    key, with the answer that holds.
    """
    answer: Any = None  # a stage begins with none
    while True:
        try:
            step = stage.send(answer)
        except StopIteration as end:
            found: T = end.value
            return found
        if taken is not None and step.key in taken:
            answer = Answer(0, "", step.key, (taken[step.key],))
            continue
        given = yield own_step(change(step) if change else step)
        answer = replace(given, key=step.key)
