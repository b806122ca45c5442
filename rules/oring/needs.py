"""What an O-ring in its groove has to meet, and the chance over the tolerances that it does.

Invariant: a ring meets its needs or not by `broken` alone; the chance is that of what `broken` leaves.

Given inside diameter, groove and set, the needs bound the cord: of one normal quantity the chance between two
bounds. That is averaged over `POINTS` of the others, laid evenly over their chances (Kronecker's sequence).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist

from rules.oring.fitted import Ageing, InGroove, free_cord_mm, stretch_of
from rules.oring.housing import FACE, FEMALE, MALE, Housing, Oring, room_mm2
from rules.tables import Rubber

SQUEEZE = {FACE: (0.15, 0.32), MALE: (0.12, 0.30), FEMALE: (0.12, 0.30)}
"""From which to which squeeze a ring that lies still works: 19 to 32 % in a face for the thinnest cord that
tables have, 30 at most round a part (Mechanical Engineers' Handbook, vol. 3, p. 290); least: own judgement.
"""
MOVING_SQUEEZE = (0.08, 0.25)
"""The same of one that something moves past: 25 % at most for small cords (the same handbook); least: own."""
STRETCH = {FACE: (0.0, 0.05), MALE: (0.0, 0.08), FEMALE: (-0.03, 0.0)}
"""Pressed on from outside a ring in a face lies on the inner wall: none to 5 % longer. On a floor up to 8 %,
of which 1 to 5 lasts longest. In the outer part it is pressed together by 3 % at most (own judgement within
what open notes have: 0 to 5 % stretch, 0 to 2 % together).
"""
LASTS_TO = 0.05
"""A ring stretched further is said to age sooner (published as most)."""
MOST_FILL = 0.85
"""Part of the groove that it may fill at worst tolerances: oil swells it and warmth."""
LEFT_AT_LEAST = 0.05
"""Squeeze that has to be left after years, in the cold (own judgement)."""
GRIPPED, CRUSHED, FILLED, SPENT, SLACK, STRAINED, BUCKLED, SHORT = (
    "the squeeze is too small",
    "the squeeze is too large",
    "the groove is too full",
    "too little squeeze is left after years, in the cold",
    "it lies slack, too wide for its groove",
    "it is stretched too far",
    "it is pressed together too far and buckles",
    "it does not reach the floor of its groove",
)
"""What may be broken, in words."""
POINTS, FEW = 2048, 128
"""So many rings and grooves are looked at, for a chance good to half a point; where sizes are compared."""
PACES = (0.8812714616335696, 0.7766393890897683, 0.6844301295853427, 0.6031687406857282, 0.5315553977157914)
"""Paces of the sequence over five quantities: powers of 1/x, x^6 = x + 1."""


def squeeze_ends(housing: Housing) -> tuple[float, float]:
    """From which to which squeeze a ring there works."""
    return MOVING_SQUEEZE if housing.moving else SQUEEZE[housing.lies]


def ageing_of(rubber: Rubber, set_part: float | None = None) -> Ageing:
    """What years and cold do to a rubber of the table, with a part of the set that is known or another."""
    return Ageing(rubber.set_part if set_part is None else set_part, rubber.cte_per_k)  # type: ignore[arg-type]


def set_range(rubber: Rubber) -> tuple[float, float]:
    """The least and the most that a rubber sets."""
    cited = rubber.cited["set_part"]
    low = cited.value if cited.low is None else cited.low
    return low, cited.value if cited.high is None else cited.high


def broken(housing: Housing, found: InGroove, *, most_fill: float | None = None) -> tuple[str, ...]:
    """The needs that are not met, as they are named above; `most_fill`: at worst tolerances."""
    least, most = squeeze_ends(housing)
    short, long = STRETCH[housing.lies]
    outside = housing.lies == FEMALE
    due = (
        (BUCKLED if outside else SLACK, found.stretch < short - 1e-9),
        (SHORT if outside else STRAINED, found.stretch > long + 1e-9),
        (GRIPPED, found.squeeze < least),
        (SPENT, found.later_cold < LEFT_AT_LEAST),
        (CRUSHED, found.squeeze > most),
        (FILLED, (found.fill if most_fill is None else most_fill) > MOST_FILL),
    )
    return tuple(name for name, is_so in due if is_so)


@dataclass(frozen=True, slots=True)
class OneGroove:
    """One groove as it may be, with the inside diameter of one ring and one set."""

    inside_mm: float
    at: tuple[float, float, float]
    """Inner, outer, other."""
    ageing: Ageing


def cord_ends(housing: Housing, place: OneGroove) -> tuple[float, float]:
    """From which to which free cord a ring meets every need there; the first above the second: none does."""
    inner, outer, _ = place.at
    depth, width = housing.depth_of(*place.at), housing.width_of(*place.at)
    rests = outer if housing.lies == FEMALE else inner
    room = room_mm2(depth, width, housing.corner_mm)
    if depth <= 0.0 or room <= 0.0:
        return 1.0, 0.0
    least, most = squeeze_ends(housing)
    kept = 1.0 / (place.ageing.cold_part * (1.0 - LEFT_AT_LEAST)) - 1.0
    low = depth * max(1.0 / (1.0 - least), 1.0 + kept / (1.0 - place.ageing.set_part))
    high = min(depth / (1.0 - most), math.sqrt(MOST_FILL * room * 4.0 / math.pi))
    given = {"lies": housing.lies, "rests_on_mm": rests, "inside_mm": place.inside_mm}
    low, high = (free_cord_mm(one, **given) for one in (low, high))  # type: ignore[arg-type]
    short, long = STRETCH[housing.lies]
    if housing.lies == FEMALE:
        ends = ((rests / (1.0 + part) - place.inside_mm) / 2.0 for part in (long, short))
        return max(low, next(ends)), min(high, next(ends))
    stretch = stretch_of(**given, cord_mm=low)  # type: ignore[arg-type]
    return (low, high) if short <= stretch <= long else (1.0, 0.0)


@lru_cache(maxsize=1)
def points() -> tuple[tuple[float, ...], ...]:
    """Chances of inside diameter, groove (three) and set at every point: the first four as standard
    deviations off their means, the last as a part of its range.
    """
    normal = NormalDist()
    return tuple(
        (*(normal.inv_cdf((0.5 + n * pace) % 1.0) for pace in PACES[:4]), (0.5 + n * PACES[4]) % 1.0)
        for n in range(1, POINTS + 1)
    )


def places(housing: Housing, ring: Oring, rubber: Rubber, among: int) -> Iterator[OneGroove]:
    """Grooves and inside diameters as they may be."""
    low, high = set_range(rubber)
    lengths = (ring.inside, housing.inner, housing.outer, housing.other)
    known = [(one.mm, one.sd_mm) for one in lengths]
    for point in points()[:among]:
        inside, *at = (mean + off * sd for (mean, sd), off in zip(known, point, strict=False))
        set_part = low + point[4] * (high - low)
        yield OneGroove(inside, (at[0], at[1], at[2]), ageing_of(rubber, set_part))


def chance(housing: Housing, ring: Oring, rubber: Rubber, among: int = POINTS) -> float:
    """The chance that such a ring, in this groove as it was measured, meets every need."""
    cord = NormalDist(ring.cord.mm, max(ring.cord.sd_mm, 1e-6))
    total = 0.0
    for place in places(housing, ring, rubber, among):
        low, high = cord_ends(housing, place)
        total += max(0.0, cord.cdf(high) - cord.cdf(low))
    return total / among
