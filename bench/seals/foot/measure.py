"""Stage one of a ring with a foot: seat and glass as for a straight ring, then ledge, edge and what presses.

Invariant: every figure is read before a foot is proposed, but those with a usual value.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.read_by import read_with
from bench.job.steps import Step, Words
from bench.job.values import figure, figure_if
from bench.seals.foot import own_keys
from bench.seals.foot.measure_steps import (
    BEVEL,
    CLAMPED,
    EDGE,
    EDGE_PLACES,
    HOLDS,
    HOME,
    LEDGE,
    LEVEL,
    NOT_CLAMPED,
    NOTHING,
    PRESSURE,
    STANDS,
    THROUGH,
    UNDER,
    stands_by_step,
)
from bench.seals.foot.within import as_own, own, seen
from bench.seals.gasket import own_keys as gasket_keys
from bench.seals.gasket.measure import driven
from bench.seals.ring.measure import Measured, measure
from bench.seals.ring.no_glass_steps import NOT_HERE
from bench.stages.common import Dimension, Readings, readings
from rules.checks import to_places
from rules.foot.sizing import FootQuestion
from rules.gasket.drive import Drive
from rules.measuring.instruments import GLASS as THE_GLASS, SEAT as IN_A_BORE, in_a_bore, that_measure
from rules.measuring.reading import DIAMETERS_AGREE_MM, HEIGHTS_AGREE_MM

if TYPE_CHECKING:
    from bench.shop.shop import Shop

TAKEN = {keys.HOLD: "front"}
"""Not asked here: the glass is pressed in from the front, on its foot."""
AT_LEAST_MM = 1.0
"""A ledge is at least so much narrower than the seat, on the diameter."""


@dataclass(frozen=True, slots=True)
class FootMeasured:
    """Seat and glass, and what the foot follows from."""

    wall: Measured
    """As for a straight ring, under that one's keys."""
    question: FootQuestion
    """Without plastic, and as proposed."""
    drive: Drive | None
    """What clamps the glass from above; None where nothing does."""
    keys: Words
    """Keys of the answers that say so, as they are kept."""


def measured(job: Job, shop: Shop) -> Stage[FootMeasured | None]:
    """Seat, glass and ledge; None where such a ring is not the answer."""
    wall = yield from as_own(measure(seen(job), shop), change=said_here, taken=TAKEN)
    if wall is None:
        return None
    ledge = yield from ledge_read(shop, wall)
    edge = yield from edge_read(shop)
    bevel = yield from figure(BEVEL)
    stands = yield from word(STANDS)
    by = 0.0 if stands == LEVEL else (yield from figure(stands_by_step(stands)))
    home = (yield from word(HOME)) == HOLDS
    clamped = yield from word(CLAMPED)
    drive = None
    if clamped != NOT_CLAMPED:
        drive = yield from as_own(driven(clamped, wall.seat.mean_mm))
    question = FootQuestion(
        seat_depth_mm=wall.seat_depth_mm,
        ledge_mm=mean(ledge),
        glass_mm=wall.glass.mean_mm,
        edge_mm=mean(edge),
        bevel_mm=bevel,
        over_mm=-by if stands == UNDER else by,
        through_mm=(yield from figure_if(THROUGH, NOTHING)),
        pressure_bar=(yield from figure(PRESSURE)),
        home=home,
    )
    return FootMeasured(
        wall, question, drive, (*map(own, wall.keys), *ledge.keys, *edge.keys, *ASKED, *OF_DRIVE)
    )


ASKED = (
    *(own_keys.BEVEL, own_keys.STANDS, own_keys.STANDS_BY, own_keys.HOME),
    *(own_keys.CLAMPED, own_keys.THROUGH, own_keys.PRESSURE),
)
OF_DRIVE = tuple(map(own, (gasket_keys.THREAD, gasket_keys.TORQUE, gasket_keys.SCREWS, gasket_keys.SCREW)))


def said_here(step: Step) -> Step:
    """The steps of the straight ring as said here: the glass is there, its straight part measured."""
    if step.usual == NOT_HERE:
        return replace(step, usual="", usual_said="")
    if step.key == keys.GLASS_EDGE:
        return replace(
            step, usual="", optional=False, title="Straight part of the glass's edge, bevels left out"
        )
    if step.key == keys.NOT_THIS_RING:
        return replace(step, title="A new ring alone does not cure this joint.")
    return step


def ledge_read(shop: Shop, wall: Measured) -> Stage[Readings]:
    """Inside diameter of the ledge, at crossing places."""
    tools = [in_a_bore(tool) for tool in that_measure(IN_A_BORE, shop.instruments)]
    most = wall.seat.mean_mm - AT_LEAST_MM
    asked = read_with(LEDGE, tools[0], tools, before=2, low_mm=2.0, high_mm=most)
    return (yield from readings(Dimension(asked, DIAMETERS_AGREE_MM)))


def edge_read(shop: Shop) -> Stage[Readings]:
    """Height of the glass at its edge, at two places."""
    tools = that_measure(THE_GLASS, shop.instruments)
    asked = read_with(EDGE, tools[0], tools, before=1, low_mm=0.3, high_mm=6.0)
    return (yield from readings(Dimension(asked, HEIGHTS_AGREE_MM, places=EDGE_PLACES)))


def mean(taken: Readings) -> float:
    """Mean of the readings that are used, mm."""
    return to_places(sum(taken.counted_mm) / len(taken.counted_mm), 3)
