"""Which of the shop's tools turn a ring.

Invariant: the boring bar goes into the hole, reaches through, and is the stiffest that does;
a tool that is missing is named with the size it needs. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rules.checks import OutOfRange
from rules.equipment import Tool
from rules.ring import Ring
from rules.turning.cutting_words import tool_short
from rules.turning.passes import CLEARANCE_MM, Order, SetUp, bore_depth, drill_for
from rules.turning.schedule import BORE_ALLOWANCE_MM, CuttingData

ROUGHING_ROOM_MM = 0.4
"""At least this much is roughed after the drill, on the diameter."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChosenTools:
    """One tool of each kind."""

    turning: Tool
    boring: Tool
    chamfer: Tool
    parting: Tool


def choose_tools(ring: Ring, set_up: SetUp, data: CuttingData) -> ChosenTools:
    """The sharpest turning tool, the narrowest blade, the stiffest boring bar; raises OutOfRange."""
    tools = set_up.tools
    parting = min(_of_kind(tools, "parting"), key=lambda tool: (tool.blade_mm, tool.number))
    fitting = _going_in(_of_kind(tools, "boring"), ring, data, set_up.lathe.largest_drill_mm)
    return ChosenTools(
        turning=sharpest(tools),
        boring=_stiffest(fitting, bore_depth(ring, parting)),
        chamfer=min(_of_kind(tools, "chamfer"), key=lambda tool: tool.number),
        parting=parting,
    )


def tools_of(order: Order) -> tuple[Tool, ...]:
    """The tools that a plan cuts with."""
    return (order.turning, order.boring, order.chamfer, order.parting)


def tool_of(order: Order, number: int | None) -> str:
    """How the tool of a pass is called; empty where none is in the post."""
    return next((tool_short(order.lathe, one) for one in tools_of(order) if one.number == number), "")


def sharpest(tools: Sequence[Tool]) -> Tool:
    """The turning tool with the smallest nose radius; raises OutOfRange when there is none."""
    return min(_of_kind(tools, "turning"), key=lambda tool: (tool.nose_radius_mm, tool.number))


def _going_in(bars: list[Tool], ring: Ring, data: CuttingData, largest_drill_mm: float) -> list[Tool]:
    """The boring bars whose drilled hole the tailstock can drill and the bore leaves room for."""
    room = ring.bore_mm - max(BORE_ALLOWANCE_MM, 8.0 * data.least_depth) - ROUGHING_ROOM_MM
    fitting = [tool for tool in bars if drill_for(tool) <= room]
    if not fitting:
        raise OutOfRange(
            f"bore: no boring bar goes into {ring.bore_mm:.2f} mm; one whose smallest bore is "
            f"{room - 0.5 - CLEARANCE_MM:.1f} mm or less is missing"
        )
    drilled = [tool for tool in fitting if drill_for(tool) <= largest_drill_mm]
    if not drilled:
        raise OutOfRange(
            f"drill: the boring bars that go in need {min(map(drill_for, fitting)):.1f} mm, "
            "the tailstock takes "
            f"drills to {largest_drill_mm:g} mm; a thinner bar is missing"
        )
    return drilled


def _stiffest(bars: list[Tool], depth_mm: float) -> Tool:
    """The boring bar with the least reach for its shank, of those that reach through."""
    reaching = [tool for tool in bars if tool.longest_reach_mm >= depth_mm]
    if not reaching:
        raise OutOfRange(
            f"reach: no boring bar that goes in reaches {depth_mm:.2f} mm deep; a longer one is missing"
        )
    return max(reaching, key=lambda tool: (-tool.reach_over_shank, tool.smallest_bore_mm, -tool.number))


def _of_kind(tools: Sequence[Tool], kind: str) -> list[Tool]:
    found = [tool for tool in tools if tool.kind == kind]
    if not found:
        raise OutOfRange(f"tools: no tool for {kind} in the tool set; add one to shop.toml")
    return found
