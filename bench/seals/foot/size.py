"""Stage two of a ring with a foot: its foot from height, ledge and load, its wall as that of a straight ring.

Invariant: what is accepted is written whole, so that nothing later depends on computing it again; the wall is
sized for the room that the foot leaves it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.steps import Step, Words
from bench.job.values import figure_if, named_text
from bench.seals.foot import own_keys
from bench.seals.foot.clamp import clamped
from bench.seals.foot.kind import BEGIN
from bench.seals.foot.known import footed
from bench.seals.foot.measure import FootMeasured
from bench.seals.foot.size_steps import AS_PROPOSED, INSIDE, THICK, none_fits
from bench.seals.foot.size_words import with_foot
from bench.seals.foot.within import as_own, seen
from bench.seals.ring.decided import Decided
from bench.seals.ring.hand_steps import NONE
from bench.seals.ring.measure import Measured
from bench.seals.ring.planning import chosen
from bench.seals.ring.size import size as wall_sized
from rules.checks import OutOfRange
from rules.foot.sizing import FootQuestion
from rules.tables import plastics
from rules.turning.tool_choice import rides_on_the_corner

if TYPE_CHECKING:
    from bench.shop.shop import Shop

TAKEN = {keys.AT_HAND: NONE, keys.SPARES: "0"}
"""Not asked here: every one is made, without spares."""


@dataclass(frozen=True, slots=True)
class FootDecided:
    """An accepted ring with its foot, with what was asked for it."""

    ring: Decided
    """With its foot; as the straight ring keeps it."""
    measured: FootMeasured
    question: FootQuestion
    words: Words
    """As they were written."""


def size(job: Job, shop: Shop, measured: FootMeasured) -> Stage[FootDecided | None]:
    """Propose a ring with its foot until one is accepted; None where none can be made."""
    thick = yield from figure_if(THICK, AS_PROPOSED)
    inside = yield from figure_if(INSIDE, AS_PROPOSED)
    question = replace(measured.question, thick_mm=thick, inside_mm=inside)
    rests = (*measured.keys, own_keys.THICK_WANTED, own_keys.INSIDE_WANTED, BEGIN.attempt, BEGIN.measured)
    try:
        foot = footed(question)
    except OutOfRange as reason:
        yield from word(none_fits(str(reason), rests))
        return None
    said = partial(said_here, job=job, shop=shop, measured=measured, question=question, rests=rests)
    on_foot = on_the_foot(measured.wall, question, foot.thick_mm)
    ring = yield from as_own(wall_sized(seen(job), shop, on_foot), change=said, taken=TAKEN)
    if ring is None:
        return None
    accepted = job.newest(own_keys.ACCEPTED)
    assert accepted is not None, "the ring was accepted on this walk"
    return FootDecided(ring, measured, question, accepted.words)


def on_the_foot(wall: Measured, question: FootQuestion, thick_mm: float) -> Measured:
    """Seat and glass as the wall meets them: the seat from the foot up, of the glass its lower bevel as well,
    which lies beside the wall and is not sealed on.
    """
    straight = wall.glass_edge_mm
    return replace(
        wall,
        seat_depth_mm=round(wall.seat_depth_mm - thick_mm, 4),
        glass_edge_mm=None if straight is None else round(straight + question.bevel_mm, 4),
    )


def said_here(
    step: Step, *, job: Job, shop: Shop, measured: FootMeasured, question: FootQuestion, rests: Words
) -> Step:
    """The steps of the straight ring as they are said here: the ring proposed with its foot."""
    if step.key == keys.HEIGHT_WANTED:
        return replace(step, chosen=True, title="Another height for the wall, from the foot up")
    if step.key in (keys.BORE_WANTED, keys.OUTSIDE_WANTED):
        return replace(step, chosen=True)
    if step.key != keys.RING:
        return step
    plastic = named_text(step.choices[0].with_it, "plastic")
    made_of = plastics(shop.materials.get("plastics")).get(plastic)
    foot = footed(replace(question, plastic=made_of))
    drive, seat, own = measured.drive, measured.wall.seat.mean_mm, shop.materials.get("plastics")
    clamp = None if drive is None else clamped(foot, drive, plastic, seat_mm=seat, own=own)
    tools = shop.tools_of(chosen(job, own_keys.of(keys.TOOL_SET))) or shop.tools_of(shop.tool_sets[0])
    proposed = with_foot(step, foot, clamp, rides_on_the_corner(tools, question.bevel_mm))
    return replace(proposed, rests_on=(*proposed.rests_on, *rests))
