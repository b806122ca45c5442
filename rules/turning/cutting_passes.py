"""The passes of each operation, in the order in which they are cut.

Invariant: each function gives the passes of one operation on one ring; together they leave the ring's height,
dressing allowance and both diameters. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from rules.equipment import Axis
from rules.turning import operations
from rules.turning.core_passes import core_out, shorten
from rules.turning.cutting_words import tool_in
from rules.turning.drills import drill_words
from rules.turning.floor_passes import floor
from rules.turning.order import Order
from rules.turning.parting_passes import part_off
from rules.turning.passes import Pass
from rules.turning.readout import (
    CARRIAGE_ZERO,
    beside,
    carriage_figure,
    carriage_shows,
    carriage_target,
)
from rules.turning.run import speed, swarf_cautions
from rules.turning.schedule import cutting_minutes
from rules.turning.stock import FIRST_FACING_MM, NEXT_FACING_MM
from rules.turning.surface_passes import finishing, roughing

CENTRE_DEEP_MM = 1.5
CENTRE_MINUTES = 0.2
CLEAR_OF_TAILSTOCK = "spindle stopped: tool post clear"
TAILSTOCK_ZERO = "point at the face: tailstock to zero"
"""What the depth of a drill counts from; each drill stands out as it likes."""
RULE_ZERO = "the hole goes on; spindle stopped: rule across the face, point against it: tailstock to zero"
"""The same where the hole goes on from the ring before, so that no drill meets a face."""
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
        *opened(order, 1),
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
        *shorten(order, ring),
        *face(order, ring),
        *opened(order, ring),
        rest(order, ring),
        *finishing(order, operations.FINISH_BORE, ring),
        *part_off(order, ring),
    ]


def face(order: Order, ring: int) -> list[Pass]:
    """Clean the end; the carriage counts from it."""
    depth = FIRST_FACING_MM if ring == 1 else NEXT_FACING_MM
    diameter = order.bar.start_mm if ring == 1 else order.ring.outside_diameter_mm
    hollow = order.bar.bore_to(depth) if ring == 1 else order.bore_of(ring - 1)
    rpm = speed(order, order.data.rough_speed, diameter)
    text = f"face: {facing_words(order.lathe.carriage, depth)} off; {CARRIAGE_ZERO}"
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
            before=() if ring == 1 or order.opening.tool else (tool_in(order.lathe, order.turning),),
            cautions=("spindle", "eyes", "bar_behind_spindle") if ring == 1 else ("spindle",),
        )
    ]


def facing_words(carriage: Axis, depth_mm: float) -> str:
    """How much is faced off; of a dial also in its turns and divisions."""
    if not carriage.is_dial:
        return beside(carriage, depth_mm)
    on_grid = carriage_target(carriage, depth_mm, up=False)
    return f"{beside(carriage, on_grid)} ({carriage_figure(carriage, on_grid)})"


def opened(order: Order, ring: int) -> list[Pass]:
    """What lets the boring bar in, drills from the tailstock, a core cut out, or nothing in a tube; then the
    bore roughed from there.
    """
    core = core_out(order, ring)
    begun = core[0].material_diameter_after_mm if core else None
    return [*centre_and_drill(order, ring), *core, *bored(order, ring, begun)]


def bored(order: Order, ring: int, begun_mm: float | None) -> list[Pass]:
    """The bore roughed; over a foot its own bore right through first, then the wall down to its floor."""
    if not order.ring.foot_mm:
        return roughing(order, operations.ROUGH_BORE, ring, begun_mm)
    through = roughing(order, operations.ROUGH_FOOT, ring, begun_mm)
    wide = through[-1].material_diameter_after_mm
    return [*through, *roughing(order, operations.ROUGH_BORE, ring, wide), *floor(order)]


def centre_and_drill(order: Order, ring: int) -> list[Pass]:
    """From the tailstock: a centre, then the drills one after another, full width as deep as needed; without
    the centre where there is a bore, the bar's own or that of the ring before, which the last drill opens
    further. Nothing where nothing is drilled.
    """
    drills = order.opening.drills_mm
    if ring > 1:
        drills = drills[-1:]
    centre = [_centre(order, ring)] if drills and not order.bar.bore_mm and ring == 1 else []
    return [*centre, *(_drilling(order, ring, drill) for drill in drills)]


def _centre(order: Order, ring: int) -> Pass:
    centre_deep = beside(order.lathe.carriage, CENTRE_DEEP_MM, 1)
    return Pass(
        n=0,
        operation=operations.CENTRE,
        ring=ring,
        tool=None,
        rpm=speed(order, order.data.drill_speed, order.opening.drills_mm[0]),
        axis="tailstock",
        reading_text=f"centre drill: go to {centre_deep}, length, from the tailstock",
        shows=None,
        target_mm=CENTRE_DEEP_MM,
        minutes=CENTRE_MINUTES,
        before=(CLEAR_OF_TAILSTOCK, TAILSTOCK_ZERO),
    )


def _drilling(order: Order, ring: int, drill: float) -> Pass:
    tip = order.bore_depth_mm + POINT_OF_DRILL * drill
    marked, tip_deep = drill_words(drill, order.lathe.drill_unit), beside(order.lathe.carriage, tip, 1)
    rpm = speed(order, order.data.drill_speed, drill)
    first = drill == order.opening.drills_mm[0]
    clear = ring > 1 or (order.bar.bore_mm and first)
    return Pass(
        n=0,
        operation=operations.DRILL,
        ring=ring,
        tool=None,
        rpm=rpm,
        axis="tailstock",
        reading_text=f"drill of {marked}: go to {tip_deep}, length, at its point; draw it out often",
        shows=None,
        target_mm=round(tip, 6),
        material_diameter_after_mm=drill,
        feed_mm=order.data.drill_feed,
        minutes=cutting_minutes(length_mm=tip, feed_mm=order.data.drill_feed, rpm=rpm),
        before=(
            *((CLEAR_OF_TAILSTOCK,) if clear else ()),
            RULE_ZERO if ring > 1 else TAILSTOCK_ZERO,
        ),
        cautions=swarf_cautions(order.data.plastic),
    )


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
        reading_text=f"rest: spindle stopped, {minutes:g} minutes, until as cool as the room",
        shows=None,
        target_mm=None,
        minutes=minutes,
        cautions=swarf_cautions(order.data.plastic),
    )
