"""Stage one of an O-ring: where it lies, whether it can be renewed at all, and its groove.

Invariant: no groove leaves here that was not measured; an old ring alone gives a clue and no size.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.read_by import instrument_of, read_with
from bench.job.steps import Step, Words
from bench.job.values import figure
from bench.seals.oring import own_keys
from bench.seals.oring.kind import BACK, TUBE
from bench.seals.oring.measure_steps import (
    BESIDE,
    CORNER,
    GOES_BY,
    HELD,
    OTHER_PLACES,
    PLACE,
    SOUND,
    STATE,
    clue_step,
    length_step,
    lies_step,
    moves_step,
    not_here,
    old_step,
)
from bench.stages.common import Dimension, Readings, readings
from rules.checks import to_places
from rules.lengths import bare, short
from rules.measuring.instruments import (
    DEPTH,
    HEIGHT,
    OUTSIDE as OF_A_PART,
    SEAT as IN_A_BORE,
    in_a_bore,
    that_measure,
)
from rules.measuring.reading import HEIGHTS_AGREE_MM
from rules.oring.housing import FACE, FEMALE, LEAST_MM, Housing, Length
from rules.oring.stock import CORDS_MM

if TYPE_CHECKING:
    from bench.shop.shop import Shop
    from rules.instrument import Instrument

AGREE_MM = 0.08
"""Two readings of a diameter of a groove may differ so much before it is measured again (own judgement)."""
MOST_MM, MOST_AT_A_STEM_MM = 62.0, 9.9
"""The largest groove under a back, and at crown, tube or pusher: there one digit stands before the point."""


@dataclass(frozen=True, slots=True)
class GrooveMeasured:
    """The groove, with the keys of the answers that say so."""

    place: str
    housing: Housing
    wear_mm: float | None
    """Of what the ring runs on, on the diameter; None where nothing rubs."""
    keys: Words


def measured(_job: Job, shop: Shop) -> Stage[GrooveMeasured | None]:
    """Where the ring lies and its groove; None where a ring is not the answer."""
    place = yield from word(PLACE)
    if place not in (BACK, TUBE):
        held = yield from word(HELD)
        if held != "open":
            yield from word(not_here(held, place, (own_keys.HELD,)))
            return None
    state = yield from word(STATE)
    if state not in SOUND:
        yield from word(not_here(state, place, (own_keys.STATE,)))
        return None
    lies = yield from word(lies_step(place))
    moving = (yield from word(moves_step(place))) == "moves"
    if (yield from word(GOES_BY)) == "old":
        yield from from_old_ring()
        return None
    return (yield from groove(shop, place, lies, moving=moving))


def from_old_ring() -> Stage[None]:
    """What an old ring tells."""
    inside = yield from figure(old_step(own_keys.OLD_INSIDE))
    high = yield from figure(old_step(own_keys.OLD_HIGH))
    wide = yield from figure(old_step(own_keys.OLD_WIDE))
    cord = math.sqrt(high * wide)
    near = sorted(sorted(CORDS_MM, key=lambda one: abs(one - cord))[:2])
    yield from word(clue_step(inside, cord, tuple(near)))


def groove(shop: Shop, place: str, lies: str, *, moving: bool) -> Stage[GrooveMeasured]:
    """The three lengths of the groove, the wear of what the ring runs on, and the corners."""
    parts = that_measure(OF_A_PART, shop.instruments)
    bores = tuple(in_a_bore(tool) for tool in that_measure(IN_A_BORE, shop.instruments))
    most = MOST_MM if place == BACK else MOST_AT_A_STEM_MM
    inner, of_inner = yield from across(length_step(own_keys.INNER, lies, ()), parts, 0.4, most - 2.0)
    said = (f"smaller diameter {bare(inner.mm)} {short()}",)
    step = length_step(own_keys.OUTER, lies, said)
    outer, of_outer = yield from across(step, bores, inner.mm + 2.0 * LEAST_MM, most)
    other, of_other = yield from depth_or_width(shop, lies)
    runs_on = inner if lies == FEMALE else outer
    wear = None
    if moving and lies != FACE:
        tools = parts if lies == FEMALE else bores
        step = read_with(BESIDE, tools[0], tools, before=digits(most), low_mm=0.4, high_mm=most)
        beside = yield from figure(step)
        wear = beside - runs_on.mm if lies == FEMALE else runs_on.mm - beside
    corner = yield from figure(CORNER)
    housing = Housing(
        lies=lies,
        inner=inner,
        outer=outer,
        other=other,
        moving=moving,
        corner_mm=fitting_corner(corner, other),
    )
    before = (own_keys.PLACE, own_keys.LIES, own_keys.MOVES, own_keys.CORNER)
    worn = None if wear is None else to_places(wear, 3)
    keys = (*before, *of_inner, *of_outer, *of_other, own_keys.BESIDE)
    return GrooveMeasured(place, housing, worn, keys)


def digits(most_mm: float) -> int:
    """Digits before the point of a length up to so many mm."""
    return 1 if most_mm < 10.0 else 2


def fitting_corner(corner_mm: float, other: Length) -> float:
    """A corner no larger than a groove of this depth or width has room for."""
    return min(corner_mm, other.mm / 2.0)


def across(
    step: Step, tools: Sequence[Instrument], low_mm: float, high_mm: float
) -> Stage[tuple[Length, Words]]:
    """A diameter of the groove, read at crossing places, and the keys of its readings."""
    asked = read_with(step, tools[0], tools, before=digits(high_mm), low_mm=low_mm, high_mm=high_mm)
    taken = yield from readings(Dimension(asked, AGREE_MM))
    return known(taken, tools), taken.keys


def depth_or_width(shop: Shop, lies: str) -> Stage[tuple[Length, Words]]:
    """Depth of a groove in a face, width of one round a part."""
    tools = that_measure(DEPTH if lies == FACE else HEIGHT, shop.instruments)
    step = length_step(own_keys.OTHER, lies, ())
    asked = read_with(step, tools[0], tools, before=1, low_mm=LEAST_MM, high_mm=4.0)
    taken = yield from readings(Dimension(asked, HEIGHTS_AGREE_MM, places=OTHER_PLACES))
    return known(taken, tools), taken.keys


def known(taken: Readings, tools: Sequence[Instrument]) -> Length:
    """The mean of the readings that are used, with the limit of error of what they were read with."""
    mean = math.fsum(taken.counted_mm) / len(taken.counted_mm)
    tool = instrument_of(taken.answers, tools[0], tools)
    return Length(mm=to_places(mean, 3), limit_mm=tool.limit_of_error_mm)
