"""The ring by the rules of thumb, from which the sizing looks for the best one; what a given ring does is
`assess`.

Invariant: a ring by the rules of thumb depends on seat, glass and heights alone, never on what is known of
case or plastic.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules import limits
from rules.checks import hundredth
from rules.sizing.fit import Fit, Force, Yielded
from rules.sizing.seated import assess

__all__ = ["Fit", "Force", "Ring", "Thumb", "Yielded", "assess", "propose", "rules_of_thumb"]

_EPSILON = 1e-9
_STEP_SLACK = 1e-6


@dataclass(frozen=True, slots=True)
class Ring:
    """A ring as it is turned, mm."""

    outside_diameter_mm: float
    bore_mm: float
    height_mm: float | None
    wall_mm: float
    chamfer_mm: float
    """Entry chamfer, on the side the glass comes from."""
    lower_chamfer_mm: float
    """On the lower outside edge."""


@dataclass(frozen=True, slots=True)
class Thumb:
    """The two rules of thumb side by side, as bores for one outside diameter."""

    tenth_bore_mm: float
    tenth_squeeze_pct: float
    """What a tenth of a millimetre on the diameter means in per cent of the wall."""
    nine_bore_mm: float
    nine_interference_mm: float
    """What nine per cent of the wall means on the diameter, mm."""


def gap_mm(*, case_bore_mm: float, glass_mm: float) -> float:
    """Half the difference of seat and glass, mm."""
    return (case_bore_mm - glass_mm) / 2.0


def usual_interference_mm(gap: float) -> float:
    """Radial interference aimed at, mm: 9 % of the wall for usual gaps, else between the two rules."""
    nine = limits.USUAL_SQUEEZE * gap / (1.0 - limits.USUAL_SQUEEZE)
    low, high = limits.USUAL_GAP_MM
    if low - _EPSILON <= gap <= high + _EPSILON:
        return nine
    return (nine + limits.USUAL_INTERFERENCE_MM) / 2.0


def rules_of_thumb(*, case_bore_mm: float, glass_mm: float, outside_mm: float | None = None) -> Thumb:
    """A tenth of a millimetre on the diameter, and nine per cent of the wall (common practice, no source).

    outside_mm: of the ring; None is the seat.
    """
    gap = gap_mm(case_bore_mm=case_bore_mm, glass_mm=glass_mm)
    within = (case_bore_mm if outside_mm is None else outside_mm) - 2.0 * gap
    nine = limits.USUAL_SQUEEZE * gap / (1.0 - limits.USUAL_SQUEEZE)
    tenth = limits.USUAL_INTERFERENCE_MM
    return Thumb(
        tenth_bore_mm=within - 2.0 * tenth,
        tenth_squeeze_pct=100.0 * tenth / (gap + tenth),
        nine_bore_mm=within - 2.0 * nine,
        nine_interference_mm=2.0 * nine,
    )


def entry_chamfer_mm(interference_mm: float) -> float:
    """Twice the radial interference, at least 0.10, rounded up to 0.05 mm."""
    steps = math.ceil(2.0 * interference_mm / limits.CHAMFER_STEP_MM - _STEP_SLACK)
    return round(max(limits.LEAST_CHAMFER_MM, steps * limits.CHAMFER_STEP_MM), 2)


def free_height_mm(
    *, seat_depth_mm: float | None, glass_edge_mm: float | None, squeeze: float
) -> float | None:
    """Height of the ring before pressing, rounded down to 0.05 mm; None when neither depth nor edge is known.

    (smaller of seat depth and straight edge, less 0.10) / (1 + e/(1-e)), with e the nominal squeeze, which
    is the most the ring can grow.
    """
    known_lengths = [value for value in (seat_depth_mm, glass_edge_mm) if value is not None]
    if not known_lengths:
        return None
    room = (min(known_lengths) - limits.HEIGHT_CLEARANCE_MM) * (1.0 - max(squeeze, 0.0))
    return round(math.floor(room / limits.HEIGHT_STEP_MM + _STEP_SLACK) * limits.HEIGHT_STEP_MM, 2)


def ring(*, outside_mm: float, bore_mm: float, height_mm: float | None, interference_mm: float) -> Ring:
    """A ring with its chamfers from the sizes that matter."""
    return Ring(
        outside_diameter_mm=outside_mm,
        bore_mm=bore_mm,
        height_mm=height_mm,
        wall_mm=(outside_mm - bore_mm) / 2.0,
        chamfer_mm=entry_chamfer_mm(interference_mm),
        lower_chamfer_mm=limits.LOWER_CHAMFER_MM,
    )


def propose(
    *,
    case_bore_mm: float,
    glass_mm: float,
    height_mm: float | None = None,
    seat_depth_mm: float | None = None,
    glass_edge_mm: float | None = None,
    ovality_mm: float = 0.0,
    outside_mm: float | None = None,
) -> Ring:
    """The ring the rules of thumb give, raised where an oval seat would leave less than 5 % on its long axis.

    >>> propose(case_bore_mm=33.20, glass_mm=32.14).bore_mm
    32.04

    outside_mm: None is the seat, to a hundredth. Range: limits.RANGES, glass under case bore.
    Raises OutOfRange, also when the wall would be under 0.20 mm.
    """
    limits.within("case bore", case_bore_mm)
    limits.within("glass", glass_mm)
    limits.under("glass", glass_mm, "case bore", case_bore_mm)
    oval = limits.within("ovality", ovality_mm)
    gap = gap_mm(case_bore_mm=case_bore_mm, glass_mm=glass_mm)
    wall = gap + usual_interference_mm(gap)
    outside = hundredth(case_bore_mm) if outside_mm is None else outside_mm
    bore = hundredth(outside - 2.0 * wall)
    if oval > 0.0:
        tight_enough = outside - 2.0 * (gap + oval / 4.0) / (1.0 - limits.LEAST_SQUEEZE)
        bore = min(bore, round(math.floor(100.0 * tight_enough + _EPSILON) / 100.0, 2))
    limits.thick_enough((outside - bore) / 2.0)
    interference = (outside - bore) / 2.0 - gap
    height = limits.within_or_none("height", height_mm)
    if height is None:
        height = free_height_mm(
            seat_depth_mm=limits.within_or_none("seat depth", seat_depth_mm),
            glass_edge_mm=limits.within_or_none("glass edge", glass_edge_mm),
            squeeze=interference / (gap + interference),
        )
    return ring(outside_mm=outside, bore_mm=bore, height_mm=height, interference_mm=interference)
