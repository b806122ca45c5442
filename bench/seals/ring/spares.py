"""Spare rings of the same set-up: how many there are, which were tried, and whether the next ring is one.

Invariant: a spare is offered only while one is left; a ring of any other size is turned.
"""

from __future__ import annotations

from collections.abc import Sequence

from bench.job import keys
from bench.job.job import Answer, Job, newest_of
from bench.job.steps import Choice
from bench.job.values import named
from rules.checks import size_text
from rules.ring import Ring
from rules.sizing.sizing import Sizing
from rules.turning import operations
from rules.turning.passes import TIGHTER_SPARE_MM

SAME_MM = 0.005
"""Two sizes of the same ring as written, in hundredths, are the same within this."""


def spares_left(job: Job) -> tuple[tuple[str, float], ...]:
    """The spare rings that lie there unused: the word for each and its bore, mm."""
    left: list[tuple[str, float]] = []
    for span in job.attempt_spans():
        ring = newest_of(span, keys.RING)
        if ring is not None and newest_of(span, operations.DRESS) is not None:
            past = newest_of(span, keys.PAST_OUTSIDE)
            sized = past if past is not None and past.n > ring.n and past.word == "smaller_bore" else ring
            bore = named(sized.words, "bore") or 0.0
            both = [("spare", bore), ("spare_tighter", round(bore - TIGHTER_SPARE_MM, 4))]
            left = both[: int(named(ring.words, "spares") or 0)]
        if (tried := spare_tried(span)) is not None:
            left = [one for one in left if one[0] != tried.word]
    return tuple(left)


def spare_choices(job: Job, following: Sizing) -> tuple[Choice, ...]:
    """The spares that are left and lie between the bores that work for the next ring, as choices for it."""
    outside = following.ring.outside_diameter_mm
    return tuple(
        Choice(
            word,
            f"try a spare ring of the same set-up, bore {size_text(bore)} mm",
            with_it=(f"bore {size_text(bore)} mm", f"outside {outside:.2f} mm"),
        )
        for word, bore in reversed(spares_left(job))
        if following.window.feasible and not following.window.off_words(bore)
    )


def spare_tried(span: Sequence[Answer]) -> Answer | None:
    """The decision of an attempt to try a spare next; None where it decided otherwise."""
    remake = newest_of(span, keys.REMAKE)
    return remake if remake is not None and remake.word.startswith("spare") else None


def is_spare(job: Job, ring: Ring) -> bool:
    """Whether the ring of this attempt is a spare that was turned before."""
    spans = job.attempt_spans()
    tried = spare_tried(spans[-2]) if len(spans) > 1 else None
    if tried is None:
        return False
    sizes = (
        (named(tried.words, "bore"), ring.bore_mm),
        (named(tried.words, "outside"), ring.outside_diameter_mm),
    )
    return all(one is not None and abs(one - other) < SAME_MM for one, other in sizes)
