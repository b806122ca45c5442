"""What a reading on the work does to the passes that are left.

Invariant: the passes already cut stay as they are; what is left ends on the wanted size as this tool really
cuts. A reading already past the window plans nothing more and offers the ways out. Lengths in mm.

Before the last outside pass the outside is measured; before the last bore pass the wall over the open end.
The difference from the size that the figure stands for is the tool's offset, on the diameter. A reading far
from it is not trusted to one pass: two equal passes follow with a second reading between them, because the
tool springs back by another amount at another depth.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from rules.checks import OutOfRange
from rules.lengths import length
from rules.turning import operations
from rules.turning.cutting_passes import build, numbered, ring_after
from rules.turning.cutting_words import (
    WAYS_OUT_OUTSIDE,
    offset_words,
    smaller_bore,
    tool_short,
    ways_out_of_bore,
)
from rules.turning.order import Order
from rules.turning.passes import Pass, Plan
from rules.turning.run import Run
from rules.turning.schedule import BORE_PASSES
from rules.turning.surface_passes import finishing_cuts

SAME_DEPTH_WITHIN_MM = 0.04
"""A last pass whose depth differs by no more than this springs alike. Own judgement."""
FARTHEST_OFF_MM = 1.0
"""A reading further than this from the size expected, on the diameter, is misread or miskeyed."""
LARGEST_KEPT_MM = 0.10
"""A larger offset comes from a slip or a wrong zero and is not carried to the next ring (own judgement)."""
ON_SIZE = "on_size"
GO_ON = "go_on"
MEASURED_AGAIN = "measure_again"
THIN_CUT = "thin_cut"
PAST = "past"


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """What a reading led to."""

    plan: Plan
    """The plan as it now stands; the same passes as before when the size is past."""
    verdict: str
    """One of go_on, measure_again, thin_cut, on_size, past."""
    tool: int
    offset_mm: float
    """The tool's own offset on the diameter, from this reading: how much larger it cuts than its figure."""
    words: tuple[str, ...]
    ways_out: tuple[str, ...] = ()
    same_wall_bore_mm: float | None = None
    """With the outside past: the bore that keeps the wall."""

    @property
    def past(self) -> bool:
        """True when the size is already beyond its window."""
        return self.verdict == PAST


def replan(plan: Plan, *, operation: str, reading_mm: float) -> Correction:
    """Correct the plan from a reading taken after the pass that asks for it.

    `operation` is finish_outside, whose reading is the outside, or finish_bore, whose reading is the wall.
    Raises OutOfRange for an unknown operation, no pass that waits for a reading, or an impossible reading.
    """
    measured = _measured_pass(plan, operation)
    plan = plan if measured.measure != "wall" else _on_its_outside(plan)
    now = _diameter_now(plan, measured, reading_mm)
    offset = round(measured.offset_mm + now - (measured.material_diameter_after_mm or 0.0), 6)
    run = Run(_with_offset(plan.order, measured.tool or 0, offset), operation)
    left = (now - run.wanted_mm if run.is_outside else run.wanted_mm - now) / 2.0
    verdict, counts = _what_is_left(run, measured, left)
    fresh = finishing_cuts(run, measured.steps or 0, counts, measure=verdict == MEASURED_AGAIN, start_mm=now)
    changed = replace(plan, order=run.order, measured_mm=(*plan.measured_mm, (measured.n, round(now, 6))))
    past, wall = verdict == PAST, plan.order.ring.wall_mm
    return Correction(
        plan=changed if past else _with_passes(changed, operation, measured.n, fresh),
        verdict=verdict,
        tool=measured.tool or 0,
        offset_mm=offset,
        words=_words(verdict, run, left, offset),
        ways_out=_ways_out(run, now) if past else (),
        same_wall_bore_mm=round(now - 2.0 * wall, 4) if past and run.is_outside else None,
    )


def _on_its_outside(plan: Plan) -> Plan:
    """The wall is kept on the outside that the cross slide really made: the bore follows it."""
    ring, made = plan.order.ring, plan.outside_made_mm
    if abs(made - ring.outside_diameter_mm) < 1e-9:
        return plan
    bore = round(made - 2.0 * ring.wall_mm, 6)
    ring = replace(ring, outside_diameter_mm=made, bore_mm=bore)
    return replace(plan, order=replace(plan.order, ring=ring))


def keep_the_wall(plan: Plan, *, outside_mm: float) -> Plan:
    """The way out of an outside that came out small: the bore smaller by the same amount, the wall as it was.

    `outside_mm` is the outside as measured; no more is cut there. Raises OutOfRange as `plan` does.
    """
    old = plan.order.ring
    ring = replace(old, outside_diameter_mm=outside_mm, bore_mm=round(outside_mm - 2.0 * old.wall_mm, 6))
    order = replace(plan.order, ring=ring)
    last = max(plan.read_after, default=0)
    done = [one for one in plan.passes if one.n <= last]
    begun = {(one.operation, one.ring) for one in done}
    fresh = [one for one in build(order) if (one.operation, one.ring) not in begun]
    roughed = [one for one in done if one.operation == operations.ROUGH_BORE]
    if roughed:
        run, start = Run(order, operations.FINISH_BORE), roughed[-1].steps or 0
        total = (run.frame.steps_at(ring.bore_mm) - start) * run.frame.cut_sense
        each = total // BORE_PASSES
        cuts = finishing_cuts(run, start, (total - (BORE_PASSES - 1) * each, *(each,) * (BORE_PASSES - 1)))
        cuts[0] = replace(cuts[0], before=plan.of(operations.FINISH_BORE)[0].before)
        fresh = [*cuts, *(one for one in fresh if one.operation != operations.FINISH_BORE or one.ring > 1)]
    return replace(plan, order=order, passes=numbered([*done, *fresh]))


