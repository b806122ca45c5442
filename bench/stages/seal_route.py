"""The stages of one seal, and those of the further seals of the same watch after it.

Invariant: a further seal goes the way of its kind, under keys of its own; where it ends without one the job
goes on, and the tests come once, behind all of them.
"""

from __future__ import annotations

from collections.abc import Sequence, Set
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from bench.job import further, keys
from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.steps import Choice, Step, Words
from bench.seals.seal import Fitted, Seal
from bench.seals.several import OneSeal, closed, left, nth_of

if TYPE_CHECKING:
    from bench.shop.shop import Shop

NONE = "none"
GO_ON = "go on without it: the sheet says why"
"""What ends a job about one seal, where it is a further one."""


def one_seal(job: Job, shop: Shop, seal: Seal) -> Stage[Fitted | None]:
    """Measured, sized, made and put in; None where it ends without one, or another is begun.

    `job`: as the stages of this seal see it.
    """
    measured = yield from seal.measured(job, shop)
    if measured is None:
        return None
    begin = seal.again.begin
    if max(map(job.newest_n, (begin.measured, begin.spoiled))) > job.newest_n(begin.attempt):
        yield from word(seal.again.another)
    decided = yield from seal.sized(job, shop, measured)
    if decided is None:
        return None
    made = yield from seal.made(job, shop, decided)
    if made is None:
        return None
    return (yield from seal.fitted(job, shop, made))


def further_seals(job: Job, shop: Shop, first: OneSeal, fitted: Fitted) -> Stage[tuple[OneSeal, Fitted]]:
    """Every further seal, one after the other; gives the one put in last, and since when."""
    before, last = [first], (first, fitted)
    for number in further.NUMBERS:
        kind = yield from word(further_step(number, left(before)))
        if kind == NONE:
            break
        one = nth_of(job, number)
        put_in = yield from further.naming(number).asked(
            one_seal(one.job, shop, one.seal),
            change=partial(said_besides, seal=one.seal, shut=closed(before)),
            also=partial(shut_since, one=one, before=tuple(before)),
        )
        before.append(one)
        if put_in is not None:
            last = (one, put_in)
    return last


def further_step(number: int, kinds: tuple[Seal, ...]) -> Step:
    """Whether another seal is measured and made in this job; usually none is."""
    return Step(
        key=further.own(number, keys.SEAL),
        stage="verify",
        kind="choice",
        title="Another seal of this watch, measured and made in this job?",
        choices=(
            Choice(NONE, "no other one: on to the tests"),
            *(Choice(seal.word, seal.name) for seal in kinds),
        ),
        usual=NONE,
        optional=True,
        why="Several seals are measured and put in one after the other, then tested once, on one sheet.",
    )


def said_besides(step: Step, *, seal: Seal, shut: Set[str]) -> Step:
    """A step of a further seal: what is closed already is not offered, and no way on ends the job."""
    if step.key == seal.place:
        return replace(step, choices=tuple(one for one in step.choices if seal.lies[one.word] not in shut))
    ends = {one for key, one in seal.endings if key == step.key}
    if not ends:
        return step
    return replace(
        step, choices=tuple(replace(one, text=GO_ON) if one.word in ends else one for one in step.choices)
    )


def shut_since(step: Step, *, one: OneSeal, before: Sequence[OneSeal]) -> Words:
    """What the place of a further seal rests on besides: where those before it lie that close the same."""
    if step.key != one.seal.place or one.closes not in closed(before):
        return ()
    return tuple(other.own(other.seal.place) for other in before if other.closes == one.closes)
