"""How long a ring takes at the lathe: what cuts, and what a hand does between.

Invariant: every pass, tool change, reading and rest of the plan is counted once; where the shop has finished
rings its own pace counts, drawn towards the assumed by how few they are. Times in minutes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from rules.turning import operations
from rules.turning.passes import Pass, Plan

SET_UP_MIN = 5.0
"""Bar gripped, first tool in, slides set."""
PASS_MIN = 0.4
"""Back to the face, to the next figure, and along again by hand."""
TOOL_MIN = 1.5
"""A tool, or a drill in the tailstock, changed and touched off."""
READING_MIN = 1.5
"""Stopped, swarf off, measured, keyed. These four: own judgement, no source."""
PRIOR_RINGS = 2.0
"""The assumed pace weighs as much as this many rings of the shop. Own judgement."""
SLOWEST, FASTEST = 5.0, 0.2
"""A ring further from what was planned was not turned as it was keyed, and teaches nothing."""


@dataclass(frozen=True, slots=True)
class Duration:
    """What a plan takes, assumed."""

    passes: int
    tools: int
    readings: int
    cutting: float
    waiting: float
    """Rests and dressing."""

    @property
    def minutes(self) -> float:
        """All together."""
        hand = self.passes * PASS_MIN + self.tools * TOOL_MIN + self.readings * READING_MIN
        return SET_UP_MIN + hand + self.cutting + self.waiting


@dataclass(frozen=True, slots=True)
class ShopPace:
    """How the shop's own rings went against what was assumed for them."""

    factor: float = 1.0
    rings: int = 0

    def words(self, plan: Plan) -> str:
        """The time of a plan, and which of the two it is."""
        takes = duration(plan)
        by = (
            (f"by the last {self.rings} turned here" if self.rings > 1 else "by the one ring turned here")
            if self.rings
            else "assumed"
        )
        return (
            f"At the lathe about {self.factor * takes.minutes:.0f} min, {by}: {takes.passes} passes, "
            f"{takes.tools} tools and drills, "
            f"{takes.readings} readings, {takes.waiting:.0f} min cooling and dressing."
        )


ASSUMED = ShopPace()


def duration(plan: Plan) -> Duration:
    """What the plan takes before the shop's own pace."""
    turned = [one for one in plan.passes if one.rpm]
    return Duration(
        passes=len(turned),
        tools=1 + sum(_changed(before, after) for before, after in pairwise(turned)),
        readings=sum(bool(one.measure) for one in turned),
        cutting=plan.cutting_minutes,
        waiting=plan.minutes - plan.cutting_minutes,
    )


def _changed(before: Pass, after: Pass) -> bool:
    """Whether another tool, or another drill, is put in between."""
    drill = after.operation in (operations.CENTRE, operations.DRILL)
    return before.tool != after.tool or drill


def pace_of(rings: Iterable[tuple[float, float]]) -> ShopPace:
    """The shop's pace from pairs of minutes that were taken and that were assumed.

    The mean of the logarithms, with `PRIOR_RINGS` rings as assumed beside them.

    >>> round(pace_of([(60.0, 40.0)] * 4).factor, 2), pace_of([]).rings
    (1.31, 0)
    """
    ratios: Sequence[float] = [
        taken / assumed for taken, assumed in rings if assumed > 0.0 and FASTEST <= taken / assumed <= SLOWEST
    ]
    learnt = sum(math.log(ratio) for ratio in ratios) / (len(ratios) + PRIOR_RINGS)
    return ShopPace(math.exp(learnt), len(ratios))
