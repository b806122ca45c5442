"""What letting the work cool is worth: how much smaller it becomes, and how soon.

Invariant: outside and wall shrink by the same share, so that the wall, which seals, hardly changes.
Lengths in mm, times in minutes. An estimate: the rise is assumed, the cooling that of a thin
tube in still air.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules.lengths import microns

RISE_K = 10.0
"""How much warmer than the room roughing leaves the work. Assumed, no source."""
STILL_AIR_W_PER_M2_K = 10.0
"""Free convection in gases gives 2 to 25: Cengel, Heat transfer, notes on convection (opened)."""
HEAT_PER_MM3_K = 2.1e-3
"""J it takes: acetal 1410 kg/m3 and 1.47 kJ/kg K, other plastics within a fifth. From memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cooling:
    """A tube between roughing and finishing."""

    outside_mm: float
    wall_mm: float
    """As finished: what the warmth is worth on the ring."""
    standing_mm: float
    """Wall as it stands while it cools."""
    expansion_per_k: float

    def left(self, minutes: float) -> float:
        """Share of the warmth that is left after a rest, bare inside and outside."""
        seconds = 60.0 * minutes
        per_mm2 = STILL_AIR_W_PER_M2_K * 1e-6
        return math.exp(-2.0 * per_mm2 * seconds / (HEAT_PER_MM3_K * self.standing_mm))

    def outside_um(self, minutes: float) -> float:
        """How much the finished outside shrinks further after so long a rest."""
        return 1e3 * self.outside_mm * self.expansion_per_k * RISE_K * self.left(minutes)

    def wall_um(self, minutes: float) -> float:
        """The same of the wall."""
        return 1e3 * self.wall_mm * self.expansion_per_k * RISE_K * self.left(minutes)

    def words(self, minutes: float) -> tuple[str, ...]:
        """What the rest is worth here, and what a shorter one leaves."""
        half = minutes / 2.0
        return (
            f"Taken {RISE_K:g} degrees warm: worth {microns(self.outside_um(0.0))} on the outside, "
            f"{microns(self.wall_um(0.0))} in the wall.",
            f"After {half:g} min about {microns(self.outside_um(half))} of that are left outside, after "
            f"{minutes:g} min {microns(self.outside_um(minutes))} (estimate).",
        )
