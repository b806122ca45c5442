"""The step to which an entry of a session file is an answer, found by going the route up to it.

Invariant: nothing is said to be asked that the route would not ask;
what is not known on the way is made up, and only the way depends on it.
"""

from __future__ import annotations

from collections.abc import Set
from typing import TYPE_CHECKING

from bench.job.job import Answer, Job
from bench.job.reading_back import RIGHT, reads
from bench.job.steps import Step, Words
from bench.stages.whole import walk, whole_job

if TYPE_CHECKING:
    from bench.shop.shop import Shop

SOME_TIME = "2000-01-01T00:00:00+00:00"
MOST_STEPS = 500
NO_WAY = (ValueError, KeyError, IndexError, TypeError, ArithmeticError, AssertionError)
"""What answers that do not go together may lead to on the way."""


def step_asked(job: Job, shop: Shop, key: str, changed: Set[int]) -> Step | None:
    """The step with that key, as this job asks it; None where it does not come to it whatever is answered on
    the way. What was changed by hand, by its numbers, need not have led there.
    """
    return (
        _where_it_stands(job, shop, key)
        or _on_the_way(job, shop, key, old=True)
        or _on_the_way(job, shop, key, old=False)
        or _on_the_way(job, shop, key, old=True, without=changed)
    )


def _where_it_stands(job: Job, shop: Shop, key: str) -> Step | None:
    """The step where it is open, or answered by what counts."""
    try:
        found = walk(job, shop)
    except NO_WAY:
        return None
    known = (*(step for step, _ in found.done), *found.optional, *((found.open,) if found.open else ()))
    return next((step for step in known if step.key == key), None)


def _on_the_way(job: Job, shop: Shop, key: str, *, old: bool, without: Set[int] = frozenset()) -> Step | None:
    """The same; `old`: answers that no longer count are taken as well; `without`: numbers not to be taken."""
    stage = whole_job(job, shop)
    try:
        step = next(stage)
        for _ in range(MOST_STEPS):
            if step.key == key:
                return step
            given = job.newest(step.key) if old else job.fresh(step.key, step.rests_on)
            if given is None or given.number in without or (given.by_hand and not reads(step, given.words)):
                given = Answer(0, "", step.key, made_up(step))
            step = stage.send(given)
    except (StopIteration, *NO_WAY):
        return None
    return None


def made_up(step: Step) -> Words:
    """An answer that leads on: as usual, as before, as aimed at, the first there is."""
    if step.kind == "number":
        return (step.usual or (step.asked_of[-1] if step.asked_of else _middle(step)),)
    if step.optional or not step.choices:
        return (RIGHT,) if step.kind == "safety" else (step.usual,)
    first = next((choice for choice in step.choices if not choice.goto), step.choices[0])
    if step.kind == "safety":
        return (RIGHT, first.word, *step.decided)
    return (first.word, *((SOME_TIME,) if first.stamp else ()), *first.with_it)


def _middle(step: Step) -> str:
    mask, gauge = step.mask, step.gauge
    assert mask is not None
    value = (mask.low + min(mask.high, 10.0**mask.before)) / 2
    if gauge is not None and gauge.target is not None:
        value = gauge.target
    return f"{value:.{mask.decimals}f} {mask.unit}".rstrip()
