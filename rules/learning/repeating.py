"""How well one reading of a size repeats, from pairs of readings of the same.

Invariant: what is assumed counts like a few pairs, and one slip among them ruins nothing. Lengths in mm.

Two readings of one size differ by a value of mean zero and twice the variance of one (pooled over many: GUM,
JCGM 100:2008, 4.2.4); the spread is learned as that of a normal distribution whose mean is known.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rules.learning.normal import NormalBelief, robustly

FEWEST_PAIRS = 5
"""Fewer say nothing."""
ASSUMED_SD_MM, ASSUMED_DOF = 0.007, 5.0
"""Assumed of one reading by hand, so that two often differ by a hundredth, and in pairs what that weighs (own
judgement).
"""
_KNOWN = 1e9
"""What a mean is worth that is known."""


@dataclass(frozen=True, slots=True)
class Repeating:
    """How one reading repeats."""

    pairs: int
    sd_mm: float
    """Standard deviation of one reading."""
    dof: float


def repeating(apart_mm: Sequence[float], weights: Sequence[float]) -> Repeating | None:
    """What pairs of readings say, each by how far the two lie apart and by its weight; None from too few."""
    if len(apart_mm) < FEWEST_PAIRS:
        return None
    before = NormalBelief(0.0, _KNOWN, ASSUMED_SD_MM, ASSUMED_DOF)
    found, _ = robustly(before, [apart / math.sqrt(2.0) for apart in apart_mm], weights)
    return Repeating(len(apart_mm), found.spread_mm, found.dof)
