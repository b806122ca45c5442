"""What the picture of the bar at the lathe is drawn from: how the bar stands, and where a tool ends.

Invariant: everything comes from the plan; lengths count from the faced end, in mm, diameters in mm.
"""

from __future__ import annotations

from rules.equipment import TOOL_KINDS
from rules.turning import operations
from rules.turning.passes import DRESSING_MM, SURFACE_OF, Order, Pass, Plan, parted_mm
from rules.turning.readout import BORE, OUTSIDE

TURNING, BORING, CHAMFER, PARTING = TOOL_KINDS
TOOL_OF = {
    operations.FACE: TURNING,
    operations.CENTRE: operations.DRILL,
    operations.DRILL: operations.DRILL,
    operations.CHAMFER: CHAMFER,
    operations.LOWER_CHAMFER: CHAMFER,
    operations.PART: PARTING,
    **{name: TURNING if surface == OUTSIDE else BORING for name, surface in SURFACE_OF.items()},
}
"""The tool of an operation, as it is drawn."""


def bar_numbers(made: Plan, first: Pass | None) -> dict[str, float]:
    """Numbers of the picture before a pass: the bar as it stands, the ring to be, and where the pass ends."""
    order, ring = made.order, made.order.ring
    tool = TOOL_OF.get(first.operation, "") if first else ""
    return {
        "bar_mm": order.bar.diameter_mm,
        "outside_mm": ring.outside_diameter_mm,
        "bore_mm": order.bore_of(first.ring if first else 1),
        "height_mm": ring.height_mm + DRESSING_MM,
        "blade_mm": order.parting.blade_mm,
        "turned_mm": order.turned_length_mm,
        "bored_mm": order.bore_depth_mm,
        "stick_out_mm": order.stock.stick_out_mm,
        "outside_now_mm": standing(made, first, OUTSIDE) or order.bar.diameter_mm,
        "bore_now_mm": standing(made, first, BORE),
        "tool": float(operations.TOOLS_DRAWN.index(tool)),
        "now_mm": 0.0 if first is None or first.operation == operations.FACE else now_of(first),
        "along_mm": length_of(order, first) if first else 0.0,
        "inch": float(order.lathe.cross.unit == "inch"),
    }


def now_of(first: Pass) -> float:
    """Diameter that a pass leaves, 0 where it leaves none of its own."""
    return (
        0.0
        if first.operation in (operations.CHAMFER, operations.PART)
        else first.material_diameter_after_mm or 0.0
    )


def standing(made: Plan, first: Pass | None, surface: str) -> float:
    """Diameter that the passes before have left on a surface; 0 where nothing has cut it."""
    left = 0.0
    for one in made.passes:
        if first is not None and one.n >= first.n:
            break
        own = SURFACE_OF.get(one.operation) or (BORE if one.operation == operations.DRILL else "")
        if own == surface and (surface == OUTSIDE or first is None or one.ring == first.ring):
            left = one.material_diameter_after_mm or left
    return left


def length_of(order: Order, one: Pass) -> float:
    """How far from the face the tool of a pass ends."""
    if one.along_mm is not None:
        return one.along_mm
    if one.operation == operations.LOWER_CHAMFER:
        return order.ring.height_mm + DRESSING_MM
    if one.operation == operations.PART:
        return parted_mm(order.ring, order.parting)
    return (one.target_mm or 0.0) if one.operation in (operations.CENTRE, operations.DRILL) else 0.0
