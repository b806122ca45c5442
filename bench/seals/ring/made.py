"""Stage four, first part: the ring as it was made, and pressing it in.

Invariant: an undecided measurement never stops the job; a ring that was pressed is not used again.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word, words
from bench.job.corrections import KEYED_WRONG, to_ask
from bench.job.job import Job
from bench.job.kept import HOME, UNKNOWN
from bench.job.read_by import instrument_of, read_with
from bench.job.steps import Choice, Gauge, Step, Words
from bench.job.values import mask_for
from bench.seals.ring.decided import Decided
from bench.seals.ring.hand import judged
from bench.seals.ring.hand_steps import PRESSED
from bench.seals.ring.in_place import HOW_IT_STANDS, pressed_section, since_pressed
from bench.seals.ring.kind import FITTING, NEXT_RING, WALL_PLACES
from bench.seals.ring.late import lowered
from bench.seals.ring.off_band import off_band, off_band_step
from bench.seals.ring.remake import another_ring
from bench.seals.ring.spare_walls import spare_walls
from bench.seals.ring.too_high import PROUD_MM, after_dressing, is_too_high, too_high_step
from bench.seals.seal import Fitted
from bench.shop.groups import PRESS
from bench.stages.common import Dimension, plain_choices, readings
from bench.stages.correcting import correction_step
from rules.checks import fixed
from rules.measuring.instruments import walls_by
from rules.measuring.reading import HEIGHTS_AGREE_MM, RING_HEIGHTS_AGREE_MM
from rules.ring import Ring
from rules.sizing.decision import FREE_DIAMETER, RingDecision
from rules.turning import operations

if TYPE_CHECKING:
    from bench.shop.shop import Shop

DIAL_RING_SAID = {
    "yes": "CHECK  the dial ring or spacer is in.",
    "no": "Dust wiped; no dial ring in this case.",
    "": "Dust wiped; a dial ring or spacer, if this case has one, is in.",
}
"""Before the press, by what was said of a dial ring."""
FITTING_ORDER = (
    "Ring in, chamfer towards the glass, seated all round.",
    "Glass: coated side in, lens over the date, inside clean.",
    "Start it square by thumb; press in three strokes, turning the case.",
    "Loupe all round between strokes.",
)
OUTCOMES = (
    Choice(HOME, "home and level", stamp=True),
    Choice("too_easy", "went in too easily"),
    Choice("would_not_start", "would not start"),
    Choice("shaved", "the ring was shaved"),
    Choice("chipped", "the glass chipped"),
    Choice("bezel_moved", "the bezel moved"),
)


def made_and_fitted(job: Job, shop: Shop, decided: Decided) -> Stage[Fitted | None]:
    """Measure the ring, press it in; None when another ring is to be made or the job ends here."""
    ready = yield from ready_for_press(job, shop, decided)
    if ready is None:
        return None
    decision, walls_mm = ready
    read_again = job.newest(FITTING.asks)
    asked = (FITTING.asks,) if read_again and read_again.word == KEYED_WRONG else ()
    step = fit_outcome(decision, walls_mm)
    if decided.at_hand == PRESSED:
        said = decision.words.partition(" Undecided")[0]
        ways = (since_pressed(job, step.choices[0]), *step.choices[1:])
        step = replace(step, title=HOW_IT_STANDS, cautions=(), consequence=(said,), choices=ways)
    outcome = yield from words(replace(step, rests_on=(*step.rests_on, *asked)))
    if course := to_ask(job, FITTING):
        yield from word(correction_step(FITTING, course, "another ring was pressed in: measure that one"))
        yield from word(NEXT_RING)
        return None
    if outcome[0] == HOME:
        return Fitted(since=outcome[1] if len(outcome) > 1 else "")
    yield from another_ring(job, shop, decided)
    return None


def ready_for_press(
    job: Job, shop: Shop, decided: Decided
) -> Stage[tuple[RingDecision, tuple[float, ...]] | None]:
    """The ring measured and about to be pressed, or in its place already; None when another is to be made."""
    if decided.at_hand == PRESSED:
        decision, walls_mm, _ = yield from measured_ring(job, shop, decided, dressed=False)
        return decision, walls_mm
    left = yield from lowered(job, decided)
    dressed, decided = left is not decided, left
    decision, walls_mm, read = yield from measured_ring(job, shop, decided, dressed=dressed)
    if read:
        yield from spare_walls(job, shop)
    if off_band(job, decision, read) and (yield from word(off_band_step(decision, read))) == "another":
        yield from word(NEXT_RING)
        return None
    yield from word(press_check(job, decision, decided, walls_mm))
    return decision, walls_mm


def measured_ring(
    job: Job, shop: Shop, decided: Decided, *, dressed: bool
) -> Stage[tuple[RingDecision, tuple[float, ...], Words]]:
    """Wall at four angles and height: what the walls say against the gap, the walls, and the keys they were
    read under; no keys of a ring that was there already and was measured before it was accepted: only its
    height is read again, where it was dressed.
    """
    ring, tools = decided.ring, walls_by(shop.instruments)
    if decided.at_hand:
        decision = judged(tools[0], decided.walls_mm, decided.gap, decided.band, decided.shut)
        if dressed:
            yield from height_read(job, ring, decision, ())
        return decision, decided.walls_mm, ()
    step = replace(
        wall_step(decided), say=(f"{tools[0].name[:1].upper()}{tools[0].name[1:]}; dot: place 1.",)
    )
    step = read_with(step, tools[0], tools, before=1, low_mm=0.1, high_mm=3.0)
    walls = yield from readings(
        Dimension(step, HEIGHTS_AGREE_MM, places=WALL_PLACES, least=4, expected_mm=ring.wall_mm)
    )
    by = instrument_of(walls.answers, tools[0], tools)
    decision = judged(by, walls.counted_mm, decided.gap, decided.band, decided.shut)
    yield from height_read(job, ring, decision, walls.keys)
    return decision, walls.counted_mm, walls.keys


def height_read(job: Job, ring: Ring, decision: RingDecision, walls: Words) -> Stage[None]:
    """The height, read again where it is not as planned; what next with a ring that is too high."""
    step = after_dressing(job, height_step(ring, decision, walls))
    again = ("again",) * 3
    read = yield from readings(
        Dimension(step, RING_HEIGHTS_AGREE_MM, places=again, least=1, expected_mm=ring.height_mm)
    )
    if is_too_high(job, ring, max(read.counted_mm), read.keys):
        yield from word(too_high_step(ring, max(read.counted_mm), read.keys))


def wall_step(decided: Decided) -> Step:
    """One reading of the wall."""
    thinnest, thickest = decided.band.walls_mm(decided.gap.mm)
    return Step(
        key=keys.WALL,
        stage="verify",
        kind="number",
        title="Wall of the ring at place {place}",
        gauge=Gauge(thinnest, thickest, decided.ring.wall_mm, ("loose", "works", "tight")),
        rests_on=(operations.PART, operations.DRESS, keys.ATTEMPT, keys.RING, keys.MEASURE_AGAIN),
        why=FREE_DIAMETER,
        how=("{held}, light touch, at four places a quarter of a turn apart.",),
    )


def height_step(ring: Ring, decision: RingDecision, walls: Words) -> Step:
    """The height of the ring, with what the walls have said."""
    highest = ring.height_mm + PROUD_MM
    return Step(
        key=keys.RING_HEIGHT,
        stage="verify",
        kind="number",
        title="Height of the ring, at four places; key the largest",
        mask=mask_for("height", 1, 2),
        consequence=(decision.words,),
        gauge=Gauge(ring.height_mm - 0.10, highest, ring.height_mm, ("low", "works", "proud")),
        rests_on=(operations.PART, keys.ATTEMPT, keys.RING, keys.DRESS_LOWER, *walls),
        why="Squeezed, it grows taller: it must not stand proud of the seat.",
        how=("Between flat anvils, without squeezing.",),
    )


def press_check(job: Job, decision: RingDecision, decided: Decided, walls_mm: Sequence[float]) -> Step:
    """The check before pressing, with the order of fitting in front of the person."""
    live = (keys.ATTEMPT, keys.RING, keys.DRESS_LOWER, keys.RING_HEIGHT)
    dial_ring = job.newest(keys.DIAL_RING)
    pressed = job.fresh(keys.FIT_OUTCOME, (*live, keys.FIT_READY))
    return Step(
        key=keys.FIT_READY,
        stage="verify",
        kind="safety",
        title="Before the press: how do the dies stand?",
        say=(
            DIAL_RING_SAID[dial_ring.word if dial_ring else ""],
            *FITTING_ORDER,
        ),
        brief=("Ring in, chamfer towards the glass.",),
        consequence=(
            decision.words,
            f"To press it home: {decided.force_words or UNKNOWN}.",
        ),
        choices=plain_choices(
            ("dies_right", "upper die on the glass edge, lower under the seat, case empty"),
            ("on_bezel", "upper die bears on the bezel too"),
            ("on_crown", "lower die on crown, tube or lugs"),
        ),
        rests_on=(*live, keys.FIT_SLIP, *(() if pressed else (keys.SITTING,))),
        cautions=("press",),
        goes_by=(PRESS,),
        asks_shop=() if pressed else (PRESS,),
        picture=pressed_section(decided, walls_mm),
        why=(
            "A die on the bezel presses the bezel, a die under the crown bends the tube, "
            "a hidden movement is crushed."
        ),
        how=("Dry, or moistened with water. A trace of silicone grease lowers the hold as well.",),
    )


def fit_outcome(decision: RingDecision, walls_mm: Sequence[float]) -> Step:
    """What happened under the press."""
    return Step(
        key=keys.FIT_OUTCOME,
        stage="verify",
        kind="choice",
        title="The glass is pressed in: what happened?",
        consequence=(decision.words,),
        choices=tuple(replace(choice, with_it=decided_words(decision, walls_mm)) for choice in OUTCOMES),
        rests_on=(keys.ATTEMPT, keys.RING, keys.DRESS_LOWER, keys.RING_HEIGHT, keys.FIT_READY),
        cautions=("press",),
        why=(
            "How it went in decides whether this ring stays "
            "or the next one is made a little larger or smaller."
        ),
        how=("Level: the glass stands the same height all round, looked at under a loupe.",),
    )


def decided_words(decision: RingDecision, walls_mm: Sequence[float]) -> Words:
    """What was decided of the ring as made, kept with what happened under the press."""
    return (
        "walls " + " ".join(fixed(wall, 3) for wall in walls_mm) + " mm",
        f"squeeze {fixed(decision.squeeze_pct)} %",
        f"squeeze_u {fixed(decision.squeeze_u_pct)} %",
        f"decision {decision.decision}",
    )
