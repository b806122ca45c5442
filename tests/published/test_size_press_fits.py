"""Thick cylinders beside textbook press fits, within 0.1 %.

Shigley, Mechanical Engineering Design, 8th ed., problems 3-64, 3-66 and 3-68 (solutions); Croccolo and
Vincenzi 2009, three coaxial cylinders with interference and rotation. The fits are put together here from
`radial_movement_mm` alone.
"""

from __future__ import annotations

import numpy as np
import pytest

from rules.sizing.casing import hoop_stress_per_load, radial_movement_mm


def _moves(
    at: float, inner: float, outer: float, inside: float, outside: float, modulus: float, nu: float
) -> float:
    return radial_movement_mm(
        radius_mm=at,
        inner_mm=inner,
        outer_mm=outer,
        inside_mpa=inside,
        outside_mpa=outside,
        youngs_modulus_mpa=modulus,
        poisson_ratio=nu,
    )


def _solid_shaft_in_hub(radius: float, outer: float, interference: float, modulus: float, nu: float) -> float:
    """Contact pressure of a solid shaft in a hub of the same metal."""
    hub = _moves(radius, radius, outer, 1.0, 0.0, modulus, nu)
    shaft = _moves(radius, 0.0, radius, 0.0, 1.0, modulus, nu)
    return interference / (hub - shaft)


@pytest.mark.parametrize(
    ("interference", "pressure", "half_a_digit"),
    [
        pytest.param(0.0295, 114.5, 0.05, id="3-64 largest"),
        pytest.param(0.009, 34.9, 0.05, id="3-64 least"),
        pytest.param(0.038, 147.5, 0.05, id="3-66 largest"),
        pytest.param(0.0175, 67.9, 0.05, id="3-66 least"),
    ],
)
def test_shaft_of_40_in_hub_of_80(interference: float, pressure: float, half_a_digit: float) -> None:
    found = _solid_shaft_in_hub(20.0, 40.0, interference, 207000, 0.292)
    assert abs(found - pressure) <= half_a_digit + 0.001 * pressure


def test_inch_fit_3_68() -> None:
    """R 0.5 in, outer 1 in, 0.001 in, 30 Mpsi: 22 500 psi, hoop 37 500 psi at the bore."""
    pressure = _solid_shaft_in_hub(0.5, 1.0, 0.001, 30e6, 0.292)
    assert pressure == pytest.approx(22500, rel=0.001)
    hoop = pressure * hoop_stress_per_load(bore_mm=1.0, wall_mm=0.5, height_mm=1.0)
    assert hoop == pytest.approx(37500, rel=0.001)


def _spin(
    radius: float, inner: float, outer: float, modulus: float, nu: float, density: float, rate: float
) -> float:
    """Movement of a turning ring, plane stress (Shigley 3-55 with Hooke's law), mm."""
    pull = density * 1e-12 * rate**2 * (3 + nu) / 8
    a2, b2, r2 = inner**2, outer**2, radius**2
    hoop = pull * (a2 + b2 + a2 * b2 / r2 - (1 + 3 * nu) / (3 + nu) * r2)
    across = pull * (a2 + b2 - a2 * b2 / r2 - r2)
    return radius * (hoop - nu * across) / modulus


def test_three_part_fit() -> None:
    """Radii 35/24.988/14.995/10, radial interference 0.025 and 0.010: 161.4 and 175.0 MPa."""
    inner, outer = (24.988, 14.995, 10.0), (35.0, 24.988, 14.995)
    modulus, nu, density = (206000.0, 70000.0, 206000.0), (0.29, 0.33, 0.29), (7850.0, 2770.0, 7850.0)
    outside, inside, rate = 150.0, 30.0, 420.0

    def gap(p1: float, p2: float) -> tuple[float, float]:
        pressures = (outside, p1, p2, inside)

        def at(part: int, radius: float) -> float:
            lame = _moves(
                radius,
                inner[part],
                outer[part],
                pressures[part + 1],
                pressures[part],
                modulus[part],
                nu[part],
            )
            return lame + _spin(
                radius, inner[part], outer[part], modulus[part], nu[part], density[part], rate
            )

        return at(0, inner[0]) - at(1, outer[1]), at(1, inner[1]) - at(2, outer[2])

    start, by_first, by_second = (np.array(gap(*p)) for p in ((0.0, 0.0), (1.0, 0.0), (0.0, 1.0)))
    slopes = np.column_stack([by_first - start, by_second - start])
    p1, p2 = np.linalg.solve(slopes, np.array([0.025, 0.010]) - start)
    assert p1 == pytest.approx(161.4, rel=0.001)
    assert p2 == pytest.approx(175.0, rel=0.001)
