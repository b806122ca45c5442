"""What is computed for a published part of plastic: what parts a fit, how it creeps, what a foot bears."""

from __future__ import annotations

import math
from collections.abc import Callable

from rules import tables
from rules.foot.bearing import MPA_PER_BAR, Bearing, load_n
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


def pushed_on(*, pressure: float, diameter: float) -> float:
    """Push of a pressure, MPa, on a disc, N; also of psi and inches, lb."""
    return load_n(pressure_bar=pressure / MPA_PER_BAR, glass_mm=diameter)


def borne(*, force: float, outside: float, inside: float = 0.0) -> float:
    """Bearing pressure of a flat ring under a force, MPa; also of lb and inches, psi."""
    return Bearing(outside, inside, 1.0).stress_mpa(force)


_ALL = (parting_pressure, creep_exponent, creep_modulus, creep_strain_pct, pushed_on, borne)
CHECKS: dict[str, Callable[..., float]] = {one.__name__: one for one in _ALL}
"""By name."""
