"""Roughing and finishing of the two diameters of a ring.

Invariant: depths never grow from pass to pass, the last passes are equal, and every target is a whole
number of
the slide's steps. Lengths in mm.
"""

from __future__ import annotations

import math
from dataclasses import replace

from rules.equipment import Tool
from rules.turning.cutting_words import kept_offset, tool_in
from rules.turning.passes import Order, Pass
from rules.turning.readout import BORE, OUTSIDE, CrossFrame
from rules.turning.schedule import (
    boring_depth_limit,
    cutting_minutes,
    finish_steps,
    finishing_depth,
    nearest_speed,
    rough_steps,
    spindle_rpm,
    turning_depth_limit,
)

OUTSIDE_ALLOWANCE_MM = 0.4
BORE_ALLOWANCE_MM = 0.6
"""Left for finishing, on the diameter. Common practice, no source."""


def rough_outside(order: Order) -> list[Pass]:
    """The whole length of all rings, down to the finishing allowance."""
    frame = order.frame(OUTSIDE)
    last = frame.steps_at(order.ring.outside_diameter_mm)
    rough_end = last - frame.cut_sense * sum(_finish(order, OUTSIDE))
    limit = turning_depth_limit(
        data=order.data, diameter_mm=order.bar.diameter_mm, stick_out_mm=order.stock.stick_out_mm
    )
    passes = _roughing(
        order, frame, order.turning, 1, order.bar.diameter_mm, rough_end, limit, _outside_length(order)
    )
    return _with_setting(passes, frame, order.turning, order.bar.diameter_mm, again=False, new_tool=False)


def finish_outside(order: Order) -> list[Pass]:
    """Equal passes; measured before the last."""
    frame = order.frame(OUTSIDE)
    last = frame.steps_at(order.ring.outside_diameter_mm)
    counts = _finish(order, OUTSIDE)
    start = last - frame.cut_sense * sum(counts)
    passes = finishing(order, OUTSIDE, 1, start_steps=start, counts=counts)
    touched = frame.diameter_at(start)
    new_tool = not order.outside_first
    return _with_setting(passes, frame, order.turning, touched, again=True, new_tool=new_tool)


def rough_bore(order: Order, ring: int) -> list[Pass]:
    """From the drilled hole to the finishing allowance, no deeper than the ring needs."""
    frame = order.frame(BORE)
    last = frame.steps_at(order.bore_of(ring))
    rough_end = last - frame.cut_sense * sum(_finish(order, BORE))
    limit = boring_depth_limit(data=order.data, tool=order.boring)
    passes = _roughing(
        order, frame, order.boring, ring, order.drill_mm, rough_end, limit, order.bore_depth_mm
    )
    return _with_setting(passes, frame, order.boring, order.drill_mm, again=ring > 1, new_tool=True)


def finish_bore(order: Order, ring: int) -> list[Pass]:
    """Equal passes; the wall is measured over the open end before the last."""
    frame = order.frame(BORE)
    last = frame.steps_at(order.bore_of(ring))
    counts = _finish(order, BORE)
    start = last - frame.cut_sense * sum(counts)
    passes = finishing(order, BORE, ring, start_steps=start, counts=counts)
    new_tool = ring == 1 and not order.outside_first
    return _with_setting(passes, frame, order.boring, frame.diameter_at(start), again=True, new_tool=new_tool)


def finishing(
    order: Order,
    surface: str,
    ring: int,
    *,
    start_steps: int,
    counts: tuple[int, ...],
    measure: bool = True,
    start_diameter_mm: float | None = None,
) -> list[Pass]:
    """Finishing passes of these numbers of steps; `measure` asks for a reading before the last."""
    frame = order.frame(surface)
    operation, tool, length, name = (
        ("finish_outside", order.turning, _outside_length(order), "outside")
        if surface == OUTSIDE
        else ("finish_bore", order.boring, order.bore_depth_mm, "bore")
    )
    final = order.ring.outside_diameter_mm if surface == OUTSIDE else order.bore_of(ring)
    rpm = speed(order, order.data.finish_speed, final)
    passes, at = [], start_steps
    before_mm = frame.diameter_at(at) if start_diameter_mm is None else start_diameter_mm
    for position, count in enumerate(counts):
        at += frame.cut_sense * count
        one = _cut(
            order, frame, operation, tool, ring, at, before_mm, rpm, order.data.finish_feed, length, name
        )
        if measure and position == len(counts) - 2:
            one = replace(one, measure="outside" if surface == OUTSIDE else "wall", cautions=("spindle",))
        before_mm = one.material_diameter_after_mm or 0.0
        passes.append(one)
    return passes


