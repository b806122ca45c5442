"""The limits of the trade and the ranges of the inputs, each with what it rests on.

Invariant: every limit a verdict depends on stands here once.
"""

from __future__ import annotations

from rules.checks import OutOfRange, number

MM_PER_INCH = 25.4
"""Exactly (international yard and pound agreement, 1959)."""
LEAST_SQUEEZE = 0.05
MOST_SQUEEZE = 0.13
"""The band of nominal squeeze (common practice)."""
USUAL_SQUEEZE = 0.09
"""Nine per cent of the wall (common practice)."""
USUAL_INTERFERENCE_MM = 0.05
"""A tenth of a millimetre on the diameter, so half of it on the radius (common practice)."""
GENTLE_SQUEEZE = 0.09
"""Upper end for plated and thin gold bezels: the lower half of the band (common practice)."""
USUAL_GAP_MM = (0.40, 0.70)
"""Gaps in which nine per cent is aimed at; outside, between the two rules (own judgement)."""
USUAL_WALL_MM = (0.40, 0.65)
"""Walls that are usual for this ring (common practice, no source)."""
GLASS_STEP_MM = 0.10
"""From one stock size of a glass to the next, on the diameter (common practice, no source)."""
LEAST_FOOT_MM, MOST_FOOT_MM = 0.20, 1.50
"""A thinner foot breaks as it is parted and dressed; a thicker one is a spacer of its own (own judgement)."""
LARGE_GAP_MM = 1.2
"""A gap above this asks whether it is the right glass (own judgement)."""
SLIGHT_WALL_MM = 0.30
"""Under this a wall is hard to turn, part and measure (own judgement)."""
LEAST_WALL_MM = 0.20
"""Under this a wall is refused (own judgement)."""
LEAST_PRESSURE_MPA = 10.0
"""Contact pressure after ten years that still closes turning marks (own judgement)."""
HOLD_TIMES = 2.0
"""The friction hold is to be this many times the push on the glass from inside (own judgement)."""
UNDERPRESSURE_BAR = 0.7
"""Gentlest test that pulls on the glass, and the least push it has to withstand
in ten years (own judgement).
"""
LOW_FRICTION, HIGH_FRICTION = 0.10, 0.25
"""Range of friction shown beside the one keyed (own judgement)."""
HEIGHT_CLEARANCE_MM = 0.10
HEIGHT_STEP_MM = 0.05
CHAMFER_STEP_MM = 0.05
LEAST_CHAMFER_MM = 0.10
LOWER_CHAMFER_MM = 0.10
"""On the lower outside edge, to clear the corner radius of the seat (common practice)."""
SIZE_STEP_MM = 0.01
FINEST_STEP_MM = 0.001
"""A size is written in hundredths, and in thousandths where no step of the lathe
and no hundredth lies in the window.
"""
THIN_CASE_WALL_MM = 1.5
"""Gold thinner than this round the seat is treated gently (own judgement)."""
MOST_OF_WALL_CHAMFERED = 0.8
"""A chamfer takes at most this part of the wall (own judgement)."""
HAND_SCALE_PCT = 0.8
"""How softly the hand tells too easy from home and home from too tight: scale of a logistic curve in points
of squeeze, a standard deviation of 1.5 points (own judgement).
"""
OVAL_MM = 0.08
"""A seat further out of round than this: true the bezel first (own judgement)."""

TRUED_MM = 0.03
"""How far out of round a seat is left by truing, and may be left as it is (own judgement)."""
SHORT_EDGE_MM = 0.6
"""A straight edge of the glass shorter than this warns (own judgement)."""
USUAL_SEAT_DEPTH_MM = (0.6, 3.5)
"""A seat of another depth is out of the ordinary and measured twice (own judgement)."""
OUTSIDE_OFF_MM = 0.05
"""An outside further than this from the seat warns (own judgement)."""

RANGES: dict[str, tuple[float, float, str]] = {
    "case bore": (5.0, 80.0, "mm"),
    "glass": (4.0, 80.0, "mm"),
    "outside": (4.0, 81.0, "mm"),
    "bore": (0.1, 80.0, "mm"),
    "seat depth": (0.3, 6.0, "mm"),
    "glass edge": (0.3, 6.0, "mm"),
    "glass thickness": (0.3, 6.0, "mm"),
    "height": (0.3, 6.0, "mm"),
    "case wall": (0.2, 20.0, "mm"),
    "case height": (0.2, 20.0, "mm"),
    "friction": (0.02, 0.6, ""),
    "case bore uncertainty": (0.0, 0.5, "mm"),
    "glass uncertainty": (0.0, 0.5, "mm"),
    "ovality": (0.0, 0.5, "mm"),
    "overpressure": (0.0, 100.0, "bar"),
    "press force": (10.0, 50000.0, "N"),
    "turning spread": (0.0, 0.2, "mm"),
    "ring offset": (0.0, 10.0, "mm"),
    "temperature": (-20.0, 60.0, "C"),
    "support diameter": (3.0, 80.0, "mm"),
    "case yield": (20.0, 2000.0, "MPa"),
    "lathe step": (0.0005, 0.5, "mm"),
    "height spread": (0.0, 0.2, "mm"),
    "softness of the hand": (0.2, 3.0, "points of squeeze"),
}
"""Lowest and highest value that is accepted, and the unit."""


def within(name: str, value: float) -> float:
    """The value when it lies in its range; raises OutOfRange."""
    low, high, unit = RANGES[name]
    return number(name, value, low=low, high=high, unit=unit)


def within_or_none(name: str, value: float | None) -> float | None:
    """The same for a value that may be unknown."""
    return None if value is None else within(name, value)


def no_more(name: str, value: float) -> float:
    """The value, limited to the highest that is accepted."""
    return min(value, RANGES[name][1])


def under(name: str, value: float, other: str, limit: float) -> None:
    """Refuse a diameter that does not lie under another."""
    if not value < limit:
        raise OutOfRange(f"{name}: {value:g} mm must be under the {other}, {limit:g} mm; check both")


def thick_enough(wall_mm: float) -> None:
    """Refuse a wall too thin to turn; raises OutOfRange."""
    if wall_mm < LEAST_WALL_MM - 1e-9:
        raise OutOfRange(
            f"wall: {wall_mm:.3f} mm is under {LEAST_WALL_MM:.2f} mm, too thin to turn; check that this "
            "glass belongs to this case"
        )
