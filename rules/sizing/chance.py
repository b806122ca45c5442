"""The chance that a cut lands in the band, and the wall that makes it greatest.

Invariant: the chance is the probability that every known requirement holds, with seat, glass, turned wall
and height drawn from normal distributions of the stated spreads.

How: near the band each limit is a straight line in wall and gap. Along the difference wall - gap the
probability is that of a normal distribution between two bounds; where the height moves a limit, that is
summed over even steps of the height, and where one does not move with the gap, over those of the gap. Within
1 percentage point of drawing 100,000 rings.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rules import limits
from rules.checks import sizes_near
from rules.sizing.demands import Limit


def _even_steps(step: float, count: int) -> tuple[tuple[float, float], ...]:
    """Even steps over a standard normal variable, weights adding to one."""
    raw = [(step * k, math.exp(-((step * k) ** 2) / 2.0)) for k in range(-count, count + 1)]
    whole = math.fsum(weight for _, weight in raw)
    return tuple((z, weight / whole) for z, weight in raw)


Steps = Sequence[tuple[float, float]]
_STEPS = _even_steps(0.2, 22)
"""For limits that depend steeply on the height, or not on the gap, and cut others off."""
_SOME_STEPS = _even_steps(0.4, 11)  # where both are
_ONE: Steps = ((0.0, 1.0),)
_FEW_STEPS = _even_steps(0.6, 7)
"""Enough to find the best wall."""
_FLAT = 0.3
"""A limit whose wall grows by less with the gap, as the least wall that can be turned, lies across."""
_MATTERS = 0.05
"""A limit that the height moves by less than this part of the spread of the cut is taken at one height."""
OUT_OF_REACH = 4.5
"""Standard deviations beyond which nothing is taken to land."""
_GOLDEN = (math.sqrt(5.0) - 1.0) / 2.0
_HALF = math.sqrt(0.5)
_LEAST_HEIGHT_MM = 0.05
_LEAST_RUN = 1e-9
_CLOSE_MM = 2e-5
"""How closely the best wall is found."""


@dataclass(frozen=True, slots=True)
class Spread:
    """Standard deviations of what a ring is cut and measured to, mm."""

    gap_mm: float
    wall_mm: float
    height_mm: float

    @property
    def difference_mm(self) -> float:
        """Standard deviation of wall less gap, mm."""
        return math.hypot(self.gap_mm, self.wall_mm)


Bound = tuple[float, float]
"""A limit's wall, and how far wall - gap has to change for each mm from the wall that is cut to it."""
Slice = tuple[float, list[Bound], list[Bound]]
"""For one height and gap: its weight, the least walls and the most walls."""


def _below(z: float) -> float:
    """The standard normal distribution."""
    return 0.5 * math.erfc(-z * _HALF)


