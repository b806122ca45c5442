"""Stage three of a ring with a foot: turned as the straight ring is, its hole first, then the wall to depth.

Invariant: no act at the lathe is reached before every check was answered in this sitting; the plan of a ring
that is begun does not follow the shop.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage
from bench.job.job import Job
from bench.job.steps import Step
from bench.seals.foot import own_keys
from bench.seals.foot.drawing import plan_drawing
from bench.seals.foot.size import FootDecided
from bench.seals.foot.within import as_own, seen
from bench.seals.ring.cut import cut
from bench.seals.ring.decided import decided_from
from bench.seals.ring.larger_glass import WORD as LARGER_GLASS
from bench.seals.ring.planning import planned
from bench.seals.seal import Drawing
from rules.turning.passes import Plan

if TYPE_CHECKING:
    from bench.shop.shop import Shop


def made(job: Job, shop: Shop, decided: FootDecided) -> Stage[FootDecided | None]:
    """Turn it; gives it as it was really made, None where another is begun or none can be turned."""
    ring = replace(decided.ring, question=None)  # what the shop makes of its chance is said of the wall alone
    cut_ring = yield from as_own(cut(seen(job), shop, ring), change=said_here)
    if cut_ring is None:
        return None
    return replace(decided, ring=replace(cut_ring, question=decided.ring.question))


def said_here(step: Step) -> Step:
    """The steps of the straight ring as they are said here: one with a foot is not kept for another glass."""
    if step.key == keys.PAST_BORE:
        return replace(step, choices=tuple(one for one in step.choices if one.word != LARGER_GLASS))
    return step


def plan_for(job: Job, shop: Shop) -> tuple[tuple[Plan, Drawing] | None, str]:
    """Plan and section of the ring accepted, or why there is none."""
    accepted = job.newest(own_keys.ACCEPTED)
    if accepted is None:
        return None, "no ring was accepted yet; size it first"
    decided = decided_from(accepted.words)
    found, why = planned(seen(job), shop, decided)
    return ((found, plan_drawing(found, decided.gap)), "") if found else (None, why)
