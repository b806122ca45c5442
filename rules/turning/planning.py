"""From a ring to a numbered list of passes for this lathe, these tools and this bar.

Invariant: the passes end on the ring's sizes to the step of the read-out; no depth over the limit, no
finishing cut under the least depth, no speed that the lathe lacks; the same order gives the same passes.
Lengths in mm, speeds in rpm, times in minutes. Order and depths: common practice, no source, unless said.
"""

from __future__ import annotations

from rules.equipment import STEEL_BAR_SPRINGS_FROM
from rules.limits import SLIGHT_WALL_MM
from rules.ring import Ring
from rules.turning.cutting_passes import build, numbered
from rules.turning.cutting_words import expansion_words, set_up_guards, tool_short, tool_words
from rules.turning.holding import FAR_OUT_DIAMETERS, longest_safe_mm
from rules.turning.order import Order, SetUp, check_ring, parted_mm
from rules.turning.parting_passes import has_room_for_lower_chamfer
from rules.turning.passes import Plan
from rules.turning.schedule import cutting_data, spindle_rpm
from rules.turning.stock import use_of_bar
from rules.turning.tool_choice import choose_tools, narrowest_blade

THIN_WALL_MM = 1.0
"""A wall thinner than this needs a sharp tool. Own judgement."""
SHARP_NOSE_MM = 0.2
"""Nose radius of a tool that is sharp enough for it. Common practice, no source."""


def plan(*, ring: Ring, set_up: SetUp) -> Plan:
    """The turning plan of a ring; raises OutOfRange when bar, tools or lathe do not suffice."""
    return plan_of(order_for(ring, set_up))


def plan_of(order: Order) -> Plan:
    """The plan that follows from an order."""
    ring = order.ring
    return Plan(
        order=order,
        passes=numbered(build(order)),
        set_up_words=(
            *set_up_guards(
                grip=order.stock.grip.name,
                stick_out_mm=order.stock.stick_out_mm,
                lathe=order.lathe,
                tool=order.turning,
            ),
            expansion_words(
                diameter_mm=ring.outside_diameter_mm,
                wall_mm=ring.wall_mm,
                expansion_per_k=order.expansion_per_k,
            ),
        ),
        stock_words=order.stock.words(order.bar),
        warnings=_warnings(order),
    )


def order_for(ring: Ring, set_up: SetUp) -> Order:
    """The ring with the tools chosen and the bar measured out; raises OutOfRange as `plan` does."""
    check_ring(ring)
    data = cutting_data(set_up.bar.plastic)
    parting = narrowest_blade(set_up.tools)
    stock = use_of_bar(
        bar=set_up.bar,
        lathe=set_up.lathe,
        outside_diameter_mm=ring.outside_diameter_mm,
        each_mm=parted_mm(ring, parting),
        rings=1 + set_up.spares,
    )
    chosen = choose_tools(ring, set_up, data, stock)
    return Order(
        ring=ring,
        data=data,
        lathe=set_up.lathe,
        bar=set_up.bar,
        turning=chosen.turning,
        boring=chosen.boring,
        chamfer=chosen.chamfer,
        parting=parting,
        opening=chosen.opening,
        stock=stock,
        spares=set_up.spares,
        offsets_mm=tuple(sorted(set_up.offsets_mm)),
        expansion_per_k=set_up.expansion_per_k,
    )


def _warnings(order: Order) -> tuple[str, ...]:
    ring, said = order.ring, []
    if order.boring.reach_over_shank > STEEL_BAR_SPRINGS_FROM:
        said.append(
            f"{tool_words(order.lathe, order.boring)} reaches {order.boring.reach_over_shank:.1f} times "
            "its shank: it springs; lighter cuts are planned, and the last two stay equal"
        )
    if order.stock.stick_out_mm > longest_safe_mm(order.bar):
        said.append(
            f"the bar stands out {order.stock.stick_out_mm:.1f} mm, over {FAR_OUT_DIAMETERS:g} diameters: "
            "lighter cuts are planned"
        )
    if ring.wall_mm < SLIGHT_WALL_MM:
        said.append(f"wall {ring.wall_mm:.2f} mm: hard to turn, to part and to measure")
    for tool in (order.turning, order.boring):
        if ring.wall_mm < THIN_WALL_MM and tool.nose_radius_mm > SHARP_NOSE_MM + 1e-9:
            said.append(
                f"{tool_short(order.lathe, tool)} has a nose radius of {tool.nose_radius_mm:g} mm: "
                f"0.1 to {SHARP_NOSE_MM:g} "
                "suits a thin wall"
            )
    if ring.lower_chamfer_mm > 0.0 and not has_room_for_lower_chamfer(order):
        said.append(
            "no room for the lower chamfer at the lathe: "
            "break that edge off the lathe, two strokes on fine paper"
        )
    wanted = spindle_rpm(speed_m_per_min=order.data.rough_speed, diameter_mm=order.bar.start_mm)
    if min(order.lathe.speeds_rpm) > wanted:
        said.append(f"the slowest speed of the lathe is over the wanted {wanted:.0f} rpm: watch the heat")
    if order.data.swarf == "strings":
        said.append("this plastic gives long strings: never let them wrap; stop and clear them with a hook")
    return tuple(said)
