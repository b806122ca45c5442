"""Markings, depths and pressures: what a marking means in bar.

Invariant: every pressure here is an overpressure (gauge), in bar; a depth becomes a pressure only together
with the density it was worked out with, or by the trade's convention, and says which.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules.checks import known, number

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
_LEAST_BAR, _LARGEST_BAR = 0.1, 200.0


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


def water_bar(*, depth_m: float, density_kg_m3: float = FRESH_WATER_KG_M3) -> float:
    """Overpressure in bar at a depth in m of water of that density, rho g h.

    10 m is 0.979 bar in fresh water and 1.005 bar in sea water. Valid for still water of even density.
    Raises OutOfRange outside 0 to 2000 m and 900 to 1100 kg/m3.
    """
    number("depth", depth_m, low=0.0, high=2000.0, unit="m", advice="give the depth in still water")
    number("density", density_kg_m3, low=900.0, high=1100.0, unit="kg/m3", advice="give that of water")
    return density_kg_m3 * GRAVITY_M_S2 * depth_m / 1e5


def water_depth_m(*, overpressure_bar: float, density_kg_m3: float = FRESH_WATER_KG_M3) -> float:
    """Depth in m at which still water of that density gives the overpressure in bar."""
    number("overpressure", overpressure_bar, low=0.0, high=_LARGEST_BAR, unit="bar", advice="over the room")
    return overpressure_bar / water_bar(depth_m=1.0, density_kg_m3=density_kg_m3)


def to_bar(value: float, unit: str) -> float:
    """A figure as marked, in bar over the atmosphere.

    bar and atm by definition; m and ft by the trade's convention, 10 m for 1 bar (common practice, no
    source), not by the density of water. Raises OutOfRange for another unit or an absurd figure.
    """
    factor = known("unit of a marking", unit, _BAR_PER_UNIT)
    least, largest = _LEAST_BAR / factor, _LARGEST_BAR / factor
    return (
        number("marking", value, low=least, high=largest, unit=unit, advice="look at the case again") * factor
    )


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
