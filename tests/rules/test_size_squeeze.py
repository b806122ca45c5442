"""The squeeze model beside its table of check values, to the printed digits.

The table was worked out apart from this program from the strip-with-cap model, with acetal E 2800 MPa and
cap 115 MPa, seat 33.00, glass 31.96, ring 33.00 x 31.86 x 1.10, friction 0.20, sapphire or mineral glass
1.5 mm thick, 316L.
"""

from __future__ import annotations

from typing import Any

import pytest

from rules import tables
from rules.sizing import climate
from rules.sizing.casing import case_compliance_mm2_per_n, glass_compliance_mm2_per_n
from rules.sizing.fit import Fit
from tests.assessing import assess

RING: dict[str, Any] = {
    "case_bore_mm": 33.00,
    "glass_mm": 31.96,
    "outside_diameter_mm": 33.00,
    "bore_mm": 31.86,
    "height_mm": 1.1,
}
SAPPHIRE: dict[str, Any] = {"glass_material": "sapphire", "glass_thickness_mm": 1.5}
MINERAL: dict[str, Any] = {"glass_material": "mineral", "glass_thickness_mm": 1.5}
THICK: dict[str, Any] = {"case_metal": "316L", "case_wall_mm": 3.5, "case_height_mm": 4.0}
BEZEL: dict[str, Any] = {"case_metal": "316L", "case_wall_mm": 1.0, "case_height_mm": 2.5}


def _fit(**known: Any) -> Fit:
    return assess(**RING, **known)


def _force(known: dict[str, Any], friction: float) -> float:
    force = _fit(**known, friction=friction).seating_force_n.mid
    assert force is not None
    return force


@pytest.mark.parametrize(
    ("known", "squeeze", "pressure", "load", "growth", "hoop"),
    [
        pytest.param({"rigid": True}, 8.772, 141.87, 156.06, None, None, id="rigid"),
        pytest.param(THICK | SAPPHIRE, 5.559, 118.61, 130.47, 15.45, 171.6, id="thick case, sapphire"),
        pytest.param(THICK | MINERAL, 4.194, 102.08, 112.29, 13.30, 148, id="thick case, mineral"),
        pytest.param(BEZEL | SAPPHIRE, 1.876, 58.26, 64.09, 37.90, 436, id="thin bezel, sapphire"),
    ],
)
def test_elastic(
    known: dict[str, Any],
    squeeze: float,
    pressure: float,
    load: float,
    growth: float | None,
    hoop: float | None,
) -> None:
    fit = _fit(**known)
    assert fit.nominal_squeeze_pct == pytest.approx(8.77, abs=0.005)
    assert fit.real_squeeze_pct == pytest.approx(squeeze, abs=0.0005)
    assert fit.contact_pressure_mpa == pytest.approx(pressure, abs=0.005)
    assert fit.line_load_n_per_mm == pytest.approx(load, abs=0.005)
    if growth is None or hoop is None:
        assert fit.case_growth_um is None
        assert fit.case_hoop_stress_mpa is None
        return
    assert fit.case_growth_um == pytest.approx(growth, abs=0.005)
    assert fit.case_hoop_stress_mpa == pytest.approx(hoop, abs=0.05 if hoop == 171.6 else 0.5)


@pytest.mark.parametrize(
    ("known", "forces"),
    [
        pytest.param({"rigid": True}, {0.20: 3134}, id="rigid"),
        pytest.param(
            THICK | SAPPHIRE, {0.10: 1221, 0.15: 1899, 0.20: 2620, 0.25: 3382}, id="thick, sapphire"
        ),
        pytest.param(THICK | MINERAL, {0.15: 1647, 0.20: 2255, 0.25: 2889}, id="thick, mineral"),
        pytest.param(BEZEL | SAPPHIRE, {0.15: 955, 0.20: 1287, 0.25: 1625}, id="thin bezel"),
    ],
)
def test_seating_force(known: dict[str, Any], forces: dict[float, float]) -> None:
    for friction, newtons in forces.items():
        assert _force(known, friction) == pytest.approx(newtons, abs=0.5)
    ends = _fit(**known).seating_force_n
    assert ends.low == pytest.approx(_force(known, 0.10))
    assert ends.high == pytest.approx(_force(known, 0.25))


