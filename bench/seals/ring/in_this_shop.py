"""What an accepted ring's chance is by the shop as it was said since, beside what was said of it before.

Invariant: nothing is said where the shop's own lathe and tools change nothing; the ring stays as accepted.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job.steps import Words
from bench.seals.ring.decided import Decided
from bench.shop.shop import built_in
from rules.lengths import size as size_said
from rules.measuring.instruments import landing_spread_mm
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import size as sized

if TYPE_CHECKING:
    from bench.shop.shop import Shop

LEAST_POINTS = 1.0
"""A smaller change of a chance is not worth a word. Own judgement."""


def chance_words(shop: Shop, decided: Decided) -> Words:
    """What the shop makes of the chance, where it makes something of it, and the bore that it proposes."""
    now, assumed = decided.question, built_in(shop.works_in)
    if now is None or decided.at_hand:
        return ()
    spread = landing_spread_mm(assumed.turning_spread_mm, assumed.instruments)
    before = replace(
        now,
        turning_spread_mm=spread if math.isinf(now.turning_dof) else now.turning_spread_mm,
        lathe_step_mm=assumed.lathes[0].cross.step_on_diameter_mm,
    )
    if now == before:
        return ()
    ring = decided.ring
    outside, bore, height = ring.outside_diameter_mm, ring.bore_mm, ring.height_mm
    then, here = (
        chance_pct(replace(one, outside_mm=outside, bore_mm=bore, height_mm=height)) for one in (before, now)
    )
    if abs(then - here) < LEAST_POINTS:
        return ()
    said = f"In this shop the chance of this ring is {here:.0f} %, with what is assumed {then:.0f} %"
    best, chance = proposed(replace(now, outside_mm=outside, height_mm=height))
    if chance - here < LEAST_POINTS:
        return (f"{said}.",)
    return (f"{said}; bore {size_said(best)} would have {chance:.0f} %: / to the ring.",)


def chance_pct(question: SizingQuestion) -> float:
    """The chance that the ring asked for lands in its band, per cent."""
    return 100.0 * sized(question).window.ring_chance


def proposed(question: SizingQuestion) -> tuple[float, float]:
    """The bore that is proposed, mm, and its chance, per cent."""
    sizing = sized(question)
    return sizing.ring.bore_mm, 100.0 * sizing.window.ring_chance
