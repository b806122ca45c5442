"""No glass to measure: one is proposed to be ordered, the job waits for it, and it is measured when it comes.

Invariant: nothing is sized from a glass that was only ordered; a glass that came in another size is said.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, T, word
from bench.job.job import Job
from bench.job.read_by import read_with
from bench.job.steps import Choice, Step, Words
from bench.job.values import figure_if, named, number
from bench.seals.ring.no_glass_steps import (
    AS_PROPOSED,
    GLASS_WANTED,
    NOT_HERE,
    NOT_HERE_SAID,
    NOT_MEASURED,
    OLD_HEIGHT,
    OLD_WALL_STEP,
    comes_step,
)
from bench.seals.ring.seat import Seat, said_of
from rules.checks import OutOfRange, fixed
from rules.lengths import bare, length, short
from rules.limits import LARGE_GAP_MM, LEAST_WALL_MM, USUAL_WALL_MM
from rules.measuring.instruments import landing_spread_mm, walls_by
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
from rules.sizing.squeeze import gap_mm
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
    return () if expected is None else (f"ordered: {length(expected)}",)


def old_ring_seen(job: Job) -> tuple[tuple[str, str], ...]:
    """What an old ring, or a piece of it, measured where there was no glass: shown beside the proposal."""
    seen = ((name, job.newest(key)) for name, key in (("wall", keys.OLD_WALL), ("height", keys.OLD_HEIGHT)))
    return tuple((f"old ring, {name}", one.word) for name, one in seen if one and one.word != NOT_MEASURED)


def order(shop: Shop, seat: Seat, depth_mm: float) -> Stage[None]:
    """Propose the glass to order, then wait for it; it does not go on until the glass is measured."""
    tools = walls_by(shop.instruments)
    asked = read_with(OLD_WALL_STEP, tools[0], tools, before=1, low_mm=LEAST_WALL_MM, high_mm=3.0)
    old_wall = yield from figure_if(asked, NOT_MEASURED)
    old_height = yield from figure_if(OLD_HEIGHT, NOT_MEASURED)
    wanted = yield from figure_if(GLASS_WANTED, AS_PROPOSED)
    offers = offered(shop, seat.size, depth_mm, old_wall)
    step_words: Words = ()
    if wanted is not None:
        wall = wall_for(shop, seat.size, depth_mm, wanted)
        if why := why_not(seat.size.mean_mm, wanted, wall):
            step_words = (f"CHECK  {why}",)
        elif wall is not None:
            offers = (StockGlass(wanted, wall), *(one for one in offers if one.glass_mm != wanted))
    edge = edge_mm(seat_depth_mm=depth_mm, old_height_mm=old_height)
    step = order_step(shop, seat, offers, edge, old_wall)
    chosen = yield from word(replace(step, say=(*step_words, *step.say)))
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
            turning_spread_mm=landing_spread_mm(shop.turning_spread_mm, shop.instruments),
            lathe_step_mm=shop.lathes[0].cross.step_on_diameter_mm,
        )
        return sized(question).ring.wall_mm
    except OutOfRange:
        return None


def why_not(seat_mm: float, glass_mm: float, wall_mm: float | None) -> str:
    """Why a glass of this diameter is not offered for this seat, in words; empty where it is."""
    glass, room = f"A glass of {length(glass_mm)}", gap_mm(case_bore_mm=seat_mm, glass_mm=glass_mm)
    if room <= 0.0:
        return f"{glass} does not go into a seat of {length(seat_mm)}: key a smaller one."
    if room > LARGE_GAP_MM:
        low, high = (bare(wall) for wall in USUAL_WALL_MM)
        leaves = f"leaves a gap of {length(room)}, where a ring's wall is {low} to {high}"
        return f"{glass} {leaves}: not the glass for this seat, or for a ring with a foot."
    if wall_mm is None:
        return f"{glass} leaves {length(room)} for the ring: too thin to turn. Key a smaller one."
    return ""


def order_step(
    shop: Shop, seat: Seat, offers: tuple[StockGlass, ...], edge: float, old_wall_mm: float | None
) -> Step:
    """The step on which a size to order is chosen."""
    low, high = USUAL_WALL_MM
    thick = length(edge + BEVELS_MM, 1)
    usual = f"usual walls, {bare(low)} to {bare(high)}"
    like = f"the old ring, wall {bare(old_wall_mm, 3)}" if old_wall_mm else usual
    return Step(
        key=keys.GLASS_ORDER,
        stage="measure",
        kind="choice",
        title=f"Glass to order, straight edge {bare(edge, 1)}, thickness {thick} or more: which one?",
        say=(
            f"By {like}; stock in steps of {bare(shop.glass_step_mm)}.",
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
    text = f"{length(one.glass_mm)}: wall {bare(one.wall_mm)}{unusual}"
    return Choice(f"{one.glass_mm:.2f} mm", text, with_it=(f"wall {fixed(one.wall_mm)} mm",))


def strong_enough(shop: Shop, offers: tuple[StockGlass, ...]) -> Words:
    """Thickness by the published design stress at the tester's pressure; advice only."""
    table, bar = glasses(shop.materials.get("glasses")), shop.tester.largest_bar
    known = [
        f"{name} {bare(thick, 1)}"
        for one in offers[:1]
        for name in ASKED_FOR
        if name in table
        and (thick := thickness_mm(table[name], glass_mm=one.glass_mm, overpressure_bar=bar)) is not None
    ]
    return (
        (f"For {bar:g} bar by the published design stress: {', '.join(known)} {short()} thick.",)
        if known
        else ()
    )


def as_ordered(
    job: Job, shop: Shop, seat: Seat, glass: Summary, glass_keys: Words, depth_mm: float
) -> Stage[bool]:
    """Whether the glass that came is used; where it is another size than was ordered, that is asked."""
    expected = ordered_mm(job)
    if expected is None or round(abs(glass.mean_mm - expected), 6) <= shop.glass_step_mm / 2.0:
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
        ordered = "" if planned is None else f", with the one ordered {length(planned)}"
        lines = [f"Wall with this glass {bare(wall_mm) if ordered else length(wall_mm)}{ordered}."]
        if not low <= wall_mm <= high:
            lines.append(f"CHECK  outside the usual walls, {bare(low)} to {length(high)}.")
    use = Choice("use", "use it: the ring is made to it as measured")
    back = Choice("back", "send it back: wait for another")
    return Step(
        key=keys.GLASS_DIFFERS,
        stage="measure",
        kind="result",
        title=f"Ordered {bare(expected)}, it measures {length(glass.mean_mm)}: use it?",
        say=tuple(lines),
        choices=(use, back) if wall_mm is not None else (back, use),
        rests_on=(keys.GLASS_ORDER, *rests),
        waits_for="a word on the glass that came",
        why="A glass of another size asks for another wall; it may be a glass for another watch.",
    )
