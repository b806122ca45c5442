"""What the sizing computes for a published case. In mm and MPa, or as the source has it."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from rules import tables
from rules.sizing import climate, glass, seated
from rules.sizing.casing import hoop_stress_per_load, radial_movement_mm
from rules.strip import PLANE_STRAIN, Balance, Strip


def moved(
    *,
    at: float,
    inner: float,
    outer: float,
    inside: float = 0.0,
    outside: float = 0.0,
    modulus: float = 1.0,
    nu: float = 0.0,
) -> float:
    """Outward movement at a radius of a thick cylinder."""
    return radial_movement_mm(
        radius_mm=at,
        inner_mm=inner,
        outer_mm=outer,
        inside_mpa=inside,
        outside_mpa=outside,
        youngs_modulus_mpa=modulus,
        poisson_ratio=nu,
    )


def hoop(*, at: float, **cylinder: float) -> float:
    """Hoop stress: without Poisson's ratio the strain of the circumference is the stress over the modulus."""
    return moved(at=at, **cylinder) / at


def radial(*, at: float, **cylinder: float) -> float:
    """Radial stress, from what Poisson's ratio adds to the strain of the circumference."""
    return (hoop(at=at, **cylinder) - moved(at=at, nu=0.5, **cylinder) / at) / 0.5


def hoops(*, parts: list[Mapping[str, float]]) -> float:
    """Hoop stresses that add up."""
    return math.fsum(hoop(**part) for part in parts)


def bore_hoop(*, bore: float, wall: float, pressure: float) -> float:
    """Hoop stress at a bore, by the line load on a height of 1."""
    return pressure * hoop_stress_per_load(bore_mm=bore, wall_mm=wall, height_mm=1.0)


def fit_pressure(
    *,
    radius: float,
    outer: float,
    interference: float,
    modulus: float,
    nu: float = 0.3,
    inner: float = 0.0,
) -> float:
    """Contact pressure of two cylinders of one metal with a radial interference."""
    hub = moved(at=radius, inner=radius, outer=outer, inside=1.0, modulus=modulus, nu=nu)
    shaft = moved(at=radius, inner=inner, outer=radius, outside=1.0, modulus=modulus, nu=nu)
    return interference / (hub - shaft)


def fit_interference(*, pressure: float, **fit: float) -> float:
    """The radial interference that gives a pressure."""
    return pressure / fit_pressure(interference=1.0, **fit)


def fit_hoop(*, radius: float, outer: float, **fit: float) -> float:
    """Hoop stress at the bore of the hub of a fit."""
    pressure = fit_pressure(radius=radius, outer=outer, **fit)
    return bore_hoop(bore=2.0 * radius, wall=outer - radius, pressure=pressure)


def press_force(*, radius: float, length: float, friction: float, **fit: float) -> float:
    """Force to push a fit home, N."""
    rest = Balance(0.0, 0.0, fit_pressure(radius=radius, **fit) * length)
    force = seated.seating_force(lambda _: rest, friction=friction, glass_mm=2.0 * radius).mid
    assert force is not None
    return force


def rigid_pin_interference(*, radius: float, outer: float, stress: float, modulus: float, nu: float) -> float:
    """Interference on the diameter of a rigid pin that brings a hub's bore to a stress."""
    pressure = stress / bore_hoop(bore=2.0 * radius, wall=outer - radius, pressure=1.0)
    return 2.0 * moved(at=radius, inner=radius, outer=outer, inside=pressure, modulus=modulus, nu=nu)


def _spin(at: float, inner: float, outer: float, part: Mapping[str, float], rate: float) -> float:
    """Movement of a turning ring, plane stress (Shigley 3-55 with Hooke's law), mm."""
    nu = part["nu"]
    pull = part["density"] * 1e-12 * rate**2 * (3 + nu) / 8
    a2, b2, r2 = inner**2, outer**2, at**2
    around = pull * (a2 + b2 + a2 * b2 / r2 - (1 + 3 * nu) / (3 + nu) * r2)
    across = pull * (a2 + b2 - a2 * b2 / r2 - r2)
    return at * (around - nu * across) / part["modulus"]


