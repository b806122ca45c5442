"""From a ring to a numbered list of passes for this lathe, these tools and this bar.

Invariant: the passes end on the ring's sizes to the step of the read-out; no depth over the limit, no
finishing
cut under the least depth, no speed that the lathe lacks; the same order gives the same passes.
Lengths in mm, speeds in rpm, times in minutes. Order and depths: common practice, no source, unless said.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from rules.equipment import STEEL_BAR_SPRINGS_FROM, Bar, Lathe, Tool
from rules.tables import plastics
from rules.turning.cutting_passes import build, numbered
from rules.turning.cutting_words import expansion_words
from rules.turning.parting_passes import has_room_for_lower_chamfer
from rules.turning.passes import Order, Pass, Plan, RingSize, TurningWrong
from rules.turning.schedule import CuttingData, cutting_data
from rules.turning.stock import use_of_bar
from rules.turning.tool_choice import choose_tools

__all__ = ["Order", "Pass", "Plan", "RingSize", "TurningWrong", "order_for", "plan", "plan_of"]

LARGEST_SPARES = 4


def plan(
    *,
    outside_diameter_mm: float,
    bore_mm: float,
    height_mm: float,
    chamfer_mm: float,
    lower_chamfer_mm: float,
    plastic: str,
    lathe: Lathe,
    tools: Sequence[Tool],
    bar: Bar,
    spares: int = 0,
    offsets_mm: Mapping[int, float] | None = None,
    outside_first: bool = False,
    dressing_mm: float = 0.10,
    least_depth_mm: float | None = None,
    wall_limit_mm: float = 0.01,
    outside_limit_mm: float = 0.02,
    expansion_per_k: float | None = None,
) -> Plan:
    """The turning plan of a ring.

    `spares` 0 to 4 further rings in the same set-up; `offsets_mm` what each tool is known to leave over
    its figure,
    on the diameter; `dressing_mm` 0.05 to 0.5 left on the height; `least_depth_mm` 0.03 to 0.15, the least
    finishing cut on the radius (usual: the plastic's own); limits: how far wall and outside may be off.
    Raises TurningWrong, StockWrong, ScheduleWrong in plain words.
    """
    order = order_for(
        ring=RingSize(
            outside_diameter_mm=outside_diameter_mm,
            bore_mm=bore_mm,
            height_mm=height_mm,
            chamfer_mm=chamfer_mm,
            lower_chamfer_mm=lower_chamfer_mm,
        ),
        plastic=plastic,
        lathe=lathe,
        tools=tools,
        bar=bar,
        spares=spares,
        offsets_mm=offsets_mm or {},
        outside_first=outside_first,
        dressing_mm=dressing_mm,
        least_depth_mm=least_depth_mm,
        limits_mm=(wall_limit_mm, outside_limit_mm),
        expansion_per_k=expansion_per_k,
    )
    return plan_of(order)


def plan_of(order: Order) -> Plan:
    """The plan that follows from an order."""
    ring = order.ring
    set_up = (
        f"grip the bar in the {order.stock.grip.name}, {order.stock.stick_out_mm:.1f} mm standing "
        f"out, nothing behind "
        "the spindle or in a guide",
        f"tool {order.turning.number} in, tight, on centre height; chuck key out",
        expansion_words(
            diameter_mm=ring.outside_diameter_mm, wall_mm=ring.wall_mm, expansion_per_k=order.expansion_per_k
        ),
    )
    return Plan(
        order=order,
        passes=numbered(build(order)),
        set_up=set_up,
        stock_words=order.stock.words(order.bar),
        warnings=_warnings(order),
    )


def order_for(
    *,
    ring: RingSize,
    plastic: str,
    lathe: Lathe,
    tools: Sequence[Tool],
    bar: Bar,
    spares: int,
    offsets_mm: Mapping[int, float],
    outside_first: bool,
    dressing_mm: float,
    least_depth_mm: float | None,
    limits_mm: tuple[float, float],
    expansion_per_k: float | None,
) -> Order:
    """Choose tools and stock and check every option; raises as `plan` does."""
    _options_within(spares, dressing_mm, limits_mm, offsets_mm)
    data = _data(plastic, least_depth_mm)
    chosen = choose_tools(tools=tools, ring=ring, data=data, lathe=lathe, dressing_mm=dressing_mm)
    stock = use_of_bar(
        bar=bar,
        lathe=lathe,
        outside_diameter_mm=ring.outside_diameter_mm,
        height_mm=ring.height_mm,
        dressing_mm=dressing_mm,
        blade_mm=chosen.parting.blade_mm,
        rings=1 + spares,
    )
    table = plastics()
    if expansion_per_k is None and plastic in table:
        expansion_per_k = table[plastic].cte_per_k
    return Order(
        ring=ring,
        data=data,
        lathe=lathe,
        bar=bar,
        turning=chosen.turning,
        boring=chosen.boring,
        chamfer=chosen.chamfer,
        parting=chosen.parting,
        stock=stock,
        spares=spares,
        offsets_mm=tuple(sorted(offsets_mm.items())),
        outside_first=outside_first,
        dressing_mm=dressing_mm,
        wall_limit_mm=limits_mm[0],
        outside_limit_mm=limits_mm[1],
        expansion_per_k=expansion_per_k,
    )


def _data(plastic: str, least_depth_mm: float | None) -> CuttingData:
    data = cutting_data(plastic)
    if least_depth_mm is None:
        return data
    _within("least depth", least_depth_mm, 0.03, 0.15, "mm")
    return replace(data, least_depth=least_depth_mm)


def _options_within(
    spares: int, dressing_mm: float, limits_mm: tuple[float, float], offsets_mm: Mapping[int, float]
) -> None:
    _within("spares", spares, 0, LARGEST_SPARES, "rings")
    _within("dressing allowance", dressing_mm, 0.05, 0.5, "mm")
    _within("limit of the wall", limits_mm[0], 0.002, 0.1, "mm")
    _within("limit of the outside", limits_mm[1], 0.002, 0.2, "mm")
    for number, offset in offsets_mm.items():
        _within(f"offset of tool {number}", offset, -0.5, 0.5, "mm")


def _warnings(order: Order) -> tuple[str, ...]:
    ring, said = order.ring, []
    if order.boring.reach_over_shank > STEEL_BAR_SPRINGS_FROM:
        said.append(
            f"boring bar {order.boring.number} reaches {order.boring.reach_over_shank:.1f} times "
            f"its shank: it springs; "
            "lighter cuts are planned, and the last two stay equal"
        )
    if order.stock.stick_out_mm > 3.0 * order.bar.diameter_mm:
        said.append(
            f"the bar stands out {order.stock.stick_out_mm:.1f} mm, over three diameters: lighter "
            f"cuts are planned"
        )
    if ring.wall_mm < 0.30:
        said.append(f"wall {ring.wall_mm:.2f} mm: hard to turn, to part and to measure")
    for tool in (order.turning, order.boring):
        if ring.wall_mm < 1.0 and tool.nose_radius_mm > 0.2 + 1e-9:
            said.append(
                f"tool {tool.number} has a nose radius of {tool.nose_radius_mm:g} mm: 0.1 to 0.2 "
                f"suits a thin wall"
            )
    if ring.lower_chamfer_mm > 0.0 and not has_room_for_lower_chamfer(order):
        said.append(
            "no room for the lower chamfer at the lathe: break that edge off the lathe, two strokes on fine paper"
        )
    wanted = 1000.0 * order.data.rough_speed / (3.1416 * order.bar.diameter_mm)
    if min(order.lathe.speeds_rpm) > wanted:
        said.append(f"the slowest speed of the lathe is over the wanted {wanted:.0f} rpm: watch the heat")
    if order.data.swarf == "strings":
        said.append("this plastic gives long strings: never let them wrap; stop and clear them with a hook")
    return tuple(said)


def _within(name: str, value: float, low: float, high: float, unit: str) -> None:
    if not low <= value <= high:
        raise TurningWrong(f"{name} is {value:g} {unit}; give {low:g} to {high:g} {unit}")
