"""The flat gasket as a kind of seal."""

from __future__ import annotations

from bench.seals.seal import Seal
from tests.seals.flat_gasket import kind, sheet, stages

GASKET = Seal(
    word=kind.WORD,
    name="flat gasket under the glass",
    short=kind.WORD,
    accepted=kind.ACCEPTED,
    again=kind.AGAIN,
    endings=kind.ENDINGS,
    measured=stages.measured,
    sized=stages.sized,
    made=stages.made,
    fitted=stages.fitted,
    fitting=kind.FITTING,
    data=sheet.data,
    sections=sheet.sections,
    for_customer=sheet.for_customer,
    in_one_line=sheet.in_one_line,
    drawing=sheet.drawing,
    outcomes=sheet.OUTCOMES,
    plan=lambda job, shop: (None, "a flat gasket is cut from sheet: there is no turning plan"),
)