@pytest.mark.parametrize(
    ("known", "thousand_hours", "ten_years"),
    [
        pytest.param({"rigid": True}, 65.26, 42.56, id="rigid"),
        pytest.param(THICK | SAPPHIRE, 60.76, 40.72, id="thick, sapphire"),
        pytest.param(THICK | MINERAL, 57.37, 39.37, id="thick, mineral"),
        pytest.param(BEZEL | SAPPHIRE, 43.22, 33.18, id="thin bezel"),
    ],
)
def test_relaxation(known: dict[str, Any], thousand_hours: float, ten_years: float) -> None:
    fit = _fit(**known)
    assert fit.contact_pressure_1000h_mpa == pytest.approx(thousand_hours, abs=0.005)
    assert fit.contact_pressure_10y_mpa == pytest.approx(ten_years, abs=0.005)


def test_bezel_that_yields_at_205() -> None:
    stretched = _fit(**BEZEL, **SAPPHIRE, case_yield_mpa=205).yielded
    assert stretched is not None
    assert stretched.real_squeeze_pct == pytest.approx(0.805, abs=0.0005)
    assert stretched.contact_pressure_mpa == pytest.approx(28.24, abs=0.005)
    assert stretched.line_load_n_per_mm == pytest.approx(31.06, abs=0.005)
    assert stretched.case_growth_um == pytest.approx(44.73, abs=0.005)
    assert stretched.case_hoop_stress_mpa == pytest.approx(205)
    assert stretched.contact_pressure_1000h_mpa == pytest.approx(22.36, abs=0.005)
    assert stretched.contact_pressure_10y_mpa == pytest.approx(18.27, abs=0.005)
    for friction, newtons in {0.15: 468, 0.20: 624, 0.25: 780}.items():
        at = _fit(**BEZEL, **SAPPHIRE, case_yield_mpa=205, friction=friction).yielded
        assert at is not None
        assert at.seating_force_n.mid == pytest.approx(newtons, abs=0.5)


def test_compliances() -> None:
    """um per N/mm: bezel centred 0.5914, off by 0.7 1.148, sapphire disc 0.0219."""
    section = {"bore_mm": 33.0, "wall_mm": 1.0, "height_mm": 2.5}
    steel = tables.metals()["316L"]
    centred = case_compliance_mm2_per_n(**section, offset_mm=0.0, metal=steel)
    beside = case_compliance_mm2_per_n(**section, offset_mm=0.7, metal=steel)
    disc = glass_compliance_mm2_per_n(glass_mm=31.96, thickness_mm=1.5, glass=tables.glasses()["sapphire"])
    assert centred is not None and beside is not None and disc is not None
    assert 1000 * centred == pytest.approx(0.5914, abs=0.00005)
    assert 1000 * beside == pytest.approx(1.148, abs=0.0005)
    assert 1000 * disc == pytest.approx(0.02192, abs=0.000005)


@pytest.mark.parametrize(
    ("glass", "degrees", "change_um"),
    [("sapphire", 60.0, -3.7), ("sapphire", -10.0, 2.8), ("acrylic", -10.0, -28.0)],
)
def test_temperature(glass: str, degrees: float, change_um: float) -> None:
    """Change of the interference of the check ring in 316L."""
    moved = climate.shift(
        temperature_c=degrees,
        case_bore_mm=33.0,
        glass_mm=31.96,
        plastic=tables.plastics()["acetal"],
        metal=tables.metals()["316L"],
        glass=tables.glasses()[glass],
    )
    assert moved is not None
    change = 1000 * (0.57 * (moved.wall_factor - 1.0) - moved.gap_mm)
    assert change == pytest.approx(change_um, abs=0.5 if glass == "acrylic" else 0.06)


def test_stress_curve_of_acetal() -> None:
    """25, 44, 81 and 105 MPa at 1, 2, 5 and 10 %: the curve the cap was fitted to."""
    from rules.strip import Strip

    strip = Strip(2800.0, 115.0, 1.1, 0.2, 0.0)
    for strain, stress in {0.01: 25, 0.02: 44, 0.05: 81, 0.10: 105}.items():
        assert strip.stress_mpa(strain) == pytest.approx(stress, abs=0.75)
