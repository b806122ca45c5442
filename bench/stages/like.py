"""A job begun after an old one: what is known of that is offered, taken over by 1 Enter.

Invariant: only what is chosen is taken over, never what is read with an instrument; what the old job says
was looked up when this one was begun and stands in its mark, so no walk reads another file.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, T, word
from bench.job.job import Job
from bench.job.other_jobs import LIKE, LIKE_TAKEN
from bench.job.steps import Choice, Step, Words
from bench.seals import SEALS, kind_step, seal_of
from bench.seals.seal import Seal
from bench.stages.proving_steps import method_step
from rules.testing.methods import methods

if TYPE_CHECKING:
    from bench.shop.shop import Shop

TAKE = "take"


def known_steps(seal: Seal, shop: Shop) -> tuple[Step, ...]:
    """What may be taken over from a job about such a seal, in the order of the route."""
    open_to = dict.fromkeys(methods())
    tests = (method_step(one, open_to, shop.tester.gives) for one in keys.SITTINGS)
    return (kind_step(), *seal.alike(shop), *tests)


def known_of(job: Job, shop: Shop) -> Words:
    """What a job begun after this one keeps of it: its number, then each choice under its key."""
    given = ((step, job.newest(step.key)) for step in known_steps(seal_of(job), shop))
    known = (f"{step.key} {answer.word}" for step, answer in given if answer and step.choice(answer.word))
    return (job.head.job, *known)


def pairs(job: Job) -> dict[str, str]:
    """What is known of the job that this one was begun after, by key."""
    mark = job.newest(LIKE)
    parted = (one.partition(" ") for one in mark.words[1:]) if mark is not None else ()
    return {key: known for key, _, known in parted}


def begun_after(job: Job, shop: Shop, route: Stage[T]) -> Stage[T]:
    """The route of a job begun after another one: first whether what is known of that is taken over."""
    yield from asked_of(job, shop)
    return (yield from offered_first(job, route))


def asked_of(job: Job, shop: Shop) -> Stage[None]:
    """Ask it; nothing where nothing is known."""
    mark, known = job.newest(LIKE), pairs(job)
    seal = SEALS.get(known.get(keys.SEAL, ""), next(iter(SEALS.values())))
    steps = [one for one in known_steps(seal, shop) if one.choice(known.get(one.key, ""))]
    if mark is not None and steps:
        yield from word(like_step(mark.word, steps, known))


def like_step(number: str, steps: list[Step], known: dict[str, str]) -> Step:
    """The page that offers it. What rests on nothing is written as if it had been chosen from the list."""
    chosen = [(step, step.choice(known[step.key])) for step in steps]
    written = tuple((one.key, known[one.key]) for one in steps if one.optional and not one.rests_on)
    return Step(
        key=LIKE_TAKEN,
        stage="measure",
        kind="choice",
        title=f"One like job {number}: take over what is known of it?",
        say=tuple(shortly(step, one) for step, one in chosen if one is not None),
        choices=(
            Choice(TAKE, "take it over; each can be changed in its place", follows=written),
            Choice("number", "no: keep the number alone"),
        ),
        why="Diameters, heights and all else that is read is measured again: no two seats are the same.",
    )


def shortly(step: Step, choice: Choice) -> str:
    """What was chosen, without the advice that stands behind it."""
    advice = choice.text.partition(":")[2]
    return step.with_answer(choice.word).removesuffix(f":{advice}" if advice else "")


def offered_first(job: Job, stage: Stage[T]) -> Stage[T]:
    """The stage with what was taken over offered where it is asked, as usual value or first choice."""
    taken, known = job.newest(LIKE_TAKEN), pairs(job)
    if taken is None or taken.word != TAKE or not known:
        return (yield from stage)
    mark = job.newest(LIKE)
    assert mark is not None
    try:
        step = next(stage)
        while True:
            step = stage.send((yield as_there(step, known.get(step.key, ""), mark.word)))
    except StopIteration as end:
        found: T = end.value
        return found


def as_there(step: Step, known: str, number: str) -> Step:
    """The step with what was answered in that job offered first; as it is where that is no choice here."""
    choice = step.choice(known)
    if choice is None or step.kind != "choice":
        return step
    if step.optional:
        return replace(step, usual=known)
    there = replace(choice, text=f"{choice.text}, as in job {number}")
    return replace(step, choices=(there, *(one for one in step.choices if one is not choice)))
