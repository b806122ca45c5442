"""Cutting a core out of the bar with a face-grooving tool, and shortening it before the next ring.

Invariant: the outermost groove is cut first, at a diameter the tool is relieved for; the core stays on the
bar and catches the ring. Lengths in mm.
"""

from __future__ import annotations

import math
from functools import partial

from rules.equipment import Tool
from rules.lengths import length
from rules.turning import operations
from rules.turning.cutting_words import FACE_TOUCH, tool_in
from rules.turning.opening import groove_deep_mm
from rules.turning.order import Order, parted_mm
from rules.turning.passes import Pass
from rules.turning.readout import OUTSIDE, CrossFrame, beside, carriage_words
from rules.turning.run import Run, speed, swarf_cautions
from rules.turning.schedule import cutting_minutes


def core_out(order: Order, ring: int) -> list[Pass]:
    """Grooves side by side, outermost first, a little deeper than the bore."""
    tool = order.opening.tool
    if tool is None:
        return []
    touched = _touched_mm(order, ring)
    frame = CrossFrame(
        axis=order.lathe.cross, surface=OUTSIDE, zero_diameter_mm=touched + 2.0 * tool.blade_mm
    )
    carriage = order.lathe.carriage
    along = groove_deep_mm(order.lathe, order.bore_depth_mm)
    rpm = speed(order, order.data.part_speed, order.opening.grooves_mm[0])
    before = (tool_in(order.lathe, tool), *_touch_words(frame, tool, touched))
    return [
        Pass(
            n=0,
            operation=operations.CORE,
            ring=ring,
            tool=tool.number,
            rpm=rpm,
            axis="cross",
            reading_text=frame.sentence(steps, operations.CORE),
            shows=frame.shows,
            target_mm=frame.shown_at(steps),
            along_mm=along,
            along_text=f"groove along: {carriage_words(carriage, along)}; draw it out often",
            figure_text=frame.figure_at(steps),
            zero_diameter_mm=None if frame.is_absolute else frame.zero_diameter_mm,
            steps=steps,
            cut_depth_mm=tool.blade_mm,
            material_diameter_after_mm=frame.diameter_at(steps),
            feed_mm=order.data.part_feed,
            minutes=cutting_minutes(length_mm=along, feed_mm=order.data.part_feed, rpm=rpm),
            before=before if at == 0 else (),
            cautions=("face_grooving", *swarf_cautions(order.data.plastic)),
        )
        for at, steps in enumerate(_inside(frame, outer) for outer in order.opening.grooves_mm)
    ]


def _inside(frame: CrossFrame, outer_mm: float) -> int:
    """The whole number of steps whose diameter is this one or the next smaller."""
    steps = frame.steps_at(outer_mm)
    return steps + (frame.cut_sense if frame.diameter_at(steps) > outer_mm + 1e-9 else 0)


def _touched_mm(order: Order, ring: int) -> float:
    """The outside as it stands when the core is cut out: roughed, or finished with the ring before."""
    run = Run(order, operations.ROUGH_OUTSIDE)
    return run.frame.diameter_at(run.roughed_steps) if ring == 1 else order.ring.outside_diameter_mm


def _touch_words(frame: CrossFrame, tool: Tool, touched_mm: float) -> tuple[str, ...]:
    """How the slides are set, so that the cross slide shows the groove's outer diameter."""
    where = " with the blade's side nearer the middle"
    zero = frame.touch_words(frame.zero_diameter_mm, again=False, where=where, touched_mm=touched_mm)
    width = f"the width of the blade, {length(tool.blade_mm)}, is in the figures"
    return (zero, width, *filter(None, (frame.backlash_words(),)), FACE_TOUCH)


def shorten(order: Order, ring: int) -> list[Pass]:
    """Before another ring: the core of the one before is faced down to the rest of the face."""
    if order.opening.tool is None:
        return []
    across, long = order.opening.core_mm, parted_mm(order.ring, order.parting)
    cuts = math.ceil(long / order.data.largest_turning_depth - 1e-9)
    rpm = speed(order, order.data.rough_speed, across)
    said = partial(beside, order.lathe.carriage)
    once = cutting_minutes(length_mm=across / 2.0, feed_mm=order.data.rough_feed, rpm=rpm)
    return [
        Pass(
            n=0,
            operation=operations.SHORTEN_CORE,
            ring=ring,
            tool=order.turning.number,
            rpm=rpm,
            axis="long",
            reading_text=f"core: face it down, {said(long)} long, {cuts} cuts of {said(long / cuts)} at most",
            shows=None,
            target_mm=None,
            cut_depth_mm=round(long / cuts, 6),
            material_diameter_after_mm=round(across, 6),
            feed_mm=order.data.rough_feed,
            minutes=round(cuts * once, 3),
            before=(tool_in(order.lathe, order.turning),),
            cautions=("spindle",),
        )
    ]
