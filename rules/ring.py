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

    @property
    def wall_mm(self) -> float:
        """Wall of the free ring, on the radius."""
        return (self.outside_diameter_mm - self.bore_mm) / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring(RingSizes):
    """A ring as it was decided upon, mm."""

    height_mm: float
