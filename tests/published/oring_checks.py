"""What the choosing of an O-ring computes for a published case."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from rules.oring.fitted import narrowed_mm, squeeze_of
from rules.oring.housing import FACE, FEMALE, MALE
from rules.oring.needs import LASTS_TO, MOST_FILL, MOVING_SQUEEZE, SQUEEZE, STRETCH
from rules.oring.stock import cord_limit_mm, inside_limit_mm
from rules.tables import rubbers

THIN = 1e-4
"""A cord that is thin beside its ring."""


def narrowing_part(*, stretch: float) -> float:
    """How much thinner a thin cord gets, as a part of the stretch."""
    cord = narrowed_mm(lies=MALE, rests_on_mm=1.0 + stretch, inside_mm=1.0, cord_mm=THIN)
    return (1.0 - cord / THIN) / stretch


CHECKS: dict[str, Callable[..., Any]] = {
    "oring_squeeze_in": lambda cord, off, depth: squeeze_of(cord + off, depth) * (cord + off),
    "oring_squeeze_pct": lambda cord, off, depth: 100.0 * squeeze_of(cord + off, depth),
    "oring_inside_limit": lambda inside: inside_limit_mm(inside),
    "oring_cord_limit": lambda cord: cord_limit_mm(cord)[0],
    "oring_shallowest_face": lambda cord: cord * (1.0 - SQUEEZE[FACE][1]),
    "oring_most_squeeze": lambda lies: 100.0 * SQUEEZE[lies][1],
    "oring_most_moving": lambda: 100.0 * MOVING_SQUEEZE[1],
    "oring_most_fill": lambda: 100.0 * MOST_FILL,
    "oring_most_stretch": lambda lies: 100.0 * STRETCH[lies][1],
    "oring_most_together": lambda: -100.0 * STRETCH[FEMALE][0],
    "oring_lasts_to": lambda: 100.0 * LASTS_TO,
    "oring_narrowing_part": narrowing_part,
    "rubber_coldest": lambda kind: rubbers()[kind].coldest_c,
    "rubber_warmest": lambda kind: rubbers()[kind].warmest_c,
    "rubber_expansion": lambda kind: 1e5 * (rubbers()[kind].cte_per_k or 0.0),
}
"""By name, as the data have it."""