def _roughing(
    order: Order,
    frame: CrossFrame,
    tool: Tool,
    ring: int,
    start_mm: float,
    end: int,
    limit_mm: float,
    length_mm: float,
) -> list[Pass]:
    """Falling depths from a diameter that need not lie on the grid to a count of steps that does."""
    step = frame.step_on_diameter_mm
    to_take = abs(start_mm - frame.diameter_at(end))
    whole = math.floor(to_take / step + 1e-9)
    fraction = max(0.0, to_take - whole * step)
    each = _finish(order, frame.surface)[0]
    counts = rough_steps(
        total_steps=whole,
        first_fraction_mm=fraction,
        step_mm=step,
        limit_mm=max(limit_mm, (each + 0.5) * step),
        finish_step=each,
    )
    outside = frame.surface == OUTSIDE
    largest = start_mm if outside else frame.diameter_at(end)
    rpm = speed(order, order.data.rough_speed, largest)
    at, before_mm, passes = end - frame.cut_sense * whole, start_mm, []
    operation, name = ("rough_outside", "outside") if outside else ("rough_bore", "bore")
    for count in counts:
        at += frame.cut_sense * count
        one = _cut(
            order, frame, operation, tool, ring, at, before_mm, rpm, order.data.rough_feed, length_mm, name
        )
        before_mm = one.material_diameter_after_mm or 0.0
        passes.append(one)
    return passes


def _cut(
    order: Order,
    frame: CrossFrame,
    operation: str,
    tool: Tool,
    ring: int,
    steps: int,
    before_mm: float,
    rpm: float,
    feed_mm: float,
    length_mm: float,
    name: str,
) -> Pass:
    after = frame.diameter_at(steps)
    return Pass(
        n=0,
        operation=operation,
        ring=ring,
        tool=tool.number,
        rpm=rpm,
        axis="cross",
        reading_text=frame.sentence(steps, name),
        shows=frame.shows,
        target_mm=frame.shown_at(steps),
        figure_text=frame.figure_at(steps),
        zero_diameter_mm=None if frame.is_absolute else frame.zero_diameter_mm,
        offset_mm=frame.offset_mm,
        steps=steps,
        cut_depth_mm=round(abs(before_mm - after) / 2.0, 6),
        material_diameter_after_mm=after,
        feed_mm=feed_mm,
        minutes=minutes_of(length_mm, feed_mm, rpm),
        cautions=swarf_cautions(order) if operation.startswith("rough") else (),
    )


def _with_setting(
    passes: list[Pass],
    frame: CrossFrame,
    tool: Tool,
    touched_mm: float,
    *,
    again: bool,
    new_tool: bool,
) -> list[Pass]:
    """The first pass of an operation carries the tool change and the touching off."""
    if not passes:
        return []
    words = [tool_in(tool)] if new_tool else []
    if frame.offset_mm:
        words.append(kept_offset(tool, frame.offset_mm))
    else:
        words.append(frame.touch_words(touched_mm, again))
    if frame.backlash_words() and not again:
        words.append(frame.backlash_words())
    return [replace(passes[0], before=tuple(words)), *passes[1:]]


def _finish(order: Order, surface: str) -> tuple[int, ...]:
    tool, allowance, passes = (
        (order.turning, OUTSIDE_ALLOWANCE_MM, 2)
        if surface == OUTSIDE
        else (order.boring, BORE_ALLOWANCE_MM, 3)
    )
    return finish_steps(
        step_mm=order.lathe.cross.step_on_diameter_mm,
        depth_mm=finishing_depth(data=order.data, tool=tool),
        allowance_mm=allowance,
        least_mm=order.data.least_depth,
        least_passes=passes,
    )


def _outside_length(order: Order) -> float:
    return order.stock.used_mm + 0.5


def speed(order: Order, speed_m_per_min: float, diameter_mm: float) -> float:
    """The lathe's own speed for a cutting speed at a diameter, rpm."""
    wanted = spindle_rpm(speed_m_per_min=speed_m_per_min, diameter_mm=diameter_mm)
    return nearest_speed(lathe=order.lathe, wanted_rpm=wanted)


def minutes_of(length_mm: float, feed_mm: float, rpm: float) -> float:
    """Time of one pass, minutes."""
    return round(cutting_minutes(length_mm=length_mm, feed_mm=feed_mm, rpm=rpm), 3)


def swarf_cautions(order: Order) -> tuple[str, ...]:
    """Keys of the cautions about swarf of this plastic."""
    more = {"acetal": ("acetal_smoulder",), "ptfe": ("ptfe_smoke",)}.get(order.data.plastic, ())
    return ("swarf_hook", *more)
