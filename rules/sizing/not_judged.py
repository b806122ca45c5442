"""Limits that a chance leaves out, because a figure they need is not known.

Invariant: a chance that leaves a limit out says which.
"""

from __future__ import annotations

from collections.abc import Sequence

from rules.sizing import climate
from rules.sizing.demands import Demands


def not_judged(demands: Demands, height_mm: float | None) -> tuple[str, ...]:
    """What a ring of this height has to meet and cannot be judged for, because a figure is not known."""
    joint = demands.joint
    known = not demands.joint.rigid and joint.strip(height_mm) is not None
    years, hour = joint.plastic.relaxation_10y is not None, joint.plastic.relaxation_1h is not None
    yields = joint.case_yield_mpa is not None
    sides = (("cold", climate.COLDEST_C), ("warmth", climate.WARMEST_C))
    unknown = " and ".join(side for side, degrees in sides if joint.climate(degrees) is None)
    rows = (
        (not (known and years), "ten years"),
        (bool(demands.overpressure_bar) and not (known and hour), "an hour's test"),
        (known and (years or yields) and bool(unknown), unknown),
        (yields and not known, "the bezel's yield"),
        (demands.press_force_n is not None and not known, "the press"),
        (demands.room_mm is not None and not known, "growth in height"),
        (not known, SQUEEZE_ONLY),
    )
    return tuple(words for due, words in rows if due)


SQUEEZE_ONLY = "pressure"
"""Left out where nothing but the squeeze can be judged."""


def without_words(left_out: Sequence[str]) -> str:
    """What stands behind a chance in per cent that leaves these limits out; empty where none is.

    >>> without_words(["ten years"]), without_words([])
    (' (ten years not judged)', '')
    """
    if SQUEEZE_ONLY in left_out:
        return " by the squeeze alone"
    return f" ({', '.join(left_out)} not judged)" if left_out else ""
