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
from bench.job.job import Job
from bench.job.read_by import instrument_of, read_with
from bench.job.steps import Choice, Step, Words
from bench.job.values import figure, number
from bench.seals.ring.measure_steps import PLUG_ENTERS, PLUG_STAYS_OUT, SEAT
from bench.stages.common import Dimension, Readings, readings
from rules.checks import OutOfRange, to_places
from rules.instrument import Instrument
from rules.lengths import A_TENTH, bare, good_to, length, short, spoken, translated
from rules.limits import RANGES
from rules.measuring.instruments import COMPARED, SEAT as THE_SEAT, in_a_bore, that_measure
from rules.measuring.reading import CLOCK, DIAMETERS_AGREE_MM, OVAL_BETWEEN_MM, Summary, judge, summarise
from rules.measuring.seat_by_plug import PLUG_LIMIT_MM, nearest_that_can_be, seat_from_plug

if TYPE_CHECKING:
    from bench.shop.shop import Shop

PLUG = Instrument(
    name="stepped plug", kind="micrometer", resolution_mm=0.001, limit_of_error_mm=PLUG_LIMIT_MM
)
"""A plug turned in steps of 0.02 mm and measured with a micrometer."""


@dataclass(frozen=True, slots=True)
class Seat:
    """The seat's diameter and the keys of the answers it rests on."""

    size: Summary
    keys: Words


def seat_measured(job: Job, shop: Shop) -> Stage[Seat]:
    """Readings by clock position, or the two steps of a plug."""
    inside = [in_a_bore(item) for item in that_measure(THE_SEAT, shop.instruments)]
    offered = (*inside, *beside(shop), *chosen_before(job, shop, inside))
    tool = yield from instrument(keys.SEAT_WAY, "Glass seat measured with", offered)
    if tool is PLUG:
        size = yield from by_plug()
        return Seat(size, (keys.SEAT_WAY, PLUG_ENTERS.key, PLUG_STAYS_OUT.key))
    step = replace(SEAT, why=SEAT.why.format(A_TENTH[spoken()]))
    asked = diameter(step, tool, inside, *RANGES["case bore"][:2])
    between = math.inf if accepted(job, SEAT.key) else OVAL_BETWEEN_MM
    taken = yield from readings(replace(asked, between_mm=between))
    return Seat(summary(taken, tool, inside), (keys.SEAT_WAY, *taken.keys))


def chosen_before(job: Job, shop: Shop, inside: Sequence[Instrument]) -> tuple[Instrument, ...]:
    """An instrument that this job names already, though it is not offered any more: it stays what it was."""
    said = job.newest(keys.SEAT_WAY)
    names = {item.name for item in inside}
    return tuple(
        item for item in shop.instruments if said and item.name == said.word and item.name not in names
    )


def beside(shop: Shop) -> tuple[Instrument, ...]:
    """Other ways to a seat's diameter, where the shop has a micrometer to measure plug or setting with."""
    if not any(item.kind == "micrometer" for item in shop.instruments):
        return ()
    calliper = next((item for item in shop.instruments if item.kind == "calliper"), None)
    if calliper is None:
        return (PLUG,)
    shown = replace(COMPARED, resolution_mm=calliper.resolution_mm, unit=calliper.unit)
    return (shown, PLUG)


def by_plug() -> Stage[Summary]:
    """The largest step that enters and the smallest that does not; asked again while they make no sense."""
    enters = yield from figure(PLUG_ENTERS)
    stays_out = yield from figure(PLUG_STAYS_OUT)
    try:
        found = seat_from_plug(enters_mm=enters, stays_out_mm=stays_out)
    except OutOfRange as reason:
        again = replace(
            PLUG_STAYS_OUT,
            key=keys.PLUG_STAYS_OUT_AGAIN,
            consequence=(translated(str(reason)),),
            rests_on=(keys.PLUG_STAYS_OUT,),
        )
        stays_out = nearest_that_can_be(enters, (yield from figure(again)))
        found = seat_from_plug(enters_mm=enters, stays_out_mm=stays_out)
    return as_written(found.size())


def instrument(key: str, title: str, tools: Sequence[Instrument]) -> Stage[Instrument]:
    """The instrument used, the shop's first calliper until another is named."""
    choices = tuple(
        Choice(item.name, f"{item.name}, good to {good_to(item.limit_of_error_mm, 3)} {short()}")
        for item in tools
    )
    name = yield from word(
        Step(
            key=key,
            stage="measure",
            kind="choice",
            title=title,
            choices=choices,
            usual=tools[0].name,
            optional=True,
            why=(
                "How good a diameter is depends on what it was read with: "
                "it enters every figure that follows."
            ),
        )
    )
    return next((item for item in tools if item.name == name), tools[0])


def diameter(
    step: Step, tool: Instrument, tools: Sequence[Instrument], low_mm: float, high_mm: float
) -> Dimension:
    """A diameter asked by clock position, as the instrument shows it, or as another that can measure it."""
    asked = read_with(step, tool, tools, before=2, low_mm=low_mm, high_mm=high_mm)
    return Dimension(step=asked, within_mm=DIAMETERS_AGREE_MM)


def as_close(job: Job, key: str, within_mm: float) -> bool:
    """Whether the readings of a diameter as they stand agree so closely."""
    newest = (job.newest(keys.nth(key, n)) for n in range(1, len(CLOCK) + 3))
    read = [number(answer.word) for answer in newest if answer is not None and answer.word[:1].isdigit()]
    return judge(read, within_mm=within_mm).settled


def accepted(job: Job, key: str) -> bool:
    """Whether a ring was accepted on the readings of a diameter as they stand:
    what was enough for it stays enough.
    """
    read = max(job.newest_n(keys.nth(key, n)) for n in range(1, len(CLOCK) + 3))
    return job.newest_n(keys.RING) > max(read, job.newest_n(keys.MEASURE_AGAIN))


def summary(
    taken: Readings, usual: Instrument, tools: Sequence[Instrument], *, ground: bool = False
) -> Summary:
    """Mean, range, ovality and uncertainty of the readings that are used, each by what it was read with."""
    tool = instrument_of([taken.answers[index] for index in taken.agreement.used], usual, tools)
    found = summarise(
        taken.used_mm,
        limit_of_error_mm=tool.limit_of_error_mm,
        resolution_mm=tool.resolution_mm,
        positions=[taken.places[index] for index in taken.agreement.used],
        ground=ground,
    )
    return as_written(found)


def as_written(size: Summary) -> Summary:
    """A diameter to thousandths, as it is written with the ring: so every page shows what the sheet will."""
    return replace(
        size,
        mean_mm=to_places(size.mean_mm, 3),
        expanded_mm=to_places(size.expanded_mm, 3),
        ovality_mm=to_places(size.ovality_mm, 3),
    )


def said_of(name: str, size: Summary) -> str:
    """What a diameter turned out to be, in one line."""
    return f"{name} {length(size.mean_mm)}, good to {good_to(size.expanded_mm)}, oval {bare(size.ovality_mm)}"


def gap_words(gap_mm: float, oval_mm: float) -> str:
    """The gap, and from where to where it goes round an oval."""
    low, high = (bare(gap_mm + sign * oval_mm / 4.0, 3) for sign in (-1, 1))
    return f"gap {length(gap_mm, 3)}" + (f", {low} to {high} round the oval" if low != high else "")
