"""The items of two copies put in order, until each key comes to what was found or decided for it.

Invariant: nothing is left out. What an answer rests on and its copy did not know is repeated behind it, so
that it is asked again; one that only stands in the wrong place is repeated as it was given. A fail is never
taken back.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from bench.file.entry import Entry
from bench.job import further, keys
from bench.job.begun import is_attempt
from bench.job.corrections import bad_result
from bench.job.job import Answer, Job, newest_of, replay, words_of
from bench.job.steps import Words
from bench.joining.asked import OF_TESTS, Final, begins, told
from bench.joining.numbering import entries_of
from bench.joining.parting import Parted, Placed, is_begun, split
from bench.joining.side import Side, bare, rests_of
from bench.refusal import Refused
from bench.seals.several import of_key

NTH = re.compile(r"_\d+$")
"""How the key of a numbered reading ends."""
ROUNDS = 60
"""More than the longest chain of answers that rest on one another."""


@dataclass(slots=True)
class Build:
    """The items of the joined job as they come together."""

    sides: tuple[Side, Side]
    parted: Parted
    finals: Mapping[str, Final]
    last: int
    """Which copy's entries come last."""
    items: list[Placed] = field(default_factory=list)
    gone: set[int] = field(default_factory=set)
    """Ids of the items that were taken back here."""
    rests: Mapping[str, Words] = field(default_factory=dict)
    """On what each key rests that counts on the route of the joined job, as far as it is put together."""

    def settle(self) -> None:
        """Put all in order; raises Refused where that comes to no end."""
        first, last = (split(self.parted.tails[which]) for which in (1 - self.last, self.last))
        self.items = [*self.parted.common, *first[0], *last[0], *first[1], *last[1]]
        if first[1] and not last[1]:
            self.give_up(first[1])
        for tail in self.parted.tails:
            self.take_tests_out(tail)
        for _ in range(ROUNDS):
            before, job = len(self.items), self.job
            self.rests = rests_of(job, self.sides[0].shop)
            for key in dict.fromkeys((*self.finals, *self.rests)):
                if self.brought(job, key):
                    job = self.job
            if len(self.items) == before:
                return
        raise Refused("these two cannot be put together; go on in one of them")

    @property
    def job(self) -> Job:
        """What the items add up to."""
        return replay(self.sides[0].head, entries_of(self.items))

    def take_back(self, item: Placed) -> None:
        """Take an item back; it stays in the file."""
        if id(item) not in self.gone:
            self.gone.add(id(item))
            word = words_of(item.entry)[0] if words_of(item.entry) else ""
            undo = Entry(n=1, at=item.entry.at, kind="undo", key=item.entry.key, value=word)
            self.items.append(Placed(undo, takes_back=item))

    def give_up(self, rest: Sequence[Placed]) -> None:
        """Further pieces of the copy that does not go on: nothing said of them counts; a fail stays."""
        for item in reversed(rest):
            kept = is_bad(self.sides[1 - self.last], item) or fails(rest, item)
            said = item.entry.kind == "answer" and not kept and self._goes_with_piece(item.entry.key)
            if said or is_begun(item):
                self.take_back(item)

    def _goes_with_piece(self, key: str) -> bool:
        """Whether what the copy that is given up says of a key is about its piece."""
        found = self.sides[1 - self.last].counting.get(key)
        return found is None or any(map(is_attempt, found.step.rests_on))

    def take_tests_out(self, tail: Sequence[Placed]) -> None:
        """Holds and results count from neither copy, but for a fail with its hold."""
        for item in reversed(tail):
            if item.entry.kind == "answer" and item.entry.key in OF_TESTS and not fails(tail, item):
                self.take_back(item)

    def brought(self, job: Job, key: str) -> bool:
        """Bring one key to what it comes to; whether anything had to be done."""
        final = self.finals.get(key, Final(None))
        if key in OF_TESTS:
            return False
        if final.out:
            return self.counts(job, key) and self.taken_back(key)
        which = next((one for one in final.sources if self.is_supported(job, key, one, frozenset())), None)
        if which is None:
            stays = not final.sources and self.is_known(job, key)
            return self.counts(job, key) and not stays and self.made_stale(job, key)
        counting = told(self.sides, which, key)
        assert counting is not None
        fresh = job.fresh(key, (*counting.step.rests_on, *self.rests.get(key, ())))
        if (fresh is not None and bare(fresh.words) == final.words) or keys.SITTING in counting.step.rests_on:
            return False
        return self.repeat(key, counting.words, counting.answer.at)

    def counts(self, job: Job, key: str) -> bool:
        """Whether the newest answer to a key would count: by what it rests on in the joined job or, off its
        route, with either copy.
        """
        return any(job.fresh(key, one) is not None for one in self.known_rests(key))

    def known_rests(self, key: str) -> tuple[Words, ...]:
        """The ways in which a key may come to count, each by what it rests on then."""
        if key in self.rests:
            return (self.rests[key],)
        return tuple(side.counting[key].step.rests_on for side in self.sides if key in side.counting)

    def is_known(self, job: Job, key: str) -> bool:
        """Whether the newest answer to a key is one that a copy gave last, on what that copy knew."""
        given = job.newest(key)
        words = bare(given.words) if given is not None else None
        return any(
            side.newest(key) == words and self.as_known(job, key, which, frozenset())
            for which, side in enumerate(self.sides)
        )

    def repeat(self, key: str, words: Words, at: str) -> bool:
        """An accepted answer once more, at the end."""
        value = words[0] if len(words) == 1 else words
        self.items.append(Placed(Entry(n=1, at=at, kind="answer", key=key, value=value)))
        return True

    def taken_back(self, key: str) -> bool:
        """Take back what was said of a key since the copies parted, but for what is bad; whether any was."""
        live = [
            item
            for which in (0, 1)
            for item in self.parted.own(which)
            if item.entry.kind == "answer" and item.entry.key == key and id(item) not in self.gone
            if not is_bad(self.sides[which], item)
        ]
        for item in live:
            self.take_back(item)
        return bool(live)

    def made_stale(self, job: Job, key: str) -> bool:
        """An answer that rests on what its copy did not know is made older than something that it rests on,
        best that; it is taken back only where nothing of that has an answer any more, so that nothing older
        comes back in its place.
        """
        ways = self.known_rests(key)
        under = [one for one in reversed(self.under(key)) if all(one in way for way in ways) and one != key]
        side = self.sides[next(iter(self.finals.get(key, Final(None)).sources), self.last)]
        under.sort(key=lambda one: self.view(job, one, frozenset((key,))) == self.known(side.job, one))
        for one in under:
            given = newest_of(job.answers, one)
            words = self.view(job, one, frozenset((key,)))
            if words is not None and given is not None and bare(given.words) == words:
                return self.repeat(one, words, given.at)
        return self.taken_back(key)

    def is_supported(self, job: Job, key: str, which: int, seen: frozenset[str]) -> bool:
        """Whether a copy says something of a key, and all that it rests on is as that copy knew it."""
        return told(self.sides, which, key) is not None and self.as_known(job, key, which, seen)

    def as_known(self, job: Job, key: str, which: int, seen: frozenset[str]) -> bool:
        """Whether all that a key rests on is as a copy knew it."""
        rests_on = self.under(key)
        if any(map(is_attempt, rests_on)) and any(map(begins, self.parted.tails)) and which != self.last:
            return False
        under = (one for one in rests_on if one not in (keys.SITTING, key) and one not in seen)
        knew = self.sides[which].job
        return all(self.view(job, one, seen | {key}) == self.known(knew, one) for one in under)

    def known(self, job: Job, key: str) -> Words | None:
        """What a job says of a key, whether or not it is on its route; None where that is out of date."""
        way = next(iter(self.known_rests(key)), ())
        found = job.fresh(key, tuple(one for one in way if one != keys.SITTING))
        return bare(found.words) if found is not None else None

    def under(self, key: str) -> Words:
        """On what a key rests on either copy; on every further reading of the same dimension as well, which
        only one copy may have.
        """
        ways = [side.counting[key].step.rests_on for side in self.sides if key in side.counting]
        known = dict.fromkeys(one for way in (*ways, self.rests.get(key, ())) for one in way)
        stems = {NTH.sub("", one) for one in known if NTH.search(one)}
        return (*known, *(one for one in self.finals if NTH.sub("", one) in stems and one not in known))

    def view(self, job: Job, key: str, seen: frozenset[str]) -> Words | None:
        """What a key will say in the joined job."""
        final = self.finals.get(key)
        if final is None:
            return self.known(job, key)
        supported = any(self.is_supported(job, key, one, seen) for one in final.sources)
        return final.words if supported else None


def is_bad(side: Side, item: Placed) -> bool:
    """Whether an item says that a seal cannot be used."""
    entry = item.entry
    one = of_key(side.job, entry.key)
    said = Answer(entry.n, "", further.theirs(one.number, entry.key), words_of(entry))
    return entry.kind == "answer" and bad_result(said, one.seal.fitting)


def fails(tail: Sequence[Placed], item: Placed) -> bool:
    """Whether an item of a test belongs to a hold that gave a fail."""
    sitting = OF_TESTS.get(item.entry.key)
    if sitting is None:
        return False
    of_hold: list[Placed] = []
    for one in tail:
        if one.entry.kind != "answer" or OF_TESTS.get(one.entry.key) is not sitting:
            continue
        if one.entry.key == sitting.hold:
            if any(other is item for other in of_hold):
                break
            of_hold = []
        of_hold.append(one)
    bad = any(one.entry.key == sitting.result and words_of(one.entry)[0] == "fail" for one in of_hold)
    return bad and any(other is item for other in of_hold)
