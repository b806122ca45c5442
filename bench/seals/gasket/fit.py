"""Stage four of a flat gasket, first part: measured as made, and the lid closed on it.

Invariant: what was measured is judged by the needs it was sized by; a gasket that was squeezed and did not
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
from bench.job.read_by import read_with
from bench.job.steps import Gauge, Words
from bench.seals.gasket.decided import GasketDecided
from bench.seals.gasket.fit_steps import (
    FACES,
    THICKNESS_PLACES,
    MadeGasket,
    after_step,
    drags_step,
    laid_step,
    off_band_step,
    thickness_step,
    width_step,
)
from bench.seals.gasket.kind import AGAIN, FITTING, TURNING_LIDS
from bench.seals.gasket.known import windowed
from bench.seals.seal import Fitted
from bench.stages.again import begun_again
from bench.stages.common import Dimension, readings
from bench.stages.correcting import correction_step
from rules.gasket.materials import TURNED
from rules.gasket.needs import broken, squeezed
from rules.gasket.room import GasketSizes
from rules.measuring.instruments import SHEET, that_measure
from rules.measuring.reading import HEIGHTS_AGREE_MM

if TYPE_CHECKING:
    from bench.shop.shop import Shop

WIDTHS_AGREE_MM = 0.2
"""What was cut may be so much wider or narrower than planned before it is measured again (own judgement)."""


def fitted(job: Job, shop: Shop, decided: GasketDecided) -> Stage[Fitted | None]:
    """Measured, laid in and closed; None when another is begun or the job ends here."""
    made, read = yield from measured_gasket(shop, decided)
    found, dressed = as_made(decided, made), decided.question.way == TURNED
    if found.broken and (yield from off_its_band(found, read, dressed=dressed)):
        return None
    yield from word(FACES)
    if decided.joint in TURNING_LIDS:
        yield from word(drags_step(decided))
    again = job.newest(FITTING.asks)
    rests = (FITTING.asks,) if again and again.word == KEYED_WRONG else ()
    laid = yield from words(laid_step(decided, found, (*read, *rests)))
    if course := to_ask(job, FITTING):
        yield from word(correction_step(FITTING, course, "another gasket was laid in: measure that one"))
        yield from word(AGAIN.another)
        return None
    if laid[0] == HOME:
        return Fitted(since=laid[1] if len(laid) > 1 else "")
    chosen = yield from word(after_step(laid[0], found))
    yield from begun_again(AGAIN, chosen)
    return None


def measured_gasket(shop: Shop, decided: GasketDecided) -> Stage[tuple[GasketSizes, Words]]:
    """Thickness at four places and width, as made, with the keys of what says so."""
    tools, sizes = that_measure(SHEET, shop.instruments), decided.sizes
    asked = read_with(thickness_step(decided), tools[0], tools, before=1, low_mm=0.1, high_mm=5.0)
    gauge = thickness_gauge(decided)
    within = Dimension(
        replace(asked, gauge=gauge),
        HEIGHTS_AGREE_MM,
        places=THICKNESS_PLACES,
        least=len(THICKNESS_PLACES),
        expected_mm=sizes.thick_mm,
    )
    thick = yield from readings(within)
    across = Dimension(
        width_step(sizes.width_mm),
        WIDTHS_AGREE_MM,
        places=("again",) * 2,
        least=1,
        expected_mm=sizes.width_mm,
    )
    width = yield from readings(across)
    wide, high = (math.fsum(one.counted_mm) / len(one.counted_mm) for one in (width, thick))
    middle = (sizes.outside_mm + sizes.inside_mm) / 2.0
    made = GasketSizes(middle + wide, middle - wide, round(high, 4))
    return made, (*thick.keys, *width.keys)


def as_made(decided: GasketDecided, made: GasketSizes) -> MadeGasket:
    """How a gasket of these sizes would be squeezed, and what it breaks."""
    question = decided.question
    force = question.drive.mid_n
    state = squeezed(question, made, height_mm=question.room.height_mm, force_n=force)
    works = windowed(question, decided.sizes)
    return MadeGasket(made, state, broken(question, state, force_n=force), works)


def thickness_gauge(decided: GasketDecided) -> Gauge | None:
    """The thicknesses that work, where the gasket that was accepted has any."""
    works = windowed(decided.question, decided.sizes)
    if works is None:
        return None
    words = ("too thin", "works", "too thick")
    return Gauge(works.low_mm, works.high_mm, decided.sizes.thick_mm, words)


def off_its_band(found: MadeGasket, read: Words, *, dressed: bool) -> Stage[bool]:
    """What is done with a gasket that breaks a need as it was measured; True where another is begun."""
    chosen = yield from word(off_band_step(found, read, dressed=dressed))
    if chosen == "use":
        return False
    yield from begun_again(AGAIN, chosen)
    return True
