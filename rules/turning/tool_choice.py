"""Which of the shop's tools turn a ring.

Invariant: the boring bar goes into the hole, reaches through, and is the stiffest that does;
a tool that is missing is named with the size it needs. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypedDict

from rules.bars import Bar
from rules.checks import OutOfRange
from rules.equipment import Tool
from rules.ring import Ring
from rules.turning.cutting_words import tool_short
from rules.turning.drills import CLEARANCE_MM, needed_for
from rules.turning.opening import Opening, Wanted, drills_of, opening_for
from rules.turning.operations import DRESS
from rules.turning.order import Order, SetUp, bore_depth
from rules.turning.passes import Pass, Plan
from rules.turning.schedule import BORE_ALLOWANCE_MM, CuttingData
from rules.turning.stock import StockUse

ROUGHING_ROOM_MM = 0.4
"""At least this much is roughed after the drill, on the diameter."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChosenTools:
    """One tool of each kind but the blade, and how the hole is opened for the boring bar."""

    turning: Tool
    boring: Tool
    chamfer: Tool
    opening: Opening


def choose_tools(ring: Ring, set_up: SetUp, data: CuttingData, stock: StockUse) -> ChosenTools:
    """The sharpest turning tool and the stiffest boring bar that goes in; raises OutOfRange."""
    tools = set_up.tools
    hole = hole_in(set_up.bar, ring, data, stock, narrowest_blade(tools))
    wanted = Wanted(**hole, lathe=set_up.lathe, tools=tools)
    bars = _round_enough(_of_kind(tools, "boring"), ring)
    boring, opening = _stiffest(_going_in(bars, ring, wanted), wanted.ring_deep_mm)
    return ChosenTools(
        turning=sharpest(tools),
        boring=boring,
        chamfer=min(_of_kind(tools, "chamfer"), key=lambda tool: tool.number),
        opening=opening,
    )


def tools_of(order: Order) -> tuple[Tool, ...]:
    """The tools that a plan cuts with."""
    core = order.opening.tool
    return (order.turning, order.boring, order.chamfer, order.parting, *((core,) if core else ()))


def tool_of(order: Order, number: int | None) -> str:
    """How the tool of a pass is called; empty where none is in the post."""
    return next((tool_short(order.lathe, one) for one in tools_of(order) if one.number == number), "")


def put_in(made: Plan, one: Pass) -> Tool | None:
    """The tool that is changed to before a pass; None where the one that cut last stays, or none cuts."""
    last = next((before.tool for before in reversed(made.passes[: one.n - 1]) if before.tool is not None), 0)
    return next((tool for tool in tools_of(made.order) if one.tool != last and tool.number == one.tool), None)


def put_in_after(made: Plan, one: Pass) -> Tool | None:
    """The tool that is changed to once a pass is made, whatever is dressed off the lathe meanwhile."""
    following = next((after for after in made.passes[one.n :] if after.operation != DRESS), None)
    return put_in(made, following) if following else None


def sharpest(tools: Sequence[Tool]) -> Tool:
    """The turning tool with the smallest nose radius; raises OutOfRange when there is none."""
    return min(_of_kind(tools, "turning"), key=lambda tool: (tool.nose_radius_mm, tool.number))


def narrowest_blade(tools: Sequence[Tool]) -> Tool:
    """The parting blade that wastes least; raises OutOfRange when there is none."""
    return min(_of_kind(tools, "parting"), key=lambda tool: (tool.blade_mm, tool.number))


def boring_for(tools: Sequence[Tool], bore_mm: float) -> Tool | None:
    """The boring bar for a bore, before the bar and the height of the ring are known: the stiffest that goes
    in; None where none does.
    """
    room = bore_mm - BORE_ALLOWANCE_MM - ROUGHING_ROOM_MM
    fitting = [tool for tool in tools if tool.kind == "boring" and needed_for(tool) <= room]
    return max(fitting, key=_stiffness, default=None)


