"""With which instrument a number is read: masks in its own unit, and how it is kept with the reading.

Invariant: a step that may be read with several instruments names them all, the one in hand first.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bench.job.job import Answer
from bench.job.mask import Mask
from bench.job.steps import ReadBy, Step
from bench.job.values import named_text
from rules.instrument import Instrument
from rules.lengths import INCH
from rules.measuring.instruments import decimals, together


def mask_of(tool: Instrument, before: int, low_mm: float, high_mm: float) -> Mask:
    """How a length from low to high is keyed as an instrument shows it; `before`: digits of its mm."""
    mask = Mask(before, decimals(tool), "mm", low_mm, high_mm)
    return mask.in_inch(decimals(tool)) if tool.unit == INCH else mask


HELD_BY_BALL, HELD_BY_JAWS = "Ball anvil inside", "Thin ends of the jaws across the wall"
"""How a wall is taken between a micrometer's ball and anvil, and between the jaws of a calliper."""


def read_with(
    step: Step, tool: Instrument, tools: Sequence[Instrument], *, before: int, low_mm: float, high_mm: float
) -> Step:
    """The step, keyed as `tool` shows it, or as one of the other tools does; {held} in how it is done is how
    that tool is held to a wall.
    """
    every = (tool, *(one for one in tools if one.name != tool.name))
    by = tuple(ReadBy(one.name, mask_of(one, before, low_mm, high_mm)) for one in every)
    held = HELD_BY_JAWS if tool.kind == "calliper" else HELD_BY_BALL
    how = tuple(text.replace("{held}", held) for text in step.how)
    return replace(step, mask=by[0].mask, by=by, read_with=tool.name, how=how)


def as_held(step: Step, answers: Sequence[Answer]) -> Step:
    """The step keyed as the instrument of the last reading shows it: it is still in the hand."""
    held = named_text(answers[-1].words[1:], "by") if answers else ""
    first = [one for one in step.by if one.name == held]
    if not first:
        return step
    by = (*first, *(one for one in step.by if one.name != held))
    return replace(step, mask=by[0].mask, by=by)


def instrument_of(answers: Sequence[Answer], tool: Instrument, tools: Sequence[Instrument]) -> Instrument:
    """What the mean of these readings was read with: `tool`, where a reading names no other."""
    by_name = {one.name: one for one in tools}
    used = [by_name.get(named_text(answer.words[1:], "by"), tool) for answer in answers]
    return together(used) if used else tool
