"""What the lathe aims at, so that walls which land beside their aim in this shop come out as accepted.

Invariant: the ring accepted stays as it is; the plan alone aims beside it, by what was accepted with it.
"""

from __future__ import annotations

from dataclasses import replace

from bench.job.steps import Words
from bench.seals.ring.decided import Decided
from rules.checks import fixed
from rules.ring import Ring
from rules.turning.passes import Plan


def aimed_at(decided: Decided) -> Ring:
    """The ring that the lathe aims at: its bore larger by as much as walls land thick."""
    if decided.lands_mm == 0.0:
        return decided.ring
    return replace(decided.ring, bore_mm=round(decided.ring.bore_mm + 2.0 * decided.lands_mm, 6))


def as_accepted(plan: Plan, ring: Ring) -> Plan:
    """The plan as of the ring that was accepted, in which it is kept."""
    return plan if plan.order.ring == ring else replace(plan, order=replace(plan.order, ring=ring))


def aim_words(decided: Decided) -> Words:
    """That the bore is aimed at beside the one accepted, lengths in mm."""
    lands = decided.lands_mm
    if lands == 0.0:
        return ()
    thick, larger = ("thick", "larger") if lands > 0.0 else ("thin", "smaller")
    aim = f"the bore is aimed {fixed(2.0 * abs(lands), 3)} mm {larger} than accepted"
    return (f"walls land {fixed(abs(lands), 3)} mm {thick} in this shop: {aim}",)
