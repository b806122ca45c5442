"""Which of the shop's tools turn a ring.

Invariant: the boring bar goes into the hole, reaches through, and is the stiffest that does; a tool that is missing
is named with the size it needs. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rules.equipment import Lathe, Tool
from rules.turning.passes import RingSize, TurningWrong, bore_depth, drill_for
from rules.turning.schedule import CuttingData

BORE_LEFT_MM = 0.6
"""Left for finishing, on the diameter."""
ROUGHING_ROOM_MM = 0.4
"""At least this much is roughed after the drill, on the diameter."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChosenTools:
    """One tool of each kind."""

    turning: Tool
    boring: Tool
    chamfer: Tool
    parting: Tool


def choose_tools(
    *, tools: Sequence[Tool], ring: RingSize, data: CuttingData, lathe: Lathe, dressing_mm: float
) -> ChosenTools:
    """The sharpest turning tool, the narrowest blade, the stiffest boring bar. Raises TurningWrong."""
    parting = min(_of_kind(tools, "parting"), key=lambda tool: (tool.blade_mm, tool.number))
    deep = bore_depth(height_mm=ring.height_mm, dressing_mm=dressing_mm, blade_mm=parting.blade_mm)
    return ChosenTools(
        turning=min(_of_kind(tools, "turning"), key=lambda tool: (tool.nose_radius_mm, tool.number)),
        boring=_boring_bar(_of_kind(tools, "boring"), ring, data, lathe, deep),
        chamfer=min(_of_kind(tools, "chamfer"), key=lambda tool: tool.number),
        parting=parting,
    )


def _boring_bar(bars: list[Tool], ring: RingSize, data: CuttingData, lathe: Lathe, depth_mm: float) -> Tool:
    room = ring.bore_mm - max(BORE_LEFT_MM, 8.0 * data.least_depth) - ROUGHING_ROOM_MM
    fitting = [tool for tool in bars if drill_for(tool) <= room]
    if not fitting:
        raise TurningWrong(
            f"no boring bar goes into a bore of {ring.bore_mm:.2f} mm: one whose smallest bore is "
            f"{room - 0.8:.1f} mm or less is missing"
        )
    drilled = [tool for tool in fitting if drill_for(tool) <= lathe.largest_drill_mm]
    if not drilled:
        raise TurningWrong(
            f"the boring bars that go in need a hole of {min(map(drill_for, fitting)):.1f} mm; the tailstock takes "
            f"drills to {lathe.largest_drill_mm:g} mm: a thinner bar is missing"
        )
    reaching = [tool for tool in drilled if tool.longest_reach_mm >= depth_mm]
    if not reaching:
        raise TurningWrong(
            f"no boring bar that goes in reaches {depth_mm:.2f} mm deep: a longer one is missing"
        )
    return max(reaching, key=lambda tool: (-tool.reach_over_shank, tool.smallest_bore_mm, -tool.number))


def _of_kind(tools: Sequence[Tool], kind: str) -> list[Tool]:
    found = [tool for tool in tools if tool.kind == kind]
    if not found:
        raise TurningWrong(f"no tool for {kind} in the tool set; add one to shop.toml")
    return found
