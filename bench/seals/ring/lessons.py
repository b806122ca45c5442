"""What the rings tried so far say about the next one.

Invariant: a ring tried is about the seat and the glass it was tried in:
once either was measured again it says nothing.
"""

from __future__ import annotations

from dataclasses import dataclass

from bench.job import keys
from bench.job.job import Answer, Job, newest_of
from bench.job.steps import Words
from bench.job.values import named, several
from bench.seals.ring.decided import Decided, decided_from
from bench.seals.ring.spares import spare_tried
from rules.sizing.next_ring import NextRing, next_ring


@dataclass(frozen=True, slots=True)
class Tried:
    """A ring as it was accepted, what its walls measured, and what happened under the press."""

    n: int
    """Number of the outcome in the file."""
    outcome: str
    decided: Decided
    wall_mm: float
    """Mean wall as measured; as planned where none was written."""

    def next(self, *, outside_mm: float, step_mm: float) -> NextRing:
        """The ring after it, with the outside it will be made to."""
        return next_ring(
            self.outcome,
            wall_mm=self.wall_mm,
            gap_mm=self.decided.gap.mm,
            outside_mm=outside_mm,
            band=self.decided.band,
            step_mm=step_mm,
        )


def tried_in(span: tuple[Answer, ...]) -> Tried | None:
    """The ring tried in one attempt; None where none came to the press."""
    ring, outcome = newest_of(span, keys.RING), newest_of(span, keys.FIT_OUTCOME)
    if ring is None or outcome is None or outcome.n < ring.n:
        return None
    accepted = decided_from(ring.words)
    walls = several(outcome.words, "walls") or (accepted.ring.wall_mm,)
    return Tried(outcome.n, outcome.word, accepted, sum(walls) / len(walls))


def taught(
    job: Job, *, rests_on: Words, outside_mm: float | None, step_mm: float
) -> tuple[float, float] | None:
    """Outside and bore that earlier rings ask of this one;
    None where they say nothing of this seat and glass.

    rests_on: keys of the readings of seat and glass. outside_mm: another outside that was keyed. A ring that
    went home, and leaked, keeps its wall after one that had to be changed; alone it says nothing of the gap.
    """
    spans = job.attempt_spans()[:-1]
    read = max(job.newest_n(key) for key in rests_on)
    tried = [one for span in spans if (one := tried_in(span)) is not None and one.n > read]
    if not tried:
        return None
    spare = spare_tried(spans[-1])
    if spare is not None and outside_mm is None:
        outside, bore = named(spare.words, "outside"), named(spare.words, "bore")
        if outside is not None and bore is not None:
            return outside, bore
    if all(one.outcome == "home" for one in tried):
        return None
    outside = tried[-1].decided.ring.outside_diameter_mm if outside_mm is None else outside_mm
    following = tried[-1].next(outside_mm=outside, step_mm=step_mm).bore_mm
    return None if following is None else (outside, following)
