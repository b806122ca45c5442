"""Pressing the glass home: what it takes, in words first, and what its edge needs to start.

Invariant: words come from the same newtons that are shown under "why".
"""

from __future__ import annotations

import math

BY_THUMB_N, LIGHT_PRESS_N, FIRM_PRESS_N = 100.0, 500.0, 2000.0
"""Up to the first by thumb, then a light press, then a firm press, above a screw press (own judgement)."""
WORDS = ("by thumb", "light press", "firm press", "screw press and full support")
TILT_DEG = 1.0
"""How far a glass may stand askew when it starts (own judgement)."""
FACET_MM = 0.10
"""Bevel that the lower edge of a glass is taken to have at least (common practice)."""


def force_words(force_n: float) -> str:
    """What seats a glass that needs this force.

    >>> force_words(60), force_words(2600)
    ('by thumb', 'screw press and full support')
    """
    steps = (BY_THUMB_N, LIGHT_PRESS_N, FIRM_PRESS_N)
    return WORDS[sum(force_n > step for step in steps)]


def stretch_words(case_yields: bool | None, *, brittle: bool = False, unknown: bool = False) -> str:
    """What the bezel does, in words; an estimate."""
    if brittle:
        return "does not stretch: it may crack"
    if unknown:
        return "not known"
    return {False: "springs back", None: "may stay stretched", True: "will stay stretched"}[case_yields]


def entry_chamfer_mm(*, interference_mm: float, glass_mm: float, edge_mm: float | None) -> float:
    """Least radial width of the entry chamfer: the interference and what a tilted glass sticks out, less its
    bevel. The chamfer that is cut, twice the interference and 0.10 at least, is always wider.

    A disc askew by an angle t reaches over (edge sin t - diameter (1 - cos t))/2 further on each side. Own
    derivation.
    """
    tilt = math.radians(TILT_DEG)
    edge = 1.0 if edge_mm is None else edge_mm
    lean = max(0.0, (edge * math.sin(tilt) - glass_mm * (1.0 - math.cos(tilt))) / 2.0)
    return max(0.0, interference_mm + lean - FACET_MM / 2.0)
