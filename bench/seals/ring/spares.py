"""Spare rings of the same set-up: how many there are, which were tried, and whether the next ring is one.

Invariant: a spare is offered only while one is left; a ring of any other size is turned.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bench.job import keys
from bench.job.corrections import outcome as outcome_of
from bench.job.job import Answer, Job, newest_of
from bench.job.steps import Choice, Words
from bench.job.values import named, named_text, number, several
from bench.seals.ring.decided import Decided, decided_from
from bench.seals.ring.hand_steps import MADE, PRESSED
from bench.seals.ring.kind import FITTING
from bench.seals.ring.larger_glass import WORD as LARGER_GLASS
from rules.checks import fixed, size_text
from rules.lengths import length
from rules.ring import RingSizes
from rules.sizing.sizing import Sizing
from rules.turning import operations
from rules.turning.order import TIGHTER_SPARE_MM

KEPT = "kept"
"""In place of a spare: the ring that was kept for a larger glass."""
SPARE_NAMES = {"spare": "spare 1", "spare_tighter": "spare 2, the tighter,"}
"""How the spares are told apart, as they were laid apart."""
SAME_MM = 0.005
"""Two sizes of the same ring as written, in hundredths, are the same within this."""


@dataclass(frozen=True, slots=True)
class Spare:
    """A ring of a set-up that lies there unused, as it was cut, mm."""

    word: str
    wall_mm: float
    """As planned, and what the first ring of its set-up measured over its own plan."""
    chamfer_mm: float
    lower_chamfer_mm: float

    def bore_mm(self, outside_mm: float) -> float:
        """Its bore where it is pressed against a seat."""
        return round(outside_mm - 2.0 * self.wall_mm, 4)


def spares_left(job: Job) -> tuple[Spare, ...]:
    """The spare rings that lie there unused."""
    left: tuple[Spare, ...] = ()
    kept: float | None = None
    before: Sequence[Answer] = ()
    for span in job.attempt_spans():
        cut, ring = spares_cut(span), taken_of(span)
        if cut:
            left = cut
        elif left and ring is not None and newest_of(span, operations.DRESS) is None:
            used = spare_used(before, decided_from(ring.words), left, kept)
            left, kept = tuple(one for one in left if one.word != used), None if used == KEPT else kept
        kept = kept_wall_mm(span) or kept
        before = span
    return left


def taken_of(span: Sequence[Answer]) -> Answer | None:
    """The ring of an attempt as it was taken, before one that is in its place was judged again."""
    taken = [one for one in span if one.key == keys.RING and named_text(one.words, "at_hand") != PRESSED]
    return taken[-1] if taken else None


def kept_wall_mm(span: Sequence[Answer]) -> float | None:
    """The wall of the ring that an attempt turned and kept for a larger glass; None where it kept none."""
    past, dressed = newest_of(span, keys.PAST_BORE), newest_of(span, operations.DRESS)
    if past is None or past.word != LARGER_GLASS or dressed is None or dressed.n < past.n:
        return None
    read = [one for one in span if keys.WALL_READING in one.key and one.n < past.n and one.word[:1].isdigit()]
    return number(read[-1].word) if read else None


def spare_used(before: Sequence[Answer], now: Decided, left: Sequence[Spare], kept: float | None) -> str:
    """Which of the spares that were left a ring is that was not turned, by the attempt before it or, as one
    that is there and was turned for this job, by its wall: it may be the one `kept` for a larger glass; empty
    where it is none.
    """
    if now.at_hand == MADE:
        walls = {one.word: one.wall_mm for one in left} | ({} if kept is None else {KEPT: kept})
        return min(walls, key=lambda word: abs(walls[word] - now.ring.wall_mm))
    tried = spare_tried(before)
    return tried.word if tried is not None and spare_taken(before, now) else ""


def spares_cut(span: Sequence[Answer]) -> tuple[Spare, ...]:
    """The spares that were turned in an attempt: same settings, so off their plan by as much as its ring."""
    dressed, fitted = newest_of(span, operations.DRESS), outcome_of(span, FITTING)
    ring = newest_of([one for one in span if dressed is not None and one.n < dressed.n], keys.RING)
    if ring is None:
        return ()
    planned = decided_from(ring.words)
    wall = planned.ring.wall_mm
    walls = several(fitted.words, "walls") if fitted is not None else ()
    made = wall + round(sum(walls) / len(walls) - wall, 3) if walls else wall
    chamfers = planned.ring.chamfer_mm, planned.ring.lower_chamfer_mm
    tighter = named(dressed.words, "tighter") if dressed is not None else None
    thicker = (TIGHTER_SPARE_MM if tighter is None else tighter) / 2.0
    both = (Spare("spare", made, *chamfers), Spare("spare_tighter", made + thicker, *chamfers))
    return both[: planned.spares]


def spare_choices(job: Job, following: Sizing) -> tuple[Choice, ...]:
    """The spares that are left and lie between the bores that work for the next ring, as choices for it."""
    outside = following.ring.outside_diameter_mm
    return tuple(
        Choice(
            one.word,
            f"try {SPARE_NAMES[one.word]} of the same set-up, wall {length(one.wall_mm, 3)} as planned, "
            "not measured",
            with_it=(
                f"bore {size_text(one.bore_mm(outside))} mm",
                f"outside {outside:.2f} mm",
                f"chamfer {fixed(one.chamfer_mm)} mm",
                f"lower_chamfer {fixed(one.lower_chamfer_mm)} mm",
            ),
        )
        for one in reversed(spares_left(job))
        if following.window.feasible and not following.window.off_words(one.bore_mm(outside))
    )


def spare_tried(span: Sequence[Answer]) -> Answer | None:
    """The decision of an attempt to try a spare next; None where it decided otherwise."""
    remake = newest_of(span, keys.REMAKE)
    return remake if remake is not None and remake.word.startswith("spare") else None


def spare_sizes(words: Words) -> RingSizes | None:
    """The spare that was decided to be tried, a chamfer not written as 0; None without outside or bore."""
    outside, bore = named(words, "outside"), named(words, "bore")
    if outside is None or bore is None:
        return None
    return RingSizes(
        outside_diameter_mm=outside,
        bore_mm=bore,
        height_mm=None,
        chamfer_mm=named(words, "chamfer") or 0.0,
        lower_chamfer_mm=named(words, "lower_chamfer") or 0.0,
    )


def spare_taken(before: Sequence[Answer], now: Decided) -> bool:
    """Whether a ring is the spare that was to be tried after the attempt before it."""
    tried = spare_tried(before)
    spare = spare_sizes(tried.words) if tried is not None and not now.at_hand else None
    return (
        spare is not None
        and abs(spare.bore_mm - now.ring.bore_mm) < SAME_MM
        and abs(spare.outside_diameter_mm - now.ring.outside_diameter_mm) < SAME_MM
    )


def is_spare(job: Job, now: Decided) -> bool:
    """Whether the ring of this attempt is a spare that was turned before."""
    spans = job.attempt_spans()
    return len(spans) > 1 and spare_taken(spans[-2], now)


def spares_data(job: Job) -> dict[str, int | bool]:
    """For the sheet: how many lie there, and whether the ring is one, though it was judged again since."""
    taken = taken_of(job.attempt_spans()[-1])
    spare = taken is not None and is_spare(job, decided_from(taken.words))
    return {"spares_left": len(spares_left(job)), "spare": spare}
