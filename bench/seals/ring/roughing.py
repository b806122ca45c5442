"""The first half at the lathe: face, outside, hole and bore roughed, then left to cool.

Invariant: every tool that goes in is looked at before it cuts; a shorter rest says what it costs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.steps import Choice, Step
from bench.seals.lathe.cut_checks import tool_change
from bench.seals.ring.cut_steps import BASE, MOVED, MOVED_WORDS, NEXT_BAR, STILL_TIGHT, action, turned
from bench.seals.ring.decided import Decided
from bench.seals.ring.kind import NEXT_RING
from rules.lengths import microns
from rules.turning import operations
from rules.turning.cooling import Cooling
from rules.turning.passes import Pass, Plan


@dataclass(frozen=True, slots=True)
class Cutting:
    """Where the turning stands: the plan as it is now, and the ring it makes as it was decided."""

    plan: Plan
    decided: Decided
    last: str
    """Key of the newest act at the lathe, which the next one rests on."""
    glass_step_mm: float
    """From one stock size of a glass to the next."""
    job: Job
    bars_said: bool
    """Whether the shop has said its bars."""


def begun_afresh() -> Stage[None]:
    """The piece comes off and another ring is begun."""
    yield from word(NEXT_BAR)
    yield from word(NEXT_RING)


def roughed(at: Cutting) -> Stage[Cutting | None]:
    """Face, outside, hole and bore roughed, then left to cool; None where the bar has moved by then."""
    made, order = at.plan, at.plan.order
    opening, boring = order.opening, made.of(operations.ROUGH_BORE)
    passes = (*made.of(operations.FACE), *made.of(operations.ROUGH_OUTSIDE))
    next_in = opening.tool or (order.boring if boring and not opening.drills_mm else None)
    last = yield from turned(operations.ROUGH_OUTSIDE, passes, made, (at.last,), then=next_in)
    last = yield from opened(replace(at, last=last))
    if boring:
        yield from word(tool_change(keys.TOOL_BORING, order.lathe, order.boring, (*BASE, last)))
        last = yield from turned_in(made, boring)
    if (yield from word(rest_step(made, last))) == MOVED:
        yield from begun_afresh()
        return None
    yield from word(tool_change(keys.TOOL_TURNING, order.lathe, order.turning, (*BASE, operations.REST)))
    return replace(at, last=keys.TOOL_TURNING)


def turned_in(made: Plan, boring: Sequence[Pass]) -> Stage[str]:
    """The bore roughed; over a foot the hole in that first, then the wall and the floor of the glass."""
    last = keys.TOOL_BORING
    if through := made.of(operations.ROUGH_FOOT):
        last = yield from turned(operations.ROUGH_FOOT, through, made, (last,))
    floor = made.of(operations.FLOOR)
    return (yield from turned(operations.ROUGH_BORE, (*boring, *floor), made, (last,)))


def opened(at: Cutting) -> Stage[str]:
    """The hole for the boring bar: drilled, or a core cut out; gives the key of what was done last."""
    made, order = at.plan, at.plan.order
    drilling = (*made.of(operations.CENTRE), *made.of(operations.DRILL))
    tool, last = order.opening.tool, at.last
    then = order.boring if made.of(operations.ROUGH_BORE) else None
    if drilling:
        last = yield from turned(operations.DRILL, drilling, made, (last,), then=then)
    if tool is not None:
        yield from word(tool_change(keys.TOOL_CORE, order.lathe, tool, (*BASE, last)))
        core = made.of(operations.CORE)
        last = yield from turned(operations.CORE, core, made, (keys.TOOL_CORE,), then=then)
    return last


def rest_step(made: Plan, before: str) -> Step:
    """The work cools: what that is worth here, what going on at once costs, and whether it still holds."""
    order, cooling = made.order, cooling_of(made)
    resting, words = made.of(operations.REST), made.set_up_words[-1:]
    step = action(operations.REST, resting, made, (before,), words, then=order.turning)
    (rested,) = step.choices
    still = rested.text.replace("done, spindle stopped", f"cool, {STILL_TIGHT}")
    choices = [replace(rested, text=still), Choice(MOVED, MOVED_WORDS)]
    if cooling is None:
        return replace(step, choices=tuple(choices))
    outside, wall = microns(cooling.outside_um(0.0)), microns(cooling.wall_um(0.0))
    less = f"rested less, not moved: outside shrinks up to {outside}, wall {wall}"
    choices.insert(1, Choice("shorter", less))
    return replace(step, consequence=cooling.words(order.data.rest_minutes), choices=tuple(choices))


def cooling_of(made: Plan) -> Cooling | None:
    """How the roughed tube cools; None where the plastic's expansion is not known."""
    order, outside, bore = made.order, made.of(operations.FINISH_OUTSIDE), made.of(operations.FINISH_BORE)
    if order.expansion_per_k is None:
        return None
    left = 2.0 * sum(one.cut_depth_mm or 0.0 for one in (*outside, *bore))
    return Cooling(
        outside_mm=order.ring.outside_diameter_mm,
        wall_mm=order.ring.wall_mm,
        standing_mm=order.ring.wall_mm + left / 2.0,
        expansion_per_k=order.expansion_per_k,
    )
