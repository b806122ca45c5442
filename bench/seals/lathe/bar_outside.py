"""What a bar may measure outside, and a bar as it was measured.

Invariant: a figure counts only for a bar it can be of.
"""

from __future__ import annotations

from dataclasses import replace

from bench.job.mask import Mask
from rules.bars import Bar

THINNER_MM, THICKER_MM = 1.5, 2.5
"""A bar measures no further from the size it goes by (own judgement); beyond it is another bar."""


def outside_mask(size_mm: float) -> Mask:
    """How the outside of a bar of a size is keyed."""
    low, high = max(3.0, size_mm - THINNER_MM), size_mm + THICKER_MM
    return Mask(3 if size_mm >= 97.0 else 2, 2, "mm", low, high)


def as_measured(bar: Bar, outside_mm: float) -> Bar:
    """A bar with its outside as it was measured, where that can be of it."""
    its = bar.diameter_mm - THINNER_MM <= outside_mm <= bar.diameter_mm + THICKER_MM
    return replace(bar, outside_mm=outside_mm) if its else bar
