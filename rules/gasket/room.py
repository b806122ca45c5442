"""The room that a flat gasket has, what presses it, and what it is asked to be.

Invariant: a room that exists is wider than nothing and higher than nothing; lengths in mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules.checks import OutOfRange, number
from rules.gasket.drive import Drive
from rules.gasket.materials import TURNED, GasketMaterial

CLEARANCE_MM = 0.05
"""On each side, so that it goes in without being forced (common practice, no source)."""
CUT_SPREAD_MM = 0.05
"""Standard deviation of the width of what is cut from sheet (own judgement)."""
TURNED_SPREAD_MM = 0.01
"""The same of what is turned, width and thickness (own judgement)."""
READ_SPREAD_MM = 0.005
"""Of the thickness of a sheet that was measured with a micrometer (own judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GasketRoom:
    """Where the gasket lies; raises OutOfRange. Uncertainties are standard deviations."""

    outside_mm: float
    inside_mm: float
    height_mm: float
    """Between the faces when the parts are closed: where they meet, or where they are wanted to stand."""
    stopped: bool
    """The parts meet metal to metal: the stop sets the squeeze."""
    walled: bool = True
    """A groove; False for a ledge that is open inwards."""
    across_u_mm: float = 0.02
    """Of the width of the room."""
    height_u_mm: float = 0.015

    def __post_init__(self) -> None:
        number("outside of the room", self.outside_mm, low=4.0, high=80.0, unit="mm")
        number("inside of the room", self.inside_mm, low=1.0, high=self.outside_mm - 0.2, unit="mm")
        number("height between the faces", self.height_mm, low=0.1, high=5.0, unit="mm")

    @property
    def width_mm(self) -> float:
        """From wall to wall, or from wall to edge."""
        return (self.outside_mm - self.inside_mm) / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class GasketQuestion:
    """What is asked of the sizing."""

    room: GasketRoom
    drive: Drive
    material: GasketMaterial
    way: str = TURNED
    """turned, cut or ready."""
    thick_mm: float | None = None
    """As wanted, or of the sheet there is; None: as proposed."""
    measured: bool = False
    """That thickness was measured."""
    width_mm: float | None = None
    """As wanted; None: as proposed."""

    @property
    def width_u_mm(self) -> float:
        """How the width of what is made spreads."""
        return TURNED_SPREAD_MM if self.way == TURNED else CUT_SPREAD_MM

    def thick_u_mm(self, thick_mm: float) -> float:
        """How the thickness of what is made spreads."""
        if self.way == TURNED:
            return TURNED_SPREAD_MM
        return READ_SPREAD_MM if self.measured else self.material.sheet_spread * thick_mm


@dataclass(frozen=True, slots=True)
class GasketSizes:
    """A flat gasket as it is before it is squeezed, mm."""

    outside_mm: float
    inside_mm: float
    thick_mm: float

    @property
    def width_mm(self) -> float:
        """Its width, on the radius."""
        return (self.outside_mm - self.inside_mm) / 2.0

    @property
    def middle_mm(self) -> float:
        """The circumference of its middle."""
        return math.pi * (self.outside_mm + self.inside_mm) / 2.0


def laid_in(room: GasketRoom, width_mm: float, thick_mm: float) -> GasketSizes:
    """A gasket of a width as it lies: pressed inwards by the water, it rests on the inner wall; on a ledge it
    is held by the outer one. Raises OutOfRange where it does not go in.
    """
    most = room.width_mm - 2.0 * CLEARANCE_MM
    if width_mm > most + 1e-9:
        raise OutOfRange(
            f"width: {width_mm:.2f} mm does not go into {room.width_mm:.2f} mm; at most {most:.2f} mm does"
        )
    if room.walled:
        inside = room.inside_mm + 2.0 * CLEARANCE_MM
        return GasketSizes(inside + 2.0 * width_mm, inside, thick_mm)
    outside = room.outside_mm - 2.0 * CLEARANCE_MM
    return GasketSizes(outside, outside - 2.0 * width_mm, thick_mm)
