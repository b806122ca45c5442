"""Chamfers, parting off and dressing.

Invariant: the blade stands on the chuck's side of the cut, so that height and dressing allowance are left on the
ring; the groove of the lower chamfer is as much deeper as dressing takes off. Lengths in mm.
"""

from __future__ import annotations

import math

from rules.turning.cutting_words import tool_in
from rules.turning.passes import Order, Pass
from rules.turning.readout import OUTSIDE, CrossFrame, figure, long_shows, long_target, long_words
from rules.turning.surface_passes import minutes_of, speed, swarf_cautions

DRESS_MINUTES = 3.0
MOST_OF_WALL_CHAMFERED = 0.6
"""The groove of the lower chamfer never goes deeper into the wall than this part of it. Own judgement."""


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


def has_room_for_lower_chamfer(order: Order) -> bool:
    """Whether the groove that leaves the lower chamfer after dressing spares enough of the wall."""
    return order.ring.lower_chamfer_mm + order.dressing_mm <= MOST_OF_WALL_CHAMFERED * order.ring.wall_mm


def _lower_chamfer(order: Order, ring: int, *, first: bool) -> list[Pass]:
    deep = order.ring.lower_chamfer_mm + order.dressing_mm
    if order.ring.lower_chamfer_mm <= 0.0 or not has_room_for_lower_chamfer(order):
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
            f"the figure holds the blade, {figure(long, blade)}, on the chuck's side of the cut",
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
