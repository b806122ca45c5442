"""The glass to order where none is there to be measured: from the seat, in steps of the stock.

Invariant: the wall beside a size is the one the sizing would propose for a glass of just that size;
the glass itself is measured when it comes.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from rules import limits
from rules.sizing.glass import MPA_PER_BAR, SUPPORT_LESS_MM, supported_stress_mpa
from rules.tables import Glass

OFFERED = 3
"""Sizes that are offered."""
LOOKED_AT = 9
"""Sizes looked at on either side of the one that would suit best."""
EDGE_STEP_MM = 0.10
"""In which thickness and edge are asked for."""
BEVELS_MM = 0.20
"""What two bevels take from the thickness, 0.10 each (own judgement)."""
_NOISE = 1e-9


@dataclass(frozen=True, slots=True)
class StockGlass:
    """One size of glass, with the ring that would go with it."""

    glass_mm: float
    wall_mm: float

    @property
    def usual(self) -> bool:
        """Whether the wall is a usual one."""
        low, high = limits.USUAL_WALL_MM
        return low - _NOISE <= self.wall_mm <= high + _NOISE


def glasses_to_order(
    wall_for: Callable[[float], float | None],
    *,
    case_bore_mm: float,
    step_mm: float = limits.GLASS_STEP_MM,
    old_wall_mm: float | None = None,
) -> tuple[StockGlass, ...]:
    """Two or three sizes, the most suitable first: nearest to the wall of the old ring,
    else to the middle of the usual walls.

    wall_for: the wall that is proposed for a glass of a diameter, mm; None where there is none. Sizes with a
    usual wall go first, unless an old ring had another; fewer than two of them are made up to two.
    """
    wanted = sum(limits.USUAL_WALL_MM) / 2.0 if old_wall_mm is None else old_wall_mm
    suits = case_bore_mm - 2.0 * wanted * (1.0 - limits.USUAL_SQUEEZE)
    nearest = round(suits / step_mm)
    low, high, _ = limits.RANGES["glass"]
    found = [
        StockGlass(glass, wall)
        for steps in range(nearest - LOOKED_AT, nearest + LOOKED_AT + 1)
        if low <= (glass := round(steps * step_mm, 4)) <= min(high, case_bore_mm - _NOISE)
        and (wall := wall_for(glass)) is not None
    ]
    strange = old_wall_mm is not None and not StockGlass(0.0, old_wall_mm).usual
    best = sorted(found, key=lambda one: (not (one.usual or strange), abs(one.wall_mm - wanted)))
    fitting = sum(one.usual or strange for one in best)
    return tuple(best[: max(2, min(OFFERED, fitting))])


def edge_mm(*, seat_depth_mm: float, old_height_mm: float | None = None) -> float:
    """Straight edge to ask for, so that the ring may be as high as the seat or the old ring allows, mm."""
    room = seat_depth_mm
    if old_height_mm is not None:
        room = min(room, old_height_mm + limits.HEIGHT_CLEARANCE_MM)
    return _up(max(room, limits.SHORT_EDGE_MM))


def thickness_mm(glass: Glass, *, glass_mm: float, overpressure_bar: float) -> float | None:
    """Least thickness at which a flat glass stays under its published design stress, mm, rounded up;
    None where no design stress is known or the formula does not hold.
    """
    nu, design = glass.poisson_ratio, glass.design_stress_mpa
    if nu is None or design is None or not glass.plate_formula:
        return None
    radius = (glass_mm - SUPPORT_LESS_MM) / 2.0
    pressure = overpressure_bar * MPA_PER_BAR
    stress = supported_stress_mpa(pressure_mpa=pressure, radius_mm=radius, thickness_mm=1.0, nu=nu)
    return _up(math.sqrt(stress / design))


def _up(value_mm: float) -> float:
    """A length rounded up to the step in which it is asked for."""
    return round(math.ceil(value_mm / EDGE_STEP_MM - 1e-6) * EDGE_STEP_MM, 2)


def next_larger(
    glass_mm: float,
    *,
    case_bore_mm: float,
    wall_mm: float,
    step_mm: float,
    squeezes_pct: tuple[float, float, float],
) -> tuple[float, float] | None:
    """The stock size over a glass that a wall fits, with its squeeze in %; None where there is none.

    squeezes_pct: the least, the wanted and the most, % of the wall; the size nearest to the wanted is taken.

    >>> next_larger(32.0, case_bore_mm=33.0, wall_mm=0.50, step_mm=0.1, squeezes_pct=(5.0, 9.0, 13.0))
    (32.1, 10.0)
    """
    low, wanted, high = squeezes_pct
    first, last = math.floor(glass_mm / step_mm + 1e-6) + 1, math.floor(case_bore_mm / step_mm)
    sizes = (round(at * step_mm, 4) for at in range(first, last + 1))
    squeezes = ((glass, round(100.0 * (1.0 - (case_bore_mm - glass) / 2.0 / wall_mm), 1)) for glass in sizes)
    fitting = [one for one in squeezes if low <= one[1] <= high]
    return min(fitting, key=lambda one: abs(one[1] - wanted), default=None)
