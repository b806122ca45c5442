"""The formulas run on quantities with units: a wrong power of a length would not come out in the right
unit.
"""

from __future__ import annotations

from typing import Any

import pint
import pytest

from rules.sizing import glass
from rules.sizing.casing import hoop_stress_per_load, radial_movement_mm, yielding_line_load
from rules.strip import Strip

UNITS: Any = pint.UnitRegistry()
MM, MPA, LOAD = UNITS.mm, UNITS.MPa, UNITS.N / UNITS.mm


def _is(value: Any, unit: Any) -> bool:
    return bool(value.dimensionality == unit.dimensionality)


def test_case_and_glass() -> None:
    moved = radial_movement_mm(
        radius_mm=16 * MM,
        inner_mm=16 * MM,
        outer_mm=18 * MM,
        inside_mpa=1.0 * MPA,
        outside_mpa=0.0 * MPA,
        youngs_modulus_mpa=193000 * MPA,
        poisson_ratio=0.28,
    )
    assert _is(moved, MM)
    hoop: Any = hoop_stress_per_load(bore_mm=32 * MM, wall_mm=2 * MM, height_mm=3 * MM)
    assert _is(hoop * LOAD, MPA)
    cap = yielding_line_load(yield_mpa=200 * MPA, bore_mm=32 * MM, wall_mm=2 * MM, height_mm=3 * MM)
    assert _is(cap, LOAD)


def test_plate() -> None:
    sizes: dict[str, Any] = {"pressure_mpa": 0.3 * MPA, "radius_mm": 15 * MM}
    stiffness: Any = glass.stiffness_n_mm(youngs_modulus_mpa=72000 * MPA, thickness_mm=1.5 * MM, nu=0.23)
    assert _is(stiffness, UNITS.N * MM)
    assert _is(glass.supported_stress_mpa(**sizes, thickness_mm=1.5 * MM, nu=0.23), MPA)
    assert _is(glass.clamped_stress_mpa(**sizes, thickness_mm=1.5 * MM), MPA)
    assert _is(glass.supported_deflection_mm(**sizes, stiffness=stiffness, nu=0.23), MM)


def test_squeezed_ring() -> None:
    ring: Any = Strip(2800 * MPA, 115 * MPA, 1.1 * MM, 0.2, 0.001 * MM / LOAD)
    pressure = ring.pressure_mpa(0.57 * MM, 0.05)
    assert _is(pressure, MPA)
    assert _is(pressure * ring.height_mm * ring.compliance_mm2_per_n, MM)


def test_a_wrong_power_is_seen() -> None:
    wrong: Any = glass.clamped_stress_mpa(pressure_mpa=0.3 * MPA, radius_mm=15 * MM**2, thickness_mm=1.5 * MM)
    assert not _is(wrong, MPA)
    with pytest.raises(pint.DimensionalityError):
        (wrong + 1.0 * MPA).to(MPA)
