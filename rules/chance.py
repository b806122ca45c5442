"""The chance that a cut lands in the band, and the wall that makes it greatest.

Invariant: the chance is the probability that every known requirement holds, with seat, glass, turned wall
and height drawn from normal distributions of the stated spreads.

How: near the band each limit is a straight line in wall and gap. Along the difference wall - gap the
probability is that of a normal distribution between two bounds; over what is common to wall and gap, and
over the height, it is a Gauss-Hermite sum. Within 1 percentage point of drawing 100,000 rings.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rules.band import Limit

_ROOT3 = math.sqrt(3.0)
_NODES = ((-_ROOT3, 1.0 / 6.0), (0.0, 2.0 / 3.0), (_ROOT3, 1.0 / 6.0))
"""Three-point Gauss-Hermite rule for a standard normal variable (Abramowitz, Stegun 25.4.46)."""
_GOLDEN = (math.sqrt(5.0) - 1.0) / 2.0
_HALF = math.sqrt(0.5)


@dataclass(frozen=True, slots=True)
class Spread:
    """Standard deviations, mm."""

    gap_mm: float
    wall_mm: float
    height_mm: float

    @property
    def difference_mm(self) -> float:
        """Of wall less gap."""
        return math.hypot(self.gap_mm, self.wall_mm)


@dataclass(frozen=True, slots=True)
class _Slice:
    """One combination of height and common part: its weight and its straight limits (wall, slope along wall
    - gap).
    """

    weight: float
    least: tuple[tuple[float, float], ...]
    most: tuple[tuple[float, float], ...]

    def bounds(self, wall_mm: float) -> tuple[float, float]:
        """How much less and how much more wall - gap may be than meant, mm."""
        low = max([(wall - wall_mm) / slope for wall, slope in self.least])
        high = min([(wall - wall_mm) / slope for wall, slope in self.most])
        return low, high


def _below(z: float) -> float:
    """The standard normal distribution."""
    return 0.5 * math.erfc(-z * _HALF)


class Landing:
    """The limits made straight once, so that many walls can be asked."""

    def __init__(
        self, band: Sequence[Limit], *, gap_mm: float, height_mm: float | None, spread: Spread
    ) -> None:
        self._sigma = spread.difference_mm
        heights = _NODES if height_mm is not None and spread.height_mm > 0.0 else ((0.0, 1.0),)
        total = self._sigma**2
        wall_part = spread.wall_mm**2 / total if total else 1.0
        common = spread.gap_mm * spread.wall_mm / self._sigma if total else 0.0
        commons = _NODES if common else ((0.0, 1.0),)
        reach = max(spread.gap_mm, 1e-5)
        self._slices: list[_Slice] = []
        for z, height_weight in heights:
            height = (height_mm or 0.0) + z * spread.height_mm
            lines = [_straight(limit, gap_mm, height, reach) for limit in band]
            for v, common_weight in commons:
                moved = [
                    (wall - (1.0 - slope) * v * common, wall_part + slope * (1.0 - wall_part))
                    for wall, slope in lines
                ]
                self._slices.append(
                    _Slice(
                        weight=height_weight * common_weight,
                        least=tuple(m for m, limit in zip(moved, band, strict=True) if not limit.most),
                        most=tuple(m for m, limit in zip(moved, band, strict=True) if limit.most),
                    )
                )

    def chance(self, wall_mm: float) -> float:
        """Probability that a ring turned to this wall meets every limit, 0 to 1."""
        total = 0.0
        for part in self._slices:
            low, high = part.bounds(wall_mm)
            if high <= low:
                continue
            if self._sigma == 0.0:
                total += part.weight if low <= 0.0 <= high else 0.0
            else:
                total += part.weight * (_below(high / self._sigma) - _below(low / self._sigma))
        return min(1.0, max(0.0, total))

    def risk(self, wall_mm: float, least_sigma_mm: float) -> float:
        """Chance of falling out at either end, never rounded to nothing, so that the best wall is always
        one wall.
        """
        sigma = max(self._sigma, least_sigma_mm)
        total = 0.0
        for part in self._slices:
            low, high = part.bounds(wall_mm)
            total += part.weight * (_below(low / sigma) + _below(-high / sigma))
        return total

    def best_wall(self, least_mm: float, most_mm: float) -> float:
        """The wall between two others with the greatest chance, by golden section on the risk."""
        least_sigma = (most_mm - least_mm) / 50.0
        low, high = least_mm, most_mm
        left, right = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
        at_left, at_right = self.risk(left, least_sigma), self.risk(right, least_sigma)
        while high - low > 1e-6:
            if at_left < at_right:
                high, right, at_right = right, left, at_left
                left = high - _GOLDEN * (high - low)
                at_left = self.risk(left, least_sigma)
            else:
                low, left, at_left = left, right, at_right
                right = low + _GOLDEN * (high - low)
                at_right = self.risk(right, least_sigma)
        return (low + high) / 2.0


def _straight(limit: Limit, gap: float, height: float, reach: float) -> tuple[float, float]:
    """A limit's wall at the gap and its slope by the gap; a limit without end has slope 1."""
    wall = limit.wall_mm(gap, height)
    if not math.isfinite(wall):
        return wall, 1.0
    up, down = limit.wall_mm(gap + reach, height), limit.wall_mm(gap - reach, height)
    if not (math.isfinite(up) and math.isfinite(down)):
        return wall, 1.0
    return wall, max(0.0, (up - down) / (2.0 * reach))