class Landing:
    """The limits linearised once, so that the chance of many walls can be computed.

    `least_mm` and `most_mm` are the walls that bind at the gap and height as measured; limits that do not
    come near them at any likely height are left out.
    """

    def __init__(
        self,
        wall_limits: Sequence[Limit],
        *,
        gap_mm: float,
        height_mm: float | None,
        spread: Spread,
        least_mm: float,
        most_mm: float,
    ) -> None:
        self._sigma = spread.difference_mm
        self._wall_part = (spread.wall_mm / self._sigma) ** 2 if self._sigma else 1.0
        self._gap, self._height, self._spread = gap_mm, height_mm or 0.0, spread
        straight = [_Straight.of(limit, gap_mm, self._height, spread) for limit in wall_limits]
        room = 2.0 * OUT_OF_REACH * self._sigma + 1e-9
        self._limits = [
            one
            for one in straight
            if (one.lowest < most_mm + room if one.limit.most else one.highest > least_mm - room)
        ]
        steep = any(one.steep for one in self._limits)
        near = least_mm - OUT_OF_REACH * spread.wall_mm
        flat = spread.wall_mm > 0.0 and any(one.slope < _FLAT and one.wall_mm > near for one in self._limits)
        if flat:
            self._wall_part, self._sigma = 1.0, spread.wall_mm
        self._few = self._slices(_FEW_STEPS if steep else _ONE, _FEW_STEPS if flat else _ONE)
        fine = _SOME_STEPS if steep and flat else _STEPS
        self._all = self._slices(fine if steep else _ONE, fine if flat else _ONE)

    def _slices(self, heights: Steps, gaps: Steps) -> list[Slice]:
        """The straight limits at each height, and at each gap where one of them does not move with it."""
        slices: list[Slice] = []
        for z, weight in heights:
            height = self._height + z * self._spread.height_mm
            found = [(one.limit.most, *one.at(self._gap, height)) for one in self._limits]
            slices += [
                self._slice(found, z_gap * self._spread.gap_mm, weight * share) for z_gap, share in gaps
            ]
        return slices

    def _slice(self, found: Sequence[tuple[bool, float, float]], wider: float, weight: float) -> Slice:
        """The limits in a gap so much wider, without those further back than the spread of the cut."""
        least: list[Bound] = []
        most: list[Bound] = []
        for is_most, wall, slope in found:
            run = self._wall_part + slope * (1.0 - self._wall_part)
            (most if is_most else least).append((wall + slope * wider, 1.0 / max(run, _LEAST_RUN)))
        first, last = max(least)[0] - self._sigma, min(most)[0] + self._sigma
        return weight, [one for one in least if one[0] >= first], [one for one in most if one[0] <= last]

    def chance(self, wall_mm: float) -> float:
        """Probability that a ring turned to this wall meets every limit, 0 to 1."""
        total, sigma = 0.0, self._sigma
        for weight, least, most in self._all:
            low = max([(wall - wall_mm) * run for wall, run in least])
            high = min([(wall - wall_mm) * run for wall, run in most])
            if high <= low:
                continue
            if sigma == 0.0:
                total += weight if low <= 0.0 <= high else 0.0
            else:
                total += weight * (_below(high / sigma) - _below(low / sigma))
        return min(1.0, max(0.0, total))

    def risk(self, wall_mm: float, least_sigma_mm: float) -> float:
        """Chance of falling out at either end; never rounded to nothing, so that one wall alone is best."""
        scale = _HALF / max(self._sigma, least_sigma_mm)
        total = 0.0
        for weight, least, most in self._few:
            low = max([(wall - wall_mm) * run for wall, run in least])
            high = min([(wall - wall_mm) * run for wall, run in most])
            total += weight * (math.erfc(-low * scale) + math.erfc(high * scale))
        return total

    def best_wall(self, least_mm: float, most_mm: float) -> float:
        """The wall between two others with the greatest chance, by golden section on the risk."""
        least_sigma = (most_mm - least_mm) / 50.0
        low, high = least_mm, most_mm
        left, right = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
        at_left, at_right = self.risk(left, least_sigma), self.risk(right, least_sigma)
        while high - low > _CLOSE_MM:
            if at_left < at_right:
                high, right, at_right = right, left, at_left
                left = high - _GOLDEN * (high - low)
                at_left = self.risk(left, least_sigma)
            else:
                low, left, at_left = left, right, at_right
                right = low + _GOLDEN * (high - low)
                at_right = self.risk(right, least_sigma)
        return (low + high) / 2.0

    def best_bore(
        self, exact_mm: float, *, outside_mm: float, least_mm: float, most_mm: float, step_mm: float
    ) -> float:
        """The bore with the greatest chance of all steps of the lathe between two walls,
        beside the exact one; in hundredths or thousandths where no step lies there, the exact
        one where the walls are closer still.
        """
        seen: dict[float, tuple[float, float]] = {}

        def expected(bore: float) -> tuple[float, float]:
            if bore not in seen:
                wall = (outside_mm - bore) / 2.0
                seen[bore] = round(self.chance(wall), 9), -self.risk(wall, (most_mm - least_mm) / 50.0)
            return seen[bore]

        low, high = outside_mm - 2.0 * most_mm, outside_mm - 2.0 * least_mm
        steps = (step_mm, limits.SIZE_STEP_MM, limits.FINEST_STEP_MM)
        best, better = None, exact_mm
        while better != best:  # the exact one is found on few steps: from there the chance itself leads on
            best = better
            near = sizes_near(best, low_mm=low, high_mm=high, steps_mm=steps)
            better = max(near, key=expected, default=best)
        return best


@dataclass(frozen=True, slots=True)
class _Straight:
    """A limit as a straight line in wall and gap; a steep one is computed again at each height."""

    limit: Limit
    reach_mm: float
    wall_mm: float
    slope: float
    lowest: float
    highest: float
    """Least and greatest wall over the likely heights."""
    steep: bool
    """True when the spread of the height moves it enough to matter beside the spread of the cut."""

    @classmethod
    def of(cls, limit: Limit, gap: float, height: float, spread: Spread) -> _Straight:
        """The line at a gap and height."""
        reach = max(spread.gap_mm, 1e-5)
        wall = limit.wall_mm(gap, height)
        slope = _slope(limit, gap, height, reach)
        if not limit.modelled or spread.height_mm == 0.0:
            return cls(limit, reach, wall, slope, wall, wall, False)
        far = OUT_OF_REACH * spread.height_mm
        ends = (
            wall,
            limit.wall_mm(gap, max(_LEAST_HEIGHT_MM, height - far)),
            limit.wall_mm(gap, height + far),
        )
        moves = max(ends) - min(ends)
        steep = not math.isfinite(moves) or moves > _MATTERS * OUT_OF_REACH * spread.difference_mm
        return cls(limit, reach, wall, slope, min(ends), max(ends), steep)

    def at(self, gap: float, height: float) -> Bound:
        """Wall and slope by the gap for a ring of that height."""
        if not self.steep:
            return self.wall_mm, self.slope
        height = max(_LEAST_HEIGHT_MM, height)
        up = self.limit.wall_mm(gap + self.reach_mm, height)
        down = self.limit.wall_mm(gap - self.reach_mm, height)
        if math.isfinite(up) and math.isfinite(down):
            return (up + down) / 2.0, max(0.0, (up - down) / (2.0 * self.reach_mm))
        return self.limit.wall_mm(gap, height), 1.0


def _slope(limit: Limit, gap: float, height: float, reach: float) -> float:
    """How a limit's wall grows with the gap, by a difference; 1 where it has no end."""
    up, down = limit.wall_mm(gap + reach, height), limit.wall_mm(gap - reach, height)
    if not (math.isfinite(up) and math.isfinite(down)):
        return 1.0
    return max(0.0, (up - down) / (2.0 * reach))
