"""A bore that came out too large: the ring is kept, and the larger glass that it would fit is named.

Invariant: a size is named only where its squeeze lies in the band that was decided with the ring.
"""

from __future__ import annotations

from dataclasses import replace

from bench.job import keys
from bench.job.job import Job, newest_of
from bench.job.steps import Choice, Step
from bench.seals.ring.decided import Decided
from rules.lengths import length
from rules.sizing.glass_order import next_larger
from rules.turning import operations

WORD = "larger_glass"


def with_glass(step: Step, decided: Decided, wall_mm: float, step_mm: float) -> Step:
    """The ways out of a bore too large, with the size of glass that this wall would fit."""
    gap, band, planned = decided.gap, decided.band, decided.ring.wall_mm
    wanted = 100.0 * (1.0 - (gap.case_bore_mm - gap.glass_mm) / 2.0 / planned)
    glass = next_larger(
        gap.glass_mm,
        case_bore_mm=gap.case_bore_mm,
        wall_mm=wall_mm,
        step_mm=step_mm,
        squeezes_pct=(band.low_pct, wanted, band.high_pct),
    )
    if glass is None:
        steps = length(step_mm)
        text = f"no larger glass in steps of {steps} fits this wall: part it, and measure what there is"
    else:
        text = (
            f"the next larger glass, {length(glass[0])}, squeeze {glass[1]:.1f} %: "
            "part the ring and keep it for that"
        )
    ways = tuple(replace(one, text=text) if one.word == WORD else one for one in step.choices)
    return replace(step, choices=ways if glass is not None else ways[::-1])


def kept_for_a_glass(job: Job) -> bool:
    """Whether the ring before this one was parted and kept for a larger glass."""
    spans = job.attempt_spans()
    if len(spans) < 2:
        return False
    past, dressed = (newest_of(spans[-2], key) for key in (keys.PAST_BORE, operations.DRESS))
    return past is not None and past.word == WORD and dressed is not None and dressed.n > past.n


def usual_first(step: Step, word: str) -> tuple[Choice, ...]:
    """The choices of a step with one of them first."""
    return tuple(sorted(step.choices, key=lambda one: one.word != word))
