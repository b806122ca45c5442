"""Stage four of an O-ring, first part: measured as it is, and put in.

Invariant: what was measured is judged by the needs it was chosen by; a ring that was squeezed and did not
hold is not used again.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job.asking import Stage, word, words
from bench.job.corrections import KEYED_WRONG, to_ask
from bench.job.job import Job
from bench.job.kept import HOME
from bench.job.read_by import instrument_of, read_with
from bench.job.steps import Words
from bench.job.values import figure
from bench.seals.oring import own_keys
from bench.seals.oring.decided import OringDecided
from bench.seals.oring.fit_steps import (
    CLEANED,
    CORD_PLACES,
    after_step,
    cord_gauge,
    cord_step,
    fitted_step,
    greased_step,
    inside_step,
    off_band_step,
)
from bench.seals.oring.kind import AGAIN, FITTING
from bench.seals.oring.known import looked_at, windowed
from bench.seals.seal import Fitted
from bench.stages.again import begun_again
from bench.stages.common import Dimension, readings
from bench.stages.correcting import correction_step
from rules.checks import to_places
from rules.measuring.instruments import SHEET, that_measure
from rules.oring.judging import OringSizing
from rules.oring.stock import in_hand

if TYPE_CHECKING:
    from bench.shop.shop import Shop

CORDS_AGREE_MM = 0.03
"""Two readings of a cord may differ so much (own judgement)."""


def fitted(job: Job, shop: Shop, decided: OringDecided) -> Stage[Fitted | None]:
    """Measured and put in; None when another is begun or the job ends here."""
    found, read = yield from measured_ring(shop, decided)
    if found.broken and (yield from off_its_band(found, read)):
        return None
    yield from word(CLEANED)
    yield from word(greased_step(decided))
    again = job.newest(FITTING.asks)
    rests = (FITTING.asks,) if again and again.word == KEYED_WRONG else ()
    went = yield from words(fitted_step(decided, found, (*read, *rests)))
    if course := to_ask(job, FITTING):
        yield from word(correction_step(FITTING, course, "another O-ring was put in: measure that one"))
        yield from word(AGAIN.another)
        return None
    if went[0] == HOME:
        return Fitted(since=went[1] if len(went) > 1 else "")
    chosen = yield from word(after_step(went[0], windowed(decided.question, decided.ring)))
    yield from begun_again(AGAIN, chosen)
    return None


def measured_ring(shop: Shop, decided: OringDecided) -> Stage[tuple[OringSizing, Words]]:
    """Cord at two places and inside diameter of the ring in hand, judged, with the keys of what says so."""
    tools, ring = that_measure(SHEET, shop.instruments), decided.ring
    asked = read_with(cord_step(), tools[0], tools, before=1, low_mm=0.2, high_mm=2.0)
    gauge = cord_gauge(windowed(decided.question, ring), ring.cord.mm)
    dimension = Dimension(replace(asked, gauge=gauge), CORDS_AGREE_MM, places=CORD_PLACES)
    cords = yield from readings(dimension)
    inside = yield from figure(inside_step(decided))
    cord = to_places(math.fsum(cords.counted_mm) / len(cords.counted_mm), 3)
    held = in_hand(
        inside, cord, tool_limit_mm=instrument_of(cords.answers, tools[0], tools).limit_of_error_mm
    )
    return looked_at(decided.question, held), (*cords.keys, own_keys.INSIDE)


def off_its_band(found: OringSizing, read: Words) -> Stage[bool]:
    """What is done with a ring that breaks a need as it was measured; True where another is begun."""
    chosen = yield from word(off_band_step(found, read))
    if chosen == "use":
        return False
    yield from begun_again(AGAIN, chosen)
    return True
