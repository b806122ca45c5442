"""The job as it will be once an entry is in the file, so that the entry can say where the job stands then.

Invariant: nothing here changes the job; only a `saved` token does. What was foreseen
is used once exactly that is saved.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bench.desk.desk import Desk
from bench.desk.effects import Append, Effect
from bench.file.entry import Entry, Value
from bench.job import keys
from bench.job.standing import last_said, standing_of

if TYPE_CHECKING:
    from bench.job.job import Job
    from bench.job.route import Walk

TELLING = ("answer", "mark", "undo")
"""Kinds of entries after which a job may stand elsewhere."""


@dataclass(frozen=True, slots=True)
class Foreseen:
    """A walk over the entries of a desk and one more."""

    entries: tuple[Entry, ...]
    further: Value
    """What the one more holds."""
    walk: Walk

    def came_true(self, entries: tuple[Entry, ...]) -> bool:
        """Whether just that entry was added to just those."""
        before = len(self.entries)
        same = before == len(entries) - 1 and (before == 0 or entries[-2] is self.entries[-1])
        return same and entries[-1].n == before_n(self.entries) + 1 and entries[-1].value == self.further


def before_n(entries: tuple[Entry, ...]) -> int:
    """Number of the last entry, 0 where there is none."""
    return entries[-1].n if entries else 0


def stated(desk: Desk, effects: tuple[Effect, ...]) -> tuple[Desk, tuple[Effect, ...]]:
    """The entry about to be saved with the word for where the job stands then, where that changes."""
    entry = desk.pending
    if entry is None or entry.kind not in TELLING or desk.head is None or desk.shop is None:
        return desk, effects
    if not any(effect is entry for effect in effects):
        return desk, effects
    foreseen = ahead(desk, entry)
    stands = standing_of(foreseen)
    begins = entry.kind == "mark" and entry.key == keys.SITTING
    if begins or stands != last_said(reversed(desk.entries)):
        entry = replace(entry, value=with_word(entry.value, stands.word))
    known = Foreseen(desk.entries, entry.value, foreseen)
    told_effects = tuple(entry if effect is desk.pending else effect for effect in effects)
    return replace(desk, pending=entry, foreseen=known), told_effects


def ahead(desk: Desk, *entries: Append) -> Walk:
    """The walk of the open job as it will be once some entries are in the file."""
    from bench.job.job import replay  # the route comes with the first job, not with the list of jobs
    from bench.stages.whole import walk

    assert desk.head is not None and desk.shop is not None
    told = (
        Entry(n=n, at=desk.wall, kind=one.kind, key=one.key, value=one.value, of=one.of)
        for n, one in enumerate(entries, before_n(desk.entries) + 1)
    )
    return walk(replay(desk.head, (*desk.entries, *told)), desk.shop)


def with_word(value: Value, word: str) -> Value:
    """A value with one more word; the last of several stays the last, as it is read by its place."""
    words = value if isinstance(value, tuple) else (value,)
    return (*words[:2], word, *words[2:])


def walked(desk: Desk, job: Job) -> Walk:
    """The walk of a job in a sitting: the foreseen one where exactly that was saved."""
    from bench.stages.whole import walk

    assert desk.shop is not None
    known = desk.foreseen
    if known is None or not known.came_true(desk.entries):
        return walk(job, desk.shop)
    given = {answer.n: answer for answer in job.answers}
    done = tuple((step, given.get(answer.n, answer)) for step, answer in known.walk.done)
    return replace(known.walk, done=done)
