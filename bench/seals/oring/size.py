"""Stage two of an O-ring: chosen for its groove, its consequences said, and accepted.

Invariant: what is accepted is written whole, so that nothing later depends on computing it again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bench.job.asking import Stage, word, words
from bench.job.job import Job
from bench.job.read_by import instrument_of
from bench.job.steps import Choice, Step, Words
from bench.job.values import figure, number
from bench.seals.oring import own_keys
from bench.seals.oring.decided import OringDecided, ring_from
from bench.seals.oring.kind import BEGIN
from bench.seals.oring.known import sized
from bench.seals.oring.measure import GrooveMeasured
from bench.seals.oring.size_steps import HAND_INSIDE, NONE_THERE, STEP, hand_cord_step, material_step
from bench.seals.oring.size_words import oring_step
from rules.checks import OutOfRange
from rules.lengths import translated
from rules.measuring.instruments import SHEET, that_measure
from rules.oring.housing import Oring
from rules.oring.judging import OringQuestion
from rules.oring.stock import in_hand

if TYPE_CHECKING:
    from bench.shop.shop import Shop

CHOSEN = (own_keys.MATERIAL, own_keys.STEP, own_keys.HAND_CORD, own_keys.HAND_INSIDE)
"""Answers of this stage that an accepted ring rests on."""


def size(job: Job, shop: Shop, measured: GrooveMeasured) -> Stage[OringDecided | None]:
    """Choose a ring until one is accepted; None where none fits."""
    rubber = yield from word(material_step())
    step = float((yield from word(STEP)))
    there = yield from ring_there(shop)
    question = OringQuestion(housing=measured.housing, rubber=rubber, in_hand=there, cord_step_mm=step)
    rests = (*measured.keys, *CHOSEN, BEGIN.attempt, BEGIN.measured)
    try:
        sizing = sized(question)
    except OutOfRange as reason:
        yield from word(none_fits(str(reason), rests))
        return None
    kept = yield from words(oring_step(job, measured, sizing, rests))
    return OringDecided(ring_from(kept), question, measured.place, kept)


def ring_there(shop: Shop) -> Stage[Oring | None]:
    """A ring that is there, as it was measured; None where none was."""
    tools = that_measure(SHEET, shop.instruments)
    answer = yield hand_cord_step(tools)
    if answer.word == NONE_THERE:
        return None
    limit = instrument_of((answer,), tools[0], tools).limit_of_error_mm
    return in_hand((yield from figure(HAND_INSIDE)), number(answer.word), tool_limit_mm=limit)


def none_fits(reason: str, rests: Words) -> Step:
    """Why none can be chosen."""
    return Step(
        key=own_keys.NONE_FITS,
        stage="size",
        kind="result",
        title="No O-ring in stock sizes fits this groove.",
        say=(
            translated(reason),
            "Go back with / and measure again; a wrong part in the pair makes such a groove too.",
        ),
        choices=(
            Choice("keep", "keep the job as it is", goto="jobs"),
            Choice("there", "a ring that is there: key it", goto=own_keys.HAND_CORD),
            Choice("closed", "close the job, with this reason"),
        ),
        rests_on=rests,
        waits_for="other measurements",
        why="A cord that is not squeezed does not seal, and one that is crushed is soon split.",
    )
