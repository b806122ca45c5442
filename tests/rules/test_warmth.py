"""Cold and warmth: the plastic as stiff as it is there, or not known; never the stiffness of the room."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from rules import tables
from rules.checks import OutOfRange
from rules.sizing import climate, why
from rules.sizing.fit import Fit
from rules.sizing.question import SizingQuestion
from rules.sizing.resolved import resolve
from rules.sizing.sizing import size
from rules.tables import Plastic
from rules.warmth import part_at

RING: dict[str, Any] = {"outside_mm": 33.0, "bore_mm": 31.86, "height_mm": 1.1}
PLACE: dict[str, Any] = {
    "case_bore_mm": 33.0,
    "glass_mm": 31.96,
    "case_metal": "316L",
    "case_wall_mm": 3.5,
    "case_height_mm": 4.0,
    "glass_material": "sapphire",
    "glass_thickness_mm": 1.5,
}
SHEET = {"unit": "MPa", "source": "maker's sheet", "basis": "published"}


def own(**changed: Any) -> Plastic:
    """Acetal of a shop, with its own points."""
    raw = tables.raw_table("plastics")["acetal"] | changed
    return tables.plastics({"own": raw})["own"]


def fit(**known: Any) -> Fit:
    return size(SizingQuestion(**(PLACE | RING | known))).fit


def by_hand(modulus: float, cap: float, *, warmer: float) -> float:
    """Pressure of the ring of `RING` in `PLACE`, the balance solved by bisection; sizes in mm, MPa."""
    ring, case, glass, nu = 110e-6, 16e-6, 5.5e-6, 0.363
    inner, outer, high = 16.5, 20.0, 1.1
    ratio = (outer**2 + inner**2) / (outer**2 - inner**2)
    gives = inner / (193_000 * 4.0) * (ratio + 0.28) + 15.98 * (1 - 0.29) / (345_000 * 1.5)
    gap = 0.52 + (33.0 * case - 31.96 * glass) * warmer / 2
    wall = 0.57 * (1 + (ring + nu * (ring - case)) * warmer)

    def presses(e: float) -> float:
        hill = 1 + 0.2 * high / (2 * wall * (1 - e))
        return float(2 / np.sqrt(3) * hill * cap * (1 - np.exp(-modulus * e / cap)))

    low, most = 0.0, (wall - gap) / wall
    for _ in range(60):
        middle = (low + most) / 2
        over = middle * wall + presses(middle) * high * gives > wall - gap
        low, most = (low, middle) if over else (middle, most)
    return presses(low)


def test_the_warm_ring_presses_with_its_warm_stiffness() -> None:
    metal = tables.metals()["316L"]
    assert (metal.youngs_modulus_mpa, metal.poisson_ratio, metal.cte_per_k) == (193_000, 0.28, 16e-6)
    ours = fit()
    assert ours.contact_pressure_warm_mpa == pytest.approx(by_hand(1700, 80, warmer=40), abs=0.02)
    cold = 2800 + (3300 - 2800) * 33 / 43, 115 + (145 - 115) * 33 / 43
    assert ours.contact_pressure_cold_mpa == pytest.approx(by_hand(*cold, warmer=-30), abs=0.02)
    assert ours.contact_pressure_mpa is not None and ours.contact_pressure_warm_mpa is not None
    assert ours.contact_pressure_warm_mpa < 0.8 * ours.contact_pressure_mpa
    assert by_hand(2800, 115, warmer=40) > 1.3 * ours.contact_pressure_warm_mpa, "the cold one"


@pytest.mark.parametrize("plastic", ["pa6", "pa66", "pa12", "peek", "pvc", "pvdf", "uhmwpe", "ptfe"])
def test_what_is_not_known_there_is_not_known(plastic: str) -> None:
    ours = fit(material=plastic)
    assert ours.contact_pressure_mpa is not None
    assert ours.contact_pressure_cold_mpa is None and ours.contact_pressure_warm_mpa is None
    assert "not known" in climate.stiffness_words(tables.plastics()[plastic])
    yields = size(SizingQuestion(**PLACE, height_mm=1.1, material=plastic, case_yield_mpa=400.0))
    assert "cold and warmth" in yields.window.not_judged


def test_a_side_alone_that_is_known() -> None:
    """A sheet that ends at 23 C says nothing of the cold, and the chance says so."""
    warm = own(
        youngs_modulus_at=SHEET | {"value": 2700, "at": [[40, 2200], [60, 1600]]},
        stress_cap_at=SHEET | {"value": 65, "at": [[60, 45]]},
    )
    ours = size(SizingQuestion(**(PLACE | RING | {"material": warm})))
    assert ours.fit.contact_pressure_cold_mpa is None
    assert ours.fit.contact_pressure_warm_mpa is not None
    assert ours.window.not_judged == ("cold",)
    assert fit().contact_pressure_warm_mpa != ours.fit.contact_pressure_warm_mpa
    joint = resolve(SizingQuestion(**PLACE)).joint
    assert joint.climate(-20.0) is not None and joint.climate(-20.5) is None
    assert joint.climate(60.5) is None


def test_the_ten_year_limit_is_that_of_the_warm_ring() -> None:
    """In a thin bezel it binds at +60 C, and the largest bore is smaller than with the room's stiffness."""
    thin = PLACE | {"case_wall_mm": 0.6, "case_height_mm": 1.6, "height_mm": 1.2}
    flat = own(
        youngs_modulus_at=SHEET | {"value": 2800, "at": [[-20, 2800], [60, 2800]]},
        stress_cap_at=SHEET | {"value": 115, "at": [[-20, 115], [60, 115]]},
    )
    warm, room = size(SizingQuestion(**thin)).window, size(SizingQuestion(**thin, material=flat)).window
    assert warm.binds_high == "10 MPa of contact pressure after ten years at +60 C"
    assert warm.bore_high_mm is not None and room.bore_high_mm is not None
    assert warm.bore_high_mm < room.bore_high_mm - 0.003


