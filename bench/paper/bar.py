"""The bar at the lathe on paper, as one stands before it: chuck at the left, the front half in section.

Invariant: lengths have one scale and diameters another, both said; every dimension stands in the plan.
"""

from __future__ import annotations

from bench.paper.page import Paper
from bench.paper.section import across, leader
from rules.lengths import length
from rules.turning.order import DRESSING_MM
from rules.turning.passes import Plan

SCALES = (20.0, 15.0, 10.0, 8.0, 5.0, 4.0, 3.0, 2.0, 1.5, 1.0, 0.5)
CHUCK_MM, LONG_MM, DEEP_MM = 12.0, 80.0, 34.0
"""Width of the chuck on paper, and the most that lengths and radii may take."""
SIZE = 8.0


def scale_for(largest_mm: float, room_mm: float) -> float:
    """The largest usual scale at which a length fits."""
    return next((scale for scale in SCALES if scale * largest_mm <= room_mm), SCALES[-1])


def draw_bar(paper: Paper, plan: Plan, *, left: float, top: float) -> float:
    """Draw the bar with the ring in it and its lengths; gives the height on the page below it, mm."""
    order, ring = plan.order, plan.order.ring
    out, turned, bored = order.stock.stick_out_mm, order.turned_length_mm, order.bore_depth_mm
    high, blade = ring.height_mm + DRESSING_MM, order.parting.blade_mm
    along, over = scale_for(out, LONG_MM), scale_for(order.bar.start_mm / 2.0, DEEP_MM)

    def x(from_end_mm: float) -> float:
        return left + CHUCK_MM + along * (out - from_end_mm)

    def y(diameter_mm: float) -> float:
        return top + over * diameter_mm / 2.0

    bar, outside, bore = y(order.bar.start_mm), y(ring.outside_diameter_mm), y(ring.bore_mm)
    front = bar + 4.0
    paper.area([(left, top), (left + CHUCK_MM, top), (left + CHUCK_MM, front), (left, front)])
    paper.at(left + CHUCK_MM / 2.0, top + 5.0, "chuck", align="middle", size=SIZE - 1.0)
    paper.area([(x(from_end), y(diameter)) for from_end, diameter in section(plan, high)])
    paper.stroke([(left, top), (x(0.0) + 6.0, top)], width_mm=0.1)
    paper.stroke([(x(out), bar), (x(turned), bar), (x(turned), outside), (x(0.0), outside), (x(0.0), bore)])
    paper.stroke([(x(from_end), y(diameter)) for from_end, diameter in hollow(plan)])
    for at in (high, high + blade):
        paper.stroke([(x(at), bore), (x(at), outside)], width_mm=0.12)
    _diameters(paper, plan, x(0.0), (bar, outside, bore))
    below = front + 2.0
    for number, (start, end, name) in enumerate(
        (
            (0.0, high, "ring and dressing"),
            (high, high + blade, "blade"),
            (0.0, bored, "bored"),
            (0.0, turned, "turned"),
            (0.0, out, "out of the chuck"),
        )
    ):
        at_y = below + 6.5 * number + 3.0
        across(paper, x(end), x(start), at_y, "", 3.0)
        paper.at(x(0.0) + 3.0, at_y + 1.0, f"{name} {length(end - start)}", size=SIZE)
    foot = below + 6.5 * 5 + 3.0
    paper.at(left, foot, f"lengths {along:g} : 1, diameters {over:g} : 1, seen from above", size=SIZE - 1.0)
    return foot + 3.0


def section(plan: Plan, high_mm: float) -> list[tuple[float, float]]:
    """The ring in the bar, dressing included, as lengths from the open end and diameters, from behind."""
    ring, floor = plan.order.ring, plan.order.pocket_mm
    outside = [(0.0, ring.outside_diameter_mm), (high_mm, ring.outside_diameter_mm)]
    if not ring.foot_mm:
        return [(high_mm, ring.bore_mm), (0.0, ring.bore_mm), *outside]
    inside = [(high_mm, ring.foot_bore_mm), (floor, ring.foot_bore_mm), (floor, ring.bore_mm)]
    return [*inside, (0.0, ring.bore_mm), *outside]


def hollow(plan: Plan) -> list[tuple[float, float]]:
    """What is hollow behind the ring's bore, as lengths from the open end and diameters, to the axis."""
    order, core, own = (
        plan.order,
        plan.order.opening.core_mm,
        plan.order.bar.bore_to(plan.order.bore_depth_mm),
    )
    ring = order.ring
    points = [(0.0, ring.bore_mm), (order.pocket_mm, ring.bore_mm)]
    if ring.foot_mm:
        points += [(order.pocket_mm, ring.foot_bore_mm), (order.bore_depth_mm, ring.foot_bore_mm)]
    if core:
        return [*points, (order.bore_depth_mm, core), (0.0, core), (0.0, 0.0)]
    if own:
        deep = min(order.bar.bore_deep_mm or order.stock.stick_out_mm, order.stock.stick_out_mm)
        return [*points, (order.bore_depth_mm, own), (deep, own), (deep, 0.0)]
    return [*points, (order.bore_depth_mm, 0.0)]


def _diameters(paper: Paper, plan: Plan, end: float, at: tuple[float, float, float]) -> None:
    """The diameters at the open end, with arrows to them."""
    ring = plan.order.ring
    sizes = (plan.order.bar.start_mm, ring.outside_diameter_mm, ring.bore_mm)
    for number, (y, size, name) in enumerate(zip(at, sizes, ("bar", "outside", "bore"), strict=True)):
        tip = (end - (2.0 if name == "bar" else 0.0), y)
        if name != "bar":
            leader(
                paper,
                tip,
                (end + 8.0, y + 4.0 * (1.0 - number)),
                f"{name} \u2300 {length(size)}",
                SIZE,
            )
        else:
            paper.at(end + 8.8, y + 3.0, f"{name} \u2300 {length(size)}", size=SIZE)
