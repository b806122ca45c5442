"""Stage three: the ring is turned, pass by pass, and corrected from what is measured on the way.

Invariant: no turning step is reached before every check of the lathe was answered in this sitting;
what is cut after a reading follows from that reading.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word, words
from bench.job.job import Job
from bench.job.steps import Step, Words
from bench.seals.lathe.cut_checks import lathe_checks, tool_change
from bench.seals.ring.aim import as_accepted
from bench.seals.ring.bar_steps import RESTS, bar_asked, shortening
from bench.seals.ring.cut_readings import (
    corrected,
    measured_at,
    outside_reading,
    past_step,
    taken_as,
    wall_by_wall,
    wall_reading,
)
from bench.seals.ring.cut_steps import BASE, CUT_BY, MOVED, action, cannot_turn, next_words, turned
from bench.seals.ring.decided import Decided
from bench.seals.ring.in_this_shop import chance_words
from bench.seals.ring.interrupted import (
    began_before_this_sitting,
    last_cut,
    next_pass,
    tool_looked_at,
    touch_off,
)
from bench.seals.ring.kind import MEASURE_AGAIN, NEXT_RING
from bench.seals.ring.larger_glass import with_glass
from bench.seals.ring.planning import accepted_ring, kept_order, planned
from bench.seals.ring.roughing import Cutting, begun_afresh, roughed
from bench.seals.ring.spares import is_spare
from bench.shop.groups import AT_THE_LATHE, BARS, TO_CUT
from bench.stages.common import Dimension, readings
from bench.stages.guard import LATHE_CHECKS, at_the_lathe, guarded, still_at_the_lathe
from rules.equipment import Tool
from rules.measuring.reading import DIAMETERS_AGREE_MM, HEIGHTS_AGREE_MM
from rules.turning import operations
from rules.turning.correction import MEASURED_AGAIN, Correction, keep_the_wall
from rules.turning.passes import Plan
from rules.turning.readout import BORE, OUTSIDE
from rules.turning.tool_choice import put_in_after, tools_of

if TYPE_CHECKING:
    from bench.shop.shop import Shop


def cut(job: Job, shop: Shop, decided: Decided) -> Stage[Decided | None]:
    """Turn the ring; gives it as it was really made, None when another is begun or none can be turned."""
    if decided.at_hand or is_spare(job, decided):
        return decided
    said = chance_words(shop, decided) if job.fresh(keys.BAR_MEASURED, RESTS) is None else ()
    first, why = yield from bar_asked(job, shop, lambda asked: planned(job, shop, decided, asked), said)
    if first is None:
        yield from word(replace(cannot_turn(why), goes_by=AT_THE_LATHE, asks_shop=TO_CUT))
        return None
    start = Cutting(first, decided, keys.RING, shop.glass_step_mm, job, BARS in shop.said)
    still = still_at_the_lathe(job, turning(shop, start))
    left = still and began_before_this_sitting(job)
    goes_on = next_pass(job, first) if left else None
    kept = as_accepted(first, accepted_ring(decided))
    checks = lathe_checks(kept, shop.pace.words(first), base=BASE, asked_again=still, goes_on=goes_on)
    ask_first = () if kept_order(job) else TO_CUT
    for step in checks:
        yield from word(replace(step, goes_by=AT_THE_LATHE, asks_shop=ask_first))
    again = goes_on.tool if goes_on is not None and tool_looked_at(job, goes_on) else None
    for tool in (one for one in tools_of(first.order) if one.number == again):
        yield from word(tool_change(keys.TOOL_AGAIN, first.order.lathe, tool, (*BASE, keys.SITTING)))
    if left and (yield from word(touch_off(last_cut(job)))) == MOVED:
        yield from begun_afresh()
        return None
    guards = LATHE_CHECKS if checks[-1].key == keys.LATHE_SPEED else LATHE_CHECKS[:-1]
    return (yield from guarded(turning(shop, start), guards, at_the_lathe, by=AT_THE_LATHE))


def turning(shop: Shop, start: Cutting) -> Stage[Decided | None]:
    """Everything done to the bar, from the first face to the dressed ring."""
    at = yield from roughed(start)
    outside = None if at is None else (yield from finished(THE_OUTSIDE, shop, at))
    if outside is None:
        return None
    order = outside.plan.order
    yield from word(tool_change(keys.TOOL_BORING_AGAIN, order.lathe, order.boring, (*BASE, outside.last)))
    bored = yield from finished(THE_BORE, shop, replace(outside, last=keys.TOOL_BORING_AGAIN))
    if bored is None:
        return None
    yield from parted_and_dressed(bored)
    return bored.decided


@dataclass(frozen=True, slots=True)
class Surface:
    """The outside or the bore, and how its last passes are corrected."""

    name: str
    """Ends the keys of its acts: outside or bore."""
    reading: str
    """Key of the reading taken on the work."""
    within_mm: float
    """Readings of it agree within this."""
    ask: Callable[[Shop, str, float, Words], Step]
    expected: Callable[[Cutting, float], float]
    """What the reading should be where the cross slide should have left this diameter."""
    one_by_one: Callable[[Dimension], Dimension | None]
    """How its places are keyed themselves, where a reading is the mean of several."""
    past: Callable[[Cutting, Correction, float, Words], Stage[Cutting | None]]
    """The ways out when it is past its size."""
    then: Callable[[Plan], Tool]
    """The tool that cuts after it."""

    @property
    def operation(self) -> str:
        """Its finishing passes in the plan."""
        return next(finish for name, _, finish in CUT_BY if name == self.name)


def finished(surface: Surface, shop: Shop, at: Cutting) -> Stage[Cutting | None]:
    """A surface to size: all but the last pass, a reading, the passes that are left,
    as it has corrected them.
    """
    passes = at.plan.of(surface.operation)
    upto = measured_at(at.plan, surface.operation, 0)
    last = yield from turned(surface.operation, passes[:upto], at.plan, (at.last,))
    rests: Words = (last,)
    taken = 1
    while True:
        key = keys.taken_again(surface.reading, taken)
        expected = surface.expected(at, passes[upto - 1].material_diameter_after_mm or 0.0)
        step = surface.ask(shop, key, expected, rests)
        again = ("again",) * 3
        asked = Dimension(step, surface.within_mm, places=again, least=1, expected_mm=expected)
        read = yield from readings(replace(asked, one_by_one=surface.one_by_one(asked)))
        reading = yield from taken_as(read, key, surface.operation)
        if reading is None:
            return None
        if (found := (yield from corrected(at.plan, surface.operation, reading, read.keys))) is None:
            return None
        if found.past:
            return (yield from surface.past(at, found, reading, read.keys))
        at = replace(at, plan=found.plan, last=keys.last(surface.name))
        passes = found.plan.of(surface.operation)
        following = measured_at(found.plan, surface.operation, upto)
        rests = (key, *read.keys)
        if found.verdict != MEASURED_AGAIN or following == 0 or taken == 3:
            then = surface.then(found.plan)
            last = yield from turned(
                at.last, passes[upto:], found.plan, rests, found.words, learned=found, then=then
            )
            return replace(at, last=last)
        more = keys.more(surface.name, taken)
        last = yield from turned(more, passes[upto:following], found.plan, rests, found.words)
        rests, upto, taken = (last,), following, taken + 1


def outside_past(at: Cutting, found: Correction, reading_mm: float, rests: Words) -> Stage[Cutting | None]:
    """The outside is too small already: a smaller bore that keeps the wall, or a new ring."""
    bore, lands = found.same_wall_bore_mm, at.decided.lands_mm
    bore = bore if bore is None or lands == 0.0 else round(bore - 2.0 * lands, 4)
    then = next_words(at.plan, at.plan.order.boring) if bore is not None else ()
    chosen = yield from words(past_step(keys.PAST_OUTSIDE, found, rests, bore_mm=bore, then=then))
    if chosen[0] != "smaller_bore" or bore is None:
        yield from begun_afresh()
        return None
    ring = replace(at.decided.ring, outside_diameter_mm=reading_mm, bore_mm=bore)
    made = keep_the_wall(found.plan, outside_mm=reading_mm)
    return replace(at, plan=made, decided=replace(at.decided, ring=ring), last=keys.PAST_OUTSIDE)


def bore_past(at: Cutting, found: Correction, reading_mm: float, rests: Words) -> Stage[Cutting | None]:
    """The bore is too large already: the ring is kept for a larger glass, or a new one is begun."""
    step = past_step(keys.PAST_BORE, found, rests, bore_mm=None)
    chosen = yield from word(with_glass(step, at.decided, reading_mm, at.glass_step_mm))
    if chosen != "larger_glass":
        yield from begun_afresh()
        return None
    yield from parted_and_dressed(replace(at, last=keys.PAST_BORE))
    yield from word(MEASURE_AGAIN)
    yield from word(NEXT_RING)
    return None


NOT_MEASURED: Words = (
    "Its wall is not measured on the bar: measure it before it is used.",
    "With its wall keyed after that of the ring (* 2) the drawer offers it later.",
)
"""What is said of a spare before it is turned."""
THE_OUTSIDE = Surface(
    name=OUTSIDE,
    reading=keys.OUTSIDE_READING,
    within_mm=DIAMETERS_AGREE_MM,
    ask=outside_reading,
    expected=lambda at, diameter: diameter or at.decided.ring.outside_diameter_mm,
    one_by_one=lambda _: None,
    past=outside_past,
    then=lambda made: made.order.boring,
)
THE_BORE = Surface(
    name=BORE,
    reading=keys.WALL_READING,
    within_mm=HEIGHTS_AGREE_MM,
    ask=wall_reading,
    expected=lambda at, bore: (at.plan.outside_made_mm - bore) / 2.0 if bore else at.decided.ring.wall_mm,
    one_by_one=wall_by_wall,
    past=bore_past,
    then=lambda made: made.order.chamfer,
)


def parted_and_dressed(at: Cutting) -> Stage[None]:
    """Chamfers, parting, the spare rings one after another, dressing."""
    made, order = at.plan, at.plan.order
    yield from word(tool_change(keys.TOOL_CHAMFER, order.lathe, order.chamfer, (*BASE, at.last)))
    edges = (*made.of(operations.CHAMFER), *made.of(operations.LOWER_CHAMFER))
    last = yield from turned(operations.CHAMFER, edges, made, (keys.TOOL_CHAMFER,), then=order.parting)
    yield from word(tool_change(keys.TOOL_PARTING, order.lathe, order.parting, (*BASE, last)))
    parting = made.of(operations.PART)
    next_in = put_in_after(made, parting[-1]) if order.spares else None
    last = yield from turned(operations.PART, parting, made, (keys.TOOL_PARTING,), then=next_in)
    for ring in range(2, order.rings + 1):
        own = tuple(one for one in made.passes if one.ring == ring and one.operation != operations.DRESS)
        last = yield from turned(keys.spare(ring), own, made, (last,), NOT_MEASURED, look=at.job)
    dressing = tuple(one for one in made.passes if one.operation == operations.DRESS)
    yield from word(shortening(action(operations.DRESS, dressing, made, (last,)), made, known=at.bars_said))
