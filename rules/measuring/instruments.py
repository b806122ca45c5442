"""Limits of error of instruments where their own does not hold: in a bore, on a wall, compared.

Invariant: what is true of callipers in general stands here once; what is true of one
instrument stands in the shop file.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace

from rules.instrument import Instrument
from rules.lengths import INCH, in_unit
from rules.measuring.budget import rectangular

SEAT, GLASS, OUTSIDE, WALL, HEIGHT = "seat", "glass", "outside", "wall", "height"
DEPTH, SHEET = "depth", "sheet"
"""What is measured for a seal."""
CAN_MEASURE: dict[str, tuple[str, ...]] = {
    SEAT: ("calliper", "bore_gauge", "inside_micrometer", "plug"),
    GLASS: ("calliper", "micrometer"),
    OUTSIDE: ("micrometer", "calliper"),
    WALL: ("ball_micrometer", "calliper"),
    HEIGHT: ("calliper", "depth_gauge", "micrometer"),
    DEPTH: ("depth_gauge", "calliper"),
    SHEET: ("micrometer", "ball_micrometer", "calliper"),
}
"""The kinds of instrument that reach it, the best first: an outside micrometer does not go into a seat, nor
flat anvils into a bore.
"""
AS_LISTED = (SEAT, GLASS)
"""What is measured with the first instrument that the shop lists, until another is named."""

CALLIPER_IN_A_BORE_MM = 0.035
"""Limit of error of a calliper's inside jaws, which read short
in a small bore (common practice, no source).
"""
CALLIPER_ON_A_WALL_MM = 0.02
"""Limit of error of a calliper on a wall (common practice, no source)."""
SEAT_BY_CALLIPER_U_MM = 0.04
"""A seat read directly with a calliper is good to this, 95 % (common practice)."""
GLASS_BY_CALLIPER_U_MM = 0.02
"""A glass read with a calliper's outside jaws is good to this, 95 % (common practice)."""
SEAT_COMPARED_U_MM = 0.015
"""A seat compared with a micrometer set near the size, or measured by a stepped plug (common practice)."""
GLASS_BY_MICROMETER_U_MM = 0.005
"""A glass measured with a micrometer (common practice)."""
COMPARED = Instrument(name="calliper, compared", kind="calliper", resolution_mm=0.01, limit_of_error_mm=0.013)
"""A calliper compared with a micrometer set near the size: good to 0.015 mm (common practice, no source)."""
GROUND_AGREE_MM = 0.03
"""Two readings of a ground glass may differ by this, with any gauge (own judgement)."""
PLAIN = Instrument(name="calliper", kind="calliper", resolution_mm=0.01, limit_of_error_mm=0.03)
"""The calliper of a shop that names nothing that would do (common practice, no source)."""
FINE_MM = 0.005
"""An instrument with a finer step than this shows thousandths."""


def ground_agree_mm(tool: Instrument) -> float:
    """How far two readings of a part that is ground round may differ: twice the standard deviation of the
    gauge, at least 0.03 mm; further apart one of them is a slip, or lies on a chipped edge (own judgement).
    """
    return max(GROUND_AGREE_MM, 2.0 * rectangular(tool.limit_of_error_mm))


def in_a_bore(tool: Instrument) -> Instrument:
    """The instrument with the limit of error it has inside a bore."""
    least = CALLIPER_IN_A_BORE_MM if tool.kind == "calliper" else 0.0
    return replace(tool, limit_of_error_mm=max(tool.limit_of_error_mm, least))


def that_measure(thing: str, tools: Iterable[Instrument]) -> tuple[Instrument, ...]:
    """The instruments that can measure something, the one that is taken first in front; a plain calliper
    where none of them can: one lies on every bench.
    """
    kinds = CAN_MEASURE[thing]
    able = [tool for tool in tools if tool.kind in kinds]
    if thing not in AS_LISTED:
        able.sort(key=lambda tool: kinds.index(tool.kind))
    return tuple(able) or (PLAIN,)


def walls_by(tools: Iterable[Instrument]) -> tuple[Instrument, ...]:
    """What the wall of a ring is measured with, ball micrometers before callipers, by their limit of error
    there.
    """
    return tuple(
        replace(one, limit_of_error_mm=CALLIPER_ON_A_WALL_MM) if one.kind == "calliper" else one
        for one in that_measure(WALL, tools)
    )


def on_a_wall(tools: Iterable[Instrument]) -> Instrument:
    """The first of them."""
    return walls_by(tools)[0]


def wall_u_mm(tools: Iterable[Instrument]) -> float:
    """Standard uncertainty of a wall measured at several places with what there is for it, mm."""
    return rectangular(on_a_wall(tools).limit_of_error_mm)


def landing_spread_mm(turning_spread_mm: float, tools: Iterable[Instrument]) -> float:
    """Standard deviation of what is turned, mm on the diameter, where the last pass is corrected by a wall
    read with these tools; that of the shop counts for a ball micrometer.
    """
    tool = on_a_wall(tools)
    if tool.kind == "ball_micrometer":
        return turning_spread_mm
    return math.hypot(turning_spread_mm, 2.0 * rectangular(tool.limit_of_error_mm))


def together(tools: Sequence[Instrument]) -> Instrument:
    """The instrument that the mean of readings counts as, one of each given: the mean of their limits, as
    each may be out by its own.
    """
    count = len(tools)
    return replace(
        tools[0],
        limit_of_error_mm=math.fsum(tool.limit_of_error_mm for tool in tools) / count,
        resolution_mm=math.fsum(tool.resolution_mm for tool in tools) / count,
    )


def decimals(tool: Instrument) -> int:
    """Decimals that an instrument shows, in its own unit."""
    if tool.unit == INCH:
        step = in_unit(tool.resolution_mm, INCH)
        return next((n for n in (3, 4) if abs(step * 10**n - round(step * 10**n)) < 1e-6), 5)
    return 3 if tool.resolution_mm < FINE_MM else 2
