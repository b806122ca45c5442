"""Stage one: is this ring the answer at all, and what the seat and the glass measure.

Invariant: eight answers are compulsory here (seven steps before the first ring is proposed, and the height);
everything else has a usual value and is reached from the list.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bench.job import Job
from bench.route import Stage, word
from bench.stages.common import (
    DIAMETERS_AGREE_MM,
    HEIGHTS_AGREE_MM,
    Dimension,
    Readings,
    number,
    readings,
)
from bench.stages.measure_steps import (
    BENCH,
    DEPTH_AGAIN,
    GLASS,
    GLASS_EDGE,
    HOLD,
    NOT_THIS_RING,
    PAINT,
    PAINT_GO,
    REMARK,
    SEAT,
    SEAT_DEPTH,
    TEMPERATURE,
    WATCH,
    not_this_ring,
)
from bench.steps import Choice, Places, Step, Words
from rules.reading import Summary, summarise

if TYPE_CHECKING:
    from bench.shop import Shop
    from rules.equipment import Instrument

PRESSED = ("front", "behind")
"""Ways of holding the glass that this ring is the answer for."""


@dataclass(frozen=True, slots=True)
class Measured:
    """What the seat and the glass measure; every length in mm at 20 degrees C."""

    hold: str
    old_paint: bool
    seat: Summary
    glass: Summary
    seat_readings: Readings
    glass_readings: Readings
    seat_depth_mm: float
    glass_edge_mm: float | None
    """Straight part of the glass's edge, None where it was not measured."""
    temperature_c: float
    keys: Words
    """Keys that every later figure rests on."""


def measure(job: Job, shop: Shop) -> Stage[Measured | None]:
    """Ask what is to be measured; None when a plastic ring is not the answer."""
    yield from about_the_watch()
    paint = yield from luminous_paint()
    if paint == "stopped":
        return None
    hold = yield from bench_check()
    if hold is None:
        return None
    temperature = yield from word(TEMPERATURE)
    temperature_c = number(temperature)
    seat_instrument = yield from instrument(shop, "seat_way", "Seat measured with")
    seat = yield from readings(diameter(SEAT, seat_instrument, 5.0, 80.0))
    glass_instrument = yield from instrument(shop, "glass_way", "Glass measured with")
    rough = sum(seat.used_mm) / len(seat.used_mm)
    glass = yield from readings(diameter(GLASS, glass_instrument, 4.0, rough))
    depth = yield from seat_depth()
    edge = yield from word(GLASS_EDGE)
    return Measured(
        hold=hold,
        old_paint=paint != "none",
        seat=summary(seat, seat_instrument, temperature_c),
        glass=summary(glass, glass_instrument, temperature_c),
        seat_readings=seat,
        glass_readings=glass,
        seat_depth_mm=depth,
        glass_edge_mm=None if edge == "not measured" else number(edge),
        temperature_c=temperature_c,
        keys=(
            "hold",
            "temperature",
            "seat_way",
            *seat.keys,
            "glass_way",
            *glass.keys,
            "seat_depth",
            "glass_edge",
        ),
    )


def about_the_watch() -> Stage[None]:
    """Words for the sheet and the list of jobs; never needed on the way."""
    yield from word(WATCH)
    yield from word(REMARK)


def luminous_paint() -> Stage[str]:
    """Ask about old luminous paint; `stopped` when the repairer does not go on."""
    paint = yield from word(PAINT)
    if paint == "none":
        return paint
    go = yield from word(PAINT_GO)
    return paint if go == "go" else "stopped"


def bench_check() -> Stage[str | None]:
    """State of the seat and the way the glass is held; None when this ring is not the answer."""
    state = yield from word(BENCH)
    if state in NOT_THIS_RING:
        yield from word(not_this_ring(state, "bench"))
        return None
    hold = yield from word(HOLD)
    if hold in PRESSED:
        return hold
    anyway = yield from word(not_this_ring(hold, "hold"))
    return "front" if anyway == "anyway" else None


def instrument(shop: Shop, key: str, title: str) -> Stage[Instrument]:
    """The instrument used, the shop's first calliper until another is named."""
    known = [item for item in shop.instruments if item.kind != "ball_micrometer"]
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


def seat_depth() -> Stage[float]:
    """Depth of the seat; asked a second time, blind, only when the first is out of the ordinary."""
    first = yield from word(SEAT_DEPTH)
    if 0.6 <= number(first) <= 3.5:
        return number(first)
    found = yield from readings(
        Dimension(
            step=DEPTH_AGAIN,
            within_mm=HEIGHTS_AGREE_MM,
            places=("again",),
            least=1,
            expected_mm=number(first),
        )
    )
    return found.used_mm[-1] if found.used_mm else found.values_mm[-1]


def summary(taken: Readings, tool: Instrument, temperature_c: float) -> Summary:
    """Mean, spread, ovality and uncertainty of the readings that are used."""
    return summarise(
        taken.used_mm,
        limit_of_error_mm=tool.limit_of_error_mm,
        resolution_mm=tool.resolution_mm,
        temperature_c=temperature_c,
        positions=[taken.places[place] for place in taken.agreement.used],
    )
