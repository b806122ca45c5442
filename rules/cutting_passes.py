"""The passes of each operation, in the order in which they are cut.

Invariant: each function gives the passes of one operation on one ring; together they leave the ring's height,
dressing allowance and both diameters. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from rules.cutting_words import kept_offset, tool_in
from rules.equipment import Tool
from rules.passes import Order, Pass
from rules.readout import BORE, OUTSIDE, CrossFrame, figure, long_shows, long_target, long_words
from rules.schedule import (
    boring_depth_limit,
    cutting_minutes,
    finish_steps,
    nearest_speed,
    rough_steps,
    spindle_rpm,
    turning_depth_limit,
)
from rules.stock import FIRST_FACING_MM, NEXT_FACING_MM

OUTSIDE_ALLOWANCE_MM = 0.4
BORE_ALLOWANCE_MM = 0.6
CENTRE_DEEP_MM = 1.5
DRESS_MINUTES = 3.0
CENTRE_MINUTES = 0.2
MOST_OF_WALL_CHAMFERED = 0.6


def numbered(passes: Iterable[Pass], first: int = 1) -> tuple[Pass, ...]:
    """The passes numbered in their order."""
    return tuple(replace(one, n=n) for n, one in enumerate(passes, start=first))


def build(order: Order) -> list[Pass]:
    """All passes of all rings, still without numbers."""
    passes = [*face(order, 1), *rough_outside(order)]
    hole = [*centre_and_drill(order, 1), *rough_bore(order, 1), rest(order, 1)]
    outside = finish_outside(order)
    passes += [rest(order, 1), *outside, *hole] if order.outside_first else [*hole, *outside]
    passes += finish_bore(order, 1) + part_off(order, 1)
    for ring in range(2, order.rings + 1):
        passes += ring_after(order, ring)
    return passes


def ring_after(order: Order, ring: int) -> list[Pass]:
    """A spare: its outside is already turned."""
    return [
        *face(order, ring),
        *centre_and_drill(order, ring),
        *rough_bore(order, ring),
        rest(order, ring),
        *finish_bore(order, ring),
        *part_off(order, ring),
    ]


def face(order: Order, ring: int) -> list[Pass]:
    """Clean the end; the long slide counts from it."""
    depth = FIRST_FACING_MM if ring == 1 else NEXT_FACING_MM
    diameter = order.bar.diameter_mm if ring == 1 else order.ring.outside_diameter_mm
    hollow = 0.0 if ring == 1 else order.bore_of(ring - 1)
    rpm = _speed(order, order.data.rough_speed, diameter)
    text = f"face: clean the end, {depth:.2f} deep, then set the long slide to 0"
    return [
        Pass(
            n=0,
            operation="face",
            ring=ring,
            tool=order.turning.number,
            rpm=rpm,
            axis="long",
            reading_text=text,
            shows=long_shows(order.lathe.long),
            target_mm=0.0,
            cut_depth_mm=depth,
            material_diameter_after_mm=round(diameter, 6),
            feed_mm=order.data.rough_feed,
            minutes=_minutes((diameter - hollow) / 2.0, order.data.rough_feed, rpm),
            before=() if ring == 1 else (tool_in(order.turning),),
            cautions=("spindle", "eyes", "bar_behind_spindle") if ring == 1 else ("spindle",),
        )
    ]


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
    return _with_setting(
        passes, order, frame, order.turning, order.bar.diameter_mm, again=False, new_tool=False
    )


def finish_outside(order: Order) -> list[Pass]:
    """Equal passes; measured before the last."""
    frame = order.frame(OUTSIDE)
    last = frame.steps_at(order.ring.outside_diameter_mm)
    counts = _finish(order, OUTSIDE)
    start = last - frame.cut_sense * sum(counts)
    passes = finishing(order, OUTSIDE, 1, start_steps=start, counts=counts)
    touched = frame.diameter_at(start)
    new_tool = not order.outside_first
    return _with_setting(passes, order, frame, order.turning, touched, again=True, new_tool=new_tool)


def centre_and_drill(order: Order, ring: int) -> list[Pass]:
    """From the tailstock: a centre, then the hole for the boring bar, to full width as deep as the ring needs."""
    drill = order.drill_mm
    tip = order.bore_depth_mm + 0.3 * drill
    rpm = _speed(order, order.data.drill_speed, drill)
    common = {"n": 0, "ring": ring, "tool": None, "rpm": rpm, "axis": "tailstock", "shows": None}
    return [
        Pass(
            operation="centre",
            reading_text=f"centre: centre drill in the tailstock, {CENTRE_DEEP_MM:.1f} deep",
            target_mm=CENTRE_DEEP_MM,
            minutes=CENTRE_MINUTES,
            before=("spindle stopped: tool post clear of the tailstock",),
            **common,  # type: ignore[arg-type]
        ),
        Pass(
            operation="drill",
            reading_text=f"drill: {drill:.1f} mm drill, point {tip:.1f} deep; draw it out often, clear at standstill",
            target_mm=round(tip, 6),
            material_diameter_after_mm=drill,
            feed_mm=order.data.drill_feed,
            minutes=_minutes(tip, order.data.drill_feed, rpm),
            cautions=_swarf(order),
            **common,  # type: ignore[arg-type]
        ),
    ]


def rough_bore(order: Order, ring: int) -> list[Pass]:
    """From the drilled hole to the finishing allowance, no deeper than the ring needs."""
    frame = order.frame(BORE)
    last = frame.steps_at(order.bore_of(ring))
    rough_end = last - frame.cut_sense * sum(_finish(order, BORE))
    limit = boring_depth_limit(data=order.data, tool=order.boring)
    passes = _roughing(
        order, frame, order.boring, ring, order.drill_mm, rough_end, limit, order.bore_depth_mm
    )
    return _with_setting(passes, order, frame, order.boring, order.drill_mm, again=ring > 1, new_tool=True)


def finish_bore(order: Order, ring: int) -> list[Pass]:
    """Equal passes; the wall is measured over the open end before the last."""
    frame = order.frame(BORE)
    last = frame.steps_at(order.bore_of(ring))
    counts = _finish(order, BORE)
    start = last - frame.cut_sense * sum(counts)
    passes = finishing(order, BORE, ring, start_steps=start, counts=counts)
    new_tool = ring == 1 and not order.outside_first
    return _with_setting(
        passes, order, frame, order.boring, frame.diameter_at(start), again=True, new_tool=new_tool
    )


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
    rpm = _speed(order, order.data.finish_speed, final)
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


def rest(order: Order, ring: int) -> Pass:
    """Let the work cool before anything is finished or measured."""
    minutes = order.data.rest_minutes
    return Pass(
        n=0,
        operation="rest",
        ring=ring,
        tool=None,
        rpm=None,
        axis=None,
        reading_text=f"rest: spindle stopped, {minutes:g} minutes, until the work is as cool as the room",
        shows=None,
        target_mm=None,
        minutes=minutes,
        cautions=_swarf(order),
    )


def part_off(order: Order, ring: int) -> list[Pass]:
    """Both chamfers, parting and dressing."""
    passes = _entry_chamfer(order, ring)
    passes += _lower_chamfer(order, ring, first=not passes)
    return [*passes, _parting(order, ring), _dressing(order, ring)]


def _entry_chamfer(order: Order, ring: int) -> list[Pass]:
    long, wanted = order.lathe.long, order.ring.chamfer_mm
    if wanted <= 0.0:
        return []
    whole = max(long.step_mm, long_target(long, wanted, up=False))
    rpm = _speed(order, order.data.part_speed, order.bore_of(ring))
    parts = max(1, math.ceil(whole / order.data.largest_boring_depth - 1e-9))
    targets = [long_target(long, whole * (at + 1) / parts, up=False) for at in range(parts)]
    return [
        Pass(
            n=0,
            operation="chamfer",
            ring=ring,
            tool=order.chamfer.number,
            rpm=rpm,
            axis="long",
            reading_text=f"chamfer: from the touched edge of the bore {long_words(long, target)}",
            shows=long_shows(long),
            target_mm=target,
            cut_depth_mm=round(target - before, 6),
            material_diameter_after_mm=round(order.bore_of(ring) + 2.0 * target, 6),
            feed_mm=order.data.part_feed,
            minutes=_minutes(target - before, order.data.part_feed, rpm),
            before=(
                tool_in(order.chamfer),
                "touch the bore's open edge with it: the long slide counts from there",
            )
            if before == 0.0
            else (),
        )
        for before, target in zip([0.0, *targets], targets, strict=False)
    ]


def _lower_chamfer(order: Order, ring: int, *, first: bool) -> list[Pass]:
    wanted, wall = order.ring.lower_chamfer_mm, order.ring.wall_mm
    deep = wanted + order.dressing_mm
    if wanted <= 0.0 or deep > MOST_OF_WALL_CHAMFERED * wall:
        return []
    outside = order.ring.outside_diameter_mm
    frame = CrossFrame(axis=order.lathe.cross, surface=OUTSIDE, zero_diameter_mm=outside)
    steps = frame.steps_at(outside - 2.0 * deep)
    after = frame.diameter_at(steps)
    at = long_words(
        order.lathe.long, long_target(order.lathe.long, order.ring.height_mm + order.dressing_mm, up=True)
    )
    rpm = _speed(order, order.data.part_speed, outside)
    depth = (outside - after) / 2.0
    change = (tool_in(order.chamfer),) if first else ()
    return [
        Pass(
            n=0,
            operation="lower_chamfer",
            ring=ring,
            tool=order.chamfer.number,
            rpm=rpm,
            axis="cross",
            reading_text=frame.sentence(steps, f"lower edge, point {at} from the face"),
            shows=frame.shows,
            target_mm=frame.shown_at(steps),
            zero_diameter_mm=None if frame.is_absolute else outside,
            steps=steps,
            cut_depth_mm=round(depth, 6),
            material_diameter_after_mm=after,
            feed_mm=order.data.part_feed,
            minutes=_minutes(depth, order.data.part_feed, rpm),
            before=(*change, frame.touch_words(outside, again=False)),
        )
    ]


def _parting(order: Order, ring: int) -> Pass:
    long, blade = order.lathe.long, order.parting.blade_mm
    target = long_target(long, order.ring.height_mm + order.dressing_mm + blade, up=True)
    rpm = _speed(order, order.data.part_speed, order.ring.outside_diameter_mm)
    return Pass(
        n=0,
        operation="part",
        ring=ring,
        tool=order.parting.number,
        rpm=rpm,
        axis="long",
        reading_text=f"part: {long_words(long, target)}, then in to the bore; the ring drops on the rod",
        shows=long_shows(long),
        target_mm=target,
        material_diameter_after_mm=round(order.bore_of(ring), 6),
        feed_mm=order.data.part_feed,
        minutes=_minutes(order.ring.wall_mm, order.data.part_feed, rpm),
        before=(
            tool_in(order.parting),
            "touch the face with the blade's side that looks to the chuck: set the long slide to 0",
            f"the figure holds the blade, {figure(blade, long.step_mm)} mm, on the chuck's side of the cut",
            "smooth rod in the tailstock, loose in the bore, to catch the ring; nothing is held by hand",
        ),
        cautions=("parting_catch", *_swarf(order)),
    )


def _dressing(order: Order, ring: int) -> Pass:
    height = order.ring.height_mm
    return Pass(
        n=0,
        operation="dress",
        ring=ring,
        tool=None,
        rpm=None,
        axis=None,
        reading_text=f"dress: parted face on fine paper on a flat plate, to {height:.2f} high at four places",
        shows=None,
        target_mm=height,
        cut_depth_mm=order.dressing_mm,
        minutes=DRESS_MINUTES,
        cautions=("no_emery_by_hand",),
    )


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
    counts = rough_steps(total_steps=whole, first_fraction_mm=fraction, step_mm=step, limit_mm=limit_mm)
    outside = frame.surface == OUTSIDE
    largest = start_mm if outside else frame.diameter_at(end)
    rpm = _speed(order, order.data.rough_speed, largest)
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
        zero_diameter_mm=None if frame.is_absolute else frame.zero_diameter_mm,
        offset_mm=frame.offset_mm,
        steps=steps,
        cut_depth_mm=round(abs(before_mm - after) / 2.0, 6),
        material_diameter_after_mm=after,
        feed_mm=feed_mm,
        minutes=_minutes(length_mm, feed_mm, rpm),
        cautions=_swarf(order) if operation.startswith("rough") else (),
    )


def _with_setting(
    passes: list[Pass],
    order: Order,
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
    step = order.lathe.cross.step_on_diameter_mm
    allowance, least = (OUTSIDE_ALLOWANCE_MM, 2) if surface == OUTSIDE else (BORE_ALLOWANCE_MM, 3)
    return finish_steps(step_mm=step, allowance_mm=allowance, data=order.data, least_passes=least)


def _outside_length(order: Order) -> float:
    return order.stock.used_mm + 0.5


def _speed(order: Order, speed_m_per_min: float, diameter_mm: float) -> float:
    wanted = spindle_rpm(speed_m_per_min=speed_m_per_min, diameter_mm=diameter_mm)
    return nearest_speed(lathe=order.lathe, wanted_rpm=wanted)


def _minutes(length_mm: float, feed_mm: float, rpm: float) -> float:
    return round(cutting_minutes(length_mm=length_mm, feed_mm=feed_mm, rpm=rpm), 3)


def _swarf(order: Order) -> tuple[str, ...]:
    more = {"acetal": ("acetal_smoulder",), "ptfe": ("ptfe_smoke",)}.get(order.data.plastic, ())
    return ("swarf_hook", *more)
