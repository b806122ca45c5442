"""The shop while it is asked: which part, what is still to be asked, and what was answered.

Invariant: immutable; the same answers give the same question and the same change.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from bench.asking import names
from bench.asking.bars import bars_said
from bench.asking.lathe import lathe_said
from bench.asking.measuring import instruments_said
from bench.asking.opening import (
    ALL,
    BACK,
    LATER,
    learning_step,
    opening_step,
    papers_step,
    part_step,
    units_step,
)
from bench.asking.pressing import press_said, tester_said
from bench.asking.tools import tools_said
from bench.file.entry import Entry, Head, Value
from bench.job.asking import Stage, word
from bench.job.job import Job, replay
from bench.job.route import Walk, walk_route
from bench.shop.changes import Change, as_they_are
from bench.shop.groups import BARS, INSTRUMENTS, LATHE, LEARNING, PAPERS, PRESS, TESTER, TOOLS, UNITS
from bench.shop.shop import Shop

HEAD = Head(format=1, id="", job="", made_by="")
OPENING, PARTS = names.OPENING, names.PART
GROUPS: Mapping[str, Callable[[Shop], Stage[Change]]] = {
    LATHE: lathe_said,
    TOOLS: tools_said,
    INSTRUMENTS: instruments_said,
    BARS: bars_said,
    PRESS: press_said,
    TESTER: tester_said,
}


def units_said(shop: Shop) -> Stage[Change]:
    """mm or inch."""
    return Change(UNITS, ((yield from word(units_step(shop))),))


def papers_said(shop: Shop) -> Stage[Change]:
    """Language of the customer's papers."""
    return Change(PAPERS, ((yield from word(papers_step(shop))),))


@dataclass(frozen=True, slots=True)
class Asked:
    """Questions about the shop, some of them answered."""

    shop: Shop
    part: str
    """The opening, the list of parts, or a group."""
    after: tuple[str, ...] = ()
    """With the opening the groups it is about, else the parts asked after this one."""
    answers: tuple[Entry, ...] = ()

    @property
    def job(self) -> Job:
        """The answers as those of a job, so that a question rests on others as there."""
        return replay(HEAD, self.answers)

    @property
    def walk(self) -> Walk:
        """How far it has come."""
        return walk_route(self.job, stage_of(self), seal="")

    def answered(self, key: str, value: Value, at: str) -> Asked:
        """With one more answer."""
        n = len(self.answers) + 1
        entry = Entry(n=n, at=at, kind="answer", key=key, value=value)
        return replace(self, answers=(*self.answers, entry))

    def taken_back(self) -> Asked:
        """Without the last answer."""
        return replace(self, answers=self.answers[:-1])

    def changes(self) -> tuple[Change, ...]:
        """What is to be written, once all is answered; nothing where something else was chosen."""
        if self.part == OPENING:
            said = self.job.newest(names.OPENING)
            return as_they_are(self.shop, self.after) if said and said.word == ALL else ()
        return () if self.part == PARTS else (told(self.job, ALL_PARTS[self.part](self.shop)),)

    def following(self, shop: Shop) -> Asked | None:
        """What is asked next, of the shop as it now stands; None where nothing is."""
        said = self.job.newest(self.part)
        if self.part == PARTS:
            chosen = said.word if said else BACK
            return None if chosen == BACK else chain(shop, (*BEHIND.get(chosen, (chosen,)), PARTS))
        if self.part == OPENING:
            if said is None or said.word in (ALL, LATER):
                return None
            return chain(shop, (*((UNITS,) if LATHE in self.after else ()), *self.after))
        return chain(shop, self.after)

    @property
    def heading(self) -> str:
        """What stands above a page that is about no single group."""
        return HEADINGS.get(self.part, "")

    @property
    def put_off(self) -> bool:
        """Whether the person goes on with what is assumed."""
        said = self.job.newest(OPENING) if self.part == OPENING else None
        return said is not None and said.word == LATER


def learning_said(shop: Shop) -> Stage[Change]:
    """Whether rings are sized by those finished here."""
    return Change(LEARNING, ((yield from word(learning_step(shop))) == "yes",))


BEHIND = {UNITS: (UNITS, LEARNING)}
"""What is asked with a part that is looked at."""
ALL_PARTS = {**GROUPS, UNITS: units_said, LEARNING: learning_said, PAPERS: papers_said}
HEADINGS = {OPENING: "not said yet", UNITS: "mm or inch", LEARNING: "learning", PAPERS: "customer's papers"}
"""What stands above the pages of a part that is no group."""


def opening(shop: Shop, groups: tuple[str, ...]) -> Asked:
    """Whether these groups are as assumed."""
    return Asked(shop, OPENING, groups)


def chain(shop: Shop, parts: tuple[str, ...]) -> Asked | None:
    """The first of several parts, the others after it."""
    return Asked(shop, parts[0], parts[1:]) if parts else None


def stage_of(asked: Asked) -> Stage[object]:
    """The questions of a part."""
    if asked.part == OPENING:
        return word(opening_step(asked.shop, asked.after))
    if asked.part == PARTS:
        return word(part_step(asked.shop))
    return ALL_PARTS[asked.part](asked.shop)


def told(job: Job, stage: Stage[Change]) -> Change:
    """What the questions of a group add up to, all of them answered."""
    try:
        step = next(stage)
        while (answer := job.fresh(step.key, step.rests_on)) is not None:
            step = stage.send(answer)
    except StopIteration as end:
        change: Change = end.value
        return change
    raise ValueError(f"{step.key} is still to be answered")
