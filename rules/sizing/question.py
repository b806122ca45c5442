"""What is asked of the sizing: the sizes, how well they are known, what is known of case, glass and shop.

Invariant: a question is checked once, when it is made, and trusted after; a value that is not given is None.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules import limits
from rules.sizing.learned import RingTried
from rules.tables import Glass, Metal, Plastic

USUAL_HEIGHT_SPREAD_MM = 0.02
"""Standard deviation of the dressed height (own judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SizingQuestion:
    """One job to size; raises OutOfRange for impossible values.

    Materials are table keys or entries; uncertainties are expanded (95 %), mm. Range: `RANGE_OF`.
    """

    case_bore_mm: float
    glass_mm: float
    outside_mm: float | None = None
    """Of the ring; None is the seat, to a hundredth."""
    bore_mm: float | None = None
    """With `outside_mm`: a given ring to assess instead of a proposed one."""
    height_mm: float | None = None
    seat_depth_mm: float | None = None
    glass_edge_mm: float | None = None
    material: str | Plastic | None = None
    """None takes acetal and says so."""
    case_metal: str | Metal | None = None
    case_wall_mm: float | None = None
    case_height_mm: float | None = None
    ring_offset_mm: float | None = None
    case_yield_mpa: float | None = None
    glass_material: str | Glass | None = None
    glass_thickness_mm: float | None = None
    glass_domed: bool = False
    old_glass: str | None = None
    """"same", "other" (thinner or of other material) or None, not known."""
    support_mm: float | None = None
    friction: float | None = None
    rigid: bool = False
    case_bore_u_mm: float | None = None
    glass_u_mm: float | None = None
    ovality_mm: float | None = None
    turning_spread_mm: float | None = None
    """Standard deviation of what is turned, mm on the diameter."""
    turning_dof: float = math.inf
    """Degrees of freedom of that, where it was learned from few rings."""
    height_spread_mm: float = USUAL_HEIGHT_SPREAD_MM
    overpressure_bar: float | None = None
    press_force_n: float | None = None
    temperature_c: float | None = None
    lathe_step_mm: float = limits.SIZE_STEP_MM
    """Smallest step of the ring's bore on the lathe, mm on the diameter."""
    tried: tuple[RingTried, ...] = ()
    """Rings that were tried in this seat with this glass, oldest first."""
    hand_scale_pct: float = limits.HAND_SCALE_PCT
    """How soft is what the hand tells, points of squeeze."""

    def __post_init__(self) -> None:
        for field, name in RANGE_OF.items():
            limits.within_or_none(name, getattr(self, field))
        limits.under("glass", self.glass_mm, "case bore", self.case_bore_mm)
        if self.support_mm is not None:
            limits.under("support diameter", self.support_mm, "glass", self.glass_mm + 1e-9)
        if self.outside_mm is not None and self.bore_mm is not None:
            limits.under("bore", self.bore_mm, "ring's outside", self.outside_mm)
            limits.thick_enough((self.outside_mm - self.bore_mm) / 2.0)

    @property
    def room_mm(self) -> float | None:
        """Height there is for the ring: the smaller of seat depth and straight edge;
        None while neither is known.
        """
        known_lengths = [value for value in (self.seat_depth_mm, self.glass_edge_mm) if value is not None]
        return min(known_lengths, default=None)


RANGE_OF = {
    "case_bore_mm": "case bore",
    "glass_mm": "glass",
    "outside_mm": "outside",
    "bore_mm": "bore",
    "height_mm": "height",
    "seat_depth_mm": "seat depth",
    "glass_edge_mm": "glass edge",
    "case_wall_mm": "case wall",
    "case_height_mm": "case height",
    "ring_offset_mm": "ring offset",
    "case_yield_mpa": "case yield",
    "glass_thickness_mm": "glass thickness",
    "support_mm": "support diameter",
    "friction": "friction",
    "case_bore_u_mm": "case bore uncertainty",
    "glass_u_mm": "glass uncertainty",
    "ovality_mm": "ovality",
    "turning_spread_mm": "turning spread",
    "height_spread_mm": "height spread",
    "overpressure_bar": "overpressure",
    "press_force_n": "press force",
    "temperature_c": "temperature",
    "lathe_step_mm": "lathe step",
    "hand_scale_pct": "softness of the hand",
}
"""Name in `limits.RANGES` of every number of a question."""
