"""A correction that comes late, when the ring is already on the lathe or turned: what would do instead of
turning another.

Invariant: a ring that is too high is dressed; one whose walls are there is measured and judged against the
new readings; one that is in its place is judged by what it measured before, and never dressed.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.steps import Choice, Step, Words
from bench.job.stopping import Instead
from bench.job.values import AS_BEFORE, mask_for, named, number
from bench.seals.ring.cut_steps import BASE
from bench.seals.ring.decided import Decided, decided_from
from bench.seals.ring.hand_steps import MADE, PRESSED
from bench.seals.ring.in_place import is_home, measured_before
from bench.seals.ring.sheet import MEASURED_BY
from bench.seals.ring.spares import is_spare
from rules import limits
from rules.lengths import bare, length
from rules.ring import Ring
from rules.sizing.squeeze import squeeze_pct
from rules.sizing.thumb import free_height_mm
from rules.turning import operations

if TYPE_CHECKING:
    from bench.shop.shop import Shop

ROOMS = {keys.SEAT_DEPTH: "seat depth", keys.GLASS_EDGE: "glass edge", keys.HEIGHT_WANTED: "height"}
"""Answers that limit the ring's height alone, with the name of their range."""
DRESSED_FROM: Words = (operations.PART, keys.ATTEMPT, keys.RING)
"""Answers after which a ring is another one than was dressed before."""
TITLES = {
    keys.SEAT_DEPTH: "Height of the seat, corrected after the ring was begun",
    keys.GLASS_EDGE: "Straight part of the glass's edge, corrected after the ring was begun",
    keys.HEIGHT_WANTED: "Height of the ring, changed after it was begun",
}


def late_steps() -> tuple[Step, ...]:
    """What may be corrected late, each passed as before unless the person changes it."""
    return tuple(
        Step(
            key=keys.late(key),
            stage="verify",
            kind="number",
            title=TITLES[key],
            mask=mask_for(name, 1, 2),
            usual=AS_BEFORE,
            optional=True,
            rests_on=(keys.ATTEMPT, keys.RING, key, keys.MEASURE_AGAIN),
            why="Less height asks for a lower ring, not for another one: it is dressed.",
        )
        for key, name in ROOMS.items()
    )


def highest_mm(decided: Decided, key: str, value_mm: float) -> float:
    """The height that a corrected answer leaves for a ring, never more than it has, mm."""
    ring = decided.ring
    if key == keys.HEIGHT_WANTED:
        return min(ring.height_mm, value_mm)
    squeeze = squeeze_pct(wall_mm=ring.wall_mm, gap_mm=decided.gap.mm) / 100.0
    return min(ring.height_mm, free_height_mm(value_mm, squeeze) or 0.0)


def was_pressed(job: Job) -> bool:
    """Whether the ring in hand was pressed, however that went."""
    return job.newest_n(keys.FIT_OUTCOME) > job.newest_n(keys.RING)


def dressed_mm(job: Job) -> tuple[float, ...]:
    """The heights to which the ring in hand was dressed, oldest first, mm."""
    since = max(map(job.newest_n, DRESSED_FROM))
    given = [answer for answer in job.answers if answer.key == keys.DRESS_LOWER and answer.n > since]
    return tuple(height for answer in given if (height := named(answer.words, "height")) is not None)


def lowered(job: Job, decided: Decided) -> Stage[Decided]:
    """The ring with the height that late corrections leave it; it is dressed where that is less."""
    ring, pressed = decided.ring, was_pressed(job)
    highest = ring.height_mm if decided.highest_mm is None else min(ring.height_mm, decided.highest_mm)
    for step in () if pressed else late_steps():
        given = yield from word(step)
        if given != AS_BEFORE:
            key = next(key for key in ROOMS if keys.late(key) == step.key)
            highest = min(highest, highest_mm(decided, key, number(given)))
    heights = (ring.height_mm, *dressed_mm(job))
    now, rests = min(heights), DRESSED_FROM
    if not pressed and round(highest, 2) < now:
        now, rests = round(highest, 2), (*rests, *map(keys.late, ROOMS))
    if now >= ring.height_mm:
        return decided
    before = min(height for height in heights if height > now)
    yield from word(replace(dress_lower(ring, now, before_mm=before), rests_on=rests))
    return replace(decided, ring=replace(ring, height_mm=now))


