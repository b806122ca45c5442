"""Coming back to a plan that was left: a fresh touch-off before the pass that is next.

Invariant: the tool is set on what the passes already cut left standing, so the targets of the plan hold unchanged.
"""

from __future__ import annotations

from rules.equipment import Tool
from rules.turning.cutting_words import tool_in
from rules.turning.passes import SURFACE_OF, Pass, Plan, TurningWrong
from rules.turning.readout import OUTSIDE

NEVER_REGRIPPED = (
    "the bar stands in its grip as it was left; if it was taken out, face and start a fresh ring"
)


def taken_up_again(plan: Plan, *, n: int) -> tuple[str, ...]:
    """What is done before pass `n` when the lathe was left in between, a sentence each.

    Raises TurningWrong when the plan has no such pass.
    """
    following = next((one for one in plan.passes if one.n == n), None)
    if following is None:
        raise TurningWrong(f"pass is {n}; the plan has passes 1 to {len(plan.passes)}")
    words = [NEVER_REGRIPPED]
    if following.operation == "dress":
        return ()
    tool = {one.number: one for one in _tools(plan)}.get(following.tool or 0)
    if tool is not None:
        words.append(tool_in(tool))
    surface = SURFACE_OF.get(following.operation)
    if surface is not None:
        words.append(
            plan.order.frame(surface).touch_words(standing_mm(plan, surface, following), again=False)
        )
    elif following.before:
        words += [word for word in following.before if word not in words]
    return tuple(words)


def standing_mm(plan: Plan, surface: str, following: Pass) -> float:
    """Diameter that stands on a surface before a pass: as measured, else by the plan."""
    ring = 1 if surface == OUTSIDE else following.ring
    done = [
        one
        for one in plan.passes
        if one.n < following.n and one.ring == ring and SURFACE_OF.get(one.operation) == surface
    ]
    start = plan.order.bar.diameter_mm if surface == OUTSIDE else plan.order.drill_mm
    if not done:
        return start
    return dict(plan.measured_mm).get(done[-1].n, done[-1].material_diameter_after_mm or start)


def _tools(plan: Plan) -> tuple[Tool, ...]:
    order = plan.order
    return (order.turning, order.boring, order.chamfer, order.parting)
