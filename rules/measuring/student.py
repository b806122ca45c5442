"""Student's t, so that few readings are not trusted like many.

Invariant: a coverage factor falls with the degrees of freedom and never below that of the normal
distribution.
"""

from __future__ import annotations

import math
from functools import lru_cache
from statistics import NormalDist

from rules.checks import number

_NORMAL = NormalDist()
_LARGE = 1e6


def _beta_fraction(a: float, b: float, x: float) -> float:
    """Continued fraction of the incomplete beta function, by Lentz's method (Abramowitz, Stegun 26.5.8)."""
    tiny = 1e-300
    c, d = 1.0, 1.0 / (1.0 - (a + b) * x / (a + 1.0) or tiny)
    result = d
    for m in range(1, 400):
        for numerator in (
            m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)),
            -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)),
        ):
            d = 1.0 / (1.0 + numerator * d or tiny)
            c = 1.0 + numerator / c or tiny
            result *= c * d
        if abs(c * d - 1.0) < 1e-14:
            break
    return result


def _beta_share(a: float, b: float, x: float) -> float:
    """Regularised incomplete beta function I_x(a, b) for x from 0 to 1."""
    if x <= 0.0 or x >= 1.0:
        return 0.0 if x <= 0.0 else 1.0
    if x > (a + 1.0) / (a + b + 2.0):
        return 1.0 - _beta_share(b, a, 1.0 - x)
    logarithm = math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x)
    return math.exp(logarithm) * _beta_fraction(a, b, x) / a


def tail(t: float, dof: float) -> float:
    """Probability that Student's t with `dof` degrees of freedom lies beyond +-t (two-sided)."""
    if math.isinf(dof):
        return 2.0 * _NORMAL.cdf(-abs(t))
    return _beta_share(dof / 2.0, 0.5, dof / (dof + t * t))


def _density(t: float, dof: float) -> float:
    """Density of Student's t."""
    logarithm = math.lgamma((dof + 1.0) / 2.0) - math.lgamma(dof / 2.0)
    return math.exp(logarithm - (dof + 1.0) / 2.0 * math.log1p(t * t / dof)) / math.sqrt(dof * math.pi)


@lru_cache(maxsize=4096)
def coverage_factor(dof: float, level: float = 0.95) -> float:
    """The t that holds `level` of the probability between -t and +t, for `dof` degrees of freedom.

    Range: dof 1 to infinity, level 0.5 to 0.9999. Source: NIST TN 1297 table B.1 gives 12.71 for dof 1,
    2.23 for 10 and 1.960 for infinity at 95 %.

    >>> round(coverage_factor(10), 2)
    2.23
    """
    number("level", level, low=0.5, high=0.9999, unit="")
    if not math.isinf(dof):
        number("degrees of freedom", dof, low=1, high=1e12, unit="", advice="take at least two readings")
    factor = _NORMAL.inv_cdf(0.5 + level / 2.0)
    if dof > _LARGE:
        return factor
    for _ in range(100):  # the tail is convex and the start below the root: Newton's steps only rise to it
        step = (tail(factor, dof) - (1.0 - level)) / (2.0 * _density(factor, dof))
        factor += step
        if step < 1e-13 * factor:
            break
    return factor
