"""The drill that lets a boring bar in, as drills come: in half millimetres, or in parts of an inch.

Invariant: the hole is never tighter for the bar than the clearance.
"""

from __future__ import annotations

import math
from fractions import Fraction

from rules.equipment import Tool
from rules.lengths import MM
from rules.limits import MM_PER_INCH

PER_INCH = 32
"""Drills in inch are taken in thirty-seconds (common practice, no source)."""
CLEARANCE_MM = 0.3
"""A hole is drilled this much wider than the boring bar needs, a bore this much deeper than is parted off.
Common practice, no source.
"""


def needed_for(boring: Tool) -> float:
    """The narrowest hole that a boring bar goes into with room to spare."""
    return boring.smallest_bore_mm + CLEARANCE_MM


def per_mm(unit: str) -> float:
    """How many drills come within a millimetre."""
    return 2.0 if unit == MM else PER_INCH / MM_PER_INCH


def drill_for(tool: Tool, unit: str = MM) -> float:
    """Drill that lets a boring bar in, mm: up to the next half millimetre, or thirty-second of an inch."""
    return round(math.ceil(per_mm(unit) * needed_for(tool) - 1e-9) / per_mm(unit), 6)


def drills_to(largest_mm: float, unit: str) -> tuple[float, ...]:
    """Every drill from 1 mm on that comes up to a size, smallest first."""
    first, last = math.ceil(per_mm(unit)), math.floor(per_mm(unit) * largest_mm + 1e-9)
    return tuple(round(step / per_mm(unit), 6) for step in range(first, last + 1))


def drill_words(drill_mm: float, unit: str) -> str:
    """A drill as it is marked.

    >>> drill_words(8.5, "mm"), drill_words(8.73125, "inch"), drill_words(28.575, "inch")
    ('8.5 mm', '11/32 in', '1 1/8 in')
    """
    if unit == MM:
        return f"{drill_mm:.1f} mm"
    whole, rest = divmod(Fraction(round(drill_mm * PER_INCH / MM_PER_INCH), PER_INCH), 1)
    return " ".join(str(part) for part in (whole, rest) if part) + " in"
