"""The glass seat measured: by readings of an instrument, or by a stepped plug turned for it.

Invariant: how good a diameter is follows from what it was measured with, and enters everything after it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.steps import Choice, Places, Step, Words
from bench.seals.ring.measure_steps import PLUG_ENTERS, PLUG_STAYS_OUT, SEAT
from bench.stages.common import Dimension, Readings, number, readings
from rules.checks import OutOfRange
from rules.equipment import Instrument
from rules.measuring.reading import DIAMETERS_AGREE_MM, Summary, summarise
from rules.turning.plug import FARTHEST_APART_MM, PLUG_LIMIT_MM, STEP_MM, seat_from_plug

if TYPE_CHECKING:
    from bench.shop.shop import Shop

INSIDE_JAWS_MM = 0.035
"""Limit of error of a calliper's inside jaws: good to 0.04 mm, worse than outside (common practice, no source)."""
COMPARED = Instrument(name="calliper, compared", kind="calliper", resolution_mm=0.01, limit_of_error_mm=0.013)
"""A calliper compared with a micrometer set near the size: good to 0.015 mm (common practice, no source)."""
PLUG = Instrument(
    name="stepped plug", kind="micrometer", resolution_mm=0.001, limit_of_error_mm=PLUG_LIMIT_MM
)
"""A plug turned in steps of 0.02 mm and measured with a micrometer."""


@dataclass(frozen=True, slots=True)
class Seat:
    """The seat's diameter and the keys of the answers it rests on."""

    size: Summary
    keys: Words


def seat_measured(shop: Shop) -> Stage[Seat]:
    """Readings by clock position, or the two steps of a plug."""
    inside = [
        replace(item, limit_of_error_mm=max(item.limit_of_error_mm, inside_limit(item)))
        for item in shop.instruments
    ]
    tool = yield from instrument(keys.SEAT_WAY, "Glass seat measured with", (*inside, COMPARED, PLUG))
    if tool is PLUG:
        size = yield from by_plug()
        return Seat(size, (keys.SEAT_WAY, PLUG_ENTERS.key, PLUG_STAYS_OUT.key))
    taken = yield from readings(diameter(SEAT, tool, 5.0, 80.0))
    return Seat(summary(taken, tool), (keys.SEAT_WAY, *taken.keys))


def inside_limit(item: Instrument) -> float:
    """How far an instrument may read off inside a bore, mm."""
    return INSIDE_JAWS_MM if item.kind == "calliper" else 0.0


def by_plug() -> Stage[Summary]:
    """The largest step that enters and the smallest that does not; asked again while they make no sense."""
    enters = number((yield from word(PLUG_ENTERS)))
    stays_out = number((yield from word(PLUG_STAYS_OUT)))
    try:
        found = seat_from_plug(enters_mm=enters, stays_out_mm=stays_out)
    except OutOfRange as reason:
        again = replace(
            PLUG_STAYS_OUT,
            key=keys.PLUG_STAYS_OUT_AGAIN,
            consequence=(str(reason),),
            rests_on=(keys.PLUG_STAYS_OUT,),
        )
        stays_out = number((yield from word(again)))
        found = seat_from_plug(
            enters_mm=enters,
            stays_out_mm=min(max(stays_out, enters + STEP_MM), enters + FARTHEST_APART_MM),
        )
    return Summary(
        mean_mm=found.diameter_mm,
        n=2,
        spread_mm=found.high_mm - found.low_mm,
        ovality_mm=0.0,
        u_mm=found.standard_uncertainty_mm,
        dof=math.inf,
        expanded_mm=0.95 * found.half_width_mm,
        lines=(),
    )


def instrument(key: str, title: str, tools: Sequence[Instrument]) -> Stage[Instrument]:
    """The instrument used, the shop's first calliper until another is named."""
    known = [item for item in tools if item.kind != "ball_micrometer"]
    choices = tuple(
        Choice(item.name, f"{item.name}, good to {item.limit_of_error_mm:.3f} mm") for item in known
    )
    name = yield from word(
        Step(
            key=key,
            stage="measure",
            kind="choice",
            title=title,
            choices=choices,
            usual=known[0].name,
            optional=True,
            why="How good a diameter is depends on what it was read with: it enters every figure that follows.",
        )
    )
    return next((item for item in known if item.name == name), known[0])


def diameter(step: Step, tool: Instrument, low_mm: float, high_mm: float) -> Dimension:
    """A diameter asked by clock position, with as many decimals as the instrument shows."""
    decimals = 3 if tool.resolution_mm < 0.005 else 2
    places = Places(2, decimals, "mm", low_mm, high_mm)
    return Dimension(step=replace(step, places=places), within_mm=DIAMETERS_AGREE_MM)


def summary(taken: Readings, tool: Instrument) -> Summary:
    """Mean, spread, ovality and uncertainty of the readings that are used."""
    return summarise(
        taken.used_mm,
        limit_of_error_mm=tool.limit_of_error_mm,
        resolution_mm=tool.resolution_mm,
        positions=[taken.places[place] for place in taken.agreement.used],
    )


def said_of(name: str, size: Summary) -> str:
    """What a diameter turned out to be, in one line."""
    return (
        f"{name} {size.mean_mm:.2f} mm from {size.n} readings, spread {size.spread_mm:.2f}, "
        f"good to {size.expanded_mm:.2f}, oval {size.ovality_mm:.2f}"
    )
