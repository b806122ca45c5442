"""Stage two: the ring is proposed from what was measured, its consequences said, and accepted.

Invariant: what is accepted is written whole (sizes, squeeze, what it was decided from), so that nothing later
depends on computing it again.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word, words
from bench.job.job import TAUGHT, Job
from bench.job.learned import Learned, learned_in
from bench.job.steps import Gauge
from bench.job.values import figure, figure_if
from bench.seals.ring.at_hand import hand_step, ring_at_hand
from bench.seals.ring.decided import Decided, decided_from
from bench.seals.ring.from_drawer import looked_through
from bench.seals.ring.hand import judge
from bench.seals.ring.known import sized
from bench.seals.ring.landing import as_learned, as_measured, looked_up_first, with_landing
from bench.seals.ring.lessons import Lessons, belief_words, gap_words, lessons
from bench.seals.ring.materials import NOT_KNOWN, metal_step, plastic_step
from bench.seals.ring.measure import Measured
from bench.seals.ring.measure_steps import ACRYLIC
from bench.seals.ring.no_glass import old_ring_seen
from bench.seals.ring.size_steps import (
    AGAINST_OLD,
    BORE,
    CASE_HEIGHT,
    CASE_WALL,
    FRICTION,
    GLASS_THICKNESS,
    HEIGHT,
    OFFSET,
    OUTSIDE,
    SPRING_ANYWAY,
    equipment_steps,
    spares_step,
)
from bench.seals.ring.size_words import cannot, of_the_spare, ring_step, wall_by_calliper, window_gauge
from rules.checks import OutOfRange
from rules.limits import no_more
from rules.measuring.instruments import landing_spread_mm, wall_u_mm
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import Sizing
from rules.tables import Material, glasses, metals, plastics

if TYPE_CHECKING:
    from bench.shop.shop import Shop


@dataclass(frozen=True, slots=True)
class Around:
    """What is known of the metal and the glass round the ring; None means not known."""

    plastic: str
    metal: str | None
    case_wall_mm: float | None
    case_height_mm: float | None
    offset_mm: float
    friction: float
    glass: str | None
    glass_thickness_mm: float | None
    glass_against_old: str


def size(job: Job, shop: Shop, measured: Measured) -> Stage[Decided | None]:
    """Propose a ring until one is accepted; None when no ring can be made."""
    around = yield from surroundings(shop, measured.glass_material)
    if around.glass == ACRYLIC and (yield from word(SPRING_ANYWAY)) != "anyway":
        return None
    for step in equipment_steps(shop):
        yield from word(step)
    spares = yield from word(spares_step())
    learnt = lessons(job, measured.gap_keys, measured.seat.mean_mm, measured.glass.mean_mm)
    here = learned_in(job, goes_by_it=shop.learn_from_jobs)
    measured = as_measured(measured, here)
    wanted = []
    before = could_be(shop, measured, around, learnt, here)
    for step in (replace(BORE, gauge=gauge_of(before)), OUTSIDE, HEIGHT):
        wanted.append((yield from figure_if(step, "as proposed")))
    drawer = looked_through(job, shop, measured, around.plastic, before)
    hand = yield from ring_at_hand(job, shop, drawer.choices)
    rests = (*measured.keys, *KEYS, keys.ATTEMPT, TAUGHT)
    try:
        question = before or taught(shop, measured, around, learnt, here)
        sizing = answered(question, learnt, *wanted)
        if hand is not None:
            judged = judge(hand, measured, question, sizing.ring.outside_diameter_mm)
            step = hand_step(job, judged, sizing, measured, spares, rests)
            step = replace(step, say=(*step.say, *gap_words(judged.sizing, learnt.numbers)))
            step = drawer.judged(step, hand)
        else:
            cost = wall_by_calliper(shop, question, sizing)
            said = (*belief_words(sizing, learnt.numbers), *learnt.past_words(sizing), *cost)
            step = ring_step(job, measured=measured, sizing=sizing, spares=spares, said=said, rests_on=rests)
            step = drawer.beside(
                of_the_spare(step, job.attempt, is_one=learnt.spare is not None and not any(wanted))
            )
    except OutOfRange as reason:
        yield from word(cannot(str(reason), (*measured.keys, *KEYS)))
        return None
    step = with_landing(replace(step, earlier=old_ring_seen(job)), here)
    decided = yield from words(looked_up_first(step, job, shop, question))
    return replace(decided_from(decided), question=question)


KEYS = (
    keys.PLASTIC,
    keys.CASE_METAL,
    keys.CASE_WALL,
    keys.CASE_HEIGHT,
    keys.RING_OFFSET,
    keys.FRICTION,
    keys.GLASS_MATERIAL,
    keys.GLASS_THICKNESS,
    keys.SPARES,
    keys.BORE_WANTED,
    keys.OUTSIDE_WANTED,
    keys.HEIGHT_WANTED,
    keys.AT_HAND,
)
"""Answers of this stage that an accepted ring rests on."""


def surroundings(shop: Shop, glass: str | None) -> Stage[Around]:
    """Usual values for everything round the ring; known ones are asked for once something is known."""
    plastic = yield from word(plastic_step(shop))
    metal = yield from word(metal_step(shop))
    wall = height = None
    if metal != NOT_KNOWN:
        wall = yield from figure(CASE_WALL)
        height = yield from figure(CASE_HEIGHT)
    offset, friction = (yield from figure(OFFSET)), (yield from figure(FRICTION))
    return Around(
        plastic=plastic,
        metal=None if metal == NOT_KNOWN else metal,
        case_wall_mm=wall,
        case_height_mm=height,
        offset_mm=offset,
        friction=friction,
        glass=glass,
        glass_thickness_mm=(yield from figure_if(GLASS_THICKNESS, "not measured")),
        glass_against_old=(yield from word(AGAINST_OLD)),
    )


def answered(
    question: SizingQuestion,
    learnt: Lessons,
    bore_mm: float | None,
    outside_mm: float | None,
    height_mm: float | None,
) -> Sizing:
    """The ring by the rules, a spare that is to be tried, or as keyed; raises OutOfRange."""
    question = replace(question, outside_mm=outside_mm or question.outside_mm, height_mm=height_mm)
    spare = learnt.spare if bore_mm is None and outside_mm is None else None
    if spare is not None:
        bore_mm = spare.bore_mm
        question = replace(question, outside_mm=spare.outside_diameter_mm)
    proposed = sized(question)
    if bore_mm is None:
        if proposed.window.shut_by_rings:
            raise OutOfRange(proposed.window.shut_by_rings)
        return proposed
    given = replace(
        question,
        bore_mm=bore_mm,
        outside_mm=proposed.ring.outside_diameter_mm,
        height_mm=proposed.ring.height_mm,
    )
    sizing = sized(given)
    if spare is None:
        return sizing
    cut = replace(
        sizing.ring,
        chamfer_mm=spare.chamfer_mm or sizing.ring.chamfer_mm,
        lower_chamfer_mm=spare.lower_chamfer_mm or sizing.ring.lower_chamfer_mm,
    )
    return replace(sizing, ring=cut)


def taught(
    shop: Shop, measured: Measured, around: Around, learnt: Lessons, here: Learned | None
) -> SizingQuestion:
    """The question with what the rings tried have taught; raises OutOfRange."""
    return learnt.asked(asked(shop, measured, around, here), wall_u_mm(shop.instruments))


def could_be(
    shop: Shop, measured: Measured, around: Around, learnt: Lessons, here: Learned | None
) -> SizingQuestion | None:
    """The same; None where no ring can be proposed."""
    try:
        return taught(shop, measured, around, learnt, here)
    except OutOfRange:
        return None


def gauge_of(question: SizingQuestion | None) -> Gauge | None:
    """The window of bores for the ring that would be proposed, to see where a keyed one lands."""
    try:
        return window_gauge(sized(question)) if question is not None else None
    except OutOfRange:
        return None


def asked(shop: Shop, measured: Measured, around: Around, here: Learned | None) -> SizingQuestion:
    """The question to the sizing: what was measured, what is known of the parts, and how walls land here."""
    question = SizingQuestion(
        case_bore_mm=measured.seat.mean_mm,
        glass_mm=measured.glass.mean_mm,
        seat_depth_mm=measured.seat_depth_mm,
        glass_edge_mm=measured.glass_edge_mm,
        material=found(plastics(shop.materials.get("plastics")), around.plastic),
        case_metal=found(metals(shop.materials.get("metals")), around.metal),
        case_wall_mm=around.case_wall_mm,
        case_height_mm=around.case_height_mm,
        ring_offset_mm=around.offset_mm,
        glass_material=found(glasses(shop.materials.get("glasses")), around.glass),
        glass_thickness_mm=around.glass_thickness_mm,
        old_glass=OLD_GLASS.get(around.glass_against_old),
        friction=around.friction,
        case_bore_u_mm=no_more("case bore uncertainty", measured.seat.expanded_mm),
        glass_u_mm=no_more("glass uncertainty", measured.glass.expanded_mm),
        ovality_mm=no_more("ovality", measured.oval_mm),
        turning_spread_mm=landing_spread_mm(shop.turning_spread_mm, shop.instruments),
        press_force_n=shop.press.largest_force_n,
        temperature_c=measured.temperature_c,
        lathe_step_mm=shop.lathes[0].cross.step_on_diameter_mm,
        hand_scale_pct=shop.hand_scale_pct,
    )
    return as_learned(question, here)


def found(table: dict[str, Material], key: str | None) -> Material | None:
    """The entry of a table, None when nothing is named; raises OutOfRange when it is not there any more."""
    if key is None:
        return None
    if key not in table:
        raise OutOfRange(f"{key} is no longer in the shop's tables; choose another from the list")
    return table[key]


OLD_GLASS = {"same": "same", "lesser": "other"}
"""How the sizing names the new glass against the old one."""
