"""The passes of each operation, in the order in which they are cut.

Invariant: each function gives the passes of one operation on one ring; together they leave the ring's height,
dressing allowance and both diameters. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from rules.cutting_words import tool_in
from rules.passes import Order, Pass
from rules.readout import OUTSIDE, CrossFrame, figure, long_shows, long_target, long_words
from rules.stock import FIRST_FACING_MM, NEXT_FACING_MM
from rules.surface_passes import (
    finish_bore,
    finish_outside,
    minutes_of,
    rough_bore,
    rough_outside,
    speed,
    swarf_cautions,
)

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
    rpm = speed(order, order.data.rough_speed, diameter)
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
            minutes=minutes_of((diameter - hollow) / 2.0, order.data.rough_feed, rpm),
            before=() if ring == 1 else (tool_in(order.turning),),
            cautions=("spindle", "eyes", "bar_behind_spindle") if ring == 1 else ("spindle",),
        )
    ]


def centre_and_drill(order: Order, ring: int) -> list[Pass]:
    """From the tailstock: a centre, then the hole for the boring bar, full width as deep as needed."""
    drill = order.drill_mm
    tip = order.bore_depth_mm + 0.3 * drill
    rpm = speed(order, order.data.drill_speed, drill)
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
            reading_text=f"drill: {drill:.1f} mm drill, point {tip:.1f} deep; draw it out often",
            target_mm=round(tip, 6),
            material_diameter_after_mm=drill,
            feed_mm=order.data.drill_feed,
            minutes=minutes_of(tip, order.data.drill_feed, rpm),
            cautions=swarf_cautions(order),
            **common,  # type: ignore[arg-type]
        ),
    ]


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
        cautions=swarf_cautions(order),
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
    rpm = speed(order, order.data.part_speed, order.bore_of(ring))
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
            minutes=minutes_of(target - before, order.data.part_feed, rpm),
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
    rpm = speed(order, order.data.part_speed, outside)
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
            figure_text=frame.figure_at(steps),
            zero_diameter_mm=None if frame.is_absolute else outside,
            steps=steps,
            cut_depth_mm=round(depth, 6),
            material_diameter_after_mm=after,
            feed_mm=order.data.part_feed,
            minutes=minutes_of(depth, order.data.part_feed, rpm),
            before=(
                *change,
                frame.touch_words(outside, again=False),
                "touch the face with its point: the long slide counts from there",
            ),
        )
    ]


def _parting(order: Order, ring: int) -> Pass:
    long, blade = order.lathe.long, order.parting.blade_mm
    target = long_target(long, order.ring.height_mm + order.dressing_mm + blade, up=True)
    rpm = speed(order, order.data.part_speed, order.ring.outside_diameter_mm)
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
        minutes=minutes_of(order.ring.wall_mm, order.data.part_feed, rpm),
        before=(
            tool_in(order.parting),
            "touch the face with the blade's side that looks to the chuck: set the long slide to 0",
            f"the figure holds the blade, {figure(blade, long.step_mm)} mm, on the chuck's side of the cut",
            "smooth rod in the tailstock, loose in the bore, to catch the ring; nothing is held by hand",
        ),
        cautions=("parting_catch", *swarf_cautions(order)),
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
