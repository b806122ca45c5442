"""The flat gasket as a kind of seal."""

from __future__ import annotations

from bench.seals.gasket import own_keys
from bench.seals.gasket.customer import for_customer, in_one_line, titled
from bench.seals.gasket.drawing import drawing
from bench.seals.gasket.fit import fitted
from bench.seals.gasket.fit_steps import LEAKED
from bench.seals.gasket.kind import AGAIN, ENDINGS, FITTING, PLACES, REASONS, WORD, closing, joint_of
from bench.seals.gasket.make import made
from bench.seals.gasket.measure import measured
from bench.seals.gasket.measure_steps import JOINT, MEETS, SHAPE
from bench.seals.gasket.planning import plan_for
from bench.seals.gasket.sheet import from_stock, gasket_data
from bench.seals.gasket.size import size
from bench.seals.gasket.size_steps import material_step
from bench.seals.gasket.text import OUTCOMES, recorded, sections
from bench.seals.seal import Seal
from rules.turning import operations

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
    plan=plan_for,
    made_by=(own_keys.turned(operations.PART), own_keys.CUT_OUT),
    alike=lambda shop: (JOINT, MEETS, SHAPE, material_step(shop, stopped=False)),
    bought=from_stock,
    titled=titled,
    joint=joint_of,
    closes=joint_of,
    place=own_keys.JOINT,
    lies={place: closing(place) for place in PLACES},
    leaked=LEAKED,
    reasons=REASONS,
    recorded=recorded,
)
