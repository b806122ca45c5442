"""A shop whose lathe lands off by a bias and a spread that nobody knows, and who judges where its rings land.

It stands for the bench in trials of what a shop learns and knows nothing of the program: a wall is aimed at,
the ring comes off the lathe, and the chance that its squeeze lies in the band is integrated over gap and cut.
"""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from dataclasses import dataclass, replace

LOW, HIGH = 0.05, 0.13
"""The band of the squeeze, as a part of the wall."""
MOST = 60
"""Rings of the largest shop."""


@dataclass(frozen=True, slots=True)
class OneWatch:
    """One watch of a shop as it is measured, and the luck of its ring."""

    seat_mm: float
    glass_mm: float
    luck: float
    """Of the cut, in standard deviations."""
    read: float
    """Of the reading of its walls, the same."""

    @property
    def gap_mm(self) -> float:
        """As measured, on the radius."""
        return (self.seat_mm - self.glass_mm) / 2.0


@dataclass(frozen=True, slots=True)
class HiddenShop:
    """What is true of a shop."""

    bias_mm: float
    """Its walls land so much thicker than aimed at, in the mean."""
    spread_mm: float
    """Standard deviation about that."""
    gap_mm: float
    """Standard deviation of a measured gap about the true one; the program is told it."""
    read_mm: float
    """Standard deviation of the mean of four walls as read."""
    watches: tuple[OneWatch, ...]
    other_tool_mm: float = 0.0
    """How much more the bias is with another tool."""

    @classmethod
    def drawn(cls, draw: random.Random, rings: int) -> HiddenShop:
        """A shop, with watches for so many rings."""
        return cls(
            bias_mm=draw.gauss(0.0, 0.005),
            spread_mm=0.005 * math.exp(draw.gauss(0.0, 0.6)),
            gap_mm=draw.choice((0.004, 0.008, 0.018)),
            read_mm=0.001,
            watches=tuple(_watch(draw) for _ in range(rings)),
            other_tool_mm=draw.gauss(0.0, 0.005),
        )

    def off_mm(self, nth: int, *, other_tool: bool = False) -> float:
        """How far the nth ring, from 0, comes out from what is aimed at, as its walls are read."""
        watch = self.watches[nth]
        return self.true_bias_mm(other_tool) + self.spread_mm * watch.luck + self.read_mm * watch.read

    def true_bias_mm(self, other_tool: bool) -> float:
        """Its bias with the one tool or the other."""
        return self.bias_mm + (self.other_tool_mm if other_tool else 0.0)

    def chance(self, nth: int, aimed_mm: float, *, other_tool: bool = False) -> float:
        """That the nth ring lies in the band when its wall is aimed at."""
        middle = aimed_mm + self.true_bias_mm(other_tool)
        return in_band(middle, self.spread_mm, self.watches[nth].gap_mm, self.gap_mm)

    def with_wild(self, every: Sequence[int], by_mm: float) -> HiddenShop:
        """The same with some rings far off, by a slip."""
        step = by_mm / self.spread_mm
        watches = (
            replace(one, luck=one.luck + step) if at in every else one for at, one in enumerate(self.watches)
        )
        return replace(self, watches=tuple(watches))


def _watch(draw: random.Random) -> OneWatch:
    seat, gap = draw.choice((27.64, 31.28, 36.44)), draw.choice((0.40, 0.45, 0.52, 0.60))
    return OneWatch(seat, round(seat - 2.0 * gap, 2), draw.gauss(0.0, 1.0), draw.gauss(0.0, 1.0))


def in_band(wall_mm: float, wall_sd: float, gap_mm: float, gap_sd: float) -> float:
    """Chance that 5 % <= 1 - gap / wall <= 13 %, wall and gap normal: 61 gaps over five deviations."""
    total = whole = 0.0
    for step in range(-30, 31):
        z = step / 6.0
        density = math.exp(-z * z / 2.0)
        gap = gap_mm + z * gap_sd
        least, most = gap / (1.0 - LOW), gap / (1.0 - HIGH)
        whole += density
        total += density * (_below((most - wall_mm) / wall_sd) - _below((least - wall_mm) / wall_sd))
    return total / whole


def _below(z: float) -> float:
    return 0.5 * math.erfc(-z / math.sqrt(2.0))
