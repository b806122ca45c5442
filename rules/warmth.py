"""Figures of a plastic that change with warmth: as a table gives them, and what is left of them elsewhere.

Invariant: straight between two temperatures that are given, and not known beyond the last.
"""

from __future__ import annotations

import sys
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Any

from rules.checks import OutOfRange

AT_TEMPERATURES = ("youngs_modulus_at", "stress_cap_at")
"""Properties that are given at several temperatures."""
ROOM_C = 23.0
"""At which every other figure of a plastic holds (ISO 291, from memory)."""
MOST_C = 300.0
"""Furthest from 0 C that a temperature of a table lies."""

WarmthCurve = tuple[tuple[float, float], ...]
"""Temperature, C, rising, and the value there."""


def points(where: str, entry: Mapping[str, Any]) -> WarmthCurve:
    """The points of one number of a table, that at 23 C among them, none for a number that has no others;
    raises OutOfRange.
    """
    if not where.endswith(AT_TEMPERATURES):
        return ()
    given = entry.get("at")
    sound = isinstance(given, list) and bool(given) and all(_is_point(one) for one in given)
    if given is None or not sound or not entry["value"] > 0.0:
        raise OutOfRange(f"{where}: at {given!r} is not a list of [temperature in C, value over 0]")
    found = {float(warm): float(value) for warm, value in given} | {ROOM_C: float(entry["value"])}
    return tuple(sorted(found.items()))


def _is_point(one: Any) -> bool:
    """Whether this is a temperature with a value over 0."""
    if not isinstance(one, list) or len(one) != 2:
        return False
    if not all(isinstance(part, int | float) and not isinstance(part, bool) for part in one):
        return False
    return bool(abs(one[0]) <= MOST_C and 0.0 < one[1] <= sys.float_info.max)


def part_at(known: Sequence[tuple[float, float]], temperature_c: float) -> float | None:
    """The value at a temperature over that at 23 C; None where it is not known.

    >>> part_at(((-20.0, 3300.0), (23.0, 2800.0), (60.0, 1700.0)), 41.5), part_at((), 60.0)
    (0.8035714285714286, None)
    """
    here, room = _between(known, temperature_c), _between(known, ROOM_C)
    return None if here is None or room is None else here / room


def _between(known: Sequence[tuple[float, float]], temperature_c: float) -> float | None:
    for (cold, low), (warm, high) in pairwise(known):
        if cold <= temperature_c <= warm:
            return low + (high - low) * (temperature_c - cold) / (warm - cold)
    return None
