"""What the rings tried teach of the gap between seat and glass.

Invariant: the gap is known as a distribution; a ring whose walls were measured and that was tried moves it,
softly, and never says more than the hand can tell. How soft, and how far a weak outcome is believed, is our
judgement, no source; the rule is Bayes' (Gelman and others, Bayesian Data Analysis, chapter 1, from memory).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from rules.checks import known, numbers
from rules.sizing.squeeze import Band, squeeze_pct

LOOSE, TIGHT, HOME = "loose", "tight", "home"
TELLS: dict[str, tuple[str, float]] = {
    "home": (HOME, 1.0),
    "too_easy": (LOOSE, 1.0),
    "would_not_start": (TIGHT, 1.0),
    "bezel_moved": (TIGHT, 0.5),
    "shaved": (TIGHT, 0.5),
    "chipped": (TIGHT, 0.3),
    "leaked": (LOOSE, 0.5),
}
"""What an outcome says of the squeeze, and how likely the squeeze was behind it at all, once the commoner
causes were excluded: 1 is as strong as the hand is (own judgement).
"""
_STEPS, _REACH = 100, 5.0
"""Half of the grid, and how many standard deviations it spans to either side."""
_NORMAL_AS_LOGISTIC = math.sqrt(3.0) / math.pi
"""Scale of the logistic curve that spreads as far as a normal one of standard deviation 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RingTried:
    """A ring tried in this seat with this glass; raises OutOfRange."""

    number: int
    """Which ring of the job, from 1."""
    outcome: str
    """A word of `TELLS`."""
    wall_mm: float
    """Mean wall as measured."""
    wall_u_mm: float = 0.0
    """Standard uncertainty of that mean, mm."""
    band: Band
    """That was written with the ring."""

    def __post_init__(self) -> None:
        known("outcome", self.outcome, TELLS)
        numbers(
            ("wall", self.wall_mm, 0.02, 10.0, "mm"),
            ("uncertainty of the wall", self.wall_u_mm, 0.0, 1.0, "mm"),
            advice="measure it again",
        )

    @property
    def bound(self) -> str:
        """LOOSE or TIGHT where the hand said so outright; empty for home, and for what may have had another
        cause.
        """
        says, share = TELLS[self.outcome]
        return says if says != HOME and share == 1.0 else ""

    def likelihood_log(self, gap_mm: float, scale_pct: float) -> float:
        """Logarithm of the likelihood of what happened in a gap; scale_pct: of the hand, points of squeeze.

        The uncertainty of the wall widens the curve (a logistic with a normal error is close to a wider one).
        """
        squeeze = squeeze_pct(wall_mm=self.wall_mm, gap_mm=gap_mm)
        by_wall = 100.0 * gap_mm / self.wall_mm**2 * self.wall_u_mm
        scale = math.hypot(scale_pct, _NORMAL_AS_LOGISTIC * by_wall)
        says, share = TELLS[self.outcome]
        loose = _log_logistic((self.band.low_pct - squeeze) / scale)
        tight = _log_logistic((squeeze - self.band.high_pct) / scale)
        if says == HOME:
            return math.log(max(1.0 - math.exp(loose) - math.exp(tight), 1e-300))
        said = loose if says == LOOSE else tight
        return said if share == 1.0 else math.log1p(share * math.expm1(said))


def _log_logistic(x: float) -> float:
    """Logarithm of 1/(1 + exp(-x)), without overflow."""
    return -math.log1p(math.exp(-x)) if x > 0.0 else x - math.log1p(math.exp(x))


@dataclass(frozen=True, slots=True)
class Belief:
    """What is known of a gap: mean and standard deviation, mm."""

    mean_mm: float
    sd_mm: float


@lru_cache(maxsize=256)
def learned(measured: Belief, tried: tuple[RingTried, ...], scale_pct: float) -> Belief:
    """The gap after the rings tried, from the gap as measured.

    Prior times likelihoods on a grid over five standard deviations to either side; all factors but that of a
    weak outcome fall off to both sides like a normal or a logistic curve, so mean and standard deviation say
    the rest. Chances worked out from the two lie within 2 percentage points of those from the whole grid.
    """
    if not tried or measured.sd_mm == 0.0:
        return measured
    grid = [_REACH * step / _STEPS for step in range(-_STEPS, _STEPS + 1)]
    logs = [
        -z * z / 2.0
        + sum(one.likelihood_log(measured.mean_mm + z * measured.sd_mm, scale_pct) for one in tried)
        for z in grid
    ]
    top = max(logs)
    weights = [math.exp(log - top) for log in logs]
    whole = math.fsum(weights)
    mean = math.fsum(weight * z for weight, z in zip(weights, grid, strict=True)) / whole
    spread = math.fsum(weight * (z - mean) ** 2 for weight, z in zip(weights, grid, strict=True)) / whole
    return Belief(measured.mean_mm + mean * measured.sd_mm, math.sqrt(spread) * measured.sd_mm)


@dataclass(frozen=True, slots=True)
class Bounds:
    """Walls between which the next ring is made, whatever its chance: the hand is believed that far."""

    least_mm: float = 0.0
    most_mm: float = math.inf
    least_words: str = ""
    most_words: str = ""


def bounds(tried: tuple[RingTried, ...]) -> Bounds:
    """No looser than the last ring that went in too easily, no tighter than the last that would not start;
    where these two contradict each other the later one alone.
    """
    found = Bounds()
    for one in tried:
        if one.bound == LOOSE:
            words = f"as thick as ring {one.number}, which went in too easily"
            keeps = found.most_mm >= one.wall_mm
            found = Bounds(
                one.wall_mm, found.most_mm if keeps else math.inf, words, found.most_words if keeps else ""
            )
        elif one.bound == TIGHT:
            words = f"as thin as ring {one.number}, which would not start"
            keeps = found.least_mm <= one.wall_mm
            found = Bounds(
                found.least_mm if keeps else 0.0, one.wall_mm, found.least_words if keeps else "", words
            )
    return found
