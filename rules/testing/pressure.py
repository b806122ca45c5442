"""Markings: what a marking on the case means in bar.

Invariant: every pressure here is an overpressure (gauge), in bar; a depth becomes a pressure by the trade's
convention alone, and says so.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules.checks import known, number

STANDARD_ATMOSPHERE_BAR = 1.01325
"""One standard atmosphere, exact by definition (BIPM, CGPM 1954)."""
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
LEAST_BAR, LARGEST_BAR = 0.1, 200.0
"""The pressures of all markings and testers, bar (our judgement)."""


@dataclass(frozen=True, slots=True)
class Marking:
    """What stands on the case, and what it means at the tester."""

    words: str
    """As it is marked, with its unit."""
    overpressure_bar: float | None
    """The pressure to test for, bar over the atmosphere; None when nothing is marked."""
    how: str
    """How the pressure was found from the words."""


def to_bar(value: float, unit: str) -> float:
    """A figure as marked, in bar over the atmosphere.

    bar and atm by definition; m and ft by the trade's convention, 10 m for 1 bar (common practice, no
    source), not by the density of water. Raises OutOfRange for another unit or an absurd figure.
    """
    factor = known("unit of a marking", unit, _BAR_PER_UNIT)
    least, largest = LEAST_BAR / factor, LARGEST_BAR / factor
    return (
        number("marking", value, low=least, high=largest, unit=unit, advice="look at the case again") * factor
    )


def marking(*, figure: float | None = None, unit: str = "bar", worded: bool = False) -> Marking:
    """What the marking on the case asks for.

    figure None and worded False: nothing is marked. worded without a figure: 2 bar. A figure counts in
    its unit: bar, atm, m or ft.
    """
    if figure is None:
        if not worded:
            return Marking("nothing marked", None, "nothing is marked, so nothing is promised")
        how = f"without a figure counts as {UNFIGURED_MARKING_BAR:g} bar"
        return Marking("water-resistant", UNFIGURED_MARKING_BAR, how)
    bar = to_bar(figure, unit)
    how = {
        "bar": "as marked",
        "atm": "1 atm is 1.01325 bar",
        "m": "10 m taken as 1 bar (common practice)",
        "ft": "feet to metres, then 10 m taken as 1 bar (common practice)",
    }[unit]
    return Marking(f"{figure:g} {unit}", bar, how)
