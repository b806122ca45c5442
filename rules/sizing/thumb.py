"""The ring by the rules of thumb, from which the sizing looks for the best one.

Invariant: it depends on seat, glass and heights alone, never on what is known of case or plastic.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules import limits
from rules.checks import hundredth
from rules.ring import RingSizes
from rules.sizing.squeeze import gap_mm, wall_for_mm

_EPSILON = 1e-9
_STEP_SLACK = 1e-6
_NINE_PCT = 100.0 * limits.USUAL_SQUEEZE


@dataclass(frozen=True, slots=True)
class Thumb:
    """The two rules of thumb side by side, as bores for one outside diameter."""

    tenth_bore_mm: float
    tenth_squeeze_pct: float
    """What a tenth of a millimetre on the diameter means in per cent of the wall."""
    nine_bore_mm: float
    nine_interference_mm: float
    """What nine per cent of the wall means on the diameter, mm."""


def nine_mm(gap: float) -> float:
    """Radial interference of nine per cent of the wall in a gap, mm."""
    return wall_for_mm(squeeze_pct=_NINE_PCT, gap_mm=gap) - gap


def usual_interference_mm(gap: float) -> float:
    """Radial interference aimed at, mm: 9 % of the wall for usual gaps, else between the two rules."""
    low, high = limits.USUAL_GAP_MM
    if low - _EPSILON <= gap <= high + _EPSILON:
        return nine_mm(gap)
    return (nine_mm(gap) + limits.USUAL_INTERFERENCE_MM) / 2.0


def rules_of_thumb(gap: float, *, outside_mm: float) -> Thumb:
    """A tenth of a millimetre on the diameter, and nine per cent of the wall (common practice, no source)."""
    nine, tenth = nine_mm(gap), limits.USUAL_INTERFERENCE_MM
    return Thumb(
        tenth_bore_mm=outside_mm - 2.0 * (gap + tenth),
        tenth_squeeze_pct=100.0 * tenth / (gap + tenth),
        nine_bore_mm=outside_mm - 2.0 * (gap + nine),
        nine_interference_mm=2.0 * nine,
    )


def entry_chamfer_mm(interference_mm: float) -> float:
    """Twice the radial interference, at least 0.10, rounded up to 0.05 mm."""
    steps = math.ceil(2.0 * interference_mm / limits.CHAMFER_STEP_MM - _STEP_SLACK)
    return round(max(limits.LEAST_CHAMFER_MM, steps * limits.CHAMFER_STEP_MM), 2)


def free_height_mm(room_mm: float | None, squeeze: float) -> float | None:
    """Height of the ring before pressing, rounded down to 0.05 mm; None when the room for it is not known.

    room_mm: the smaller of seat depth and straight edge of the glass. Height = (room less
    0.10) / (1 + e/(1-e)), with e the nominal squeeze (fraction), which is the most the ring can grow.
    """
    if room_mm is None:
        return None
    free = (room_mm - limits.HEIGHT_CLEARANCE_MM) * (1.0 - max(squeeze, 0.0))
    return round(math.floor(free / limits.HEIGHT_STEP_MM + _STEP_SLACK) * limits.HEIGHT_STEP_MM, 2)


def ring(*, outside_mm: float, bore_mm: float, height_mm: float | None, gap: float) -> RingSizes:
    """A ring with the chamfers it needs in this gap."""
    return RingSizes(
        outside_diameter_mm=outside_mm,
        bore_mm=bore_mm,
        height_mm=height_mm,
        chamfer_mm=entry_chamfer_mm((outside_mm - bore_mm) / 2.0 - gap),
    )


def propose(
    *,
    case_bore_mm: float,
    glass_mm: float,
    height_mm: float | None = None,
    room_mm: float | None = None,
    ovality_mm: float = 0.0,
    outside_mm: float | None = None,
    learned_mm: float = 0.0,
) -> RingSizes:
    """The ring the rules of thumb give, its wall raised where an oval seat would
    leave under 5 % on its long axis.

    >>> propose(case_bore_mm=33.20, glass_mm=32.14).bore_mm
    32.04

    height_mm: None takes what `room_mm` leaves. outside_mm: None is the seat, to a hundredth. learned_mm: how
    much wider the gap is believed to be than measured.
    Raises OutOfRange when the wall would be under 0.20 mm.
    """
    gap = gap_mm(case_bore_mm=case_bore_mm, glass_mm=glass_mm) + learned_mm
    outside = hundredth(case_bore_mm) if outside_mm is None else outside_mm
    bore = hundredth(outside - 2.0 * (gap + usual_interference_mm(gap)))
    if ovality_mm > 0.0:
        tight_enough = outside - 2.0 * (gap + ovality_mm / 4.0) / (1.0 - limits.LEAST_SQUEEZE)
        bore = min(bore, round(math.floor(100.0 * tight_enough + _EPSILON) / 100.0, 2))
    wall = (outside - bore) / 2.0
    limits.thick_enough(wall)
    height = free_height_mm(room_mm, 1.0 - gap / wall) if height_mm is None else height_mm
    return ring(outside_mm=outside, bore_mm=bore, height_mm=height, gap=gap)
