"""What a larger drill that the tailstock takes, or a core cut out, would save on this ring.

Invariant: nothing is said to save that cannot be done here; the time is counted as the plan's own is.
"""

from __future__ import annotations

from dataclasses import replace

from rules.lengths import bare, plainly
from rules.turning.cutting_passes import opened
from rules.turning.drills import drill_words
from rules.turning.duration import PASS_MIN, TOOL_MIN
from rules.turning.opening import Opening, Wanted, could_be_cored, could_be_drilled
from rules.turning.order import Order
from rules.turning.tool_choice import hole_in

FEW_PASSES = 3
"""Fewer are not worth a word."""


def saving_words(order: Order) -> tuple[str, ...]:
    """A sentence for each way that would save passes."""
    hole = hole_in(order.bar, order.ring, order.data, order.stock, order.parting)
    wanted = Wanted(**hole, lathe=order.lathe, tools=())
    drilled = could_be_drilled(order.boring, wanted, min(order.lathe.largest_drill_mm, wanted.room_mm))
    said = []
    if drilled is not None and (saved := _saved(order, drilled)):
        said.append(f"a {drill_words(drilled.hole_mm, order.lathe.drill_unit)} drill would save {saved}")
    cored = could_be_cored(order.boring, wanted)
    if cored is not None and (saved := _saved(order, cored)):
        said.append(
            f"a face-grooving tool relieved for {plainly(cored.hole_mm)}, "
            f"{bare(wanted.groove_deep_mm, 1)} deep, "
            f"would save {saved}: the core stays on the bar and catches the ring"
        )
    return tuple(said)


def _saved(order: Order, opening: Opening) -> str:
    """Passes and minutes saved by another opening; empty where it is not worth a word."""
    if order.opening.hole_mm >= opening.hole_mm:
        return ""
    (now, took), (then, takes) = _cost(order), _cost(replace(order, opening=opening))
    few = now - then < FEW_PASSES or took - takes < 1.0
    return "" if few else f"{now - then} of {now} passes, about {took - takes:.0f} min"


def _cost(order: Order) -> tuple[int, float]:
    """Passes and minutes from the full bar to the roughed bore."""
    passes = opened(order, 1)
    changes = len(order.opening.drills_mm) + bool(order.opening.tool)
    return len(passes), sum(one.minutes + PASS_MIN for one in passes) + changes * TOOL_MIN
