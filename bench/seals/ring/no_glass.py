"""No glass to measure: one is proposed to be ordered, the job waits for it, and it is measured when it comes.

Invariant: nothing is sized from a glass that was only ordered; a glass that came in another size is said.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, T, word
from bench.job.job import Job
from bench.job.steps import Choice, Step, Words
from bench.job.values import figure_if, named, number
from bench.seals.ring.no_glass_steps import (
    AS_PROPOSED,
    GLASS_WANTED,
    NOT_HERE,
    NOT_HERE_SAID,
    NOT_MEASURED,
    OLD_HEIGHT,
    comes_step,
    old_wall_step,
)
from bench.seals.ring.seat import Seat, said_of
from rules.checks import OutOfRange
from rules.limits import USUAL_WALL_MM
from rules.measuring.instruments import decimals, on_a_wall
from rules.measuring.reading import Summary
from rules.sizing.glass_order import (
    BEVELS_MM,
    StockGlass,
    edge_mm,
    glasses_to_order,
    thickness_mm,
)
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import size as sized
from rules.tables import glasses

if TYPE_CHECKING:
    from bench.shop.shop import Shop

ASKED_FOR = ("mineral", "sapphire")
"""Glasses of which a thickness is said."""


def unless_away(stage: Stage[T]) -> Stage[T | None]:
    """The readings of the glass, whose first may be answered by its not being here; None then."""
    step = next(stage)
    answer = yield replace(
        step,
        usual=NOT_HERE,
        usual_said=NOT_HERE_SAID,
        rests_on=(*step.rests_on, keys.GLASS_COMES),
    )
    if answer.word == NOT_HERE:
        return None
    try:
        while True:
            step = stage.send(answer)
            answer = yield replace(step, rests_on=(*step.rests_on, keys.GLASS_COMES))
    except StopIteration as end:
        taken: T = end.value
        return taken


def ordered_mm(job: Job) -> float | None:
    """Diameter of the glass that was ordered and has come, mm; None where none was."""
    order, comes = job.newest(keys.GLASS_ORDER), job.newest(keys.GLASS_COMES)
    return number(order.word) if order and comes and comes.n > order.n else None


def said_of_order(job: Job) -> Words:
    """The glass that was ordered, to be said where it is measured."""
    expected = ordered_mm(job)
    return () if expected is None else (f"ordered: {expected:.2f} mm",)


def old_ring_seen(job: Job) -> tuple[tuple[str, str], ...]:
    """What an old ring, or a piece of it, measured where there was no glass: shown beside the proposal."""
    seen = ((name, job.newest(key)) for name, key in (("wall", keys.OLD_WALL), ("height", keys.OLD_HEIGHT)))
    return tuple((f"old ring, {name}", one.word) for name, one in seen if one and one.word != NOT_MEASURED)


def order(shop: Shop, seat: Seat, depth_mm: float) -> Stage[None]:
    """Propose the glass to order, then wait for it; it does not go on until the glass is measured."""
    old_wall = yield from figure_if(old_wall_step(decimals(on_a_wall(shop.instruments))), NOT_MEASURED)
    old_height = yield from figure_if(OLD_HEIGHT, NOT_MEASURED)
    wanted = yield from figure_if(GLASS_WANTED, AS_PROPOSED)
    offers = offered(shop, seat.size, depth_mm, old_wall)
    if wanted is not None and (wall := wall_for(shop, seat.size, depth_mm, wanted)) is not None:
        offers = (StockGlass(wanted, wall), *(one for one in offers if one.glass_mm != wanted))
    edge = edge_mm(seat_depth_mm=depth_mm, old_height_mm=old_height)
    chosen = yield from word(order_step(shop, seat, offers, edge, old_wall))
    yield from word(comes_step(chosen))


def offered(shop: Shop, seat: Summary, depth_mm: float, old_wall_mm: float | None) -> tuple[StockGlass, ...]:
    """The sizes to choose from."""
    return glasses_to_order(
        lambda glass: wall_for(shop, seat, depth_mm, glass),
        case_bore_mm=seat.mean_mm,
        step_mm=shop.glass_step_mm,
        old_wall_mm=old_wall_mm,
    )


def wall_for(shop: Shop, seat: Summary, depth_mm: float, glass_mm: float) -> float | None:
    """The wall that would be proposed for a glass of just this diameter, mm; None where no ring can be."""
    try:
        question = SizingQuestion(
            case_bore_mm=seat.mean_mm,
            glass_mm=glass_mm,
            seat_depth_mm=depth_mm,
            case_bore_u_mm=seat.expanded_mm,
            ovality_mm=seat.ovality_mm,
            turning_spread_mm=shop.turning_spread_mm,
            lathe_step_mm=shop.lathes[0].cross.step_on_diameter_mm,
        )
        return sized(question).ring.wall_mm
    except OutOfRange:
        return None


def order_step(
    shop: Shop, seat: Seat, offers: tuple[StockGlass, ...], edge: float, old_wall_mm: float | None
) -> Step:
    """The step on which a size to order is chosen."""
    low, high = USUAL_WALL_MM
    thick = edge + BEVELS_MM
    like = f"the old ring, wall {old_wall_mm:.3f}" if old_wall_mm else f"usual walls, {low:.2f} to {high:.2f}"
    return Step(
        key=keys.GLASS_ORDER,
        stage="measure",
        kind="choice",
        title=f"Glass to order, straight edge {edge:.1f}, thickness {thick:.1f} mm or more: which one?",
        say=(
            f"By {like}; stock in steps of {shop.glass_step_mm:.2f}.",
            "Flat, ground round; as thick as the old glass where that is known.",
        ),
        consequence=(said_of("seat", seat.size), *strong_enough(shop, offers)),
        choices=(
            *(offer_choice(one) for one in offers),
            Choice("wall", "an old ring or piece: its wall", goto=keys.OLD_WALL),
            Choice("height", "an old ring or piece: its height", goto=keys.OLD_HEIGHT),
            Choice("other", "another diameter", goto=keys.GLASS_WANTED),
            Choice("keep", "not yet: leave the job", goto="jobs"),
        ),
        rests_on=(*seat.keys, keys.SEAT_DEPTH, keys.SEAT_DEPTH_AGAIN, keys.MEASURE_AGAIN),
        waits_for="a glass to be ordered",
        why="Beside each size stands the wall that would be proposed for a glass of just that size. "
        "The ring is made to the glass as it is measured, not as it was ordered.",
    )


def offer_choice(one: StockGlass) -> Choice:
    """One size to order."""
    unusual = "" if one.usual else ", not usual"
    text = f"{one.glass_mm:.2f} mm: wall {one.wall_mm:.2f}{unusual}"
    return Choice(f"{one.glass_mm:.2f} mm", text, with_it=(f"wall {one.wall_mm:.2f} mm",))


def strong_enough(shop: Shop, offers: tuple[StockGlass, ...]) -> Words:
    """Thickness by the published design stress at the tester's pressure; advice only."""
    table, bar = glasses(shop.materials.get("glasses")), shop.tester.largest_bar
    known = [
        f"{name} {thick:.1f}"
        for one in offers[:1]
        for name in ASKED_FOR
        if name in table
        and (thick := thickness_mm(table[name], glass_mm=one.glass_mm, overpressure_bar=bar)) is not None
    ]
    return (f"For {bar:g} bar by the published design stress: {', '.join(known)} mm thick.",) if known else ()


