"""A straight line through readings by least squares, with the scatter of its residuals.

Invariant: the standard deviation of the slope is the textbook one for independent scatter; what
autocorrelation adds is told separately. Checked against NIST StRD Norris.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

LARGEST_AUTOCORRELATION = 0.95
FEW_READINGS = 30
LEAST_AUTOCORRELATION_FEW = 0.5
"""Under 30 readings the estimate of the autocorrelation counts as at least this (our judgement)."""


@dataclass(frozen=True, slots=True)
class Line:
    """y = level + slope (x - middle)."""

    slope: float
    slope_sd: float
    """Standard deviation of the slope for independent residuals."""
    level: float
    """Value at the mean of x."""
    middle: float
    """Mean of x."""
    spread: float
    """Square root of the sum of squares of x about its mean."""
    residual_sd: float
    """Standard deviation of the residuals, n - 2 degrees of freedom."""
    autocorrelation: float
    """Lag-1 autocorrelation of the residuals, as estimated."""
    n: int

    def at(self, x: float) -> float:
        """The line at x."""
        return self.level + self.slope * (x - self.middle)


def fit_line(x: Sequence[float], y: Sequence[float]) -> Line:
    """Least squares through at least three points with different x; two passes, no cancellation."""
    n = len(x)
    middle, level = math.fsum(x) / n, math.fsum(y) / n
    from_middle = [one - middle for one in x]
    squares = math.fsum([one * one for one in from_middle])
    slope = math.fsum([dx * (one - level) for dx, one in zip(from_middle, y, strict=True)]) / squares
    residuals = [one - level - slope * dx for dx, one in zip(from_middle, y, strict=True)]
    left = math.fsum([one * one for one in residuals])
    products = math.fsum([a * b for a, b in pairwise(residuals)])
    sd = math.sqrt(left / (n - 2))
    return Line(
        slope=slope,
        slope_sd=sd / math.sqrt(squares),
        level=level,
        middle=middle,
        spread=math.sqrt(squares),
        residual_sd=sd,
        autocorrelation=products / left if left > 0.0 else 0.0,
        n=n,
    )


def autocorrelation_factor(line: Line) -> float:
    """What autocorrelated residuals multiply the scatter by: sqrt((1 + r1)/(1 - r1)), at least 1.

    r1 is at least 0.5 under 30 readings. Source: the variance of a mean of a first-order autoregressive
    series (textbook), used here for the slope.
    """
    least = LEAST_AUTOCORRELATION_FEW if line.n < FEW_READINGS else 0.0
    r1 = min(max(line.autocorrelation, least), LARGEST_AUTOCORRELATION)
    return math.sqrt((1.0 + r1) / (1.0 - r1))
