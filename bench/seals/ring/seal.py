"""The straight ring as a kind of seal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.job import Job
from bench.seals.ring.by_hand import expected
from bench.seals.ring.causes import LEAKED
from bench.seals.ring.customer import for_customer, in_one_line
from bench.seals.ring.cut import cut
from bench.seals.ring.decided import decided_from
from bench.seals.ring.drawer import in_drawer
from bench.seals.ring.drawing import drawing, plan_drawing
from bench.seals.ring.hand_steps import MADE, PRESSED
from bench.seals.ring.kind import AGAIN, ENDINGS, FITTING, REASONS, WORD
from bench.seals.ring.late import instead
from bench.seals.ring.made import made_and_fitted
from bench.seals.ring.materials import glass_step, metal_step, plastic_step
from bench.seals.ring.measure import measure
from bench.seals.ring.measure_steps import HOLD
from bench.seals.ring.past import past_rings
from bench.seals.ring.planning import planned
from bench.seals.ring.record import recorded
from bench.seals.ring.sheet import bought_in, ring_data
from bench.seals.ring.size import size
from bench.seals.ring.text import OUTCOMES, sections
from bench.seals.seal import Drawing, Seal

if TYPE_CHECKING:
    from bench.shop.shop import Shop
    from rules.turning.passes import Plan


BOUGHT = "the ring of this job was there already, bought or left over; nothing is turned"
NOTHING_TURNED = dict.fromkeys(
    (MADE, PRESSED),
    "the ring of this job was turned before readings were corrected, and judged again as it is; "
    "nothing more is turned for it. The workshop's sheet says how it was turned: sheet JOB --shop",
)
"""Why there is no plan of a ring that was there, by what it was."""


def plan(job: Job, shop: Shop) -> tuple[tuple[Plan, Drawing] | None, str]:
    """Plan and section of the ring accepted, as it was begun or from the shop; or why there is none."""
    accepted = job.newest(keys.RING)
    if accepted is None:
        return None, "no ring was accepted yet; size it first"
    decided = decided_from(accepted.words)
    if decided.at_hand:
        return None, NOTHING_TURNED.get(decided.at_hand, BOUGHT)
    made, why = planned(job, shop, decided)
    return ((made, plan_drawing(made, decided.gap)), "") if made else (None, why)


RING = Seal(
    word=WORD,
    name="straight ring between case and glass",
    short=WORD,
    accepted=keys.RING,
    again=AGAIN,
    endings=ENDINGS,
    measured=measure,
    sized=size,
    made=cut,
    fitted=made_and_fitted,
    fitting=FITTING,
    data=ring_data,
    sections=sections,
    for_customer=for_customer,
    in_one_line=in_one_line,
    drawing=drawing,
    outcomes=OUTCOMES,
    plan=plan,
    reasons=REASONS,
    recorded=recorded,
    leaked=LEAKED,
    instead=instead,
    past=past_rings,
    in_drawer=in_drawer,
    expected=expected,
    alike=lambda shop: (HOLD, glass_step(shop), plastic_step(shop), metal_step(shop)),
    bought=bought_in,
)
