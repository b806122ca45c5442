"""Decisions beside a limit, with a guard band as wide as the uncertainty.

Invariant: "fits", "PASS", "does not" and "FAIL" are said only when the whole 95 % interval lies on that
side; everything else is undecided, and undecided never stops the job.
Source of the rule: ISO 14253-1 and JCGM 106, from memory.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rules.checks import OutOfRange, number
from rules.sizing.attempt import OUTCOMES, NextRing, next_ring_change

__all__ = [
    "OUTCOMES",
    "NextRing",
    "RingDecision",
    "free_diameter_words",
    "next_ring_change",
    "one_limit",
    "ring_decision",
]

PASS, FAIL, UNDECIDED, NOT_JUDGED = "PASS", "FAIL", "UNDECIDED", "NOT_JUDGED"
FITS, DOES_NOT, RING_UNDECIDED = "fits", "does_not", "undecided"
LOW_PCT, HIGH_PCT = 5.0, 13.0
"""Usual band of the nominal squeeze, percent (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class RingDecision:
    """Whether the ring as measured lies in its band."""

    interference_mm: float
    """Mean wall minus gap, on the radius."""
    interference_u_mm: float
    """Its expanded uncertainty, 95 %."""
    squeeze_pct: float
    """Interference over wall, percent; negative for a loose ring."""
    squeeze_u_pct: float
    """Its expanded uncertainty, 95 %, percent of wall."""
    decision: str
    """fits, does_not or undecided."""
    words: str
    measure_better: str | None
    """What to measure better when undecided: the wall or the gap."""
    spread_mm: float
    """Largest wall minus smallest."""


def one_limit(value: float, half_width: float, limit: float) -> str:
    """PASS when value + half width <= limit, FAIL when value - half width > limit, else UNDECIDED.

    value, half width (95 %) and limit in one unit. Raises OutOfRange when one is not finite or the
    half width is negative.
    """
    number("value", value, low=-1e12, high=1e12, unit="")
    number("half width", half_width, low=0.0, high=1e12, unit="")
    number("limit", limit, low=-1e12, high=1e12, unit="")
    if value + half_width <= limit:
        return PASS
    return FAIL if value - half_width > limit else UNDECIDED


def ring_decision(
    *,
    walls_mm: Sequence[float],
    wall_u_mm: float,
    gap_mm: float,
    gap_u_mm: float,
    low_pct: float = LOW_PCT,
    high_pct: float = HIGH_PCT,
) -> RingDecision:
    """Judge a made ring by its walls and the gap it goes into.

    walls_mm: wall at four or more angles; the mean counts, because the glass settles between a thin and a
    thick side. wall_u_mm, gap_u_mm: expanded uncertainty (95 %) of the mean wall and of the gap, mm.
    squeeze = 1 - gap/wall, so u = sqrt((gap/wall u_wall)^2 + u_gap^2)/wall (GUM, first order).
    Raises OutOfRange unless walls, gap and uncertainties are finite and in range.
    """
    _check_ring(walls_mm, wall_u_mm, gap_mm, gap_u_mm, low_pct, high_pct)
    wall = math.fsum(walls_mm) / len(walls_mm)
    from_wall, from_gap = gap_mm / wall * wall_u_mm, gap_u_mm
    squeeze = 100.0 * (wall - gap_mm) / wall
    half = 100.0 * math.hypot(from_wall, from_gap) / wall
    spread = max(walls_mm) - min(walls_mm)
    if low_pct + half <= squeeze <= high_pct - half:
        decision, better = FITS, None
    elif squeeze + half < low_pct or squeeze - half > high_pct:
        decision, better = DOES_NOT, None
    else:
        decision, better = RING_UNDECIDED, "wall" if from_wall >= from_gap else "gap"
    words = _ring_words(decision, squeeze, half, low_pct, high_pct, better)
    if spread > 0.5 * (wall - gap_mm) > 0:
        words += f" The wall differs by {spread:.3f} mm round the ring: the bore is not central."
    return RingDecision(
        interference_mm=wall - gap_mm,
        interference_u_mm=math.hypot(wall_u_mm, gap_u_mm),
        squeeze_pct=squeeze,
        squeeze_u_pct=half,
        decision=decision,
        words=words,
        measure_better=better,
        spread_mm=spread,
    )


def _check_ring(
    walls: Sequence[float], wall_u: float, gap: float, gap_u: float, low: float, high: float
) -> None:
    if not walls:
        raise OutOfRange("wall: none was given; measure it at four angles")
    for wall in walls:
        number("wall", wall, low=0.05, high=10.0, unit="mm", advice="measure it with a ball anvil")
    number("gap", gap, low=0.02, high=10.0, unit="mm", advice="it is half of seat minus glass")
    number("uncertainty of the wall", wall_u, low=0.0, high=1.0, unit="mm", advice="")
    number("uncertainty of the gap", gap_u, low=0.0, high=1.0, unit="mm", advice="")
    number("upper limit of the squeeze", high, low=0.0, high=50.0, unit="%", advice="")
    number(
        "lower limit of the squeeze", low, low=0.0, high=high, unit="%", advice="give it under the upper one"
    )


def _ring_words(
    decision: str, squeeze: float, half: float, low: float, high: float, better: str | None
) -> str:
    read = f"Squeeze {squeeze:.1f} % of the wall, good to {half:.1f}; band {low:g} to {high:g} %."
    if decision == FITS:
        return f"{read} It fits."
    if decision == DOES_NOT:
        return f"{read} It does not fit: too {'loose' if squeeze < low else 'tight'}."
    what = "the wall (ball anvil, more angles)" if better == "wall" else "the gap (seat and glass diameters)"
    return f"{read} Undecided; measuring {what} better would help. Go on: the press will tell."


def free_diameter_words() -> str:
    """Why the diameter of the free ring is not asked."""
    return (
        "The free ring is not measured across: it bends by millimetres under a newton. "
        "What seals is wall minus gap, so the wall is measured."
    )
