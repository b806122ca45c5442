"""What the rings tried so far say about the next one.

Invariant: a ring tried is about the seat and the glass it was tried in: once either was read anew it says nothing.
"""

from __future__ import annotations

from dataclasses import dataclass

from bench.job import keys
from bench.job.job import Answer, Job
from bench.job.steps import Words
from bench.seals.ring.decided import Ring, ring_from
from bench.seals.ring.spares import newest, spare_tried
from bench.stages.common import named, said
from rules.sizing.attempt import NextRing, next_ring_change


@dataclass(frozen=True, slots=True)
class Tried:
    """A ring as it was accepted, what its walls measured, and what happened under the press."""

    n: int
    """Place of the outcome in the file."""
    outcome: str
    ring: Ring
    wall_mm: float
    """Mean wall as measured; as planned where none was written."""

    def next(self, *, outside_mm: float, step_mm: float) -> NextRing:
        """The ring after it, with the outside it will be made to."""
        return next_ring_change(
            self.outcome,
            wall_mm=self.wall_mm,
            gap_mm=self.ring.gap_mm,
            outside_mm=outside_mm,
            low_pct=self.ring.squeeze_low_pct,
            high_pct=self.ring.squeeze_high_pct,
            step_mm=step_mm,
        )


def tried_in(span: tuple[Answer, ...]) -> Tried | None:
    """The ring tried in one attempt; None where none came to the press."""
    ring, outcome = newest(span, keys.RING), newest(span, keys.FIT_OUTCOME)
    if ring is None or outcome is None or outcome.n < ring.n:
        return None
    accepted = ring_from(ring.words)
    walls = [float(wall) for wall in said(outcome.words, "walls").removesuffix(" mm").split()]
    wall = sum(walls) / len(walls) if walls else accepted.wall_mm
    return Tried(outcome.n, outcome.word, accepted, wall)


def taught(
    job: Job, *, rests_on: Words, outside_mm: float | None, step_mm: float
) -> tuple[float, float] | None:
    """Outside and bore that earlier rings ask of this one; None where they say nothing of this seat and glass.

    rests_on: keys of the readings of seat and glass. outside_mm: another outside that was keyed. A ring that went
    home, and leaked, keeps its wall after one that had to be changed; alone it says nothing of the gap.
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
    outside = tried[-1].ring.outside_mm if outside_mm is None else outside_mm
    following = tried[-1].next(outside_mm=outside, step_mm=step_mm).bore_mm
    return None if following is None else (outside, following)
