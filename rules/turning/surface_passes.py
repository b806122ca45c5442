"""Roughing and finishing of the two diameters of a ring.

Invariant: depths never grow from pass to pass, the last are equal, targets are whole steps of the slide.
"""

from __future__ import annotations

from dataclasses import replace

from rules.turning import operations
from rules.turning.cutting_words import FACE_TOUCH, SHORT_OF_FLOOR, kept_offset, tool_in
from rules.turning.order import Order
from rules.turning.passes import Pass
from rules.turning.run import Run
from rules.turning.schedule import (
    rough_steps,
)


def roughing(order: Order, operation: str, ring: int = 1, begun_mm: float | None = None) -> list[Pass]:
    """Falling depths down to the finishing allowance: the whole length outside, one ring deep in the bore.

    They start on a diameter that need not lie on the cross slide's grid
    and end on a whole number of its steps.
    """
    run = Run(order, operation, ring, begun_mm)
    frame, end = run.frame, run.roughed_steps
    counts = rough_steps(
        to_take_mm=abs(run.start_mm - frame.diameter_at(end)),
        step_mm=frame.step_on_diameter_mm,
        limit_mm=run.depth_limit_mm,
        finish_step=run.finish_counts[0],
    )
    passes = run.cuts(end - frame.cut_sense * sum(counts), counts, run.start_mm)
    if operation == operations.ROUGH_BORE and order.ring.foot_mm:  # the tool stays in, as it is set
        return [replace(one, before=(SHORT_OF_FLOOR,)) if at == 0 else one for at, one in enumerate(passes)]
    return _with_setting(run, passes, run.start_mm, again=ring > 1, new_tool=not run.is_outside)


def finishing(order: Order, operation: str, ring: int = 1) -> list[Pass]:
    """Equal passes; the outside, or the wall over the open end, is measured before the last."""
    run = Run(order, operation, ring)
    passes = finishing_cuts(run, run.roughed_steps, run.finish_counts)
    return _with_setting(
        run, passes, run.frame.diameter_at(run.roughed_steps), again=True, new_tool=ring == 1
    )


def finishing_cuts(
    run: Run,
    start_steps: int,
    counts: tuple[int, ...],
    *,
    measure: bool = True,
    start_mm: float | None = None,
) -> list[Pass]:
    """Finishing passes of these numbers of steps; `measure` asks for a reading before the last.

    `start_mm` is the diameter that stands there as measured (usual: as planned).
    """
    passes = run.cuts(
        start_steps, counts, run.frame.diameter_at(start_steps) if start_mm is None else start_mm
    )
    if measure and len(passes) > 1:
        reading = "outside" if run.is_outside else "wall"
        passes[-2] = replace(passes[-2], measure=reading, cautions=("spindle",))
    return passes


def _with_setting(
    run: Run, passes: list[Pass], touched_mm: float, *, again: bool, new_tool: bool
) -> list[Pass]:
    """The first pass of an operation carries the tool change and the touching off."""
    if not passes:
        return []
    frame, words = run.frame, [tool_in(run.order.lathe, run.tool)] if new_tool else []
    kept = frame.offset_mm and frame.is_absolute  # what counts from a touched surface is touched each time
    touch = frame.touch_words(touched_mm, again and not kept)
    words.append(kept_offset(run.order.lathe, run.tool, frame.offset_mm, touch) if kept else touch)
    words += filter(None, (frame.backlash_words(),))
    if new_tool:
        words.append(FACE_TOUCH)
    return [replace(passes[0], before=tuple(words)), *passes[1:]]
