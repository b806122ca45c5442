"""What a piece that was given up has left on the bar, which comes off before the next one is begun.

Invariant: nothing is said of a piece that was parted, nor once the next one is begun.
"""

from __future__ import annotations

from collections.abc import Callable

from bench.job.job import Job
from bench.job.remembered import remembered
from bench.job.steps import Words
from bench.job.values import named_text
from bench.seals.lathe.turning_facts import KEPT_WITH, NO_ORDER, from_text
from rules.lengths import length
from rules.turning import operations
from rules.turning.planning import plan_of


def still_on_the_bar(job: Job, live: Words, key_of: Callable[[str], str] = str) -> Words:
    """What is done first where the piece before was begun and never parted; `live`: what everything at the
    lathe rests on, `key_of`: the key of an act by its operation.
    """
    rough, parted = (job.before_attempt(key_of(act)) for act in (operations.ROUGH_OUTSIDE, operations.PART))
    off = rough is None or (parted is not None and parted.n > rough.n)
    if off or job.fresh(key_of(operations.ROUGH_OUTSIDE), live) is not None:
        return ()
    checks = filter(None, map(job.before_attempt, KEPT_WITH))
    kept = [text for one in sorted(checks, key=lambda one: one.n) if (text := named_text(one.words, "order"))]
    deep = deepest_mm(kept[-1]) if kept else 0.0
    how_deep = f", {length(deep, 1)} of it or more" if deep else ""
    return (f"the piece before is still on the bar: part or saw it off first{how_deep}, then face",)


@remembered
def deepest_mm(order: str) -> float:
    """How far from the face the plan of a kept order goes into the bar; 0 where it cannot be read."""
    try:
        made = plan_of(from_text(order))
    except NO_ORDER:
        return 0.0
    drilled = [one.target_mm or 0.0 for one in made.passes if one.axis == "tailstock"]
    return max((made.order.turned_length_mm, made.order.bore_depth_mm, *drilled))
