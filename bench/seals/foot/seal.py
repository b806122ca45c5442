"""The ring with a foot as a kind of seal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bench.job.steps import Step
from bench.seals.foot import own_keys
from bench.seals.foot.customer import for_customer, in_one_line
from bench.seals.foot.drawing import drawing
from bench.seals.foot.fit import fitted
from bench.seals.foot.kind import AGAIN, ENDINGS, FITTING, REASONS, SHORT, WORD
from bench.seals.foot.make import made, plan_for
from bench.seals.foot.measure import measured
from bench.seals.foot.measure_steps import CLAMPED, HOME, STANDS
from bench.seals.foot.sheet import foot_data
from bench.seals.foot.size import size
from bench.seals.foot.text import recorded, sections
from bench.seals.foot.within import own, own_step
from bench.seals.ring.causes import LEAKED
from bench.seals.ring.materials import glass_step, metal_step, plastic_step
from bench.seals.ring.text import OUTCOMES
from bench.seals.seal import Seal
from rules.turning import operations

if TYPE_CHECKING:
    from bench.shop.shop import Shop


def alike(shop: Shop) -> tuple[Step, ...]:
    """What a job begun after another one takes over from it."""
    materials = (glass_step(shop), plastic_step(shop), metal_step(shop))
    return (STANDS, HOME, CLAMPED, *map(own_step, materials))


FOOT = Seal(
    word=WORD,
    name="ring with a foot, under the glass and beside it",
    short=SHORT,
    accepted=own_keys.ACCEPTED,
    again=AGAIN,
    endings=ENDINGS,
    measured=measured,
    sized=size,
    made=made,
    fitted=fitted,
    fitting=FITTING,
    data=foot_data,
    sections=sections,
    for_customer=for_customer,
    in_one_line=in_one_line,
    drawing=drawing,
    outcomes=OUTCOMES,
    plan=plan_for,
    made_by=(own(operations.PART),),
    alike=alike,
    leaked=own_step(LEAKED),
    reasons=REASONS,
    recorded=recorded,
)