def _measured_pass(plan: Plan, operation: str) -> Pass:
    waiting = [one for one in plan.of(operation) if one.measure and one.n not in plan.read_after]
    if not waiting:
        raise OutOfRange(f"reading: no pass of {operation!r} waits for one; go on with the next pass")
    return waiting[0]


def _diameter_now(plan: Plan, measured: Pass, reading_mm: float) -> float:
    """The diameter that a reading means; for a wall the bore that it makes beside the outside as made.

    A reading far from what is expected is refused as misread or miskeyed.
    """
    expected_mm, outside = measured.material_diameter_after_mm or 0.0, plan.order.ring.outside_diameter_mm
    is_wall = measured.measure == "wall"
    now = outside - 2.0 * reading_mm if is_wall else reading_mm
    if not math.isfinite(now) or abs(now - expected_mm) > FARTHEST_OFF_MM:
        expected = (outside - expected_mm) / 2.0 if is_wall else expected_mm
        raise OutOfRange(
            f"{measured.measure}: {reading_mm:.3f} mm is too far from the {expected:.3f} mm expected, over "
            f"{FARTHEST_OFF_MM:g} mm on the diameter; measure again, spindle stopped"
        )
    return now


def _what_is_left(run: Run, measured: Pass, left: float) -> tuple[str, tuple[int, ...]]:
    """The verdict and the passes left, in steps."""
    data = run.order.data
    total = (run.frame.steps_at(run.wanted_mm) - (measured.steps or 0)) * run.frame.cut_sense
    if left < -run.limit_mm:
        return PAST, ()
    if left <= run.limit_mm or total <= 0:
        return ON_SIZE, ()
    least, depth = data.least_depth, measured.cut_depth_mm or data.finish_depth
    if left < least - 1e-9:
        return THIN_CUT, (total,)
    if abs(left - depth) <= SAME_DEPTH_WITHIN_MM or left < 2.0 * least:
        return GO_ON, (total,)
    parts = max(2, round(left / depth))
    step = run.frame.step_on_diameter_mm / 2.0
    while parts > 1 and (left / parts < least or (total // parts + 0.5) * step < least - 1e-9):
        parts -= 1
    if parts == 1:
        return GO_ON, (total,)
    each = total // parts
    return MEASURED_AGAIN, (total - each * (parts - 1), *(each,) * (parts - 1))


def _with_offset(order: Order, tool: int, offset_mm: float) -> Order:
    known = {**dict(order.offsets_mm), tool: offset_mm}
    return replace(order, offsets_mm=tuple(sorted(known.items())))


def _with_passes(plan: Plan, operation: str, after: int, fresh: list[Pass]) -> Plan:
    """The passes up to the reading, the corrected ones, the rest of this ring,
    and the spares planned again.
    """
    done = [one for one in plan.passes if one.n <= after]
    rest = [one for one in plan.passes if one.n > after and one.operation != operation and one.ring == 1]
    later = [one for ring in range(2, plan.order.rings + 1) for one in ring_after(plan.order, ring)]
    return replace(plan, passes=numbered([*done, *fresh, *rest, *later]))


def _ways_out(run: Run, now: float) -> tuple[str, ...]:
    if not run.is_outside:
        return ways_out_of_bore(run.order.ring)
    wall = run.order.ring.wall_mm
    return (smaller_bore(wall_mm=wall, bore_mm=now - 2.0 * wall), *WAYS_OUT_OUTSIDE)


def _words(verdict: str, run: Run, left: float, offset: float) -> tuple[str, ...]:
    side = "outside is too small" if run.is_outside else "bore is too big"
    tool = tool_short(run.order.lathe, run.tool)
    kept = verdict != PAST and abs(offset) <= LARGEST_KEPT_MM
    over = f"over {length(LARGEST_KEPT_MM)}, " if abs(offset) > LARGEST_KEPT_MM else ""
    then = "kept for the next ring" if kept else f"{over}not kept for the next ring"
    said = [f"{tool} cuts {offset_words(offset)}, on the diameter; {then}"]
    if verdict == PAST:
        return (f"STOP: the {side} already, by {length(-left, 3)} on the radius; nothing more is cut", *said)
    if verdict == ON_SIZE and left > run.limit_mm:
        return (
            f"{length(left, 3)} left on the radius, under half a step of the cross slide: no further pass",
            *said,
        )
    if verdict == ON_SIZE:
        return ("on size: no further pass", *said)
    said.insert(0, f"{length(left, 3)} left on the radius")
    if verdict == THIN_CUT:
        said.append("a thin cut: use the sharpest edge, or it rubs instead of cutting")
    if verdict == MEASURED_AGAIN:
        said.append("further from the size than usual: equal passes, and measure again before the last")
    return tuple(said)
