"""The seals of one job: the one it began with, and the further ones, each with the job as it sees it.

Invariant: which further seals there are follows from the answers alone, by the same rule on the route and on
the papers.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bench.job import further, keys
from bench.job.corrections import outcome
from bench.job.job import Answer, Job
from bench.job.kept import HOME
from bench.job.renaming import of_every_seal
from bench.seals import SEALS, seal_of
from bench.seals.seal import Seal

if TYPE_CHECKING:
    from bench.job.route import Walk

MANY = ("pushers",)
"""Seals of which a watch may have several of one kind."""


@dataclass(frozen=True, slots=True)
class OneSeal:
    """One seal of a job."""

    number: int
    """1 for the one that the job began with."""
    seal: Seal
    job: Job
    """The job as its stages see it."""

    def own(self, key: str) -> str:
        """The key of the file for a key of its kind."""
        return further.own(self.number, key)

    @property
    def closes(self) -> str:
        """Which seal of the watch it is."""
        return self.seal.closes(self.job)

    @property
    def put_in(self) -> Answer | None:
        """How the present one was put in, as far as that holds."""
        return outcome(self.job.attempt_spans()[-1], self.seal.fitting)

    @property
    def ended(self) -> Answer | None:
        """The answer by which a further seal was not renewed; None once more was answered of it after."""
        if self.number == further.FIRST:
            return None
        last = next((one for one in reversed(self.job.answers) if not of_every_seal(one.key)), None)
        return last if last is not None and (last.key, last.word) in self.seal.endings else None

    @property
    def in_place(self) -> bool:
        """Whether it is in its place, and was not left after all."""
        return (went := self.put_in) is not None and went.word == HOME and self.ended is None


def first_of(job: Job) -> OneSeal:
    """The seal that a job began with."""
    seen = further.view(job, further.FIRST)
    return OneSeal(further.FIRST, seal_of(seen), seen)


def nth_of(job: Job, number: int) -> OneSeal:
    """The seal with that number."""
    seen = further.view(job, number)
    return OneSeal(number, seal_of(seen), seen)


def seals_of(job: Job) -> tuple[OneSeal, ...]:
    """Every seal of a job, the one that it began with first."""
    found = [first_of(job)]
    for number in further.NUMBERS:
        chosen = job.newest(further.own(number, keys.SEAL))
        if chosen is None or chosen.word not in {one.word for one in left(found)}:
            break
        found.append(nth_of(job, number))
    return tuple(found)


def in_place_of(job: Job) -> tuple[OneSeal, ...]:
    """The seal that a job began with, and the further ones that are in their place."""
    first, *others = seals_of(job)
    return (first, *(one for one in others if one.in_place))


def next_question(job: Job) -> str:
    """Key of the question whether a further seal is made in this job; empty where no more may be."""
    number = seals_of(job)[-1].number + 1
    return further.own(number, keys.SEAL) if number in further.NUMBERS else ""


def left(before: Sequence[OneSeal]) -> tuple[Seal, ...]:
    """The kinds that may close what is not closed yet by one of these."""
    shut = closed(before)
    return tuple(one for one in SEALS.values() if not shut.issuperset(one.lies.values()))


def closed(seals: Sequence[OneSeal]) -> frozenset[str]:
    """The seals of the watch that these are, where they are in their place and there is but one such."""
    return frozenset(one.closes for one in seals if one.in_place) - frozenset(MANY)


def of_key(job: Job, key: str) -> OneSeal:
    """The seal that an answer with that key is about."""
    return nth_of(job, further.number_of(key))


def in_hand(job: Job, walk: Walk) -> OneSeal:
    """The seal at which a walk stands: the one whose stages it stands in, at the tests the last one."""
    if walk.open is not None and (number := further.number_of(walk.open.key)) != further.FIRST:
        return nth_of(job, number)
    done = {step.key for step, _ in walk.done}
    return next((one for one in reversed(seals_of(job)) if one.own(one.seal.accepted) in done), first_of(job))