def _stiffness(tool: Tool) -> tuple[float, float, int]:
    """The more, the rather it is taken."""
    return -tool.reach_over_shank, tool.smallest_bore_mm, -tool.number


class HoleIn(TypedDict):
    """How wide and deep a hole is wanted in a bar, as `Wanted` takes it."""

    room_mm: float
    ring_deep_mm: float
    bar_deep_mm: float
    bar: Bar


def hole_in(bar: Bar, ring: Ring, data: CuttingData, stock: StockUse, parting: Tool) -> HoleIn:
    """The widest hole that leaves this bore its finishing and something to rough, and how deep it goes."""
    return {
        "room_mm": ring.narrowest_mm - max(BORE_ALLOWANCE_MM, 8.0 * data.least_depth) - ROUGHING_ROOM_MM,
        "ring_deep_mm": bore_depth(ring, parting),
        "bar_deep_mm": stock.used_mm + CLEARANCE_MM,
        "bar": bar,
    }


def _going_in(bars: list[Tool], ring: Ring, wanted: Wanted) -> list[tuple[Tool, Opening]]:
    """The boring bars for which a hole can be opened here, each with how."""
    fitting = [tool for tool in bars if needed_for(tool) <= wanted.room_mm]
    if not fitting:
        raise OutOfRange(
            f"bore: no boring bar goes into {ring.narrowest_mm:.2f} mm; one whose smallest bore is "
            f"{wanted.room_mm - CLEARANCE_MM:.1f} mm or less is missing"
        )
    opened = [(tool, way) for tool in fitting if (way := opening_for(tool, wanted)) is not None]
    if opened:
        return opened
    least, lathe = min(map(needed_for, fitting)), wanted.lathe
    there = max(drills_of(lathe), default=0.0)
    if least > there:
        limit = (
            f"the drills go to {there:g}"
            if lathe.drills_mm
            else "the tailstock takes drills to " + (f"{lathe.largest_drill_mm:g}")
        )
        raise OutOfRange(
            f"drill: the boring bars that go in need {least:.1f} mm, {limit} mm; "
            "a thinner bar or a larger drill is missing"
        )
    raise OutOfRange(
        f"drill: none there is between {least:.1f} and {wanted.room_mm:.1f} mm; one of those is missing"
    )


def rides_on_the_corner(tools: Sequence[Tool], corner_mm: float) -> str:
    """Why none of the boring bars leaves a corner on a foot that the glass clears; empty where one does."""
    noses = [tool.nose_radius_mm for tool in tools if tool.kind == "boring"]
    if not noses or min(noses) <= corner_mm + 1e-9:
        return ""
    return (
        f"corner: a boring bar with a nose of {corner_mm:.2f} mm or less is missing: the glass "
        "would ride on the corner and not stand on the foot"
    )


def _round_enough(bars: list[Tool], ring: Ring) -> list[Tool]:
    """The boring bars that leave a corner on a foot no rounder than the glass clears; raises OutOfRange."""
    if not ring.foot_mm:
        return bars
    if too_round := rides_on_the_corner(bars, ring.corner_mm):
        raise OutOfRange(too_round)
    return [tool for tool in bars if tool.nose_radius_mm <= ring.corner_mm + 1e-9]


def _stiffest(bars: list[tuple[Tool, Opening]], depth_mm: float) -> tuple[Tool, Opening]:
    """The boring bar with the least reach for its shank, of those that reach through."""
    reaching = [one for one in bars if one[0].longest_reach_mm >= depth_mm]
    if not reaching:
        raise OutOfRange(
            f"reach: no boring bar that goes in reaches {depth_mm:.2f} mm deep; a longer one is missing"
        )
    return max(reaching, key=lambda one: _stiffness(one[0]))


def _of_kind(tools: Sequence[Tool], kind: str) -> list[Tool]:
    found = [tool for tool in tools if tool.kind == kind]
    if not found:
        raise OutOfRange(f"tools: no tool for {kind} in the tool set; say one to the shop")
    return found
