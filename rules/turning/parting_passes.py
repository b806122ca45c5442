"""Chamfers, parting off and dressing.

Invariant: the blade stands on the chuck's side of the cut, so that height and dressing allowance are left on
the ring; the groove of the lower chamfer is as much deeper as dressing takes off. Lengths in mm.
"""

from __future__ import annotations

import math

from rules.lengths import length
from rules.ring import Ring
from rules.turning import operations
from rules.turning.cutting_words import FACE_TOUCH, tool_in
from rules.turning.order import DRESSING_MM, Order, parted_mm
from rules.turning.passes import Pass
from rules.turning.readout import (
    CARRIAGE_ZERO,
    OUTSIDE,
    CrossFrame,
    beside,
    carriage_figure,
    carriage_shows,
    carriage_target,
    carriage_words,
)
from rules.turning.run import speed, swarf_cautions
from rules.turning.schedule import cutting_minutes

DRESS_MINUTES = 3.0
MOST_OF_WALL_GROOVED = 0.6
"""The groove of the lower chamfer never goes deeper into the wall than this part of it. Own judgement."""


def part_off(order: Order, ring: int) -> list[Pass]:
    """Both chamfers, parting and dressing."""
    passes = _entry_chamfer(order, ring)
    passes += _lower_chamfer(order, ring, first=not passes)
    return [*passes, _parting(order, ring), _dressing(order, ring)]


def _entry_chamfer(order: Order, ring: int) -> list[Pass]:
    carriage, wanted = order.lathe.carriage, order.ring.chamfer_mm
    if wanted <= 0.0:
        return []
    whole = max(carriage.step_mm, carriage_target(carriage, wanted, up=False))
    rpm = speed(order, order.data.part_speed, order.bore_of(ring))
    parts = max(1, math.ceil(whole / order.data.largest_boring_depth - 1e-9))
    targets = [carriage_target(carriage, whole * (at + 1) / parts, up=False) for at in range(parts)]
    return [
        Pass(
            n=0,
            operation=operations.CHAMFER,
            ring=ring,
            tool=order.chamfer.number,
            rpm=rpm,
            axis="long",
            reading_text=f"chamfer: {carriage_words(carriage, target)}, from the edge touched",
            shows=carriage_shows(carriage),
            target_mm=target,
            cut_depth_mm=round(target - before, 6),
            material_diameter_after_mm=round(order.bore_of(ring) + 2.0 * target, 6),
            feed_mm=order.data.part_feed,
            minutes=cutting_minutes(length_mm=target - before, feed_mm=order.data.part_feed, rpm=rpm),
            before=(
                tool_in(order.lathe, order.chamfer),
                f"touch off on the bore's open edge: {CARRIAGE_ZERO}",
            )
            if before == 0.0
            else (),
        )
        for before, target in zip([0.0, *targets], targets, strict=False)
    ]


def has_room_for_lower_chamfer(order: Order) -> bool:
    """Whether the groove that leaves the lower chamfer after dressing spares enough of the wall."""
    return order.ring.lower_chamfer_mm + DRESSING_MM <= MOST_OF_WALL_GROOVED * order.ring.wall_mm


