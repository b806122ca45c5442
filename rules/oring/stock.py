"""The sizes that O-rings for watches come in, and how far one may be off: geometry alone, nobody's list.

Invariant: a limit says what it goes by: the standard, a micrometer on the ring in hand, or a judgement.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from rules.oring.housing import Length, Oring

CORDS_MM = tuple(round(0.05 * n, 2) for n in range(6, 21))
"""0.30 to 1.00 in steps of 0.05 (common practice, no source)."""
INSIDE_STEPS_MM = ((10.0, 0.1), (60.0, 0.5))
"""Up to which inside diameter they come in which step (own judgement)."""
LEAST_INSIDE_MM = 0.4
STANDARD_CORD_MM = 0.80
"""From here on the limit of the standard is asked of a cord: of a thinner one it would be a tenth and more
(own judgement; printed from 0.00 mm, rtdygert.com; that of DIN 3771, the same, from 1.00, sealware.de).
"""
STANDARD_LIMIT_MM = 0.08
"""Of a cord up to 2.25 mm (ISO 3601-1, class B, as a supplier of rings prints it)."""
JUDGED_LIMIT_MM = 0.05
"""Of a thinner cord (own judgement)."""
CORD_READ_MM, INSIDE_READ_MM = 0.01, 0.03
"""Limit of error of a micrometer on a cord, which gives, and of a pin in a ring (own judgement)."""
BY_STANDARD, BY_JUDGEMENT, BY_READING = "standard", "judgement", "reading"
"""What a limit goes by."""
BY_WORDS = {
    BY_STANDARD: "ISO 3601-1",
    BY_JUDGEMENT: "our judgement, closer than ISO 3601-1",
    BY_READING: "your own reading",
}


def inside_limit_mm(inside_mm: float) -> float:
    """How far an inside diameter may be off, either way: 0.009 d^0.95 + 0.11 (ISO 3601-1, class B).

    >>> round(inside_limit_mm(20.0), 2)
    0.26
    """
    return float(0.009 * inside_mm**0.95 + 0.11)


def cord_limit_mm(cord_mm: float) -> tuple[float, str]:
    """How far a cord may be off, either way, and what that goes by.

    >>> cord_limit_mm(1.0), cord_limit_mm(0.5)
    ((0.08, 'standard'), (0.05, 'judgement'))
    """
    if cord_mm >= STANDARD_CORD_MM - 1e-9:
        return STANDARD_LIMIT_MM, BY_STANDARD
    return JUDGED_LIMIT_MM, BY_JUDGEMENT


def as_sold(inside_mm: float, cord_mm: float) -> Oring:
    """A ring from stock that nobody has measured."""
    limit, by = cord_limit_mm(cord_mm)
    inside = Length(mm=inside_mm, limit_mm=inside_limit_mm(inside_mm))
    return Oring(inside=inside, cord=Length(mm=cord_mm, limit_mm=limit), inside_by=by, cord_by=by)


def in_hand(inside_mm: float, cord_mm: float, *, tool_limit_mm: float = 0.0) -> Oring:
    """A ring that was measured; `tool_limit_mm`: limit of error of what its cord was read with."""
    return Oring(
        inside=Length(mm=inside_mm, limit_mm=INSIDE_READ_MM),
        cord=Length(mm=cord_mm, limit_mm=max(CORD_READ_MM, tool_limit_mm)),
        inside_by=BY_READING,
        cord_by=BY_READING,
    )


def insides_near(wanted_mm: float, *, each_way: int = 2) -> Iterator[float]:
    """Inside diameters in stock on either side of one, the nearest first."""
    step = next((step for most, step in INSIDE_STEPS_MM if wanted_mm <= most), INSIDE_STEPS_MM[-1][1])
    middle = math.floor(wanted_mm / step + 1e-6)
    found = (round(step * (middle + n), 2) for n in range(-each_way, each_way + 2))
    yield from sorted(
        (size for size in found if size >= LEAST_INSIDE_MM), key=lambda size: abs(size - wanted_mm)
    )
