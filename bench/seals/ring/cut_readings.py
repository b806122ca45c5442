"""The steps at which the work on the lathe is measured, and the ways out when it is past its size.

Invariant: the size that the cross slide should have left never stands on the page on which it is read.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.read_by import read_with
from bench.job.steps import Choice, Gauge, Step, Words
from bench.seals.ring.cut_steps import BASE, NEXT_BAR
from bench.seals.ring.kind import NEXT_RING, WALL_PLACES
from bench.seals.ring.known import replan
from bench.stages.common import ONE_BY_ONE, Dimension, Readings
from rules.checks import size_text
from rules.lengths import bare, length, short, size, translated
from rules.measuring.instruments import OUTSIDE, WALL, that_measure
from rules.measuring.reading import mean_and_deviation
from rules.turning import operations
from rules.turning.correction import Correction
from rules.turning.passes import Plan

if TYPE_CHECKING:
    from bench.shop.shop import Shop


def measured_at(made: Plan, operation: str, after: int) -> int:
    """How many passes of an operation are cut when its next reading is taken; 0 when none is."""
    for count, one in enumerate(made.of(operation), 1):
        if count > after and one.measure:
            return count
    return 0


def outside_reading(shop: Shop, key: str, expected_mm: float, rests: Words) -> Step:
    """Reading of the outside before its last pass."""
    tools = that_measure(OUTSIDE, shop.instruments)
    low, high = max(3.0, expected_mm - 3), expected_mm + 3
    step = Step(
        key=key,
        stage="cut",
        kind="number",
        title=f"Outside on the bar, measured with the {tools[0].name}, spindle stopped",
        say=("At two places: key the larger.",),
        gauge=Gauge(
            expected_mm - 0.06,
            expected_mm + 0.06,
            expected_mm,
            ("small", "as expected", "large"),
            drawn=False,
        ),
        rests_on=(*BASE, *rests, keys.afresh(operations.FINISH_OUTSIDE)),
        why="The difference from what it should be is the tool's own offset; the last pass allows for it. "
        f"By the cross slide it should be {length(expected_mm, unit=tools[0].unit)}; "
        "whoever knows that reads it too.",
        how=("Cool, swarf brushed off.",),
    )
    return read_with(step, tools[0], tools, before=2, low_mm=low, high_mm=high)


def wall_reading(shop: Shop, key: str, expected_mm: float, rests: Words) -> Step:
    """Reading of the wall over the open end before the last pass in the bore: the mean of four places."""
    tools = that_measure(WALL, shop.instruments)
    step = Step(
        key=key,
        stage="cut",
        kind="number",
        title=f"Wall over the open end with the {tools[0].name}, at four places: key the mean",
        say=("Spindle stopped. Burrs off both edges first: a burr reads as wall.",),
        usual=ONE_BY_ONE,
        usual_said="1 Enter: key the four one by one",
        gauge=Gauge(
            expected_mm - 0.03, expected_mm + 0.03, expected_mm, ("thin", "as expected", "thick"), drawn=False
        ),
        rests_on=(*BASE, *rests, keys.afresh(operations.FINISH_BORE)),
        why="What seals is the wall. No micrometer across the bored outside: it bends. "
        f"By the cross slide it should be {length(expected_mm, 3, tools[0].unit)}; "
        "whoever knows that reads it too.",
        how=(
            "Tool drawn back, swarf brushed off.",
            "{held}, light touch, four places a quarter of a turn apart.",
            "If you like: offer the empty case to the turned outside: drops on, slides, or will not go.",
        ),
    )
    return read_with(step, tools[0], tools, before=1, low_mm=0.1, high_mm=5.0)


def wall_by_wall(mean: Dimension) -> Dimension:
    """The four walls keyed as they are read, in place of their mean."""
    first = mean.step
    step = replace(
        first,
        key=keys.each(first.key),
        title=f"{first.title.partition(',')[0]}, place {{place}}",
        usual="",
        usual_said="",
        rests_on=(*first.rests_on, first.key),
    )
    return replace(mean, step=step, places=WALL_PLACES, least=len(WALL_PLACES), one_by_one=None)


def taken_as(read: Readings, key: str, operation: str) -> Stage[float | None]:
    """What readings on the work come to: the mean of all places, else the last that counts; None where walls
    that differ are measured again.
    """
    if len(set(read.places)) < len(WALL_PLACES):
        return read.counted_mm[-1]
    used = {read.places[index] for index in read.agreement.used}
    if len(read.counted_mm) == len(read.values_mm) or used >= set(read.places):
        return mean_and_deviation(read.counted_mm)[0]
    step = uneven_step(keys.odd(key), read)
    if (yield from word(step)) == "again":
        yield from word(afresh_step(operation, step.key))
        return None
    return mean_and_deviation(read.values_mm)[0]


def uneven_step(key: str, read: Readings) -> Step:
    """Walls that differ round the ring by more than readings of one wall do: none is dropped unasked."""
    walls, spread = read.values_mm, max(read.values_mm) - min(read.values_mm)
    mean = mean_and_deviation(walls)[0]
    return Step(
        key=key,
        stage="cut",
        kind="result",
        title=f"The walls differ by {length(spread, 3)} round the ring. What next?",
        say=(
            f"Keyed: {', '.join(bare(wall, 3) for wall in walls)}.",
            "A burr, swarf between the jaws, a bar that runs out? Look first.",
        ),
        choices=(
            Choice("again", "measure all four again"),
            Choice("mean", f"they are right: go on with their mean, {length(mean, 3)}"),
        ),
        rests_on=(*BASE, *read.keys),
        why="The mean of all four sets the last pass; a wall keyed wrong would set it wrong.",
    )


def odd_step(operation: str, reason: str, rests: Words) -> Step:
    """Readings that agree with each other and are impossible here: measured again, or a new ring."""
    return Step(
        key=keys.odd(operation),
        stage="cut",
        kind="result",
        title="These readings agree, but cannot come from this cut. What next?",
        say=(
            translated(reason),
            (
                "Look which tool cut last, whether the cross slide shows diameter or radius, "
                "and the gauge's unit."
            ),
        ),
        choices=(
            Choice("again", "measure and key it again"),
            Choice("fresh", "a new ring further up the bar"),
        ),
        rests_on=(*BASE, *rests),
        why="So far from what it should be no last pass can be worked out.",
    )


def afresh_step(operation: str, after: str = "") -> Step:
    """The impossible readings are not used: the same place is measured again."""
    return Step(
        key=keys.afresh(operation),
        stage="cut",
        kind="action",
        title="Measure the same place again, from the beginning",
        choices=(Choice("done", "go to the reading"),),
        rests_on=(after or keys.odd(operation),),
        why="The readings stay in the file; they are not used.",
    )


def corrected(made: Plan, operation: str, reading_mm: float, rests: Words) -> Stage[Correction | None]:
    """The plan corrected by a reading; None when impossible readings lead to a new ring."""
    try:
        return replan(made, operation=operation, reading_mm=reading_mm)
    except ValueError as reason:
        if (yield from word(odd_step(operation, str(reason), rests))) == "again":
            yield from word(afresh_step(operation))
            return None
    yield from word(NEXT_BAR)
    yield from word(NEXT_RING)
    return None


def past_step(key: str, found: Correction, rests: Words, *, bore_mm: float | None, then: Words = ()) -> Step:
    """The size is past already: the ways out, and what comes after them."""
    ways: list[Choice] = []
    if bore_mm is not None:
        kept = f"bore {size_text(bore_mm)} mm"
        ways.append(
            Choice("smaller_bore", f"bore {size(bore_mm)} {short()}: keeps the wall", with_it=(kept,))
        )
    elif key == keys.PAST_BORE:
        ways.append(Choice("larger_glass", "a larger glass: the ring is kept for it"))
    return Step(
        key=key,
        stage="cut",
        kind="result",
        title="Already past its size: what next?",
        say=found.words,
        consequence=(*found.ways_out, *then),
        choices=(*ways, Choice("fresh", "a new ring further up the bar")),
        rests_on=(*BASE, *rests),
        why="Going on would only make a ring that cannot fit.",
    )
