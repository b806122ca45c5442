"""What the sizing computes for a published part of plastic: what parts a fit, and how it creeps."""

from __future__ import annotations

import math
from collections.abc import Callable

from rules import tables
from rules.sizing import seated
from rules.strip import Balance


def parting_pressure(*, force: float, friction: float, diameter: float, length: float) -> float:
    """Contact pressure of a fit that parts at a force, MPa."""
    rest = Balance(0.0, 0.0, length)
    per_mpa = seated.seating_force(lambda _: rest, friction=friction, glass_mm=diameter).mid
    assert per_mpa is not None
    return force / per_mpa


def creep_exponent(*, plastic: str) -> float:
    """How fast a plastic softens from 1 h to 1000 h: n of time to the power -n."""
    known = tables.plastics()[plastic]
    assert known.relaxation_1h is not None and known.relaxation_1000h is not None
    return math.log(known.relaxation_1h / known.relaxation_1000h) / math.log(1000.0)


def creep_modulus(*, plastic: str, hours: float) -> float:
    """Modulus that is left after a time, GPa, by the power law through 1 h and 1000 h."""
    known = tables.plastics()[plastic]
    assert known.relaxation_1h is not None and known.youngs_modulus_mpa is not None
    left: float = known.relaxation_1h * hours ** -creep_exponent(plastic=plastic)
    return known.youngs_modulus_mpa * left / 1000.0


def creep_strain_pct(*, plastic: str, stress: float, hours: float) -> float:
    """Strain under a stress after a time, %."""
    return 0.1 * stress / creep_modulus(plastic=plastic, hours=hours)


CHECKS: dict[str, Callable[..., float]] = {
    one.__name__: one for one in (parting_pressure, creep_exponent, creep_modulus, creep_strain_pct)
}
"""By name."""
