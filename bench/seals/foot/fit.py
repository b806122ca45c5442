"""Stage four of a ring with a foot, first part: the foot measured, then the wall, and pressed in as a
straight ring is; a bezel that clamps it is closed on it.

Invariant: a foot that is too thick is dressed before its walls are read; a ring once pressed is not used
again.
"""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.read_by import read_with
from bench.job.steps import Picture, Step, Words
from bench.job.values import AS_BEFORE
from bench.seals.foot.drawing import FOOT_LIMIT_MM
from bench.seals.foot.fit_steps import PLACES, off_step, thickness_step
from bench.seals.foot.kind import AGAIN
from bench.seals.foot.known import footed
from bench.seals.foot.size import FootDecided
from bench.seals.foot.size_words import NOT_COUNTED_ON, stands_words
from bench.seals.foot.within import as_own, seen
from bench.seals.ring.late import ROOMS
from bench.seals.ring.made import made_and_fitted
from bench.seals.seal import Fitted
from bench.stages.common import Dimension, readings
from rules.checks import to_places
from rules.measuring.instruments import walls_by
from rules.measuring.reading import HEIGHTS_AGREE_MM

if TYPE_CHECKING:
    from bench.shop.shop import Shop

TAKEN = {keys.late(key): AS_BEFORE for key in ROOMS}
"""Not asked here: less room asks for another wall, and the foot for a thickness of its own."""
WALL = keys.readings_of(keys.WALL)
FOOT_DOWN = "Foot down on the ledge, which is clean and dry all round."
CLOSE_IT = f"Then close the bezel on the glass, evenly: it holds the glass down; {NOT_COUNTED_ON}."


def fitted(job: Job, shop: Shop, decided: FootDecided) -> Stage[Fitted | None]:
    """Measured and pressed in; None where another is begun or the job ends here."""
    read = yield from foot_read(shop, decided)
    if read is None:
        return None
    said = partial(said_here, decided=decided, read=read)
    return (yield from as_own(made_and_fitted(seen(job), shop, decided.ring), change=said, taken=TAKEN))


def foot_read(shop: Shop, decided: FootDecided) -> Stage[Words | None]:
    """The foot at four places, with the keys of what says so; None where another ring is begun."""
    tools, thick = walls_by(shop.instruments), decided.ring.ring.foot_mm
    asked = read_with(thickness_step(thick), tools[0], tools, before=1, low_mm=0.1, high_mm=3.0)
    taken = yield from readings(
        Dimension(asked, HEIGHTS_AGREE_MM, places=PLACES, least=len(PLACES), expected_mm=thick)
    )
    mean = to_places(sum(taken.counted_mm) / len(taken.counted_mm), 4)
    if abs(mean - thick) > FOOT_LIMIT_MM + 1e-9:
        over = stands_words(footed(replace(decided.question, thick_mm=max(mean, 0.2))))
        chosen = yield from word(off_step(mean, thick, over, taken.keys))
        if chosen == "measure":
            yield from word(AGAIN.measured)
        if chosen != "use":
            yield from word(AGAIN.another)
            return None
    return taken.keys


def said_here(step: Step, *, decided: FootDecided, read: Words) -> Step:
    """The steps of the straight ring as they are said here."""
    if step.key == keys.FIT_READY:
        return replace(step, say=(step.say[0], FOOT_DOWN, *step.say[1:]), picture=pressed(step, decided))
    if step.key == keys.FIT_OUTCOME:
        close = (CLOSE_IT,) if decided.measured.drive is not None else ()
        home = "It is home where the glass stands on the foot all round." if decided.question.home else ""
        return replace(step, say=(*step.say, *filter(None, (home,)), *close))
    if step.key == keys.MEASURE_AGAIN:
        return replace(step, title=AGAIN.measured.title)
    if WALL.fullmatch(step.key) or step.key == keys.RING_HEIGHT:
        return replace(step, rests_on=(*step.rests_on, *read))
    return step


def pressed(step: Step, decided: FootDecided) -> Picture | None:
    """The section with the glass home on its foot."""
    if step.picture is None:
        return None
    ring, one = decided.ring.ring, decided.question
    more = (
        ("foot_mm", ring.foot_mm),
        ("foot_bore_mm", ring.foot_bore_mm),
        ("glass_edge_mm", one.edge_mm),
        ("seat_depth_mm", one.seat_depth_mm),
    )
    return replace(step.picture, numbers=(*step.picture.numbers, *more))
