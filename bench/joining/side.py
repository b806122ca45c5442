"""One copy of a job, with what of it counts on its route.

Invariant: a copy in which something is unsettled is refused; nothing is written.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bench.edits.asked import MOST_STEPS, NO_WAY, made_up
from bench.edits.judging import judged
from bench.file.entry import STANDS, Entry, Head
from bench.file.load import load
from bench.job.job import Answer, Job, replay
from bench.job.route import ASSUMED, assumed_for, given
from bench.job.standing import standing_of
from bench.job.steps import Step, Words
from bench.refusal import Refused
from bench.stages.whole import walk, whole_job

if TYPE_CHECKING:
    from bench.job.asking import Stage
    from bench.shop.shop import Shop


@dataclass(frozen=True, slots=True)
class Counting:
    """An answer that counts on the route of one copy."""

    step: Step
    answer: Answer

    @property
    def words(self) -> Words:
        """The answer without where the job stood."""
        return bare(self.answer.words)


@dataclass(frozen=True, slots=True)
class Side:
    """One copy: its entries that may be used, and what of them counts."""

    head: Head
    entries: tuple[Entry, ...]
    job: Job
    counting: Mapping[str, Counting]
    """By key, in the order of the route; checks are in it like every other step."""
    settled: int
    """How many of them stand before the first open question."""
    over: bool
    """Nothing is left to be done on this copy."""
    shop: Shop
    """In which it is walked through."""

    def newest(self, key: str) -> Words | None:
        """The newest words to a key, whether they count or not; None where there are none."""
        found = self.job.newest(key)
        return bare(found.words) if found is not None else None


def bare(words: Sequence[str]) -> Words:
    """Words of an answer without the one that says where the job stood."""
    return tuple(word for word in words if not word.startswith(STANDS))


def side_of(data: bytes, name: str, shop: Shop) -> Side:
    """A copy from its bytes; raises Refused for one that is not understood, or has to be settled first."""
    loaded = judged(load(data), shop)
    if loaded.head is None or loaded.gated or loaded.read_only:
        raise Refused(f"{name}: {loaded.message} Settle that first, then join.")
    return side_with(loaded.head, loaded.usable, shop)


def side_with(head: Head, entries: Sequence[Entry], shop: Shop) -> Side:
    """A copy with these entries."""
    job = replay(head, entries)
    counting, settled = _counting(job, whole_job(job, shop))
    over = settled is None or job.closed
    return Side(
        head, tuple(entries), job, counting, len(counting) if settled is None else settled, over, shop
    )


def _counting(job: Job, stage: Stage[None]) -> tuple[dict[str, Counting], int | None]:
    """What counts on the route, gone on past what is open by what is made up; how much of it stands before
    what is open, None where nothing is, checks of a new sitting apart.

    An answer behind an open question is in the file all the same, and counts once that is answered as before.
    """
    found: dict[str, Counting] = {}
    settled: int | None = None
    try:
        step = next(stage)
        for _ in range(MOST_STEPS):
            answer = given(job, step)
            if answer is not None:
                found[step.key] = Counting(step, answer)
            elif step.optional:
                answer = assumed_for(step)
            else:
                if settled is None and step.kind != "safety":
                    settled = len(found)
                answer = Answer(ASSUMED, "", step.key, made_up(step))
            step = stage.send(answer)
    except StopIteration:
        return found, settled
    except NO_WAY:
        pass
    return found, len(found) if settled is None else settled


def rests_of(job: Job, shop: Shop) -> dict[str, Words]:
    """On what each key that counts on the route of a job rests there."""
    counting, _ = _counting(job, whole_job(job, shop))
    return {key: one.step.rests_on for key, one in counting.items()}


def standing_mark(head: Head, data: bytes, shop: Shop) -> str:
    """The word that says where a joined job stands, as it is kept with a mark."""
    job = replay(head, judged(load(data), shop).usable)
    return standing_of(walk(job, shop)).word
