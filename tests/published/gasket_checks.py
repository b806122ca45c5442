"""What the sizing of a flat gasket computes for a published case."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from rules.gasket.drive import PITCH_MM, force_n, stress_area_mm2
from rules.gasket.law import RubberLaw
from rules.gasket.materials import RUBBER_SQUEEZE
from rules.strip import PLANE_STRAIN, Strip
from rules.tables import rubbers

PSI = 0.00689476
"""A pound a square inch, MPa."""


def hill_pressure(*, stress: float, friction: float, length: float, height: float) -> float:
    """Mean pressure of a strip that flows at a stress between plates, of a squeeze that has not begun."""
    strip = Strip(1e12, stress, length, friction, 0.0)
    assert abs(strip.stress_mpa(1e-9) / stress - 1.0) < 1e-9 < PLANE_STRAIN
    return strip.pressure_mpa(height, 1e-9)


def strip_stiffens(*, flow_part: float, width: float, small: float = 1e-5) -> float:
    """Part of the squeeze by which a held strip of rubber, 1 thick, answers more than at its first touch."""
    law = RubberLaw(1.0, flow_part)
    once, twice = (law.held_mpa(one, width_mm=width, thick_mm=1.0) / one for one in (small, 2.0 * small))
    return (twice / once - 1.0) / small


CHECKS: dict[str, Callable[..., Any]] = {
    "stress_area": lambda diameter, pitch: stress_area_mm2(diameter_mm=diameter, pitch_mm=pitch),
    "pitch": lambda diameter: PITCH_MM[diameter],
    "thread_force": lambda torque, diameter, nut_factor: force_n(
        torque_nm=torque, diameter_mm=diameter, nut_factor=nut_factor
    ),
    "hill_pressure": hill_pressure,
    "rubber_psi": lambda kind: (rubbers()[kind].youngs_modulus_mpa or 0.0) / PSI,
    "rubber_mpa": lambda kind: rubbers()[kind].youngs_modulus_mpa,
    "rubber_flow_part": lambda kind: rubbers()[kind].flow_part,
    "strip_stiffens": strip_stiffens,
    "least_squeeze": lambda: 100.0 * RUBBER_SQUEEZE[0],
    "most_squeeze": lambda: 100.0 * RUBBER_SQUEEZE[1],
}
"""By name, as the data have it."""
