"""The groove an O-ring lies in, and the ring itself.

Invariant: a groove that exists has a depth and a width; lengths in mm. What is known of a length is the limit
of error it lies within; its standard uncertainty follows from that in one place.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules.checks import number
from rules.measuring.budget import rectangular

FACE, MALE, FEMALE = "flat", "male", "female"
"""Flat in a groove of a face; on the floor of a groove of the inner part; in a groove of the outer part."""
USUAL_CORNER_MM = 0.05
"""Radius of the corners of a groove that nobody looked at (own judgement; tables allow 0.2)."""
LEAST_MM = 0.1
"""Depth and width of the smallest groove."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """A length and the limit within which it is known."""

    mm: float
    limit_mm: float = 0.0

    @property
    def sd_mm(self) -> float:
        """Its standard uncertainty (GUM 4.3.7)."""
        return rectangular(self.limit_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Housing:
    """A groove with what closes it; raises OutOfRange.

    flat: inner and outer wall, and its depth. male: floor of the groove, the bore it works in, and its width.
    female: the shaft, floor of the groove, and its width.
    """

    lies: str
    inner: Length
    outer: Length
    other: Length
    moving: bool = False
    """A part is turned, pulled or pressed past the ring."""
    corner_mm: float = USUAL_CORNER_MM

    def __post_init__(self) -> None:
        number("smaller diameter", self.inner.mm, low=0.4, high=60.0, unit="mm")
        least = self.inner.mm + 2.0 * LEAST_MM - 1e-9
        number("larger diameter", self.outer.mm, low=least, high=62.0, unit="mm")
        number("depth or width", self.other.mm, low=LEAST_MM, high=4.0, unit="mm")
        number("corner", self.corner_mm, low=0.0, high=min(self.depth_mm, self.width_mm / 2.0), unit="mm")

    @property
    def depth_mm(self) -> float:
        """What the ring is squeezed to."""
        return self.depth_of(self.inner.mm, self.outer.mm, self.other.mm)

    @property
    def width_mm(self) -> float:
        """What it may grow into."""
        return self.width_of(self.inner.mm, self.outer.mm, self.other.mm)

    def depth_of(self, inner_mm: float, outer_mm: float, other_mm: float) -> float:
        """Depth of a groove of this kind."""
        return other_mm if self.lies == FACE else (outer_mm - inner_mm) / 2.0

    def width_of(self, inner_mm: float, outer_mm: float, other_mm: float) -> float:
        """Width of a groove of this kind."""
        return (outer_mm - inner_mm) / 2.0 if self.lies == FACE else other_mm

    @property
    def rests_on_mm(self) -> float:
        """The diameter that the ring takes: the inner one, or the floor in the outer part."""
        return self.outer.mm if self.lies == FEMALE else self.inner.mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Oring:
    """A ring as it lies free."""

    inside: Length
    cord: Length
    inside_by: str = ""
    """What its limits go by, a word of `rules.oring.stock`."""
    cord_by: str = ""


def section_mm2(cord_mm: float) -> float:
    """Area of a round cord, mm2."""
    return math.pi / 4.0 * cord_mm**2


def room_mm2(depth_mm: float, width_mm: float, corner_mm: float) -> float:
    """Area of a groove less its two rounded corners, mm2.

    >>> room_mm2(0.7, 1.4, 0.0)
    0.98
    """
    return round(depth_mm * width_mm - 2.0 * (1.0 - math.pi / 4.0) * corner_mm**2, 12)
