"""What a reading on the work does to the passes that are left.

Invariant: the passes already cut stay as they are; what is left ends on the wanted size as this tool
really cuts.
A reading already past the window plans nothing more and offers the ways out. Lengths in mm.

Before the last outside pass the outside is measured; before the last bore pass the wall over the open end
(or the
bore, second choice). The difference from what the figure promised is the tool's offset, on the diameter. A
reading
far from the promise is not trusted to one pass: two equal passes follow with a second reading between them,
because the tool springs back by another amount at another depth.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from rules.turning.cutting_passes import build, numbered, ring_after
from rules.turning.cutting_words import WAYS_OUT_BORE, WAYS_OUT_OUTSIDE, smaller_bore
from rules.turning.passes import SURFACE_OF, Order, Pass, Plan, TurningWrong
from rules.turning.readout import BORE, OUTSIDE
from rules.turning.surface_passes import finishing

SAME_DEPTH_WITHIN_MM = 0.04
"""A last pass whose depth differs by no more than this springs alike. Own judgement."""
FARTHEST_OFF_MM = 1.0
"""A reading further than this from the promise, on the diameter, is a slip of reading or keying."""
ON_SIZE = "on_size"
GO_ON = "go_on"
MEASURE_AGAIN = "measure_again"
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
    """What the tool leaves over its figure, on the diameter, from this reading."""
    left_mm: float
    """Still to take off, on the radius; negative when past."""
    words: tuple[str, ...]
    ways_out: tuple[str, ...] = ()
    same_wall_bore_mm: float | None = None
    """With the outside past: the bore that keeps the wall."""

    @property
    def past(self) -> bool:
        """True when the size is already beyond its window."""
        return self.verdict == PAST


def replan(
    plan: Plan,
    *,
    operation: str,
    reading_mm: float,
    of: str | None = None,
    ring: int = 1,
    outside_mm: float | None = None,
) -> Correction:
    """Correct the plan from a reading taken after the pass that asks for it.

    `operation` is finish_outside or finish_bore; `of` says what was measured: "outside", "wall" or "bore"
    (usual: outside, wall); `outside_mm` the finished outside, used with a bore reading (usual: as planned).
    Raises TurningWrong for an unknown operation, no pass that waits for a reading, or a reading that
    cannot be.
    """
    measured = _measured_pass(plan, operation, ring)
    surface = SURFACE_OF[operation]
    of = of or ("outside" if surface == OUTSIDE else "wall")
    now = _checked_diameter(plan, of, surface, reading_mm, measured, outside_mm)
    wanted = plan.order.ring.outside_diameter_mm if surface == OUTSIDE else plan.order.bore_of(ring)
    offset = round(measured.offset_mm + now - (measured.material_diameter_after_mm or 0.0), 6)
    order = _with_offset(plan.order, surface, offset)
    left = (now - wanted if surface == OUTSIDE else wanted - now) / 2.0
    verdict, counts = _what_is_left(order, surface, measured, left, wanted)
    fresh = finishing(
        order,
        surface,
        ring,
        start_steps=measured.steps or 0,
        counts=counts,
        measure=verdict == MEASURE_AGAIN,
        start_diameter_mm=now,
    )
    changed = replace(plan, order=order, measured_mm=(*plan.measured_mm, (measured.n, round(now, 6))))
    past = verdict == PAST
    wall = plan.order.ring.wall_mm
    return Correction(
        plan=changed if past else _with_passes(changed, order, operation, ring, measured.n, fresh),
        verdict=verdict,
        tool=measured.tool or 0,
        offset_mm=offset,
        left_mm=round(left, 6),
        words=_words(verdict, surface, left, offset, measured, fresh),
        ways_out=_ways_out(plan, surface, now) if past else (),
        same_wall_bore_mm=round(now - 2.0 * wall, 4) if past and surface == OUTSIDE else None,
    )


def keep_the_wall(plan: Plan, *, outside_mm: float) -> Plan:
    """The way out of an outside that came out small: the bore smaller by the same amount, the wall as it was.

    `outside_mm` is the outside as measured; no more is cut there. Raises TurningWrong as `plan` does.
    """
    old = plan.order.ring
    ring = replace(old, outside_diameter_mm=outside_mm, bore_mm=round(outside_mm - 2.0 * old.wall_mm, 6))
    order = replace(plan.order, ring=ring)
    last = max(plan.read_after, default=0)
    done = [one for one in plan.passes if one.n <= last]
    fresh = [
        one for one in build(order) if (one.operation, one.ring) not in {(p.operation, p.ring) for p in done}
    ]
    if any(one.operation == "rough_bore" and one.ring == 1 for one in done):
        start = [one for one in done if one.operation == "rough_bore"][-1].steps or 0
        frame = order.frame(BORE)
        total = (frame.steps_at(ring.bore_mm) - start) * frame.cut_sense
        each = total // 3
        cuts = finishing(order, BORE, 1, start_steps=start, counts=(total - 2 * each, each, each))
        before = plan.of("finish_bore")[0].before
        cuts[0] = replace(cuts[0], before=before)
        fresh = [*cuts, *(one for one in fresh if one.operation != "finish_bore" or one.ring > 1)]
    return replace(plan, order=order, passes=numbered([*done, *fresh]))


def _measured_pass(plan: Plan, operation: str, ring: int) -> Pass:
    if operation not in ("finish_outside", "finish_bore"):
        raise TurningWrong(f"operation is {operation!r}; a reading corrects finish_outside or finish_bore")
    waiting = [one for one in plan.of(operation, ring) if one.measure and one.n not in plan.read_after]
    if not waiting:
        raise TurningWrong(f"no pass of {operation} on ring {ring} waits for a reading")
    return waiting[0]


def _diameter_now(
    plan: Plan, of: str, surface: str, reading_mm: float, ring: int, outside_mm: float | None
) -> float:
    """The diameter that counts: for a wall, the bore that this wall means beside the wanted outside."""
    if (surface == OUTSIDE) != (of == "outside") or of not in ("outside", "wall", "bore"):
        raise TurningWrong(f"{of!r} was read; the outside is corrected by outside, the bore by wall or bore")
    order = plan.order
    if of == "outside":
        return reading_mm
    if of == "wall":
        wanted_wall = (order.ring.outside_diameter_mm - order.bore_of(ring)) / 2.0
        return order.bore_of(ring) - 2.0 * (reading_mm - wanted_wall)
    outside = order.ring.outside_diameter_mm if outside_mm is None else outside_mm
    return reading_mm - (outside - order.ring.outside_diameter_mm)


def _checked_diameter(
    plan: Plan, of: str, surface: str, reading_mm: float, measured: Pass, outside_mm: float | None
) -> float:
    """The diameter that a reading means; a reading far from the promise is refused as a slip."""
    now = _diameter_now(plan, of, surface, reading_mm, measured.ring, outside_mm)
    promised = measured.material_diameter_after_mm or 0.0
    if not math.isfinite(now) or abs(now - promised) > FARTHEST_OFF_MM:
        expected = (plan.order.ring.outside_diameter_mm - promised) / 2.0 if of == "wall" else promised
        raise TurningWrong(
            f"{of} reads {reading_mm:.3f} mm; {expected:.3f} mm was expected within "
            f"{FARTHEST_OFF_MM:g} mm on the diameter: measure again, spindle stopped"
        )
    return now


def _what_is_left(
    order: Order, surface: str, measured: Pass, left: float, wanted: float
) -> tuple[str, tuple[int, ...]]:
    """The verdict and the passes left, in steps."""
    limit = order.outside_limit_mm / 2.0 if surface == OUTSIDE else order.wall_limit_mm
    frame = order.frame(surface)
    total = (frame.steps_at(wanted) - (measured.steps or 0)) * frame.cut_sense
    if left < -limit:
        return PAST, ()
    if left <= limit or total <= 0:
        return ON_SIZE, ()
    least, depth = order.data.least_depth, measured.cut_depth_mm or order.data.finish_depth
    if left < least - 1e-9:
        return THIN_CUT, (total,)
    if abs(left - depth) <= SAME_DEPTH_WITHIN_MM or left < 2.0 * least:
        return GO_ON, (total,)
    parts = max(2, round(left / depth))
    while left / parts < least and parts > 1:
        parts -= 1
    each = total // parts
    return MEASURE_AGAIN, (total - each * (parts - 1), *(each,) * (parts - 1))


def _with_offset(order: Order, surface: str, offset_mm: float) -> Order:
    tool = order.turning if surface == OUTSIDE else order.boring
    return replace(
        order, offsets_mm=tuple(sorted({**dict(order.offsets_mm), tool.number: offset_mm}.items()))
    )


def _with_passes(plan: Plan, order: Order, operation: str, ring: int, after: int, fresh: list[Pass]) -> Plan:
    """The passes up to the reading, the corrected ones, the rest of this ring, and the spares anew."""
    done = [one for one in plan.passes if one.n <= after]
    rest = [one for one in plan.passes if one.n > after and one.operation != operation and one.ring <= ring]
    later = [one for each in range(ring + 1, order.rings + 1) for one in ring_after(order, each)]
    return replace(plan, order=order, passes=numbered([*done, *fresh, *rest, *later]))


def _ways_out(plan: Plan, surface: str, now: float) -> tuple[str, ...]:
    if surface == BORE:
        return WAYS_OUT_BORE
    ring = plan.order.ring
    return (smaller_bore(wall_mm=ring.wall_mm, bore_mm=now - 2.0 * ring.wall_mm), *WAYS_OUT_OUTSIDE)


def _words(
    verdict: str, surface: str, left: float, offset: float, measured: Pass, fresh: list[Pass]
) -> tuple[str, ...]:
    side = "outside is too small" if surface == OUTSIDE else "bore is too big"
    said = [
        f"tool {measured.tool} leaves {offset:+.3f} mm over its figure on the diameter; kept for "
        f"the next ring"
    ]
    if verdict == PAST:
        return (f"STOP: the {side} already, by {-left:.3f} mm on the radius; nothing more is cut", *said)
    if verdict == ON_SIZE:
        return ("on size: no further pass", *said)
    said.insert(0, f"{left:.3f} mm left on the radius")
    said.extend(one.reading_text for one in fresh[:1])
    if verdict == THIN_CUT:
        said.append("a thin cut: the keenest edge, or it rubs instead of cutting")
    if verdict == MEASURE_AGAIN:
        said.append("further off than usual: equal passes, and measure again before the last")
    return tuple(said)
