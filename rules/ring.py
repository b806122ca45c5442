"""The ring itself: its sizes, which every stage hands on.

Invariant: a ring of the sizing may lack a height; a ring that was decided upon has every size.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules.limits import LEAST_CHAMFER_MM, LOWER_CHAMFER_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class RingSizes:
    """A ring as far as it is known, mm."""

    outside_diameter_mm: float
    bore_mm: float
    height_mm: float | None
    """None while neither it nor the room for it is known."""
    chamfer_mm: float = LEAST_CHAMFER_MM
    """Entry chamfer, on the side the glass comes from."""
    lower_chamfer_mm: float = LOWER_CHAMFER_MM
    """On the lower outside edge."""
    foot_mm: float = 0.0
    """Thickness of the foot under the glass, which is part of the height; 0 of a straight ring."""
    foot_bore_mm: float = 0.0
    """Inside diameter of the foot."""
    corner_mm: float = 0.0
    """The corner between wall and foot may be so round at most: the lower bevel of the glass clears it."""

    @property
    def wall_mm(self) -> float:
        """Wall of the free ring, on the radius."""
        return (self.outside_diameter_mm - self.bore_mm) / 2.0

    @property
    def narrowest_mm(self) -> float:
        """The smallest hole in it: the bore, or that of the foot."""
        return self.foot_bore_mm if self.foot_mm else self.bore_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring(RingSizes):
    """A ring as it was decided upon, mm."""

    height_mm: float
