"""The first half at the lathe: face, outside, hole and bore roughed, then left to cool.

Invariant: every tool that goes in is looked at before it cuts; a shorter rest says what it costs.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.steps import Choice, Step
from bench.seals.ring.cut_checks import tool_change
from bench.seals.ring.cut_steps import action
from bench.seals.ring.decided import Decided
from rules.turning import operations
from rules.turning.cooling import Cooling
from rules.turning.passes import Plan


@dataclass(frozen=True, slots=True)
class Cutting:
    """Where the turning stands: the plan as it is now, and the ring it makes as it was decided."""

    plan: Plan
    decided: Decided
    last: str
    """Key of the newest act at the lathe, which the next one rests on."""
    glass_step_mm: float
    """From one stock size of a glass to the next."""


def roughed(at: Cutting) -> Stage[Cutting]:
    """Face, outside, hole and bore roughed, then left to cool."""
    made, order = at.plan, at.plan.order
    opening, boring = order.opening, made.of(operations.ROUGH_BORE)
    passes = (*made.of(operations.FACE), *made.of(operations.ROUGH_OUTSIDE))
    next_in = opening.tool if opening.tool else None if opening.drills_mm else order.boring
    yield from word(action(operations.ROUGH_OUTSIDE, passes, made, at.last, made.set_up_words, then=next_in))
    before = yield from opened(replace(at, last=operations.ROUGH_OUTSIDE))
    if boring:
        yield from word(tool_change(keys.TOOL_BORING, order.lathe, order.boring, before))
        before = operations.ROUGH_BORE
        yield from word(action(before, boring, made, keys.TOOL_BORING))
    yield from word(rest_step(made, before))
    yield from word(tool_change(keys.TOOL_TURNING, order.lathe, order.turning, operations.REST))
    return replace(at, last=keys.TOOL_TURNING)


def opened(at: Cutting) -> Stage[str]:
    """The hole for the boring bar: drilled, or a core cut out; gives the key of what was done last."""
    made, order = at.plan, at.plan.order
    drilling = (*made.of(operations.CENTRE), *made.of(operations.DRILL))
    tool, before = order.opening.tool, at.last
    if drilling:
        yield from word(action(operations.DRILL, drilling, made, before, then=order.boring))
        before = operations.DRILL
    if tool is not None:
        yield from word(tool_change(keys.TOOL_CORE, order.lathe, tool, before))
        core = made.of(operations.CORE)
        yield from word(action(operations.CORE, core, made, keys.TOOL_CORE, then=order.boring))
        before = operations.CORE
    return before


def rest_step(made: Plan, before: str) -> Step:
    """The work cools: what that is worth here, and what going on at once costs."""
    order = made.order
    step = action(
        operations.REST,
        made.of(operations.REST),
        made,
        before,
        made.set_up_words[-1:],
        then=order.turning,
    )
    cooling = cooling_of(made)
    if cooling is None:
        return step
    minutes = order.data.rest_minutes
    shorter = Choice(
        "shorter",
        f"rested less: up to {cooling.outside_um(0.0):.0f} um smaller outside once cool, "
        f"wall {cooling.wall_um(0.0):.1f} um",
    )
    return replace(step, consequence=cooling.words(minutes), choices=(*step.choices, shorter))


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
