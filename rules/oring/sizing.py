"""An O-ring chosen for a groove: the stock size most likely to seal, and what else would do.

Invariant: the same question gives the same ring; one that breaks a need is proposed all the same.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from rules.checks import OutOfRange
from rules.oring.judging import (
    OringQuestion,
    OringSizing,
    OtherSize,
    judged,
    wanted_inside_mm,
    window,
)
from rules.oring.needs import FEW, squeeze_ends
from rules.oring.remedies import helped
from rules.oring.stock import CORDS_MM, as_sold, insides_near

OTHERS = 3
"""So many other sizes are named."""
NEAR = 0.35
"""A cord is tried where its squeeze is off by no more than this from one that works."""
LEAST_WORTH = 0.02
"""A size with a smaller chance is no way out."""


def oring_sizing(question: OringQuestion) -> OringSizing:
    """The ring in hand judged, or the most likely from stock, and what else would do; raises OutOfRange."""
    ranked = sorted(tried(question), key=preferred)
    if question.in_hand is None and not ranked:
        raise OutOfRange(no_size(question))
    ring = question.in_hand or ranked[0].ring
    found = judged(question, ring)
    others = tuple(
        OtherSize(one.ring, one.chance) for one in ranked if one.ring != ring and one.chance >= LEAST_WORTH
    )[:OTHERS]
    found = replace(found, window=window(question, ring), others=others)
    return replace(found, help=tuple(helped(found)))


def preferred(found: OringSizing) -> tuple[float, float, float]:
    """The better first: by its chance in whole points, fewer needs broken, then a squeeze in the middle."""
    least, most = squeeze_ends(found.question.housing)
    return (
        -round(found.chance, 2),
        len(found.broken),
        abs(found.state.squeeze - (least + most) / 2.0),
    )


def tried(question: OringQuestion) -> Iterator[OringSizing]:
    """Stock sizes that come near, each judged roughly."""
    for cord in cords(question):
        for inside in insides_near(wanted_inside_mm(question.housing, cord)):
            yield judged(question, as_sold(inside, cord), FEW)


def cords(question: OringQuestion) -> Iterator[float]:
    """The cords in stock that the groove squeezes at all and does not crush."""
    least, most = squeeze_ends(question.housing)
    depth = question.housing.depth_mm
    for cord in CORDS_MM:
        in_step = abs(cord / question.cord_step_mm - round(cord / question.cord_step_mm)) < 1e-6
        if in_step and (1.0 - NEAR) * least < 1.0 - depth / cord < (1.0 + NEAR) * most:
            yield cord


def no_size(question: OringQuestion) -> str:
    """Why no cord is to be had, raised as a refusal."""
    least, most = squeeze_ends(question.housing)
    depth = question.housing.depth_mm
    low, high = depth / (1.0 - least), depth / (1.0 - most)
    return (
        f"cord: a depth of {depth:.2f} mm wants a cord of {low:.2f} to {high:.2f} mm; "
        f"{CORDS_MM[0]:.2f} to {CORDS_MM[-1]:.2f} mm are to be had"
    )
