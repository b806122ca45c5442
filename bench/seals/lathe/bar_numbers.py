"""What the picture of the bar at the lathe is drawn from: how the bar stands, and where a tool ends.

Invariant: everything comes from the plan; lengths count from the faced end, in mm, diameters in mm.
"""

from __future__ import annotations

from collections.abc import Iterator

from rules.equipment import FACE_GROOVING, NEEDED_KINDS
from rules.turning import operations
from rules.turning.order import DRESSING_MM, Order, parted_mm
from rules.turning.passes import SURFACE_OF, Pass, Plan
from rules.turning.readout import BORE, OUTSIDE

TURNING, BORING, CHAMFER, PARTING = NEEDED_KINDS
TOOL_OF = {
    operations.FACE: TURNING,
    operations.CENTRE: operations.DRILL,
    operations.DRILL: operations.DRILL,
    operations.CORE: FACE_GROOVING,
    operations.SHORTEN_CORE: TURNING,
    operations.CHAMFER: CHAMFER,
    operations.LOWER_CHAMFER: CHAMFER,
    operations.PART: PARTING,
    **{name: TURNING if surface == OUTSIDE else BORING for name, surface in SURFACE_OF.items()},
}
"""The tool of an operation, as it is drawn."""


def bar_numbers(made: Plan, first: Pass | None) -> dict[str, float]:
    """Numbers of the picture before a pass: the bar as it stands, the ring to be, and where the pass ends."""
    order, ring = made.order, made.order.ring
    own, groove = order.bar.bore_to(order.bore_depth_mm), order.opening.tool
    tool = TOOL_OF.get(first.operation, "") if first else ""
    return {
        "bar_mm": order.bar.start_mm,
        "outside_mm": ring.outside_diameter_mm,
        "bore_mm": order.bore_of(first.ring if first else 1),
        "height_mm": ring.height_mm + DRESSING_MM,
        "blade_mm": order.parting.blade_mm,
        "turned_mm": order.turned_length_mm,
        "bored_mm": order.bore_depth_mm,
        "stick_out_mm": order.stock.stick_out_mm,
        "outside_now_mm": standing(made, first, OUTSIDE) or order.bar.start_mm,
        "bore_now_mm": standing(made, first, BORE) or own,
        "tool": float(operations.TOOLS_DRAWN.index(tool)),
        "now_mm": now_of(first) if first else 0.0,
        "along_mm": length_of(order, first) if first else 0.0,
        "own_mm": own,
        "own_deep_mm": order.bar.bore_deep_mm or order.stock.stick_out_mm,
        "groove_mm": groove.blade_mm if groove else 0.0,
        "core_mm": core_standing(made, first),
        **over_a_foot(order, standing(made, first, BORE)),
    }


def over_a_foot(order: Order, bore_now_mm: float) -> dict[str, float]:
    """The foot of the ring to be, and once the bore over it is begun how deep each of the two goes."""
    ring = order.ring
    if not ring.foot_mm:
        return {}
    foot = {"foot_mm": ring.foot_mm + DRESSING_MM, "foot_bore_mm": ring.foot_bore_mm}
    if bore_now_mm <= ring.foot_bore_mm + order.lathe.cross.step_on_diameter_mm:
        return foot
    return {
        **foot,
        "bored_mm": order.pocket_mm,
        "own_mm": ring.foot_bore_mm,
        "own_deep_mm": order.bore_depth_mm,
    }


NONE_OF_ITS_OWN = (operations.FACE, operations.SHORTEN_CORE, operations.CHAMFER, operations.PART)
"""Operations that leave no diameter of their own."""
IN_THE_HOLE = (operations.DRILL, operations.CORE)


def now_of(first: Pass) -> float:
    """Diameter that a pass leaves, 0 where it leaves none of its own."""
    return 0.0 if first.operation in NONE_OF_ITS_OWN else first.material_diameter_after_mm or 0.0


def before(made: Plan, first: Pass | None) -> Iterator[Pass]:
    """The passes that are made before a pass; all where there is none."""
    return (one for one in made.passes if first is None or one.n < first.n)


def standing(made: Plan, first: Pass | None, surface: str) -> float:
    """Diameter that the passes before have left on a surface; 0 where nothing has cut it."""
    left = 0.0
    for one in before(made, first):
        own = BORE if one.operation in IN_THE_HOLE else SURFACE_OF.get(one.operation, "")
        if own != surface or (surface == BORE and first is not None and one.ring != first.ring):
            continue
        now = one.material_diameter_after_mm or left
        left = max(left, now) if surface == BORE else now
    return left


def core_standing(made: Plan, first: Pass | None) -> float:
    """Diameter of the core that the grooves before have left in this ring; 0 where there is none."""
    left = 0.0
    for one in before(made, first):
        if one.operation == operations.CORE and (first is None or one.ring == first.ring):
            left = (one.material_diameter_after_mm or 0.0) - 2.0 * (one.cut_depth_mm or 0.0)
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
