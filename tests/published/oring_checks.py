"""What the choosing of an O-ring computes for a published case."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from rules.oring.fitted import Ageing, cornered, narrowed_mm, squeeze_of
from rules.oring.housing import FACE, FEMALE, MALE, Housing, Length, Oring
from rules.oring.judging import OringQuestion, wanted_inside_mm, window
from rules.oring.needs import LASTS_TO, MOST_FILL, MOVING_SQUEEZE, SQUEEZE, STRETCH
from rules.oring.stock import cord_limit_mm, inside_limit_mm
from rules.tables import rubbers

THIN = 1e-4
"""A cord that is thin beside its ring."""
ACROSS_MM = 20.0
"""Inner diameter of a groove of which the source prints its section alone."""


def thinner_pct(*, stretch: float) -> float:
    """How much thinner a cord gets that is thin beside its ring, %."""
    return 100.0 * stretch * narrowing_part(stretch=stretch)


def in_face(*, what: str, way: float = 0.0, corner: float = 0.0, **mm: tuple[float, float]) -> float:
    """What a groove of a face makes of a ring: `mm` gives each length with its limit, `way` is -1 with the
    thinnest cord in the largest groove, 1 with the thickest in the smallest.

    The groove starts with `inner` and is `width` wide; its limit lies on the outer wall alone.
    """
    inner, (width, off) = mm["inner"][0], mm["width"]
    outer = Length(mm=inner + 2.0 * width, limit_mm=2.0 * off)
    inside, cord, depth = (Length(mm=mm[one][0], limit_mm=mm[one][1]) for one in ("inside", "cord", "depth"))
    housing = Housing(lies=FACE, inner=Length(mm=inner), outer=outer, other=depth, corner_mm=corner)
    found = cornered(Oring(inside=inside, cord=cord), housing, Ageing(0.0, 0.0), way)
    return float(getattr(found, what)) * (1.0 if what == "cord_mm" else 100.0)


def cord_that_works(*, lies: str, cord: float, depth: float, width: float) -> float:
    """The printed cord where it works in the printed groove, else the nearest that does; in nitrile."""
    sizes = {FACE: (width, depth), MALE: (depth, width)}
    wall, other = sizes[lies]
    outer = Length(mm=ACROSS_MM + 2.0 * wall)
    housing = Housing(
        lies=lies, inner=Length(mm=ACROSS_MM), outer=outer, other=Length(mm=other), corner_mm=0.0
    )
    ring = Oring(inside=Length(mm=wanted_inside_mm(housing, cord)), cord=Length(mm=cord))
    works = window(OringQuestion(housing=housing, rubber="nbr"), ring)
    assert works is not None
    return min(max(cord, works.low_mm), works.high_mm)


def narrowing_part(*, stretch: float) -> float:
    """How much thinner a thin cord gets, as a part of the stretch."""
    cord = narrowed_mm(lies=MALE, rests_on_mm=1.0 + stretch, inside_mm=1.0, cord_mm=THIN)
    return (1.0 - cord / THIN) / stretch


CHECKS: dict[str, Callable[..., Any]] = {
    "oring_squeeze_in": lambda cord, off, depth: squeeze_of(cord + off, depth) * (cord + off),
    "oring_squeeze_pct": lambda cord, off, depth: 100.0 * squeeze_of(cord + off, depth),
    "oring_inside_limit": lambda inside: inside_limit_mm(inside),
    "oring_cord_limit": lambda cord: cord_limit_mm(cord)[0],
    "oring_cord_that_works": cord_that_works,
    "oring_in_face": in_face,
    "oring_thinner_pct": thinner_pct,
    "oring_least_moving": lambda: 100.0 * MOVING_SQUEEZE[0],
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