def three_part(
    *,
    which: int,
    parts: list[Mapping[str, float]],
    interferences: list[float],
    outside: float,
    inside: float,
    rate: float,
) -> float:
    """Pressure `which` of a shrunk stack of three turning rings, outermost first."""

    def gaps(first: float, second: float) -> tuple[float, float]:
        pressures = (outside, first, second, inside)

        def at(number: int, end: str) -> float:
            part = parts[number]
            still = moved(
                at=part[end],
                inner=part["inner"],
                outer=part["outer"],
                inside=pressures[number + 1],
                outside=pressures[number],
                modulus=part["modulus"],
                nu=part["nu"],
            )
            return still + _spin(part[end], part["inner"], part["outer"], part, rate)

        return at(0, "inner") - at(1, "outer"), at(1, "inner") - at(2, "outer")

    start, one, other = (np.array(gaps(*p)) for p in ((0.0, 0.0), (1.0, 0.0), (0.0, 1.0)))
    slopes = np.column_stack([one - start, other - start])
    return float(np.linalg.solve(slopes, np.array(interferences) - start)[which])


def gap_growth(*, diameter: float, cte: float, rise: float) -> float:
    """How much a warmed seat grows on the radius against a cold glass."""
    still = tables.glasses()["sapphire"]
    warm = climate.shift(
        temperature_c=climate.REFERENCE_C + rise,
        case_bore_mm=diameter,
        glass_mm=diameter,
        plastic=tables.plastics()["acetal"],
        metal=replace(tables.metals()["316L"], cte_per_k=cte),
        glass=replace(still, cte_per_k=0.0),
    )
    assert warm is not None
    return warm.gap_mm


def supported(*, pressure: float, radius: float, thickness: float, nu: float) -> float:
    """Stress of a plate with a free edge."""
    return glass.supported_stress_mpa(pressure_mpa=pressure, radius_mm=radius, thickness_mm=thickness, nu=nu)


def clamped(*, pressure: float, radius: float, thickness: float) -> float:
    """Stress of a plate with a held edge."""
    return glass.clamped_stress_mpa(pressure_mpa=pressure, radius_mm=radius, thickness_mm=thickness)


def window_thickness(
    *, pressure: float, radius: float, allowed: float, safety: float, nu: float | None = None
) -> float:
    """Thickness of a window: edge held without Poisson's ratio, free with one."""
    known = {"pressure": pressure, "radius": radius, "thickness": 1.0}
    return math.sqrt((clamped(**known) if nu is None else supported(**known, nu=nu)) * safety / allowed)


def _factor(friction: float, width: float, thickness: float) -> float:
    """What friction adds to the pressure on a strip, as a factor."""
    plastic = Strip(1e12, 1.0, width, friction, 0.0)
    return plastic.pressure_mpa(thickness, 1e-9) / PLANE_STRAIN


def strip_load(
    *, friction: float, width: float, thickness: float, stress: float, length: float, unit: float = 1.0
) -> float:
    """Load on a flowing strip between plates; `unit` turns it into the unit that is printed."""
    mean = PLANE_STRAIN * stress * _factor(friction, width, thickness)
    return mean * width * length * unit


def edge_pressure(*, stress: float) -> float:
    """Pressure at the free edge of a flowing strip, where friction adds nothing."""
    return PLANE_STRAIN * stress * _factor(0.0, 1.0, 1.0)


def rolling_load(*, friction: float, arc: float, thickness: float, stress: float, width: float) -> float:
    """Load on a strip between rolls, as a slab as long as the arc of contact."""
    return stress * width * arc * _factor(friction, arc, thickness)


def squeeze_stress(*, plastic: str, strain: float) -> float:
    """Stress of a plastic at a squeeze."""
    known = tables.plastics()[plastic]
    assert known.youngs_modulus_mpa is not None and known.stress_cap_mpa is not None
    return Strip(known.youngs_modulus_mpa, known.stress_cap_mpa, 1.0, 0.0, 0.0).stress_mpa(strain)


def table_value(*, table: str, key: str, name: str) -> float:
    """A value of the tables."""
    materials: dict[str, Mapping[str, Any]] = {"plastics": tables.plastics(), "metals": tables.metals()}
    return float(getattr(materials[table][key], name))


def stress_left(*, plastic: str, after: str, over: str = "") -> float:
    """Part of a plastic's stress that is left after a time, of the first or of that after an earlier one."""
    known = tables.plastics()[plastic]
    first = getattr(known, f"relaxation_{over}") if over else 1.0
    return float(getattr(known, f"relaxation_{after}") / first)


CHECKS: dict[str, Callable[..., float]] = {
    one.__name__: one
    for one in (
        *(moved, hoop, radial, hoops, bore_hoop, fit_pressure, fit_interference, fit_hoop, press_force),
        *(rigid_pin_interference, three_part, gap_growth, supported, clamped, window_thickness),
        *(strip_load, edge_pressure, rolling_load, squeeze_stress, table_value, stress_left),
    )
}
"""By name."""
