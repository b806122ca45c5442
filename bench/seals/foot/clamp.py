"""A foot that a bezel clamps between glass and ledge, as the flat gasket that it then is.

Invariant: it is judged by the needs of a flat gasket of its plastic, never by others.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from bench.job.remembered import remembered
from rules.foot.sizing import FootSizing
from rules.gasket.drive import Drive
from rules.gasket.materials import gasket_materials
from rules.gasket.room import GasketQuestion, GasketRoom, GasketSizes
from rules.gasket.sizing import GasketSizing, judged as gasket_judged

judged = remembered(gasket_judged)


def clamped(
    foot: FootSizing, drive: Drive, plastic: str, *, seat_mm: float, own: Mapping[str, Any] | None = None
) -> GasketSizing | None:
    """What the bezel does to the foot under the glass; None where its plastic is not known well enough.

    It has the ledge to flow on, open inwards, out to the seat; nothing but the foot stops the glass.
    """
    material = gasket_materials(own).get(plastic)
    if material is None:
        return None
    bears = foot.bearing
    room = GasketRoom(
        outside_mm=seat_mm,
        inside_mm=bears.inside_mm,
        height_mm=foot.thick_mm,
        stopped=False,
        walled=False,
    )
    question = GasketQuestion(room=room, drive=drive, material=material, thick_mm=foot.thick_mm)
    return judged(question, GasketSizes(bears.outside_mm, bears.inside_mm, foot.thick_mm))
