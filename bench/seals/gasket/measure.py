"""Stage one of a flat gasket: the room it lies in, and what presses it.

Invariant: every figure is read before a gasket is proposed, but those with a usual value.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.read_by import instrument_of, read_with
from bench.job.steps import Step, Words
from bench.job.values import figure
from bench.seals.gasket import own_keys
from bench.seals.gasket.kind import TURNING_LIDS
from bench.seals.gasket.measure_steps import (
    CLOSED,
    DEPTH,
    DEPTH_PLACES,
    FLAT,
    INSIDE,
    JOINT,
    MEETS,
    OLD_ONE,
    OUTSIDE,
    RIB,
    SCREW,
    SCREWS,
    SHAPE,
    SOUND,
    STANDS_OVER,
    STATE,
    TORQUE,
    not_here,
    stands_by_step,
    thread_step,
)
from bench.stages.common import Dimension, Readings, readings
from rules.checks import to_places
from rules.gasket.drive import Drive, by_screws, by_thread
from rules.gasket.room import GasketRoom
from rules.lengths import length
from rules.measuring.budget import rectangular
from rules.measuring.instruments import DEPTH as A_DEPTH, SEAT as IN_A_BORE, in_a_bore, that_measure
from rules.measuring.reading import DIAMETERS_AGREE_MM, HEIGHTS_AGREE_MM

if TYPE_CHECKING:
    from bench.shop.shop import Shop
    from rules.instrument import Instrument

LEAST_ROOM_MM = 0.4
"""Between the two diameters of a room, at least."""
LEAST_HEIGHT_MM = 0.1
"""That a rib leaves between the faces, at least."""


@dataclass(frozen=True, slots=True)
class RoomMeasured:
    """The room and what presses the gasket in it, with the keys of the answers that say so."""

    joint: str
    room: GasketRoom
    drive: Drive
    keys: Words


def measured(job: Job, shop: Shop) -> Stage[RoomMeasured | None]:
    """Where the gasket lies, its room and what presses it; None where a gasket is not the answer."""
    yield from word(OLD_ONE)
    joint = yield from word(JOINT)
    state = yield from word(STATE)
    if state not in SOUND:
        yield from word(not_here(state))
        return None
    stopped = (yield from word(MEETS)) == "stop"
    walled = (yield from word(SHAPE)) == "groove"
    tools = [in_a_bore(tool) for tool in that_measure(IN_A_BORE, shop.instruments)]
    outer = yield from across(OUTSIDE, tools, 5.0, 80.0)
    step = replace(INSIDE, consequence=said_of(outer))
    inner = yield from across(step, tools, 2.0, mean(outer) - LEAST_ROOM_MM)
    keys = (*BEFORE, *outer.keys, *inner.keys)
    if stopped:
        high, high_u, of_height = yield from depth(shop)
    else:
        high = yield from figure(CLOSED)
        high_u, of_height = 0.0, (own_keys.CLOSED,)
    drive = yield from driven(joint, mean(outer))
    across_u = rectangular(instrument_of((*outer.answers, *inner.answers), tools[0], tools).limit_of_error_mm)
    room = GasketRoom(
        outside_mm=to_places(mean(outer), 3),
        inside_mm=to_places(mean(inner), 3),
        height_mm=to_places(high, 3),
        stopped=stopped,
        walled=walled,
        across_u_mm=across_u,
        height_u_mm=high_u,
    )
    return RoomMeasured(joint, room, drive, (*keys, *of_height, *OF_DRIVE))


BEFORE = (own_keys.JOINT, own_keys.MEETS, own_keys.SHAPE)
OF_DRIVE = (own_keys.THREAD, own_keys.TORQUE, own_keys.SCREWS, own_keys.SCREW)


def across(step: Step, tools: list[Instrument], low_mm: float, high_mm: float) -> Stage[Readings]:
    """A diameter of the room, read at crossing places."""
    asked = read_with(step, tools[0], tools, before=2, low_mm=low_mm, high_mm=high_mm)
    return (yield from readings(Dimension(asked, DIAMETERS_AGREE_MM)))


def mean(taken: Readings) -> float:
    """Mean of the readings that are used, mm."""
    return sum(taken.counted_mm) / len(taken.counted_mm)


def said_of(outer: Readings) -> Words:
    """The outer wall in one line."""
    return (f"outer wall {length(mean(outer))}",)


def depth(shop: Shop) -> Stage[tuple[float, float, Words]]:
    """Height that a stop leaves, its standard uncertainty and the keys of what says so."""
    tools = that_measure(A_DEPTH, shop.instruments)
    asked = read_with(DEPTH, tools[0], tools, before=1, low_mm=2 * LEAST_HEIGHT_MM, high_mm=5.0)
    taken = yield from readings(Dimension(asked, HEIGHTS_AGREE_MM, places=DEPTH_PLACES))
    over = yield from word(STANDS_OVER)
    by = 0.0 if over == FLAT else (yield from figure(stands_by_step(over, mean(taken) - LEAST_HEIGHT_MM)))
    once = rectangular(instrument_of(taken.answers, tools[0], tools).limit_of_error_mm)
    known = once if over == FLAT else math.sqrt(2.0) * once
    keys = (*taken.keys, own_keys.STANDS_OVER, own_keys.STANDS_BY)
    return mean(taken) + (-by if over == RIB else by), known, keys


def driven(joint: str, outside_mm: float) -> Stage[Drive]:
    """What presses the lid home."""
    if joint in TURNING_LIDS:
        across_mm = yield from figure(thread_step(outside_mm))
        return by_thread(diameter_mm=across_mm, torque_nm=(yield from figure(TORQUE)))
    count = yield from figure(SCREWS)
    size = yield from word(SCREW)
    return by_screws(count=round(count), diameter_mm=float(size))
