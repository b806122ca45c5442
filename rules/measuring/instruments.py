"""Limits of error of instruments where their own does not hold: in a bore, on a wall, compared.

Invariant: what is true of callipers in general stands here once; what is true of one
instrument stands in the shop file.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from rules.equipment import Instrument
from rules.measuring.budget import rectangular

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


def on_a_wall(tools: Iterable[Instrument]) -> Instrument:
    """What the wall of a ring is measured with: the ball micrometer, else a plain calliper."""
    plain = Instrument(
        name="calliper", kind="calliper", resolution_mm=0.01, limit_of_error_mm=CALLIPER_ON_A_WALL_MM
    )
    return next((tool for tool in tools if tool.kind == "ball_micrometer"), plain)


def wall_u_mm(tools: Iterable[Instrument]) -> float:
    """Standard uncertainty of a wall measured at several places with what there is for it, mm."""
    return rectangular(on_a_wall(tools).limit_of_error_mm)


def decimals(tool: Instrument) -> int:
    """Decimals of a millimetre that an instrument shows."""
    return 3 if tool.resolution_mm < FINE_MM else 2
