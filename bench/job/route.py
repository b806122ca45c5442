"""The route: the steps of a job in the order in which the repairer works, walked over the answers there are.

Invariant: `walk` is a pure function of the answers and knows no stage;
it stops at the first step without an answer that counts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bench.job import keys
from bench.job.asking import Stage
from bench.job.job import Answer, Job
from bench.job.reading_back import reads
from bench.job.steps import Step

ASSUMED = 0
"""Place of an answer that nobody gave: the usual value of an optional step."""


@dataclass(frozen=True, slots=True)
class Walk:
    """Where a job stands on its route."""

    done: tuple[tuple[Step, Answer], ...]
    """Steps answered by the person, in the order of the route."""
    assumed: tuple[Step, ...]
    """Optional steps passed on their usual value."""
    optional: tuple[Step, ...]
    """All optional steps passed so far, changed or not."""
    open: Step | None
    """The step to do now; None when the job is finished."""
    stale: Answer | None
    """An older answer to the open step that no longer counts, shown as the old value."""
    hidden: frozenset[str] = frozenset()
    """Keys of answered steps whose checks were not answered in this sitting: not to be shown."""
    seal: str = ""
    """The kind of seal in hand, in one word."""
    number: int = 1
    """Which seal of the job that is."""
    piece: int = 1
    """Which piece of it: 1 for the first."""

    @property
    def shown(self) -> tuple[tuple[Step, Answer], ...]:
        """The answered steps that may be looked at."""
        return tuple((step, answer) for step, answer in self.done if step.key not in self.hidden)

    @property
    def keys(self) -> tuple[str, ...]:
        """Keys of the answered steps that may be looked at and the open one, in order."""
        last = (self.open.key,) if self.open else ()
        return tuple(step.key for step, _ in self.shown) + last

    def step(self, key: str) -> Step | None:
        """The step with that key, answered, open or optional."""
        if self.open and self.open.key == key:
            return self.open
        found = next((step for step, _ in self.shown if step.key == key), None)
        return found or next((step for step in self.optional if step.key == key), None)

    def answer(self, key: str) -> Answer | None:
        """The answer that counts for that key, None where it is open or assumed."""
        return next((answer for step, answer in self.done if step.key == key), None)

    def asked_by(self, answer: Answer) -> Step | None:
        """The step that may be looked at to which that is the answer."""
        return next((step for step, given in self.shown if given is answer), None)

    def stage_counts(self, stage: str) -> int:
        """How many steps of a stage are answered."""
        return sum(step.stage == stage for step, _ in self.done)


def given(job: Job, step: Step) -> Answer | None:
    """The answer that counts for a step, None where it is open or its usual value holds."""
    answer = job.fresh(step.key, step.rests_on)
    if step.optional and step.kind == "choice" and answer and step.choice(answer.word) is None:
        return None  # what was chosen is not offered any more: the usual choice holds
    if answer is not None and answer.by_hand and not reads(step, answer.words):
        return None  # changed by hand into what is not asked here: it is asked again
    return answer


def assumed_for(step: Step) -> Answer:
    """The usual value of an optional step, as if it had been answered."""
    return Answer(ASSUMED, "", step.key, (step.usual,))


def walk_route(job: Job, stage: Stage[object], *, seal: str = "") -> Walk:
    """Walk a route as far as the answers of a job carry."""
    done: list[tuple[Step, Answer]] = []
    assumed: list[Step] = []
    optional: list[Step] = []
    try:
        step = next(stage)
        while True:
            answer = given(job, step)
            if step.optional:
                optional.append(step)
            if answer is not None:
                done.append((step, answer))
            elif step.optional:
                assumed.append(step)
                answer = assumed_for(step)
            else:
                stale = job.newest(step.key)
                return Walk(
                    tuple(done), tuple(assumed), tuple(optional), step, stale, hidden(job, done), seal
                )
            step = stage.send(answer)
    except StopIteration:
        return Walk(tuple(done), tuple(assumed), tuple(optional), None, None, hidden(job, done), seal)


def hidden(job: Job, done: Sequence[tuple[Step, Answer]]) -> frozenset[str]:
    """Keys of answered steps that stand behind checks not answered in this sitting."""
    sitting = job.newest_n(keys.SITTING)
    fresh = {step.key for step, answer in done if answer.n > sitting}
    return frozenset(step.key for step, _ in done if not fresh.issuperset(step.guarded_by))
