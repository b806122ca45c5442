"""The floor of a bore that ends on a foot: faced from the bore of the foot outwards, once both are roughed.

Invariant: it ends where the wall is roughed, at the depth that the finishing passes go to. Lengths in mm.
"""

from __future__ import annotations

from rules.turning import operations
from rules.turning.order import FLOOR_MM, Order
from rules.turning.passes import Pass
from rules.turning.readout import carriage_words, size
from rules.turning.run import Run
from rules.turning.schedule import cutting_minutes


def floor(order: Order) -> list[Pass]:
    """The floor that the glass stands on, faced from the bore of the foot outwards; none without a foot."""
    if not order.ring.foot_mm:
        return []
    run = Run(order, operations.ROUGH_BORE)
    frame, at, carriage = run.frame, run.roughed_steps, order.lathe.carriage
    out = frame.diameter_at(at)
    starts = frame.steps_at(order.ring.foot_bore_mm)
    inner = f"{frame.figure_at(starts)}, makes {size(order.lathe.cross, frame.diameter_at(starts))}"
    wide = (out - order.ring.foot_bore_mm) / 2.0
    return [
        Pass(
            n=0,
            operation=operations.FLOOR,
            ring=1,
            tool=order.boring.number,
            rpm=run.rpm,
            axis="cross",
            reading_text=frame.sentence(at, operations.FLOOR),
            shows=frame.shows,
            target_mm=frame.shown_at(at),
            along_mm=order.pocket_mm,
            along_text=f"floor along: {carriage_words(carriage, order.pocket_mm)}",
            figure_text=frame.figure_at(at),
            zero_diameter_mm=None if frame.is_absolute else frame.zero_diameter_mm,
            offset_mm=frame.offset_mm,
            steps=at,
            cut_depth_mm=FLOOR_MM,
            material_diameter_after_mm=out,
            feed_mm=order.data.finish_feed,
            minutes=cutting_minutes(length_mm=wide, feed_mm=order.data.finish_feed, rpm=run.rpm),
            before=(f"off the floor, back in to {inner}: the bore of the foot; there along, then feed out",),
        )
    ]
