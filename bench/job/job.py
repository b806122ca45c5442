"""A job is what its entries add up to, read in the order of n alone; nothing here is state of its own.

Invariant: `Job` is immutable, and the same entries always give the same job.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from bench.file.entry import Entry, Head
from bench.job import keys
from bench.job.begun import another_at
from bench.job.other_jobs import LINKED
from bench.job.steps import Words


@dataclass(frozen=True, slots=True)
class Answer:
    """One accepted answer: its place in the file, when it was given, its key and its words."""

    n: int
    at: str
    key: str
    words: Words
    written: int = 0
    """Its number in the file; 0 where that is its place."""
    accepted: int = 0
    """Number of the confirm by which it was accepted as changed in an editor; 0 where it stands as it was
    written, or was changed after the end.
    """

    @property
    def by_hand(self) -> bool:
        """Changed in an editor while the job went on."""
        return bool(self.accepted)

    @property
    def number(self) -> int:
        """Its number in the file."""
        return self.written or self.n

    @property
    def word(self) -> str:
        """The first word: the value itself."""
        return self.words[0] if self.words else ""


@dataclass(frozen=True, slots=True)
class AcceptedChange:
    """What was changed outside the program and accepted as it stood."""

    of: int
    """Number of the entry; 0 is the head, and of several that are missing it is the first."""
    at: str
    """When it was accepted, as kept."""
    entry: Entry | None
    """The entry as it now stands; None where none counts."""
    mark: str
    """What was accepted, as the confirm names it."""
    after_end: bool
    """The job was finished then."""


def words_of(entry: Entry) -> Words:
    """The value of an entry as words; a flat list gives several, everything else one."""
    if isinstance(entry.value, tuple):
        return tuple(str(item) for item in entry.value)
    return (str(entry.value),)


def undone(entries: Iterable[Entry]) -> frozenset[int]:
    """Numbers of entries that an undo has taken back; an undone undo brings its entry back."""
    gone: set[int] = set()
    for entry in reversed(tuple(entries)):
        if entry.kind == "undo" and entry.n not in gone and entry.of is not None:
            gone.add(entry.of)
    return frozenset(gone)


def newest_of(answers: Sequence[Answer], key: str) -> Answer | None:
    """The newest of some answers to a key, None where there is none."""
    return next((answer for answer in reversed(answers) if answer.key == key), None)


@dataclass(frozen=True, slots=True)
class Job:
    """The replay of a session file."""

    head: Head
    answers: tuple[Answer, ...]
    """Every answer that was not taken back, oldest first."""
    notes: tuple[Answer, ...]
    marks: tuple[Answer, ...]
    """Sittings and attempts."""
    last_n: int
    _newest: MappingProxyType[str, Answer]
    changes: tuple[AcceptedChange, ...] = ()
    """What was changed outside the program and accepted, in the order in which it was."""
    closed: bool = False
    """Changed by hand after its end, and not gone on with since: it is not computed again."""

    def newest(self, key: str) -> Answer | None:
        """The newest answer or mark with that key, None where there is none."""
        return self._newest.get(key)

    def newest_n(self, key: str) -> int:
        """Place of the newest answer or mark with that key, 0 where there is none."""
        answer = self._newest.get(key)
        return answer.n if answer else 0

    def fresh(self, key: str, rests_on: Words) -> Answer | None:
        """The newest answer to `key` if it is newer than every answer it rests on, else None.

        This is the one rule of staleness: attempts, sittings, replaced answers and re-planning all use it.
        """
        answer = self._newest.get(key)
        if answer is None or any(self.newest_n(other) > answer.n for other in rests_on):
            return None
        return answer

    def unchecked(self) -> Job:
        """The same job as if a sitting began after its last entry:
        what is asked in every sitting is not given.
        """
        begun = Answer(self.last_n + 1, "", keys.SITTING, ("work",))
        return replace(self, _newest=MappingProxyType({**self._newest, keys.SITTING: begun}))

    def renamed(self, name: Callable[[str], str]) -> Job:
        """The same job with answers and marks under other keys; those that are given none are left out."""

        def said(answers: Iterable[Answer]) -> tuple[Answer, ...]:
            named = (replace(one, key=name(one.key)) for one in answers)
            return tuple(one for one in named if one.key)

        newest = {one.key: one for one in said(self._newest.values())}
        return replace(
            self, answers=said(self.answers), marks=said(self.marks), _newest=MappingProxyType(newest)
        )

    def holds(self, fits: Callable[[str], bool]) -> bool:
        """Whether there is an answer or a mark with such a key."""
        return any(map(fits, self._newest))

    def worded(self, said: Callable[[Answer], Answer]) -> Job:
        """The same job with answers said otherwise."""
        newest = {key: said(one) for key, one in self._newest.items()}
        return replace(self, answers=tuple(map(said, self.answers)), _newest=MappingProxyType(newest))

    @property
    def attempt(self) -> int:
        """Which ring this is: 1 for the first."""
        return 1 + len(another_at(self.marks))

    def attempt_spans(self) -> tuple[tuple[Answer, ...], ...]:
        """The answers of each attempt in turn, split at the attempt marks."""
        borders = (*another_at(self.marks), self.last_n + 1)
        spans, low = [], 0
        for border in borders:
            spans.append(tuple(answer for answer in self.answers if low < answer.n < border))
            low = border
        return tuple(spans)

    def before_attempt(self, key: str) -> Answer | None:
        """The newest answer to `key` given before the present attempt began, None where there is none."""
        start = max(another_at(self.marks), default=0)
        return next((a for a in reversed(self.answers) if a.key == key and a.n < start), None)


BESIDE = (keys.WATCH, keys.REMARK, keys.PAPERS_IN, LINKED, keys.OLD_RING, keys.DIAL_RING)
"""Answers with which a finished job is not gone on with: nothing rests on them."""


def changes_in(ordered: Sequence[Entry]) -> tuple[AcceptedChange, ...]:
    """What the confirms of a file accepted; the newest for each number."""
    by_number = {entry.n: entry for entry in ordered}
    found = {
        entry.of: AcceptedChange(
            entry.of,
            entry.at,
            by_number.get(entry.of),
            str(entry.value),
            entry.accepted is not None and entry.accepted.after_end,
        )
        for entry in ordered
        if entry.kind == "confirm" and entry.of is not None
    }
    return tuple(found.values())


TEACH = (keys.RING, keys.FIT_OUTCOME, keys.FIT_CORRECTION, keys.FIT_CAUSE, keys.LEAK_CAUSE, keys.REMAKE)
"""Answers about a ring that was tried, from which the next one is sized."""
TAUGHT = "taught"
"""Where one of them was last changed by hand after its own attempt: rested on, never written to a file."""


def _taught_otherwise(answers: Iterable[Answer], begun: Answer | None) -> dict[str, Answer]:
    """Where it was last accepted that an earlier ring teaches otherwise; none where none was changed."""
    at = [one.accepted for one in answers if begun and one.by_hand and one.key in TEACH and one.n < begun.n]
    return {TAUGHT: Answer(max(at), "", TAUGHT, ())} if at else {}


def replay(head: Head, entries: Iterable[Entry]) -> Job:
    """What the usable entries of a file add up to, in the order of n.

    An answer changed by hand has its place where it was accepted, so that what rested on it is asked again;
    one that counted for nothing then, or was changed after the end, keeps its own.
    """
    listed = sorted(entries, key=lambda entry: entry.n)
    gone = undone(listed)
    ends = [entry.accepted.by for entry in listed if entry.accepted and entry.accepted.after_end]
    end = max(ends, default=0)
    gone_on = any(one.kind in ("answer", "undo") and one.n > end and one.key not in BESIDE for one in listed)

    def place(entry: Entry) -> int:
        accepted = entry.accepted
        moved = accepted and accepted.counted and (gone_on or not accepted.after_end)
        return accepted.by if accepted and moved else entry.n

    ordered = sorted(listed, key=place)
    kept: dict[str, list[Answer]] = {"answer": [], "note": [], "mark": []}
    newest: dict[str, Answer] = {}
    for entry in ordered:
        if entry.n in gone or entry.kind not in kept:
            continue
        counts = entry.accepted and (gone_on or not entry.accepted.after_end)
        accepted = entry.accepted.by if entry.accepted and counts else 0
        answer = Answer(place(entry), entry.at, entry.key, words_of(entry), entry.n, accepted)
        kept[entry.kind].append(answer)
        if entry.kind != "note":
            newest[entry.key] = answer
    newest |= _taught_otherwise(kept["answer"], newest.get(keys.ATTEMPT))
    return Job(
        head=head,
        answers=tuple(kept["answer"]),
        notes=tuple(kept["note"]),
        marks=tuple(kept["mark"]),
        last_n=listed[-1].n if listed else 0,
        _newest=MappingProxyType(newest),
        changes=changes_in(listed),
        closed=bool(ends) and not gone_on,
    )
