"""A used ring as a pattern: a new one is made after it, or as proposed.

Invariant: it is never fitted again.
"""

from __future__ import annotations

from dataclasses import replace

from bench.job import keys
from bench.job.job import Job
from bench.job.steps import Choice, Step, Words
from bench.seals.ring.decided import decided_words
from bench.seals.ring.hand import Judged
from bench.seals.ring.measure import Measured
from bench.seals.ring.size_words import ring_step
from rules.checks import hundredth
from rules.lengths import size as said_size
from rules.sizing.decision import USED_RING
from rules.sizing.sizing import Sizing, size as sized


def pattern_step(
    job: Job, found: Judged, proposed: Sizing, measured: Measured, spares: str, rests: Words
) -> Step:
    """A used ring: a new one is made after it where it is judged fit, or as proposed."""
    hand = found.hand
    step = ring_step(job, measured=measured, sizing=proposed, spares=spares, rests_on=rests)
    seen = (f"used_wall {hand.wall_mm:.3f} mm", f"used_height {hand.height_mm:.2f} mm")
    accept = Choice(
        "accept",
        f"make the ring as proposed, bore {said_size(proposed.ring.bore_mm)}",
        with_it=(*step.choices[0].with_it, *seen),
    )
    ways: tuple[Choice, ...] = (accept, Choice("make", "leave the used ring out of it", goto=keys.AT_HAND))
    like = copied(found, proposed) if found.fits else None
    if like is not None:
        copy = Choice(
            "pattern",
            f"make a new ring after it, bore {said_size(like.ring.bore_mm)}",
            with_it=(*decided_words(measured, like, spares), *seen, "after used"),
        )
        ways = (copy, *ways)
    judged_fit = f"{found.verdict} as a pattern" if like is not None else f"{found.verdict}: no pattern here"
    return replace(
        step,
        title=f"Used ring, not to be fitted again. {judged_fit.capitalize()}. What is made?",
        say=(*found.lines, USED_RING),
        consequence=(f"Proposed: {step.say[0]}", *step.consequence),
        choices=ways,
        why=f"{USED_RING} Its wall may have set a little under the squeeze, so it reads thin.",
    )


def copied(found: Judged, proposed: Sizing) -> Sizing | None:
    """A new ring of the wall of a used one, no higher than there is room for; None outside the window."""
    question, outside = found.sizing.resolved.question, proposed.ring.outside_diameter_mm
    room = proposed.ring.height_mm
    height = found.hand.height_mm if room is None else min(found.hand.height_mm, room)
    bore = hundredth(outside - 2.0 * found.hand.wall_mm)
    like = sized(replace(question, outside_mm=outside, bore_mm=bore, height_mm=height))
    return None if like.window.off_words(bore) else like
