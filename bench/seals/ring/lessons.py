"""What the rings tried so far say of the next one.

Invariant: a ring tried is evidence of the seat and the glass it was tried in. Once both were measured again,
or a reading was corrected by more than it is good to, it says nothing, and the page says that; a smaller
correction leaves seat and glass what they were, and what the ring said of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bench.job import keys
from bench.job.corrections import outcome as outcome_of
from bench.job.job import Answer, Job, newest_of
from bench.job.kept import HOME
from bench.job.steps import Words
from bench.job.values import several
from bench.seals.ring.causes import NONE, fit_cause
from bench.seals.ring.decided import Decided, decided_from
from bench.seals.ring.kind import FITTING
from bench.seals.ring.spares import spare_sizes, spare_tried
from bench.seals.ring.text import OUTCOMES
from rules.lengths import bare
from rules.ring import RingSizes
from rules.sizing.learned import RingTried
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import Sizing

NO_READINGS = (keys.TEMPERATURE, keys.SEAT_WAY, keys.GLASS_WAY)
"""Answers that a gap rests on though nothing is read again with them."""


@dataclass(frozen=True, slots=True)
class Tried:
    """A ring as it was accepted, what its walls measured, and what happened to it."""

    number: int
    """Which ring of the job, from 1."""
    n: int
    """Number of the outcome in the file."""
    outcome: str
    cause: str
    """What else was named as the cause; empty where nothing was."""
    leaked: bool
    """Home, but the glass joint leaked and no other cause was found."""
    decided: Decided
    wall_mm: float
    """Mean wall as measured; as planned where none was written."""

    def evidence(self, wall_u_mm: float) -> tuple[RingTried, ...]:
        """What it says of the gap; nothing where another cause was named."""
        said = () if self.cause else (self.outcome,)
        return tuple(
            RingTried(
                number=self.number,
                outcome=one,
                wall_mm=self.wall_mm,
                wall_u_mm=wall_u_mm,
                band=self.decided.band,
            )
            for one in (*said, *(("leaked",) if self.leaked else ()))
        )


def tried_in(span: Sequence[Answer], number: int) -> Tried | None:
    """The ring tried in one attempt; None where none came to the press."""
    ring, fitted = newest_of(span, keys.RING), outcome_of(span, FITTING)
    if ring is None or fitted is None or fitted.n < ring.n:
        return None
    accepted = decided_from(ring.words)
    walls = several(fitted.words, "walls") or (accepted.ring.wall_mm,)
    return Tried(
        number=number,
        n=fitted.n,
        outcome=fitted.word,
        cause=_cause(span, fitted),
        leaked=fitted.word == HOME and _said(span, keys.LEAK_CAUSE, fitted) == NONE,
        decided=accepted,
        wall_mm=sum(walls) / len(walls),
    )


def _said(span: Sequence[Answer], key: str, after: Answer) -> str:
    """What was answered to a key after another answer; empty where nothing was."""
    answer = newest_of(span, key)
    return answer.word if answer is not None and answer.n > after.n else ""


def _cause(span: Sequence[Answer], fitted: Answer) -> str:
    """The other cause of an outcome; the usual one where it would have been asked and was not."""
    asked = fit_cause(fitted.word)
    said = _said(span, keys.FIT_CAUSE, fitted) if asked else NONE
    return "" if said == NONE else said or "not asked"


@dataclass(frozen=True, slots=True)
class Lessons:
    """What earlier rings of a job have to say of the next one."""

    counting: tuple[Tried, ...] = ()
    """Tried since seat and glass were last read, oldest first."""
    past: Tried | None = None
    """The last ring tried, where seat or glass was read again after it."""
    spare: RingSizes | None = None
    """The spare that is to be tried now, as it was cut; its height is not known."""

    @property
    def numbers(self) -> tuple[int, ...]:
        """Which rings of the job count."""
        return tuple(one.number for one in self.counting)

    def past_words(self, sizing: Sizing) -> Words:
        """Why the last ring tried says nothing of this one; empty where it does, or none was tried."""
        if self.past is None:
            return ()
        wall, then, now = sizing.ring.wall_mm, self.past.decided.gap.mm, sizing.resolved.measured.mean_mm
        other = "looser" if wall < self.past.wall_mm else "tighter"
        return (
            f"ring {self.past.number}, wall {bare(self.past.wall_mm, 3)}, {OUTCOMES[self.past.outcome]} in "
            f"a gap taken as {bare(then, 3)}; seat or glass was read again since, "
            f"the gap is {bare(now, 3)} now: this ring starts from that, wall {bare(wall, 3)}, "
            f"{other} than ring {self.past.number}",
        )

    def asked(self, question: SizingQuestion, wall_u_mm: float) -> SizingQuestion:
        """The question with what these rings say of the gap, and their outside."""
        if not self.counting:
            return question
        tried = tuple(one for ring in self.counting for one in ring.evidence(wall_u_mm))
        outside = self.counting[-1].decided.ring.outside_diameter_mm
        return replace(question, tried=tried, outside_mm=outside)


def lessons(job: Job, rests_on: Words, seat_mm: float, glass_mm: float) -> Lessons:
    """What the rings before this one say; rests_on: keys of the readings of seat and glass, whose means are
    given as read.
    """
    spans = job.attempt_spans()[:-1]
    read = max(job.newest_n(key) for key in rests_on if key not in NO_READINGS)
    tried = [one for number, span in enumerate(spans, 1) if (one := tried_in(span, number)) is not None]
    counting = tuple(
        one
        for one in tried
        if one.n > read or (one.n > job.newest_n(keys.MEASURE_AGAIN) and is_the_same(one, seat_mm, glass_mm))
    )
    spare = spare_tried(spans[-1]) if spans else None
    return Lessons(
        counting=counting,
        past=tried[-1] if tried and not counting else None,
        spare=spare_sizes(spare.words) if spare is not None and counting else None,
    )


def is_the_same(one: Tried, seat_mm: float, glass_mm: float) -> bool:
    """Whether seat and glass read as when a ring was tried, within what those readings are good to."""
    gap = one.decided.gap
    near_seat = abs(seat_mm - gap.case_bore_mm) <= gap.case_bore_u_mm + 1e-9
    return near_seat and abs(glass_mm - gap.glass_mm) <= gap.glass_u_mm + 1e-9


def belief_words(sizing: Sizing, numbers: Sequence[int]) -> Words:
    """What the rings tried have taught of the gap, and what chance the ring proposed has; numbers: of all
    rings that were tried in it.
    """
    chance = f"this bore: {100 * sizing.window.ring_chance:.0f} %"
    return tuple(f"{said}; {chance}" for said in gap_words(sizing, numbers))


def gap_words(sizing: Sizing, numbers: Sequence[int]) -> Words:
    """What the rings tried have taught of the gap alone, whatever ring comes next."""
    if not numbers:
        return ()
    tried = dict.fromkeys(one.number for one in sizing.resolved.question.tried)
    if not tried:
        return (f"{_rings(numbers)}: another cause was named, so nothing is said of the gap",)
    before, after = sizing.resolved.measured.mean_mm, sizing.resolved.believed.mean_mm
    places = next((places for places in (2, 3) if bare(before, places) != bare(after, places)), 0)
    rather = f"rather {bare(after, places)} than {bare(before, places)}"
    gap = rather if places else f"as measured, {bare(before, 3)}"
    return (f"after {_rings(tuple(tried))} the gap is {gap}",)


def _rings(numbers: Sequence[int]) -> str:
    """Rings by their numbers.

    >>> _rings((1,)), _rings((1, 2, 4))
    ('ring 1', 'rings 1, 2 and 4')
    """
    *first, last = map(str, numbers)
    return f"rings {', '.join(first)} and {last}" if first else f"ring {last}"
