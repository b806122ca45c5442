"""Stages asked under other keys than they know: what they see of the job, and what they ask.

Invariant: such a stage sees the answers that are its own, under the keys it knows; what it asks goes into the
file under other keys.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from bench.job import keys
from bench.job.asking import Stage, T
from bench.job.job import Answer, Job
from bench.job.steps import Choice, Step, Words

PLACES = frozenset((keys.SITTING, keys.HAND_BACK, "jobs", "shop", ""))
"""The mark of a sitting, handing back, and places that a choice may lead to: the same for every seal."""
OF_TESTS = re.compile("|".join([*(f"{one.name}_.+" for one in keys.SITTINGS), keys.asked_in_search(".+")]))
"""Keys of the tests and of the search for a leak."""
Restated = Callable[[Step], Step]


def of_every_seal(key: str) -> bool:
    """Whether a key is the same for every seal of a watch: of the tests, the search, the sitting."""
    return key in PLACES or OF_TESTS.fullmatch(key) is not None


@dataclass(frozen=True, slots=True)
class Renaming:
    """Two ways between the keys that a stage knows and those of the file."""

    own: Callable[[str], str]
    """The key under which it is kept."""
    theirs: Callable[[str], str]
    """The key that the stage knows it by; empty where it may not see it."""

    def seen(self, job: Job) -> Job:
        """The job as the stage sees it."""
        return job.renamed(self.theirs)

    def step(self, step: Step) -> Step:
        """A step under the keys of the file; nothing is looked up in other jobs for it."""
        return replace(
            step,
            key=self.own(step.key),
            rests_on=tuple(map(self.own, step.rests_on)),
            guarded_by=tuple(map(self.own, step.guarded_by)),
            choices=tuple(map(self._leading, step.choices)),
            learns=(),
            looks_for=(),
        )

    def _leading(self, choice: Choice) -> Choice:
        return replace(choice, goto=self.own(choice.goto)) if choice.goto else choice

    def asked(
        self,
        stage: Stage[T],
        *,
        change: Restated | None = None,
        taken: Mapping[str, str] | None = None,
        also: Callable[[Step], Words] | None = None,
    ) -> Stage[T]:
        """The stage asked under the keys of the file.

        `change`: how a step is said here, under the key that the stage knows; `taken`: what is not asked
        here, by key, with the answer that holds; `also`: keys of the file that a step rests on besides.
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
            said = self.step(change(step) if change else step)
            if also is not None:
                said = replace(said, rests_on=(*said.rests_on, *also(step)))
            given = yield said
            answer = replace(given, key=step.key)
