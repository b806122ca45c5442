"""The joint a ring goes into: this seat, this glass, this plastic, and what is known of the metal round it.

Invariant: it is made from a question that was checked; what is not known is None.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules.sizing import climate, squeeze
from rules.sizing.casing import Surround
from rules.strip import Strip
from rules.tables import Glass, Metal, Plastic

USUAL_FRICTION = 0.2
"""Of plastic on metal, dry (own judgement)."""


@dataclass(frozen=True, slots=True)
class Joint:
    """Seat, glass and plastic, with the surround as far as it is known."""

    case_bore_mm: float
    glass_mm: float
    plastic: Plastic
    metal: Metal | None = None
    glass: Glass | None = None
    around: Surround | None = None
    """None when the section round the ring is unknown."""
    friction: float = USUAL_FRICTION
    rigid: bool = False
    """True when walls and glass count as rigid by request: figures are upper bounds."""
    case_yield_mpa: float | None = None
    """Yield of this very case, when its temper is known."""
    learned_mm: float = 0.0
    """How much wider the gap is than seat and glass as measured say, after the rings tried."""

    @property
    def gap_mm(self) -> float:
        """Between seat and glass, on the radius, as it is believed to be."""
        return self.measured_gap_mm + self.learned_mm

    @property
    def measured_gap_mm(self) -> float:
        """The same as seat and glass were measured."""
        return squeeze.gap_mm(case_bore_mm=self.case_bore_mm, glass_mm=self.glass_mm)

    def strip(self, height_mm: float | None) -> Strip | None:
        """The model of a ring of this height; None when height, plastic's curve or surround is not known."""
        plastic = self.plastic
        if height_mm is None or self.around is None:
            return None
        if plastic.youngs_modulus_mpa is None or plastic.stress_cap_mpa is None:
            return None
        return Strip(
            youngs_modulus_mpa=plastic.youngs_modulus_mpa,
            stress_cap_mpa=plastic.stress_cap_mpa,
            height_mm=height_mm,
            friction=self.friction,
            compliance_mm2_per_n=self.around.total_mm2_per_n,
        )

    def climate(self, temperature_c: float) -> climate.Climate | None:
        """What a temperature does here; None where an expansion, or how stiff the plastic is, is unknown."""
        parts = self.plastic.parts_at(temperature_c)
        moved = climate.shift(
            temperature_c=temperature_c,
            case_bore_mm=self.case_bore_mm,
            glass_mm=self.glass_mm,
            plastic=self.plastic,
            metal=self.metal,
            glass=self.glass,
        )
        if moved is None or parts is None:
            return None
        return climate.Climate(climate.at_words(temperature_c), moved, *parts)
