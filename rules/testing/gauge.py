"""Readings of a gauge made ready to be fitted.

Invariant: what leaves here is finite, in rising time, and counts a deflection inward as positive.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from rules.checks import OutOfRange, number

LEAST_READINGS = 5
LARGEST_READING = 1e9
"""No gauge shows more, in whatever unit (our judgement)."""


def usable(
    times_s: Sequence[float], signal: Sequence[float], fixed_hold_s: float | None
) -> tuple[list[float], list[float]]:
    """Times and readings that count, deflection positive: those within the hold, where its length was fixed.

    Raises OutOfRange for unequal numbers, values that are not finite, times that do not rise, fewer than 5.
    """
    if len(times_s) != len(signal):
        raise OutOfRange(
            f"readings: {len(times_s)} times, {len(signal)} signals; give one signal for each time"
        )
    for one in (*times_s, *signal):
        number("reading", one, low=-LARGEST_READING, high=LARGEST_READING, unit="")
    for before, after in pairwise(times_s):
        if after <= before:
            raise OutOfRange(f"times: {after:g} s comes after {before:g} s; times must rise")
    last = math.inf if fixed_hold_s is None else fixed_hold_s + 1e-6
    pairs = [(time, one) for time, one in zip(times_s, signal, strict=True) if time - times_s[0] <= last]
    if len(pairs) < LEAST_READINGS:
        raise OutOfRange(f"readings: {len(pairs)} given, at least {LEAST_READINGS} needed; read more often")
    return [time for time, _ in pairs], [sign(signal) * one for _, one in pairs]


def sign(signal: Sequence[float]) -> float:
    """-1 for a gauge that counts deflection inward as negative."""
    return -1.0 if math.fsum(signal[:3]) < 0.0 else 1.0


def inward(after_venting_reading: float | None, signal: Sequence[float]) -> float | None:
    """The reading after venting, inward positive; None when it was not read."""
    if after_venting_reading is None:
        return None
    return sign(signal) * number(
        "reading after venting", after_venting_reading, low=-LARGEST_READING, high=LARGEST_READING, unit=""
    )
