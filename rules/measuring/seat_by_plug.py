"""The seat diameter that a stepped go and no-go plug gives.

Invariant: the seat lies between the largest step that enters and the smallest that does not, widened by the
limit of error of the plug itself. Lengths in mm. Common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules.checks import OutOfRange, numbers
from rules.measuring.budget import COVERAGE, rectangular
from rules.measuring.reading import Summary

STEP_MM = 0.02
FARTHEST_APART_MM = 0.5
"""Two steps of one plug never lie further apart."""
PLUG_LIMIT_MM = 0.004
"""How far a step measured with a micrometer may be off. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SeatByPlug:
    """The seat diameter by plug."""

    diameter_mm: float
    low_mm: float
    high_mm: float
    half_width_mm: float
    """Limits of a rectangular distribution."""

    @property
    def standard_uncertainty_mm(self) -> float:
        """Of a rectangular distribution (GUM 4.3.7)."""
        return rectangular(self.half_width_mm)

    def size(self) -> Summary:
        """The diameter as measuring hands it on; no repeats, so no ovality and no scatter.

        Its expanded uncertainty is twice the standard one, so that half of it gives that one back.
        """
        return Summary(
            mean_mm=self.diameter_mm,
            n=2,
            range_mm=self.high_mm - self.low_mm,
            ovality_mm=0.0,
            u_mm=self.standard_uncertainty_mm,
            dof=math.inf,
            expanded_mm=COVERAGE * self.standard_uncertainty_mm,
            components=(),
        )


def seat_from_plug(
    *, enters_mm: float, stays_out_mm: float, plug_limit_mm: float = PLUG_LIMIT_MM
) -> SeatByPlug:
    """Seat diameter from the largest step that enters and the smallest that does not, each as measured.

    `plug_limit_mm` how far the measured steps may be off, 0 to 0.05 mm.
    Raises OutOfRange when the two steps are not in order or lie more than 0.5 mm apart.

    >>> round(seat_from_plug(enters_mm=33.18, stays_out_mm=33.20, plug_limit_mm=0.004).half_width_mm, 6)
    0.014
    """
    numbers(
        ("step that enters", enters_mm, 3.0, 90.0, "mm"),
        ("step that does not", stays_out_mm, 3.0, 90.0, "mm"),
        ("limit of the plug", plug_limit_mm, 0.0, 0.05, "mm"),
        advice="measure it again",
    )
    if not 0.0 < stays_out_mm - enters_mm <= FARTHEST_APART_MM:
        raise OutOfRange(
            f"plug: the step that enters is {enters_mm:g} mm, the one that does not {stays_out_mm:g} mm; "
            f"give the larger one second, at most {FARTHEST_APART_MM:g} mm larger"
        )
    half = (stays_out_mm - enters_mm) / 2.0 + plug_limit_mm
    middle = (enters_mm + stays_out_mm) / 2.0
    return SeatByPlug(
        diameter_mm=round(middle, 6),
        low_mm=round(middle - half, 6),
        high_mm=round(middle + half, 6),
        half_width_mm=round(half, 6),
    )


def nearest_that_can_be(enters_mm: float, stays_out_mm: float) -> float:
    """The step that does not enter, as near to what was keyed as a step of this plug can lie."""
    return min(max(stays_out_mm, enters_mm + STEP_MM), enters_mm + FARTHEST_APART_MM)
