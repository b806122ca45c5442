"""What a groove makes of an O-ring: stretch, narrowed cord, squeeze, fill, and what years and cold leave.

Invariant: rubber keeps its volume; a ring that is stretched has a thinner cord, one pressed together a
thicker.

Stretch goes by the inside diameter, e = groove / d1 - 1; of a ring that lies in the outer part by the outside
one, where it is negative: pressed together. The middle of the cord goes from d1 + d2 to the middle of the
place it takes, and its section shrinks as that grows: d2' = d2 sqrt((d1 + d2) / middle); for a cord that is
thin beside its ring d2 / sqrt(1 + e). Measured rings get thinner by up to a hundredth more (from memory).
Squeeze = 1 - depth / d2'. Set takes its part of what is squeezed. Held round by the metal, a cord gets
thinner by (3 a_rubber - a_metal) / 2 for each kelvin, the depth by a_metal.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules.oring.housing import FEMALE, Housing, Oring, room_mm2, section_mm2

METAL_PER_K = 16e-6
"""Of steel (brass 19, titanium 9 in the tables: it hardly counts beside rubber)."""
MEASURED_AT_C, COLD_C = 20.0, -10.0
"""Cold as a wrist in winter knows it (own judgement)."""


@dataclass(frozen=True, slots=True)
class InGroove:
    """A ring in its groove; parts of one."""

    stretch: float
    cord_mm: float
    """Narrowed by the stretch, before it is squeezed."""
    squeeze: float
    fill: float
    later: float
    """Squeeze after years: of the cord as it would stand free then."""
    later_cold: float
    """The same in the cold."""


@dataclass(frozen=True, slots=True)
class Ageing:
    """What years and cold do to a rubber."""

    set_part: float
    """Of the squeeze, gone after years."""
    per_k: float
    """Thermal expansion, linear."""

    @property
    def cold_part(self) -> float:
        """By how much more the cord shrinks than the depth in the cold: their quotient, at most 1."""
        fall = MEASURED_AT_C - COLD_C
        cord = 1.0 - (3.0 * self.per_k - METAL_PER_K) / 2.0 * fall
        return cord / (1.0 - METAL_PER_K * fall)


def stretch_of(*, lies: str, rests_on_mm: float, inside_mm: float, cord_mm: float) -> float:
    """Stretch of the diameter that the ring rests with, fraction; below 0 it is pressed together.

    >>> round(stretch_of(lies="male", rests_on_mm=10.3, inside_mm=10.0, cord_mm=1.0), 3)
    0.03
    """
    free = inside_mm + 2.0 * cord_mm if lies == FEMALE else inside_mm
    return rests_on_mm / free - 1.0


def narrowed_mm(*, lies: str, rests_on_mm: float, inside_mm: float, cord_mm: float) -> float:
    """The cord of the ring in its place, mm.

    >>> round(narrowed_mm(lies="male", rests_on_mm=105.0, inside_mm=100.0, cord_mm=0.01), 6)
    0.009759
    """
    middle = rests_on_mm - cord_mm if lies == FEMALE else rests_on_mm + cord_mm
    return cord_mm * math.sqrt((inside_mm + cord_mm) / middle)


def free_cord_mm(narrowed: float, *, lies: str, rests_on_mm: float, inside_mm: float) -> float:
    """The free cord that is narrowed to this: `narrowed_mm` the other way round."""
    cord = narrowed
    for _ in range(4):
        middle = rests_on_mm - cord if lies == FEMALE else rests_on_mm + cord
        cord = narrowed * math.sqrt(middle / (inside_mm + cord))
    return cord


def squeeze_of(cord_mm: float, depth_mm: float) -> float:
    """Part of the cord that is squeezed away; below 0 it is not touched.

    >>> round(squeeze_of(1.0, 0.78), 3)
    0.22
    """
    return 1.0 - depth_mm / cord_mm


def in_groove(
    *, inside_mm: float, cord_mm: float, housing: Housing, at: tuple[float, float, float], ageing: Ageing
) -> InGroove:
    """A ring in a groove of the kind of `housing` with these three lengths: inner, outer, other."""
    inner, outer, _ = at
    rests = outer if housing.lies == FEMALE else inner
    depth, width = housing.depth_of(*at), housing.width_of(*at)
    given = {"lies": housing.lies, "rests_on_mm": rests, "inside_mm": inside_mm, "cord_mm": cord_mm}
    cord = narrowed_mm(**given)  # type: ignore[arg-type]
    old = depth + (1.0 - ageing.set_part) * max(0.0, cord - depth)
    return InGroove(
        stretch=stretch_of(**given),  # type: ignore[arg-type]
        cord_mm=cord,
        squeeze=squeeze_of(cord, depth),
        fill=section_mm2(cord) / room_mm2(depth, width, housing.corner_mm),
        later=squeeze_of(old, depth),
        later_cold=squeeze_of(old * ageing.cold_part, depth),
    )


def as_expected(ring: Oring, housing: Housing, ageing: Ageing) -> InGroove:
    """With every length as it is expected."""
    at = (housing.inner.mm, housing.outer.mm, housing.other.mm)
    return in_groove(inside_mm=ring.inside.mm, cord_mm=ring.cord.mm, housing=housing, at=at, ageing=ageing)


@dataclass(frozen=True, slots=True)
class Extremes:
    """What the worst tolerances make of it."""

    least_squeeze: float
    most_squeeze: float
    most_fill: float
    least_later_cold: float


def at_worst(ring: Oring, housing: Housing, ageing: Ageing) -> Extremes:
    """With every length at its limit: a thin cord in a deep groove, a thick one in a small groove."""
    thin, full = (cornered(ring, housing, ageing, way) for way in (-1.0, 1.0))
    return Extremes(thin.squeeze, full.squeeze, full.fill, thin.later_cold)


def cornered(ring: Oring, housing: Housing, ageing: Ageing, way: float) -> InGroove:
    """The thickest cord in the smallest groove (`way` 1), or the thinnest in the largest (-1)."""
    at = (
        housing.inner.mm + way * housing.inner.limit_mm,
        housing.outer.mm - way * housing.outer.limit_mm,
        housing.other.mm - way * housing.other.limit_mm,
    )
    return in_groove(
        inside_mm=ring.inside.mm + way * ring.inside.limit_mm,
        cord_mm=ring.cord.mm + way * ring.cord.limit_mm,
        housing=housing,
        at=at,
        ageing=ageing,
    )
