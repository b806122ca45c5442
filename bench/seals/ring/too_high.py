"""A ring measured higher than its room: it is dressed and measured again before anything is pressed.

Invariant: nothing is asked of a ring that was pressed without it.
"""

from __future__ import annotations

from dataclasses import replace

from bench.job import keys
from bench.job.job import Job
from bench.job.steps import Choice, Step, Words
from rules.lengths import bare, length
from rules.ring import Ring

PROUD_MM = 0.03
"""A ring higher by no more than this than what is planned is left as it is (own judgement)."""
DRESSED = "dressed"
LIVE = (keys.ATTEMPT, keys.RING, keys.DRESS_LOWER)


def after_dressing(job: Job, step: Step) -> Step:
    """The height asked again of a ring that was dressed because it was too high."""
    said = job.fresh(keys.TOO_HIGH, LIVE)
    again = said is not None and said.word == DRESSED
    return replace(step, rests_on=(*step.rests_on, keys.TOO_HIGH)) if again else step


def is_too_high(job: Job, ring: Ring, height_mm: float, read: Words) -> bool:
    """Whether it is asked what next."""
    live = (*LIVE, *read)
    pressed = job.fresh(keys.FIT_OUTCOME, live) is not None
    high = height_mm > ring.height_mm + PROUD_MM + 1e-9
    return high and (not pressed or job.fresh(keys.TOO_HIGH, live) is not None)


def too_high_step(ring: Ring, height_mm: float, read: Words) -> Step:
    """Lower first, or pressed as it is."""
    return Step(
        key=keys.TOO_HIGH,
        stage="verify",
        kind="result",
        title=f"The ring is {length(height_mm)} high, {bare(ring.height_mm)} was planned: what next?",
        say=(
            "Squeezed, it grows taller still: it may stand proud, or lift the glass.",
            "Fine abrasive paper on a flat plate, the face without the entry chamfer down;",
            f"then break its outside edge again, {bare(ring.lower_chamfer_mm)}.",
        ),
        choices=(
            Choice(DRESSED, "it is dressed lower: measure its height again"),
            Choice("press", "press it as it is"),
            Choice("keep", "leave it for now", goto="jobs"),
        ),
        rests_on=(*LIVE, *read),
        waits_for="dressing the ring",
        why=f"Up to {bare(PROUD_MM)} over is left as it is; a ring once pressed cannot be dressed.",
        how=("A reading in doubt is keyed again from the list before anything is decided.",),
    )
