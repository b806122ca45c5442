"""A mean and a spread that nobody knows, learned from few values and from what was believed before.

Invariant: the mean is kept apart from the spread, every value enters with its weight, and one wild value
moves neither far. Lengths in mm.

Normal distribution with unknown mean and variance, its conjugate prior (normal and scaled inverse chi-square)
and its predictive, Student's t: Gelman and others, Bayesian Data Analysis, chapter 3; Murphy, Conjugate
Bayesian analysis of the Gaussian distribution, 2007, section 5 (both from memory; held against plain
numerical integration in the tests). A wild value is drawn in to so many spreads from the mean, as Huber's
estimator of both does (Huber, Robust Statistics, 1981; read in the manual of MASS for R, `hubers`).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rules.measuring.student import coverage_factor

DRAWN_IN_FROM = 2.5
"""A value further from the mean than this many spreads is drawn in to there (own judgement; 1.5 is usual)."""
NAMED_FROM = 4.0
"""One further than this is named as well (own judgement)."""
_ROUNDS, _CLOSE_MM = 50, 1e-7
_NORMAL_MAD = 1.4826
"""A standard deviation in median absolute deviations, of a normal distribution."""


@dataclass(frozen=True, slots=True)
class NormalBelief:
    """What is believed of values that are drawn from a normal distribution."""

    mean_mm: float
    worth: float
    """How many values the mean is worth."""
    spread_mm: float
    """Standard deviation of one value about the mean, the best guess."""
    dof: float
    """Degrees of freedom of that guess."""

    def after(self, values_mm: Sequence[float], weights: Sequence[float]) -> NormalBelief:
        """The same after values were seen, each with its weight, 0 to 1."""
        whole = math.fsum(weights)
        if whole <= 0.0:
            return self
        pairs = list(zip(values_mm, weights, strict=True))
        mean = math.fsum(weight * value for value, weight in pairs) / whole
        about = math.fsum(weight * (value - mean) ** 2 for value, weight in pairs)
        worth, dof = self.worth + whole, self.dof + whole
        apart = self.worth * whole / worth * (mean - self.mean_mm) ** 2
        return NormalBelief(
            mean_mm=(self.worth * self.mean_mm + whole * mean) / worth,
            worth=worth,
            spread_mm=math.sqrt((self.dof * self.spread_mm**2 + about + apart) / dof),
            dof=dof,
        )

    @property
    def scale_mm(self) -> float:
        """Scale of Student's t by which the next value is foretold: its standard uncertainty, with `dof`."""
        return self.spread_mm * math.sqrt(1.0 + 1.0 / self.worth)

    @property
    def sd_mm(self) -> float:
        """Standard deviation of that t distribution; needs more than two degrees of freedom."""
        return self.scale_mm * math.sqrt(self.dof / (self.dof - 2.0))

    @property
    def good_to_mm(self) -> float:
        """The next value lies within this of the mean, either way, with 95 %."""
        return coverage_factor(self.dof) * self.scale_mm

    def at_most(self, *, worth: float, dof: float) -> NormalBelief:
        """The same, worth no more than this: what is lent to a line of its own."""
        return NormalBelief(self.mean_mm, min(self.worth, worth), self.spread_mm, min(self.dof, dof))


def believed_before(*, sd_mm: float, worth: float, dof: float) -> NormalBelief:
    """A belief in no mean at all, by which the next value has just this standard deviation.

    >>> round(believed_before(sd_mm=0.005, worth=2.0, dof=5.0).sd_mm, 6)
    0.005
    """
    scale = sd_mm / math.sqrt(dof / (dof - 2.0))
    return NormalBelief(0.0, worth, scale / math.sqrt(1.0 + 1.0 / worth), dof)


def robustly(
    before: NormalBelief, values_mm: Sequence[float], weights: Sequence[float]
) -> tuple[NormalBelief, tuple[int, ...]]:
    """What is believed after the values, wild ones drawn in, and which of them are named, by their places."""
    if not values_mm:
        return before, ()
    middle, spread = _start(before, values_mm)
    found = before
    for _ in range(_ROUNDS):
        reach = DRAWN_IN_FROM * spread
        kept = [min(max(value, middle - reach), middle + reach) for value in values_mm]
        found = before.after(kept, weights)
        if abs(found.mean_mm - middle) < _CLOSE_MM and abs(found.scale_mm - spread) < _CLOSE_MM:
            break
        middle, spread = found.mean_mm, found.scale_mm
    far = NAMED_FROM * found.scale_mm
    return found, tuple(at for at, value in enumerate(values_mm) if abs(value - found.mean_mm) > far)


def _start(before: NormalBelief, values_mm: Sequence[float]) -> tuple[float, float]:
    """Where to begin, so that wild values do not hide each other: medians, drawn to what was believed."""
    count = len(values_mm)
    middle = (before.worth * before.mean_mm + count * median(values_mm)) / (before.worth + count)
    about = _NORMAL_MAD * median([abs(value - middle) for value in values_mm])
    square = (before.dof * before.spread_mm**2 + count * about**2) / (before.dof + count)
    return middle, math.sqrt(square * (1.0 + 1.0 / (before.worth + count)))


def median(values: Sequence[float]) -> float:
    """The middle of some values."""
    ordered, half = sorted(values), len(values) // 2
    return ordered[half] if len(values) % 2 else (ordered[half - 1] + ordered[half]) / 2.0
