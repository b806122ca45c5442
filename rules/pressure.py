"""Markings, depths and pressures: what a marking means in bar.

Invariant: every pressure here is an overpressure (gauge), in bar; a depth becomes a pressure only together
with the density it was worked out with, or by the trade's convention, and says which.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

STANDARD_ATMOSPHERE_BAR = 1.01325
"""One standard atmosphere, exact by definition (BIPM, CGPM 1954)."""
GRAVITY_M_S2 = 9.80665
"""Standard acceleration of free fall, exact by convention (CGPM 1901)."""
FRESH_WATER_KG_M3 = 998.2
"""Fresh water at 20 C (CRC Handbook, from memory)."""
SEA_WATER_KG_M3 = 1025.0
"""Sea water, mean surface value (from memory)."""
FOOT_M = 0.3048
"""International foot, exact by definition (1959)."""
CONVENTION_BAR_PER_M = 0.1
"""The trade reads 10 m as 1 bar (common practice, no source)."""
UNFIGURED_MARKING_BAR = 2.0
""" "Water-resistant" without a figure (ISO 2281 by second-hand lists)."""
DIVERS_FACTOR = 1.25
"""Divers' watches are tested at 125 % of the rating (ISO 6425, second-hand)."""

_BAR_PER_UNIT = {
    "bar": 1.0,
    "atm": STANDARD_ATMOSPHERE_BAR,
    "m": CONVENTION_BAR_PER_M,
    "ft": CONVENTION_BAR_PER_M * FOOT_M,
}
_LARGEST_BAR = 200.0


class ImpossiblePressure(ValueError):
    """A pressure, depth or marking outside what can be."""


@dataclass(frozen=True, slots=True)
class Marking:
    """What stands on the case, and what it means at the tester."""

    words: str
    """As it is marked, with its unit."""
    overpressure_bar: float | None
    """The pressure to test for, bar over the atmosphere; None when nothing is marked."""
    how: str
    """How the pressure was found from the words."""
    divers: bool
    """Marked as a divers' watch."""


def _checked(name: str, value: float, limit: float, unit: str) -> float:
    if not math.isfinite(value) or not 0.0 < value <= limit:
        raise ImpossiblePressure(f"{name} {value:g} {unit}: give a value above 0 and up to {limit:g} {unit}")
    return value


def water_bar(*, depth_m: float, density_kg_m3: float = FRESH_WATER_KG_M3) -> float:
    """Overpressure in bar at a depth in m of water of that density, rho g h.

    10 m is 0.979 bar in fresh water and 1.005 bar in sea water. Valid for still water of even density.
    Raises ImpossiblePressure outside 0 to 2000 m and 900 to 1100 kg/m3.
    """
    _checked("depth", depth_m, 2000.0, "m")
    if not 900.0 <= density_kg_m3 <= 1100.0:
        raise ImpossiblePressure(f"density {density_kg_m3:g} kg/m3: give 900 to 1100 kg/m3")
    return density_kg_m3 * GRAVITY_M_S2 * depth_m / 1e5


def water_depth_m(*, overpressure_bar: float, density_kg_m3: float = FRESH_WATER_KG_M3) -> float:
    """Depth in m at which still water of that density gives the overpressure in bar."""
    _checked("overpressure", overpressure_bar, _LARGEST_BAR, "bar")
    return overpressure_bar / water_bar(depth_m=1.0, density_kg_m3=density_kg_m3)


def to_bar(value: float, unit: str) -> float:
    """A figure as marked, in bar over the atmosphere.

    bar and atm by definition; m and ft by the trade's convention, 10 m for 1 bar (common practice, no
    source), not by the density of water. Raises ImpossiblePressure for another unit or an absurd figure.
    """
    if unit not in _BAR_PER_UNIT:
        raise ImpossiblePressure(f"unit {unit!r} of a marking is not known; use {', '.join(_BAR_PER_UNIT)}")
    factor = _BAR_PER_UNIT[unit]
    return _checked("marking", value, _LARGEST_BAR / factor, unit) * factor


def marking(
    *, figure: float | None = None, unit: str = "bar", worded: bool = False, divers: bool = False
) -> Marking:
    """What the marking on the case asks for.

    figure None and worded False: nothing is marked. worded without a figure: 2 bar. A figure counts in
    its unit: bar, atm, m or ft.
    """
    if figure is None:
        if not worded:
            return Marking("nothing marked", None, "nothing is marked, so nothing is promised", divers)
        return Marking("water-resistant", UNFIGURED_MARKING_BAR, "without a figure counts as 2 bar", divers)
    bar = to_bar(figure, unit)
    how = {
        "bar": "as marked",
        "atm": "1 atm is 1.01325 bar",
        "m": "10 m taken as 1 bar (common practice)",
        "ft": "feet to metres, then 10 m taken as 1 bar (common practice)",
    }[unit]
    return Marking(f"{figure:g} {unit}", bar, how, divers)
