"""A value judged beside a limit, with a guard band as wide as its uncertainty.

Invariant: PASS and FAIL are said only when the whole 95 % interval lies on that side.
Source of the rule: ISO 14253-1 and JCGM 106, from memory.
"""

from __future__ import annotations

from rules.checks import numbers

PASS, FAIL, UNDECIDED, NOT_JUDGED = "PASS", "FAIL", "UNDECIDED", "NOT_JUDGED"


def one_limit(value: float, half_width: float, limit: float) -> str:
    """PASS when value + half width <= limit, FAIL when value - half width > limit, else UNDECIDED.

    value, half width (95 %) and limit in one unit. Raises OutOfRange when one is not finite or the
    half width is negative.
    """
    numbers(
        ("value", value, -1e12, 1e12, ""),
        ("half width", half_width, 0.0, 1e12, ""),
        ("limit", limit, -1e12, 1e12, ""),
        advice="measure it again",
    )
    if value + half_width <= limit:
        return PASS
    return FAIL if value - half_width > limit else UNDECIDED
