"""A watch whose gap nobody knows, a lathe that lands near what was aimed at, and a hand that tells softly.

It stands for the bench in trials of second rings. It knows nothing of the program: a wall is aimed at, a ring
comes off the lathe, its wall is read, and the hand says how it went in.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass

RINGS = 6
"""More are not tried in one watch."""


@dataclass(frozen=True, slots=True)
class Spreads:
    """How far things lie from what is thought of them: standard deviations, mm; the hand in per cent."""

    gap_mm: float
    cut_mm: float
    read_mm: float = 0.002
    low_pct: float = 5.0
    high_pct: float = 13.0
    hand_pct: float = 0.8
    """Scale of the logistic curve by which the hand tells."""


@dataclass(frozen=True, slots=True)
class Turned:
    """One ring as it came off the lathe."""

    wall_mm: float
    read_mm: float
    """What its walls were read as, in the mean."""
    said: str
    """too_easy, home or would_not_start."""


@dataclass(frozen=True, slots=True)
class HiddenWatch:
    """One watch and the luck of every ring that may be made for it: the same luck for whoever sizes it."""

    seat_mm: float
    """As measured."""
    glass_mm: float
    gap_mm: float
    """As it is, on the radius."""
    spreads: Spreads
    luck: tuple[tuple[float, float, float], ...]
    """For each ring: error of the cut and of the reading in standard deviations, and a number from 0 to 1
    for the hand.
    """

    @classmethod
    def drawn(cls, draw: random.Random, spreads: Spreads) -> HiddenWatch:
        """One watch."""
        seat, gap = draw.choice((27.64, 29.42, 31.28, 33.18, 36.44)), draw.choice((0.45, 0.50, 0.55, 0.62))
        return cls(
            seat_mm=seat,
            glass_mm=round(seat - 2.0 * gap, 2),
            gap_mm=gap + draw.gauss(0.0, spreads.gap_mm),
            spreads=spreads,
            luck=tuple((draw.gauss(0, 1), draw.gauss(0, 1), draw.random()) for _ in range(RINGS)),
        )

    def turned(self, nth: int, aimed_mm: float) -> Turned:
        """The nth ring, from 0, with a wall that was aimed at."""
        cut, read, hand = self.luck[nth]
        wall = aimed_mm + cut * self.spreads.cut_mm
        return Turned(wall, wall + read * self.spreads.read_mm, self.said(wall, hand))

    def squeeze_pct(self, wall_mm: float) -> float:
        """What a wall is squeezed by in the gap as it is."""
        return 100.0 * (wall_mm - self.gap_mm) / wall_mm

    def said(self, wall_mm: float, luck: float) -> str:
        """What the hand tells: half of the rings at an end of the band are called wrong there."""
        squeeze, of = self.squeeze_pct(wall_mm), self.spreads
        if luck < 1.0 / (1.0 + math.exp((squeeze - of.low_pct) / of.hand_pct)):
            return "too_easy"
        if luck > 1.0 - 1.0 / (1.0 + math.exp((of.high_pct - squeeze) / of.hand_pct)):
            return "would_not_start"
        return "home"
