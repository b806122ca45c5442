"""Gap, wall and squeeze, and the band of squeezes that works: what every verdict on a ring is made of.

Invariant: squeeze is wall less gap, over wall; so in a given gap a wall and a squeeze follow from each other.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules import limits
from rules.checks import numbers, plain


def gap_mm(*, case_bore_mm: float, glass_mm: float) -> float:
    """Half the difference of seat and glass, mm."""
    return (case_bore_mm - glass_mm) / 2.0


def squeeze_pct(*, wall_mm: float, gap_mm: float) -> float:
    """Nominal squeeze, per cent of the wall; negative for a loose ring."""
    return 100.0 * (wall_mm - gap_mm) / wall_mm


def wall_for_mm(*, squeeze_pct: float, gap_mm: float) -> float:
    """The wall that has this nominal squeeze in a gap, mm.

    >>> round(wall_for_mm(squeeze_pct=9.0, gap_mm=0.53), 4)
    0.5824
    """
    return gap_mm / (1.0 - squeeze_pct / 100.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """Seat and glass as they were when a ring was decided; uncertainties are expanded, 95 %, mm."""

    case_bore_mm: float
    case_bore_u_mm: float
    glass_mm: float
    glass_u_mm: float
    believed_mm: float | None = None
    """What rings tried before have taught; None where they have taught nothing."""
    believed_u_mm: float = 0.0
    to_20_mm: float = 0.0
    """What correcting seat and glass to 20 C adds."""

    @property
    def mm(self) -> float:
        """Between seat and glass, on the radius, as it is believed to be; at 20 C, as its band is."""
        if self.believed_mm is not None:
            return self.believed_mm + self.to_20_mm
        return gap_mm(case_bore_mm=self.case_bore_mm, glass_mm=self.glass_mm) + self.to_20_mm

    @property
    def u_mm(self) -> float:
        """Its expanded uncertainty, 95 % (GUM 5.1.2: half of two independent diameters)."""
        if self.believed_mm is not None:
            return self.believed_u_mm
        return math.hypot(self.case_bore_u_mm, self.glass_u_mm) / 2.0


@dataclass(frozen=True, slots=True)
class Band:
    """Nominal squeezes that work in a seat, per cent of the wall; raises OutOfRange."""

    low_pct: float = 100.0 * limits.LEAST_SQUEEZE
    high_pct: float = 100.0 * limits.MOST_SQUEEZE

    def __post_init__(self) -> None:
        numbers(
            ("upper limit of the squeeze", self.high_pct, 0.0, 50.0, "%"),
            ("lower limit of the squeeze", self.low_pct, 0.0, self.high_pct, "%"),
            advice="give the lower one under the upper one",
        )

    @property
    def words(self) -> str:
        """Both ends as a person reads them.

        >>> Band(5.0, 12.2231).words
        '5 to 12.2'
        """
        return f"{plain(self.low_pct, 1)} to {plain(self.high_pct, 1)}"

    def walls_mm(self, gap_mm: float) -> tuple[float, float]:
        """The thinnest and the thickest wall of the band in a gap, mm."""
        return (
            wall_for_mm(squeeze_pct=self.low_pct, gap_mm=gap_mm),
            wall_for_mm(squeeze_pct=self.high_pct, gap_mm=gap_mm),
        )


USUAL_BAND = Band()
"""Where nothing narrows it (common practice, no source)."""
