"""What warmth, cold, water and years do to a fitted ring.

Invariant: at 20 degrees C and dry, nothing changes.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules.tables import Glass, Metal, Plastic
from rules.warmth import AT_TEMPERATURES

REFERENCE_C = 20.0
"""Reference temperature of lengths (ISO 1)."""
COLDEST_C = -10.0
WARMEST_C = 60.0
"""A watch is to hold from -10 to +60 C (common practice)."""


@dataclass(frozen=True, slots=True)
class Shift:
    """How a temperature changes gap and wall."""

    gap_mm: float
    """Change of the gap, mm: (bore a_case - glass a_glass) dT / 2."""
    wall_factor: float
    """Wall over its size at 20 C: it grows, and its held circumference pushes it thicker."""


STILL = Shift(gap_mm=0.0, wall_factor=1.0)


@dataclass(frozen=True, slots=True)
class Climate:
    """What a temperature does to gap and wall, and to the plastic."""

    words: str
    """Which, behind what is said of it; empty for the room."""
    shift: Shift
    modulus_part: float = 1.0
    """Modulus of the plastic over that at 23 C."""
    cap_part: float = 1.0
    """Stress cap over that at 23 C."""


ROOM = Climate("", STILL)


def at_words(temperature_c: float) -> str:
    """A temperature behind what is said of it.

    >>> at_words(60.0), at_words(-10.0)
    ('at +60 C', 'at -10 C')
    """
    return f"at {temperature_c:+.0f} C"


def shift(
    *,
    temperature_c: float,
    case_bore_mm: float,
    glass_mm: float,
    plastic: Plastic,
    metal: Metal | None,
    glass: Glass | None,
) -> Shift | None:
    """Gap and wall at a temperature; None when an expansion is unknown.

    Source: linear expansion; the held circumference adds nu (a_ring -
    a_case) dT (own derivation; 316L with sapphire 33 mm: -3.7 um of squeeze at +60 C, +2.8 um at -10 C).
    """
    if metal is None or glass is None or metal.cte_per_k is None or glass.cte_per_k is None:
        return None
    if plastic.cte_per_k is None or plastic.poisson_ratio is None:
        return None
    warmer = temperature_c - REFERENCE_C
    held = plastic.poisson_ratio * (plastic.cte_per_k - metal.cte_per_k)
    return Shift(
        gap_mm=(case_bore_mm * metal.cte_per_k - glass_mm * glass.cte_per_k) * warmer / 2.0,
        wall_factor=1.0 + (plastic.cte_per_k + held) * warmer,
    )


def stiffness_words(plastic: Plastic) -> str:
    """How it is known how stiff a plastic is in the cold and the warmth."""
    curves = [plastic.cited.get(name) for name in AT_TEMPERATURES]
    if plastic.parts_at(COLDEST_C) is None or plastic.parts_at(WARMEST_C) is None:
        return f"how stiff {plastic.name} is there is not known"
    memory = any(one is not None and one.basis == "memory" for one in curves)
    return "with the plastic's stiffness there" + (", from memory" if memory else "")


def swelling_um(*, plastic: Plastic, wall_mm: float) -> float | None:
    """How much thicker a wall held round grows when saturated with water, um; None when unknown."""
    if plastic.water_growth is None or plastic.poisson_ratio is None:
        return None
    return 1000.0 * wall_mm * plastic.water_growth * (1.0 + plastic.poisson_ratio)
