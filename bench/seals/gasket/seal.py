"""The flat gasket as a kind of seal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bench.job.job import Job
from bench.seals.gasket import own_keys
from bench.seals.gasket.customer import for_customer, in_one_line
from bench.seals.gasket.drawing import drawing
from bench.seals.gasket.fit import fitted
from bench.seals.gasket.fit_steps import LEAKED
from bench.seals.gasket.kind import AGAIN, ENDINGS, FITTING, REASONS, WORD, joint_of
from bench.seals.gasket.make import made
from bench.seals.gasket.measure import measured
from bench.seals.gasket.sheet import gasket_data
from bench.seals.gasket.size import size
from bench.seals.gasket.text import OUTCOMES, recorded, sections
from bench.seals.seal import Drawing, Seal

if TYPE_CHECKING:
    from bench.shop.shop import Shop
    from rules.turning.passes import Plan


def plan(job: Job, shop: Shop) -> tuple[tuple[Plan, Drawing] | None, str]:
    """Why there is no turning plan."""
    return None, "this gasket is cut from sheet or taken from stock; nothing is turned"


GASKET = Seal(
    word=WORD,
    name="flat gasket under a screwed back or bezel",
    short=WORD,
    accepted=own_keys.ACCEPTED,
    again=AGAIN,
    endings=ENDINGS,
    measured=measured,
    sized=size,
    made=made,
    fitted=fitted,
    fitting=FITTING,
    data=gasket_data,
    sections=sections,
    for_customer=for_customer,
    in_one_line=in_one_line,
    drawing=drawing,
    outcomes=OUTCOMES,
    plan=plan,
    joint=joint_of,
    leaked=LEAKED,
    reasons=REASONS,
    recorded=recorded,
)