def as_ordered(
    job: Job, shop: Shop, seat: Seat, glass: Summary, glass_keys: Words, depth_mm: float
) -> Stage[bool]:
    """Whether the glass that came is used; where it is another size than was ordered, that is asked."""
    expected = ordered_mm(job)
    if expected is None or abs(glass.mean_mm - expected) <= shop.glass_step_mm / 2.0:
        return True
    wall = wall_for(shop, seat.size, depth_mm, glass.mean_mm)
    step = differs_step(job, expected, glass, wall, glass_keys)
    if (yield from word(step)) == "use":
        return True
    yield from word(comes_step(f"{expected:.2f} mm"))
    return False


def differs_step(job: Job, expected: float, glass: Summary, wall_mm: float | None, rests: Words) -> Step:
    """Another size came than was ordered."""
    order = job.newest(keys.GLASS_ORDER)
    planned = named(order.words, "wall") if order is not None else None
    low, high = USUAL_WALL_MM
    if wall_mm is None:
        lines = ["CHECK  no ring can be proposed for this glass."]
    else:
        lines = [f"Wall with this glass {wall_mm:.2f}, with the one ordered {planned or 0.0:.2f} mm."]
        if not low <= wall_mm <= high:
            lines.append(f"CHECK  outside the usual walls, {low:.2f} to {high:.2f} mm.")
    use = Choice("use", "use it: the ring is made to it as measured")
    back = Choice("back", "send it back: wait for another")
    return Step(
        key=keys.GLASS_DIFFERS,
        stage="measure",
        kind="result",
        title=f"Ordered {expected:.2f}, it measures {glass.mean_mm:.2f} mm: use it?",
        say=tuple(lines),
        choices=(use, back) if wall_mm is not None else (back, use),
        rests_on=(keys.GLASS_ORDER, *rests),
        waits_for="a word on the glass that came",
        why="A glass of another size asks for another wall; it may be a glass for another watch.",
    )
