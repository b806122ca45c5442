"""What stands in the small shop that is assumed until there is a shop file.

Invariant: enough of everything to make a ring; in inch it is the same shop, bought in inch.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from rules.bars import COLLET, THREE_JAW, Bar, Grip
from rules.equipment import Axis, Lathe, Tool
from rules.instrument import Instrument
from rules.lengths import INCH
from rules.limits import MM_PER_INCH

LATHE = Lathe(
    name="small bench lathe",
    cross=Axis(shows="diameter", step_mm=0.01, backlash_mm=0.05, direction="outward"),
    carriage=Axis(shows="length", step_mm=0.01, backlash_mm=0.05, direction="to_chuck"),
    speeds_rpm=(150.0, 250.0, 420.0, 720.0, 1000.0, 1500.0, 2000.0),
    largest_rpm=2000.0,
    grips=(
        Grip(name="three-jaw chuck", smallest_mm=3.0, largest_mm=80.0, length_mm=20.0, kind=THREE_JAW),
        Grip(name="collet", smallest_mm=3.0, largest_mm=16.0, length_mm=15.0, kind=COLLET),
    ),
)
TOOLS = (
    Tool(number=1, kind="turning", name="keen right-hand turning tool", nose_radius_mm=0.2),
    Tool(
        number=2,
        kind="boring",
        name="boring bar",
        smallest_bore_mm=8.0,
        longest_reach_mm=20.0,
        shank_mm=6.0,
        nose_radius_mm=0.2,
    ),
    Tool(number=3, kind="chamfer", name="45 degree chamfer tool"),
    Tool(number=4, kind="parting", name="parting blade", blade_mm=1.0),
)
BARS = (
    Bar(plastic="acetal", diameter_mm=30.0, length_mm=200.0, colour="white"),
    Bar(plastic="acetal", diameter_mm=36.0, length_mm=200.0, colour="white"),
    Bar(plastic="acetal", diameter_mm=45.0, length_mm=150.0, colour="black"),
    Bar(plastic="pa66", diameter_mm=36.0, length_mm=200.0, colour="natural"),
    Bar(plastic="pa66", diameter_mm=45.0, length_mm=150.0, colour="natural"),
)
INSTRUMENTS = (
    Instrument(name="calliper", kind="calliper", resolution_mm=0.01, limit_of_error_mm=0.03),
    Instrument(name="micrometer", kind="micrometer", resolution_mm=0.001, limit_of_error_mm=0.004),
    Instrument(name="ball micrometer", kind="ball_micrometer", resolution_mm=0.001, limit_of_error_mm=0.004),
)
BARS_IN = {30.0: 1.25, 36.0: 1.5, 45.0: 1.75}
STEPS_IN = {"calliper": 0.0005, "micrometer": 0.0001, "ball_micrometer": 0.0001}
"""Bars as they come in inch, and what its instruments show."""


def in_mm() -> dict[str, Any]:
    """Lathes, tools, bars and instruments."""
    return {"lathes": (LATHE,), "tools": TOOLS, "bars": BARS, "instruments": INSTRUMENTS}


def in_inch() -> dict[str, Any]:
    """The same with slides, gauges, bars and drills in inch."""
    cross, carriage = (
        replace(axis, step_mm=0.0005 * MM_PER_INCH, backlash_mm=0.002 * MM_PER_INCH, unit=INCH)
        for axis in (LATHE.cross, LATHE.carriage)
    )
    return {
        "lathes": (replace(LATHE, cross=cross, carriage=carriage, drill_unit=INCH),),
        "tools": TOOLS,
        "bars": tuple(
            replace(bar, diameter_mm=round(BARS_IN[bar.diameter_mm] * MM_PER_INCH, 3)) for bar in BARS
        ),
        "instruments": tuple(
            replace(one, resolution_mm=STEPS_IN[one.kind] * MM_PER_INCH, unit=INCH) for one in INSTRUMENTS
        ),
    }
