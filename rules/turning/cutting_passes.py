"""The passes of each operation, in the order in which they are cut.

Invariant: each function gives the passes of one operation on one ring; together they leave the ring's height,
dressing allowance and both diameters. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from rules.turning import operations
from rules.turning.cutting_words import tool_in
from rules.turning.parting_passes import part_off
from rules.turning.passes import Order, Pass
from rules.turning.readout import CARRIAGE_ZERO, carriage_shows
from rules.turning.schedule import cutting_minutes
from rules.turning.stock import FIRST_FACING_MM, NEXT_FACING_MM
from rules.turning.surface_passes import finishing, roughing, speed, swarf_cautions

CENTRE_DEEP_MM = 1.5
CENTRE_MINUTES = 0.2
POINT_OF_DRILL = 0.3
"""Length of a drill's point in its diameters, 118 degrees."""


def numbered(passes: Iterable[Pass], first: int = 1) -> tuple[Pass, ...]:
    """The passes numbered in their order."""
    return tuple(replace(one, n=n) for n, one in enumerate(passes, start=first))


def build(order: Order) -> list[Pass]:
    """All passes of all rings, still without numbers."""
    passes = [
        *face(order, 1),
        *roughing(order, operations.ROUGH_OUTSIDE),
        *centre_and_drill(order, 1),
        *roughing(order, operations.ROUGH_BORE),
        rest(order, 1),
        *finishing(order, operations.FINISH_OUTSIDE),
        *finishing(order, operations.FINISH_BORE),
        *part_off(order, 1),
    ]
    for ring in range(2, order.rings + 1):
        passes += ring_after(order, ring)
    return passes


def ring_after(order: Order, ring: int) -> list[Pass]:
    """A spare: its outside is already turned."""
    return [
        *face(order, ring),
        *centre_and_drill(order, ring),
        *roughing(order, operations.ROUGH_BORE, ring),
        rest(order, ring),
        *finishing(order, operations.FINISH_BORE, ring),
        *part_off(order, ring),
    ]


def face(order: Order, ring: int) -> list[Pass]:
    """Clean the end; the carriage counts from it."""
    depth = FIRST_FACING_MM if ring == 1 else NEXT_FACING_MM
    diameter = order.bar.diameter_mm if ring == 1 else order.ring.outside_diameter_mm
    hollow = 0.0 if ring == 1 else order.bore_of(ring - 1)
    rpm = speed(order, order.data.rough_speed, diameter)
    text = f"face: {depth:.2f} off; {CARRIAGE_ZERO}"
    return [
        Pass(
            n=0,
            operation=operations.FACE,
            ring=ring,
            tool=order.turning.number,
            rpm=rpm,
            axis="long",
            reading_text=text,
            shows=carriage_shows(order.lathe.carriage),
            target_mm=0.0,
            cut_depth_mm=depth,
            material_diameter_after_mm=round(diameter, 6),
            feed_mm=order.data.rough_feed,
            minutes=cutting_minutes(
                length_mm=(diameter - hollow) / 2.0, feed_mm=order.data.rough_feed, rpm=rpm
            ),
            before=() if ring == 1 else (tool_in(order.lathe, order.turning),),
            cautions=("spindle", "eyes", "bar_behind_spindle") if ring == 1 else ("spindle",),
        )
    ]


def centre_and_drill(order: Order, ring: int) -> list[Pass]:
    """From the tailstock: a centre, then the hole for the boring bar, full width as deep as needed."""
    drill = order.drill_mm
    tip = order.bore_depth_mm + POINT_OF_DRILL * drill
    rpm = speed(order, order.data.drill_speed, drill)
    common = {"n": 0, "ring": ring, "tool": None, "rpm": rpm, "axis": "tailstock", "shows": None}
    return [
        Pass(
            operation=operations.CENTRE,
            reading_text=f"centre drill: go to {CENTRE_DEEP_MM:.1f}, length, from the tailstock",
            target_mm=CENTRE_DEEP_MM,
            minutes=CENTRE_MINUTES,
            before=("spindle stopped: tool post clear",),
            **common,  # type: ignore[arg-type]
        ),
        Pass(
            operation=operations.DRILL,
            reading_text=f"drill of {drill:.1f} mm: go to {tip:.1f}, length, at its point; draw it out often",
            target_mm=round(tip, 6),
            material_diameter_after_mm=drill,
            feed_mm=order.data.drill_feed,
            minutes=cutting_minutes(length_mm=tip, feed_mm=order.data.drill_feed, rpm=rpm),
            cautions=swarf_cautions(order.data.plastic),
            **common,  # type: ignore[arg-type]
        ),
    ]


def rest(order: Order, ring: int) -> Pass:
    """Let the work cool before anything is finished or measured."""
    minutes = order.data.rest_minutes
    return Pass(
        n=0,
        operation=operations.REST,
        ring=ring,
        tool=None,
        rpm=None,
        axis=None,
        reading_text=f"rest: spindle stopped, {minutes:g} minutes, until the work is as cool as the room",
        shows=None,
        target_mm=None,
        minutes=minutes,
        cautions=swarf_cautions(order.data.plastic),
    )
