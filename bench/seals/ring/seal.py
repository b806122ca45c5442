"""The straight ring as a kind of seal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.corrections import outcome
from bench.job.job import Job
from bench.seals.ring.cut import cut
from bench.seals.ring.decided import decided_from
from bench.seals.ring.drawing import drawing, plan_drawing
from bench.seals.ring.made import made_and_fitted
from bench.seals.ring.measure import measure
from bench.seals.ring.planning import planned
from bench.seals.ring.sheet import ring_data
from bench.seals.ring.size import size
from bench.seals.ring.text import OUTCOMES, in_one_line, sections
from bench.seals.seal import Seal

if TYPE_CHECKING:
    from bench.shop.shop import Shop
    from rules.turning.passes import Plan


def plan(job: Job, shop: Shop) -> tuple[Plan | None, str]:
    """The turning plan of the ring that was accepted, as it was begun or from the shop;
    or why there is none.
    """
    accepted = job.newest(keys.RING)
    if accepted is None:
        return None, "no ring was accepted yet; size it first"
    return planned(job, shop, decided_from(accepted.words))


RING = Seal(
    word="ring",
    name="straight ring between case and glass",
    short="ring",
    measured=measure,
    sized=size,
    made=cut,
    fitted=made_and_fitted,
    in_place=keys.FIT_OUTCOME,
    placed=outcome,
    data=ring_data,
    sections=sections,
    in_one_line=in_one_line,
    drawing=drawing,
    outcomes=OUTCOMES,
    plan=plan,
    plan_drawing=plan_drawing,
)
