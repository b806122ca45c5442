"""What is known of each other seal of the watch, where the repairer says it of each.

Invariant: it is asked only once the first question was opened from the choice that says so; what is said here
is written behind keys of its own and counts by the answer that follows it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bench.file.slug import NUMBER_LIMIT
from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.job import Answer, Job
from bench.job.kept import UNKNOWN
from bench.job.mask import Mask
from bench.job.of_each_seal import (
    HAS_NONE,
    LEFT,
    MADE_HERE,
    NEW,
    NOT_LOOKED_AT,
    SAID_OF_EACH,
    THIS_JOB,
    job_of,
    known_of,
    new_ones,
    others_of,
    size_of,
)
from bench.job.other_jobs import linked_number
from bench.job.renewed import named, word_of
from bench.job.steps import Choice, Step, Words
from bench.job.values import named_text
from bench.seals import in_place
from bench.seals.several import OneSeal, next_question

NOT_SAID = "not_said"
"""The usual value of the first question: nothing is said of each."""
MAY_LACK = ("crown", "tube", "pushers")
"""Seals that a watch may do without."""
EACH = Choice("each", "each seal by itself")


def said_of_each(job: Job, seals: Sequence[OneSeal]) -> Stage[tuple[Answer, ...]]:
    """One question for each seal of the watch but those of the job; empty where nothing is said of each."""
    given: list[Answer] = []
    asked = others_of(tuple(one.closes for one in seals))
    if not asked:
        return ()
    goes_to = next_question(job)
    first, *others = (known_step(seal, linked_number(job), goes_to) for seal in asked)
    answer = yield replace(
        first,
        choices=(*first.choices, Choice(NOT_SAID, "nothing is said of each seal")),
        usual=NOT_SAID,
        optional=True,
    )
    if answer.word == NOT_SAID:
        return ()
    given += yield from followed(first, asked[0], answer)
    for seal, step in zip(asked[1:], others, strict=True):
        answer = yield replace(step, rests_on=(*step.rests_on, first.key))
        given += yield from followed(step, seal, answer)
    return tuple(given)


def followed(step: Step, seal: str, answer: Answer) -> Stage[tuple[Answer, ...]]:
    """The answer with what belongs to it: the number of the job, the size where it is written."""
    if answer.word == MADE_HERE and not named_text(answer.words, "job"):
        return answer, (yield number_step(step, seal))
    if answer.word == NEW:
        yield from word(size_step(step, seal))
    return (answer,)


def known_step(seal: str, linked: str | None, goes_to: str) -> Step:
    """What is known of one; the job that this one is linked to is offered. `goes_to`: key of the question
    whether another seal is made in this job; empty where no more are.
    """
    here = (Choice(MADE_HERE, f"made here in job {linked}", with_it=(f"job {linked}",)),) if linked else ()
    other = " another" if linked else ""
    return Step(
        key=known_of(seal),
        stage="verify",
        kind="choice",
        title=f"{titled(seal)}: what is known of it?",
        choices=(
            Choice(NEW, "new, from stock"),
            Choice(LEFT, "old, looked at and left"),
            Choice(NOT_LOOKED_AT, "not looked at"),
            *here,
            Choice(MADE_HERE, f"made here in{other or ' a'} job of its own: its number comes next"),
            *((Choice(THIS_JOB, "measured and made in this job: now", goto=goes_to),) if goes_to else ()),
            *((Choice(HAS_NONE, "this watch has none"),) if seal in MAY_LACK else ()),
        ),
        rests_on=(*in_place(), keys.EMPTY.result),
        waits_for="which seals are new",
        why="A test of the whole watch proves every seal. The papers say which are new and which are not.",
    )


def titled(seal: str) -> str:
    """What a seal of the watch is called at the head of a question."""
    return "Seal of a pusher or valve" if seal == "pushers" else f"Seal of the {seal}"


def number_step(step: Step, seal: str) -> Step:
    """The number of the job in which it was made."""
    return Step(
        key=job_of(seal),
        stage="verify",
        kind="number",
        title=f"{titled(seal)}: number of the job that made it",
        mask=Mask(9, 0, "", 1, NUMBER_LIMIT - 1),
        usual=UNKNOWN,
        rests_on=(*step.rests_on, step.key),
        why="The sheet of that job says how it was sized and made; both papers name its number.",
    )


def size_step(step: Step, seal: str) -> Step:
    """Its size, where somebody writes it."""
    return Step(
        key=size_of(seal),
        stage="verify",
        kind="text",
        title=f"{titled(seal)}: its size",
        optional=True,
        rests_on=(*step.rests_on, step.key),
        why="So that the next one is known; it stands on the workshop's sheet.",
    )


def as_said(step: Step, said: tuple[Answer, ...], found: Words) -> Step:
    """The question which seals were renewed, answered by what was said of each, with what a search `found`
    and renewed; or it is said again, or of none.
    """
    new = new_ones(said, found)
    first = Choice(word_of(new), f"as said of each, new: {named(new)}", with_it=(SAID_OF_EACH,))
    rests = (*step.rests_on, *(answer.key for answer in said))
    return replace(step, choices=(first, *(one for one in step.choices if one.goto)), rests_on=rests)