def test_the_bezel_is_judged_by_the_cold_ring() -> None:
    keyed = SizingQuestion(**PLACE, height_mm=1.1, case_yield_mpa=150.0)
    window = size(keyed).window
    assert window.binds_low == "the bezel's yield at -10 C"


def test_why_opens_the_stiffness_that_was_used() -> None:
    opened = why.opened(size(SizingQuestion(**(PLACE | RING))), "fit.contact_pressure_warm_mpa")
    taken = {words: (value, source) for words, value, _, source in opened.inputs}
    value, source = taken["modulus of the plastic at +60 C"]
    assert value == pytest.approx(1700) and source.startswith("memory")
    assert taken["stress cap of the plastic at +60 C"][0] == pytest.approx(80)


def test_straight_between_and_unknown_beyond() -> None:
    known = ((-20.0, 3300.0), (23.0, 2800.0), (60.0, 1700.0))
    assert part_at(known, 23.0) == 1.0 and part_at(known, 60.0) == pytest.approx(1700 / 2800)
    assert part_at(known, -20.0) == pytest.approx(3300 / 2800)
    assert part_at(known, 61.0) is None and part_at(known, -21.0) is None and part_at((), 23.0) is None


@pytest.mark.parametrize(
    "at", [None, [], 60, [[60]], [[60, 0]], [[60, -5]], [["60", 5]], [[True, 5]], [[400, 5]]]
)
def test_points_that_are_none_are_refused(at: Any) -> None:
    entry = SHEET | {"value": 2800} | ({} if at is None else {"at": at})
    with pytest.raises(OutOfRange, match=r"own.youngs_modulus_at: at .*temperature in C"):
        own(youngs_modulus_at=entry)


def test_one_curve_without_the_other_says_nothing() -> None:
    raw = tables.raw_table("plastics")["acetal"]
    half = tables.plastics({"own": {key: one for key, one in raw.items() if key != "stress_cap_at"}})["own"]
    assert half.parts_at(60.0) is None
    assert replace(half, name="x").parts_at(23.0) is None
