"""A face-grooving tool that cuts out a core, as tests have it at hand."""

from __future__ import annotations

from dataclasses import replace

from rules.equipment import Tool

CORING = Tool(
    number=9,
    kind="face_grooving",
    blade_mm=3.0,
    smallest_groove_mm=28.0,
    largest_groove_mm=36.0,
    depth_mm=4.0,
)
"""Relieved for grooves of 28 to 36 mm."""
DEEP_CORING = replace(CORING, smallest_groove_mm=20.0, largest_groove_mm=40.0, depth_mm=8.0)
"""Relieved for more, and longer."""