def dress_lower(ring: Ring, height_mm: float, *, before_mm: float) -> Step:
    """The ring is made lower off the lathe."""
    height = f"height {height_mm:.2f} mm"
    return Step(
        key=keys.DRESS_LOWER,
        stage="verify",
        kind="action",
        title=f"Dress the ring lower, to {length(height_mm)}",
        say=(
            f"It is {bare(before_mm)} high, planned or as measured. Fine abrasive paper on a flat plate,",
            "the face without the entry chamfer down; turn the ring as you go.",
            f"Then break the outside edge of that face again, {bare(ring.lower_chamfer_mm)}.",
        ),
        choices=(Choice("done", "done", with_it=(height,)),),
        why="The walls stay as they are: only the height is too much. Standing proud it lifts the glass.",
        how=("Measure the height on the way; it cannot be put back.",),
    )


OF_THE_FIT: Words = (
    *(keys.HOLD, keys.CASE_METAL, keys.CASE_WALL, keys.CASE_HEIGHT, keys.RING_OFFSET, keys.FRICTION),
    *(keys.GLASS_MATERIAL, keys.GLASS_THICKNESS),
)
"""What a ring is judged by besides seat and glass, and what is no part of itself."""


@dataclass(frozen=True, slots=True)
class _Piece:
    """The ring of this attempt as far as it has come."""

    decided: Decided
    begun: bool
    """It is on the lathe, or was."""
    made: bool
    """It is off the lathe, or was never turned here, and was not pressed."""


def piece(job: Job) -> _Piece | None:
    """The ring in hand; None where there is none, or where it was pressed."""
    ring = job.fresh(keys.RING, (keys.ATTEMPT,))
    if ring is None or was_pressed(job):
        return None
    decided = decided_from(ring.words)
    now = min((decided.ring.height_mm, *dressed_mm(job)))
    decided = replace(decided, ring=replace(decided.ring, height_mm=now))
    begun = job.fresh(operations.ROUGH_OUTSIDE, BASE) is not None
    made = job.fresh(operations.DRESS, (*BASE, operations.PART)) is not None
    there = bool(decided.at_hand) or is_spare(job, decided)
    return _Piece(decided, begun or there, made or there)


def instead(job: Job, _shop: Shop, key: str, value: str) -> tuple[Instead, ...]:
    """What would do instead of replacing an answer by another value and turning again."""
    of_the_fit = key in OF_THE_FIT or MEASURED_BY.fullmatch(key) is not None
    ring = job.fresh(keys.RING, (keys.ATTEMPT,))
    if of_the_fit and ring is not None and was_pressed(job) and is_home(job):
        before = measured_before(job, decided_from(ring.words))
        judged = ((key, (value,)), (keys.AT_HAND, (PRESSED,)), *before)
        return (Instead("replace it; judge the ring that is in", judged),)
    now = piece(job)
    if now is None:
        return ()
    if key in ROOMS and now.begun:
        return dressed_instead(now.decided, key, value)
    ours = now.decided.at_hand in ("", MADE)  # a bought one keeps its own readings and is judged again anyway
    if now.made and ours and of_the_fit:
        return (
            Instead(
                "replace it; judge the ring as it is",
                ((key, (value,)), (keys.AT_HAND, (MADE,))),
            ),
        )
    return ()


def dressed_instead(decided: Decided, key: str, value: str) -> tuple[Instead, ...]:
    """The ring kept, and dressed where it is too high; nothing where too little would be left of it."""
    try:
        highest = highest_mm(decided, key, number(value))
    except ValueError:  # not measured: nothing limits it any more
        return ()
    ring = decided.ring
    if highest < max(limits.RANGES["height"][0], ring.chamfer_mm + ring.lower_chamfer_mm):
        return ()
    if highest >= ring.height_mm:
        text = f"keep this ring: {bare(ring.height_mm)} has room"
    else:
        text = f"dress it to {length(highest)}; the rest stays"
    return (Instead(text, ((keys.late(key), (value,)),)),)
