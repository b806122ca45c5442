"""Why a free ring is not measured across: it gives way under the lightest touch.

Invariant: sizes are mean diameters and walls in mm; the ring is thin against its diameter.
"""

from __future__ import annotations

import math

from rules.checks import number

OPPOSITE_LOADS = math.pi / 4.0 - 2.0 / math.pi
"""Coefficient of a thin ring pressed across a diameter, 0.14878 (Roark, from memory; re-derived)."""


def squash_mm(
    *, load_n: float, outside_mm: float, wall_mm: float, height_mm: float, youngs_modulus_mpa: float
) -> float:
    """How far a free ring gives across a diameter under two opposite loads, mm: 0.14878 W R3 / (E I).

    I = height wall3 / 12, R the mean radius. Range: load 0 to 100 N, wall under a tenth of the diameter.
    Raises OutOfRange.

    >>> round(squash_mm(load_n=1, outside_mm=33, wall_mm=0.57, height_mm=1.1, youngs_modulus_mpa=3000), 2)
    12.45
    """
    number("load", load_n, low=0, high=100, unit="N")
    number("wall", wall_mm, low=0.05, high=outside_mm / 10, unit="mm")
    radius = (outside_mm - wall_mm) / 2.0
    bending = youngs_modulus_mpa * height_mm * wall_mm**3 / 12.0
    return OPPOSITE_LOADS * load_n * radius**3 / bending