def _lower_chamfer(order: Order, ring: int, *, first: bool) -> list[Pass]:
    deep = order.ring.lower_chamfer_mm + DRESSING_MM
    if order.ring.lower_chamfer_mm <= 0.0 or not has_room_for_lower_chamfer(order):
        return []
    outside = order.ring.outside_diameter_mm
    frame = CrossFrame(axis=order.lathe.cross, surface=OUTSIDE, zero_diameter_mm=outside)
    steps = frame.steps_at(outside - 2.0 * deep)
    after = frame.diameter_at(steps)
    carriage = order.lathe.carriage
    at = carriage_target(carriage, order.ring.height_mm + DRESSING_MM, up=True)
    rpm = speed(order, order.data.part_speed, outside)
    depth = (outside - after) / 2.0
    return [
        Pass(
            n=0,
            operation=operations.LOWER_CHAMFER,
            ring=ring,
            tool=order.chamfer.number,
            rpm=rpm,
            axis="cross",
            reading_text=frame.sentence(steps, "lower edge"),
            along_text=f"edge along: {carriage_words(carriage, at)}, point of the tool",
            shows=frame.shows,
            target_mm=frame.shown_at(steps),
            figure_text=frame.figure_at(steps),
            zero_diameter_mm=None if frame.is_absolute else outside,
            steps=steps,
            cut_depth_mm=round(depth, 6),
            material_diameter_after_mm=after,
            feed_mm=order.data.part_feed,
            minutes=cutting_minutes(length_mm=depth, feed_mm=order.data.part_feed, rpm=rpm),
            before=(*((tool_in(order.lathe, order.chamfer),) if first else ()), *_behind(order, frame)),
        )
    ]


def _behind(order: Order, frame: CrossFrame) -> tuple[str, str]:
    """The chamfer tool touches the middle of what the blade will cut away, never the ring."""
    carriage, blade = order.lathe.carriage, order.parting.blade_mm
    middle = carriage_target(carriage, parted_mm(order.ring, order.parting) - blade / 2.0, up=False)
    where = f" behind the ring at {carriage_figure(carriage, middle)}, where the blade will cut"
    return FACE_TOUCH, frame.touch_words(order.ring.outside_diameter_mm, again=False, where=where)


def _parting(order: Order, ring: int) -> Pass:
    carriage, blade = order.lathe.carriage, order.parting.blade_mm
    target = carriage_target(carriage, parted_mm(order.ring, order.parting), up=True)
    rpm = speed(order, order.data.part_speed, order.ring.outside_diameter_mm)
    catcher = "the core" if order.opening.tool else "the rod"
    hole = "the bore of the foot" if order.ring.foot_mm else "the bore"
    through = order.ring.foot_bore_mm if order.ring.foot_mm else order.bore_of(ring)
    return Pass(
        n=0,
        operation=operations.PART,
        ring=ring,
        tool=order.parting.number,
        rpm=rpm,
        axis="long",
        reading_text=(
            f"part: {carriage_words(carriage, target)}; then in to {hole}, the ring drops on {catcher}"
        ),
        shows=carriage_shows(carriage),
        target_mm=target,
        material_diameter_after_mm=round(through, 6),
        feed_mm=order.data.part_feed,
        minutes=cutting_minutes(length_mm=parted_deep(order.ring), feed_mm=order.data.part_feed, rpm=rpm),
        before=(
            tool_in(order.lathe, order.parting),
            f"touch off on the face with the side of the blade nearer the chuck: {CARRIAGE_ZERO}",
            (
                f"the width of the blade, {length(blade)}, is in the figure: "
                "it is cut away on the chuck's side"
            ),
            "the core catches the ring; nothing is held by hand"
            if order.opening.tool
            else "smooth rod in the tailstock, loose in the bore, to catch the ring; nothing is held by hand",
        ),
        cautions=("parting_catch", *swarf_cautions(order.data.plastic)),
    )


def parted_deep(ring: Ring) -> float:
    """How deep the blade goes, mm: through the wall, or through the foot."""
    return (ring.outside_diameter_mm - ring.narrowest_mm) / 2.0


def _dressing(order: Order, ring: int) -> Pass:
    foot = order.ring.foot_mm
    to = beside(order.lathe.carriage, foot or order.ring.height_mm)
    said = f"until the foot is {to} thick" if foot else f"to {to} high"
    return Pass(
        n=0,
        operation=operations.DRESS,
        ring=ring,
        tool=None,
        rpm=None,
        axis=None,
        reading_text=f"dress: parted face on fine paper on a flat plate, {said} at four places",
        shows=None,
        target_mm=foot or order.ring.height_mm,
        cut_depth_mm=DRESSING_MM,
        minutes=DRESS_MINUTES,
        cautions=("no_emery_by_hand",),
    )
