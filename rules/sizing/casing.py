"""How far the case round the ring and the glass inside it deform, and when the case stays stretched.

Invariant: a compliance is radial movement in mm per N of line load on each mm of circumference, never
negative.

Formulas: thick cylinder after Lame (worked in Shigley, Mechanical Engineering Design, 8th ed., problems
3-64 to 3-68); the twist of a ring loaded beside its middle after Roark (from memory), (1 + 12 z2/H2).
Beside an axisymmetric finite-element solution within 1.5 % where the ring takes four tenths of the metal's
height or more, up to 3.2 % low where it takes a quarter.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules.tables import Glass, Metal

THIN_BAND = 0.18
"""Metal up to this part of the seat's radius, 3 mm for a seat of 33, yields as a thin band, within 9 % (own
judgement).
"""


def radial_movement_mm(
    *,
    radius_mm: float,
    inner_mm: float,
    outer_mm: float,
    inside_mpa: float,
    outside_mpa: float,
    youngs_modulus_mpa: float,
    poisson_ratio: float,
) -> float:
    """Outward movement at `radius_mm` of a cylinder (plane stress) under pressure inside and outside, mm.

    All lengths are radii; `inner_mm` 0 is a solid disc. Source: Lame, see the module.
    """
    inner2, outer2 = inner_mm**2, outer_mm**2
    even = (inner2 * inside_mpa - outer2 * outside_mpa) / (outer2 - inner2)
    bent = inner2 * outer2 * (inside_mpa - outside_mpa) / (outer2 - inner2)
    shear = (1.0 + poisson_ratio) * bent / radius_mm
    return ((1.0 - poisson_ratio) * even * radius_mm + shear) / youngs_modulus_mpa


def case_compliance_mm2_per_n(
    *, bore_mm: float, wall_mm: float, height_mm: float, offset_mm: float, metal: Metal
) -> float | None:
    """How far the seat moves out for each N/mm of line load; None when the metal's stiffness is unknown.

    `wall_mm` is the metal outside the seat, `height_mm` its height beside the ring, `offset_mm` how far the
    ring's mid-height lies from the metal's.
    """
    if metal.youngs_modulus_mpa is None or metal.poisson_ratio is None:
        return None
    inner = bore_mm / 2.0
    lame = radial_movement_mm(
        radius_mm=inner,
        inner_mm=inner,
        outer_mm=inner + wall_mm,
        inside_mpa=1.0 / height_mm,
        outside_mpa=0.0,
        youngs_modulus_mpa=metal.youngs_modulus_mpa,
        poisson_ratio=metal.poisson_ratio,
    )
    return lame * (1.0 + 12.0 * (offset_mm / height_mm) ** 2)


def glass_compliance_mm2_per_n(*, glass_mm: float, thickness_mm: float, glass: Glass) -> float | None:
    """How far the glass edge moves in for each N/mm of line load; None when its stiffness is unknown."""
    if glass.youngs_modulus_mpa is None or glass.poisson_ratio is None:
        return None
    radius = glass_mm / 2.0
    return -radial_movement_mm(
        radius_mm=radius,
        inner_mm=0.0,
        outer_mm=radius,
        inside_mpa=0.0,
        outside_mpa=1.0 / thickness_mm,
        youngs_modulus_mpa=glass.youngs_modulus_mpa,
        poisson_ratio=glass.poisson_ratio,
    )


def hoop_stress_per_load(*, bore_mm: float, wall_mm: float, height_mm: float) -> float:
    """Hoop stress at the seat, MPa for each N/mm of line load: (1/H)(ro2 + ri2)/(ro2 - ri2)."""
    inner, outer = bore_mm / 2.0, bore_mm / 2.0 + wall_mm
    return (outer**2 + inner**2) / (outer**2 - inner**2) / height_mm


def yielding_line_load(*, yield_mpa: float, bore_mm: float, wall_mm: float, height_mm: float) -> float:
    """Line load, N/mm, at which the whole section yields.

    A thin band bears yield H wall / ri, a thick ring yield H ln(ro/ri) (after Tresca; Boresi and Schmidt,
    11.5). The band counts up to `THIN_BAND`, then the ring, once that is more: at 6 mm round a seat of 33 mm
    a band would bear 17 % too much.
    """
    ratio = wall_mm / (bore_mm / 2.0)
    bears = ratio if ratio <= THIN_BAND else max(THIN_BAND, math.log1p(ratio))
    return yield_mpa * height_mm * bears


@dataclass(frozen=True, slots=True)
class Surround:
    """What is round the ring and inside it, as far as it deforms."""

    case_mm2_per_n: float = 0.0
    """Compliance of the case; 0 for rigid walls."""
    glass_mm2_per_n: float = 0.0
    """Compliance of the glass; 0 for rigid."""
    hoop_per_load: float | None = None
    """Hoop stress for each N/mm, MPa; None when the case counts as rigid."""
    load_per_yield: float = 0.0
    """Yielding line load for each MPa of yield stress, N/mm."""

    @property
    def total_mm2_per_n(self) -> float:
        """Both together."""
        return self.case_mm2_per_n + self.glass_mm2_per_n


RIGID = Surround()
"""Walls and glass that do not move: an upper bound."""


def surround(
    *,
    case_bore_mm: float,
    glass_mm: float,
    metal: Metal | None,
    case_wall_mm: float | None,
    case_height_mm: float | None,
    ring_offset_mm: float = 0.0,
    glass: Glass | None = None,
    glass_thickness_mm: float | None = None,
) -> Surround | None:
    """The surround; None when the metal, its wall or its height is not known. An unknown glass is rigid."""
    if metal is None or case_wall_mm is None or case_height_mm is None:
        return None
    section = {"bore_mm": case_bore_mm, "wall_mm": case_wall_mm, "height_mm": case_height_mm}
    case = case_compliance_mm2_per_n(**section, offset_mm=ring_offset_mm, metal=metal)
    if case is None:
        return None
    pane = None
    if glass is not None and glass_thickness_mm is not None:
        pane = glass_compliance_mm2_per_n(glass_mm=glass_mm, thickness_mm=glass_thickness_mm, glass=glass)
    return Surround(
        case_mm2_per_n=case,
        glass_mm2_per_n=pane or 0.0,
        hoop_per_load=hoop_stress_per_load(**section),
        load_per_yield=yielding_line_load(yield_mpa=1.0, **section),
    )
