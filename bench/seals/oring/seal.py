"""The O-ring as a kind of seal."""

from __future__ import annotations

from bench.seals.oring import own_keys
from bench.seals.oring.customer import for_customer, in_one_line, titled
from bench.seals.oring.drawing import drawing
from bench.seals.oring.fit import fitted
from bench.seals.oring.fit_steps import LEAKED
from bench.seals.oring.kind import (
    AGAIN,
    BACK,
    ENDINGS,
    FITTING,
    PLACES,
    REASONS,
    SHORT,
    WORD,
    closes,
    closing,
    joint_of,
)
from bench.seals.oring.make import made, plan_for
from bench.seals.oring.measure import measured
from bench.seals.oring.measure_steps import HELD, PLACE, lies_step
from bench.seals.oring.sheet import from_stock, oring_data
from bench.seals.oring.size import size
from bench.seals.oring.size_steps import material_step
from bench.seals.oring.text import OUTCOMES, recorded, sections
from bench.seals.seal import Seal

ORING = Seal(
    word=WORD,
    name="O-ring of back, crown, tube or pusher",
    short=SHORT,
    accepted=own_keys.ACCEPTED,
    again=AGAIN,
    endings=ENDINGS,
    measured=measured,
    sized=size,
    made=made,
    fitted=fitted,
    fitting=FITTING,
    data=oring_data,
    sections=sections,
    for_customer=for_customer,
    in_one_line=in_one_line,
    drawing=drawing,
    outcomes=OUTCOMES,
    plan=plan_for,
    made_by=(),
    alike=lambda _shop: (PLACE, HELD, lies_step(BACK), material_step()),
    bought=from_stock,
    titled=titled,
    joint=joint_of,
    closes=closes,
    place=own_keys.PLACE,
    lies={place: closing(place) for place in PLACES},
    leaked=LEAKED,
    reasons=REASONS,
    recorded=recorded,
)
