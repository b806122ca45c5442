"""Flat glass under pressure: the formulas worked out by hand, what is refused and what is said."""

from __future__ import annotations

import pytest

from rules import tables
from rules.sizing import glass

RADIUS, THICKNESS, PRESSURE = 15.98, 1.5, 1.0


@pytest.mark.parametrize(
    ("modulus", "nu", "stress", "deflection"),
    [
        pytest.param(72000, 0.23, 137.5, 0.203, id="soda-lime"),
        pytest.param(345000, 0.29, 140.0, 0.039, id="sapphire"),
    ],
)
def test_supported(modulus: float, nu: float, stress: float, deflection: float) -> None:
    found = glass.supported_stress_mpa(pressure_mpa=PRESSURE, radius_mm=RADIUS, thickness_mm=THICKNESS, nu=nu)
    stiffness = glass.stiffness_n_mm(youngs_modulus_mpa=modulus, thickness_mm=THICKNESS, nu=nu)
    bend = glass.supported_deflection_mm(pressure_mpa=PRESSURE, radius_mm=RADIUS, stiffness=stiffness, nu=nu)
    assert found == pytest.approx(stress, rel=0.005)
    assert bend == pytest.approx(deflection, abs=0.0005)


def test_clamped() -> None:
    """85.1 MPa at the edge."""
    stress = glass.clamped_stress_mpa(pressure_mpa=PRESSURE, radius_mm=RADIUS, thickness_mm=THICKNESS)
    assert stress == pytest.approx(85.1, abs=0.05)


def test_pane_says_above_or_below() -> None:
    """19.3 MPa for annealed soda-lime (Pilkington ATS-129): 137.5 MPa at 10 bar is far above, reached near
    1.4 bar.
    """
    under = glass.pane(
        glass=tables.glasses()["mineral"],
        glass_mm=2 * RADIUS + 1,
        thickness_mm=THICKNESS,
        overpressure_bar=10.0,
    )
    assert under.stress_supported_mpa == pytest.approx(137.5, rel=0.005)
    assert under.stress_clamped_mpa == pytest.approx(85.1, rel=0.005)
    assert under.deflection_supported_um == pytest.approx(203, rel=0.005)
    assert under.design_stress_mpa == 19.3
    assert under.pressure_at_design_bar == pytest.approx(10 * 19.3 / 137.5, rel=0.005)
    assert "above the published design stress of 19.3 MPa" in under.words


def test_pane_refuses_beyond_the_formula() -> None:
    glasses = tables.glasses()
    thin = glass.pane(glass=glasses["mineral"], glass_mm=40.0, thickness_mm=0.5, overpressure_bar=20.0)
    acrylic = glass.pane(glass=glasses["acrylic"], glass_mm=31.0, thickness_mm=2.0, overpressure_bar=3.0)
    dome = glass.pane(
        glass=glasses["sapphire"], glass_mm=31.0, thickness_mm=2.0, overpressure_bar=3.0, domed=True
    )
    for refused in (thin, acrylic, dome):
        assert refused.stress_supported_mpa is None
        assert refused.deflection_supported_um is None
    assert "half its thickness" in thin.words
    assert "not computed" in acrylic.words
    assert "domed" in dome.words
