"""Stage one: is this ring the answer at all, and what the seat and the glass measure.

Invariant: eight answers are compulsory here (seven steps before the first ring is proposed, and the height);
everything else has a usual value and is reached from the list.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.steps import Words
from bench.job.values import AS_BEFORE, figure, figure_if, number
from bench.seals.ring.materials import NOT_KNOWN, glass_step
from bench.seals.ring.measure_steps import (
    ACRYLIC,
    BENCH,
    DEPTH_AGAIN,
    DIAL_RING,
    GLASS,
    GLASS_EDGE,
    GROUND,
    HOLD,
    LIGHT_TOUCH,
    NOT_THIS_RING,
    OLD_RING,
    SEAT_DEPTH,
    TEMPERATURE,
    not_this_ring,
)
from bench.seals.ring.no_glass import as_ordered, order, said_of_order, unless_away
from bench.seals.ring.seat import (
    accepted,
    as_close,
    diameter,
    gap_words,
    instrument,
    said_of,
    seat_measured,
    summary,
)
from bench.stages.common import Dimension, readings
from rules.instrument import Instrument
from rules.lengths import length
from rules.limits import RANGES, SHORT_EDGE_MM, USUAL_SEAT_DEPTH_MM
from rules.measuring.instruments import GLASS as THE_GLASS, ground_agree_mm, that_measure
from rules.measuring.reading import DIAMETERS_AGREE_MM, HEIGHTS_AGREE_MM, OVAL_BETWEEN_MM, Summary
from rules.sizing.squeeze import gap_mm

if TYPE_CHECKING:
    from bench.shop.shop import Shop

PRESSED = ("front", "behind")
"""Ways of holding the glass that this ring is the answer for."""


@dataclass(frozen=True, slots=True)
class Measured:
    """What the seat and the glass measure, in mm as read at `temperature_c`;
    the sizing corrects them to 20 C.
    """

    seat: Summary
    glass: Summary
    oval_mm: float
    """By how much the gap may be out of round: that of the seat, and of a glass that is not ground."""
    glass_material: str | None
    seat_depth_mm: float
    glass_edge_mm: float | None
    """Straight part of the glass's edge, None where it was not measured."""
    temperature_c: float
    gap_keys: Words
    """Keys of the readings that make the gap."""
    keys: Words
    """Keys that every later figure rests on."""


def measure(job: Job, shop: Shop) -> Stage[Measured | None]:
    """Ask what is to be measured; None when a plastic ring is not the answer, or while no glass is there."""
    for step in (OLD_RING, DIAL_RING):
        yield from word(step)
    if not (yield from bench_check()):
        return None
    temperature = yield from figure(TEMPERATURE)
    seat = yield from seat_measured(job, shop)
    made_of = yield from word(glass_step(shop))
    tools = that_measure(THE_GLASS, shop.instruments)
    glass_instrument = yield from instrument(keys.GLASS_WAY, "Glass measured with", tools)
    dimension = glass_diameter(job, glass_instrument, tools, seat.size, acrylic=made_of == ACRYLIC)
    glass_readings = yield from unless_away(readings(dimension))
    if glass_readings is None:
        yield from order(shop, seat, (yield from seat_depth(())))
        return None
    glass = summary(glass_readings, glass_instrument, tools, ground=made_of != ACRYLIC)
    gap = gap_mm(case_bore_mm=seat.size.mean_mm, glass_mm=glass.mean_mm)
    oval = seat.size.ovality_mm + (glass.ovality_mm if made_of == ACRYLIC else 0.0)
    depth = yield from seat_depth((said_of("glass", glass), gap_words(gap, oval)))
    if not (yield from as_ordered(job, shop, seat, glass, glass_readings.keys, depth)):
        return None
    why = f"{GLASS_EDGE.why} Under {length(SHORT_EDGE_MM)} there is little to seal on."
    edge = yield from figure_if(replace(GLASS_EDGE, why=why), "not measured")
    depth = corrected_late(job, keys.SEAT_DEPTH) or depth
    edge = corrected_late(job, keys.GLASS_EDGE) or edge
    gap_keys = (keys.TEMPERATURE, *seat.keys, keys.GLASS_WAY, *glass_readings.keys)
    return Measured(
        seat=seat.size,
        glass=glass,
        oval_mm=oval,
        glass_material=None if made_of == NOT_KNOWN else made_of,
        seat_depth_mm=depth,
        glass_edge_mm=edge,
        temperature_c=temperature,
        gap_keys=gap_keys,
        keys=(keys.HOLD, *gap_keys, keys.SEAT_DEPTH, keys.GLASS_EDGE),
    )


def corrected_late(job: Job, key: str) -> float | None:
    """A height corrected after a ring was begun, mm; None where it was not, or was measured again."""
    late = job.fresh(keys.late(key), (key, keys.MEASURE_AGAIN))
    return None if late is None or late.word == AS_BEFORE else number(late.word)


def glass_diameter(
    job: Job, tool: Instrument, tools: Sequence[Instrument], seat: Summary, *, acrylic: bool
) -> Dimension:
    """How the glass is asked: one that is ground is round; acrylic may be oval, and gives to the jaws."""
    step = replace(GLASS, consequence=(said_of("seat", seat), *said_of_order(job)))
    asked = diameter(step, tool, tools, RANGES["glass"][0], seat.mean_mm)
    settled = accepted(job, GLASS.key)
    if acrylic:
        gentle = replace(asked.step, how=(LIGHT_TOUCH, *step.how))
        return replace(asked, step=gentle, between_mm=math.inf if settled else OVAL_BETWEEN_MM)
    closely = ground_agree_mm(tool)
    within = DIAMETERS_AGREE_MM if settled and not as_close(job, GLASS.key, closely) else closely
    return replace(asked, within_mm=within, differs=GROUND)


def bench_check() -> Stage[bool]:
    """State of the seat and the way the glass is held; False when this ring is not the answer."""
    state = yield from word(BENCH)
    if state in NOT_THIS_RING:
        yield from word(not_this_ring(state, "bench"))
        return False
    hold = yield from word(HOLD)
    return hold in PRESSED or (yield from word(not_this_ring(hold, "hold"))) == "anyway"


def seat_depth(consequence: Words) -> Stage[float]:
    """Depth of the seat; asked a second time, blind, only when the first is out of the ordinary."""
    first = yield from figure(replace(SEAT_DEPTH, consequence=consequence))
    low, high = USUAL_SEAT_DEPTH_MM
    if low <= first <= high:
        return first
    found = yield from readings(
        Dimension(
            step=DEPTH_AGAIN,
            within_mm=HEIGHTS_AGREE_MM,
            places=("again",),
            least=1,
            expected_mm=first,
        )
    )
    return found.counted_mm[-1]
