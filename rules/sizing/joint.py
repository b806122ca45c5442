"""The joint a ring goes into: this seat, this glass, this plastic, and what is known of the metal round it.

Invariant: everything in it has been checked against its range; what is not known is None.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules import limits
from rules.checks import known
from rules.sizing import climate
from rules.sizing.casing import RIGID, Surround, surround
from rules.sizing.strip import Strip
from rules.tables import Glass, Metal, Plastic, glasses, metals, plastics


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
    friction: float = 0.2
    rigid: bool = False
    """True when walls and glass count as rigid by request: figures are upper bounds."""
    case_yield_mpa: float | None = None
    """Yield of this very case, when its temper is known."""

    @property
    def gap_mm(self) -> float:
        """Half the difference of seat and glass."""
        return (self.case_bore_mm - self.glass_mm) / 2.0

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

    def shift(self, temperature_c: float) -> climate.Shift | None:
        """How a temperature changes gap and wall here; None when an expansion is unknown."""
        return climate.shift(
            temperature_c=temperature_c,
            case_bore_mm=self.case_bore_mm,
            glass_mm=self.glass_mm,
            plastic=self.plastic,
            metal=self.metal,
            glass=self.glass,
        )


def joint(
    *,
    case_bore_mm: float,
    glass_mm: float,
    material: str | Plastic = "acetal",
    case_metal: str | Metal | None = None,
    case_wall_mm: float | None = None,
    case_height_mm: float | None = None,
    ring_offset_mm: float = 0.0,
    glass_material: str | Glass | None = None,
    glass_thickness_mm: float | None = None,
    friction: float = 0.2,
    rigid: bool = False,
    case_yield_mpa: float | None = None,
) -> Joint:
    """A joint from checked inputs; raises OutOfRange for a value out of range or a material not in the tables.

    Seat and glass are checked by the caller, as they were keyed: corrected to 20 C they may lie a hair
    outside.
    """
    metal = known("case metal", case_metal, metals()) if isinstance(case_metal, str) else case_metal
    glass = (
        known("glass material", glass_material, glasses())
        if isinstance(glass_material, str)
        else glass_material
    )
    given = surround(
        case_bore_mm=case_bore_mm,
        glass_mm=glass_mm,
        metal=metal,
        case_wall_mm=limits.within_or_none("case wall", case_wall_mm),
        case_height_mm=limits.within_or_none("case height", case_height_mm),
        ring_offset_mm=limits.within("ring offset", ring_offset_mm),
        glass=glass,
        glass_thickness_mm=limits.within_or_none("glass thickness", glass_thickness_mm),
    )
    return Joint(
        case_bore_mm=case_bore_mm,
        glass_mm=glass_mm,
        plastic=known("material", material, plastics()) if isinstance(material, str) else material,
        metal=metal,
        glass=glass,
        around=RIGID if rigid else given,
        friction=limits.within("friction", friction),
        rigid=rigid,
        case_yield_mpa=limits.within_or_none("case yield", case_yield_mpa),
    )
