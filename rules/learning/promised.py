"""What was promised beside what happened: do the chances come true?

Invariant: every ring that was promised something and tried is counted once; an interval is given only where
enough of them are there to say anything.

Interval of a share: Wilson's (Journal of the American Statistical Association 22, 1927, 209; formula read at
influentialpoints.com, notes on confidence limits of a proportion).
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from statistics import NormalDist

ENOUGH = 10
"""From so many rings on an interval is given."""
BINS = 10
_Z = NormalDist().inv_cdf(0.975)


@dataclass(frozen=True, slots=True)
class Promise:
    """One ring: the chance that was promised, 0 to 1, and whether it went home."""

    chance: float
    fitted: bool


@dataclass(frozen=True, slots=True)
class Kept:
    """Some rings of about the same promise."""

    rings: int
    promised: float
    """The mean of what was promised, 0 to 1."""
    fitted: int

    @property
    def interval(self) -> tuple[float, float] | None:
        """Between what the true share lies with 95 %; None while there are too few."""
        return wilson(self.fitted, self.rings) if self.rings >= ENOUGH else None


def wilson(count: int, of: int) -> tuple[float, float]:
    """95 % interval of a share, 0 to 1.

    >>> [round(end, 3) for end in wilson(10, 12)]
    [0.552, 0.953]
    """
    share, square = count / of, _Z * _Z
    middle = share + square / (2.0 * of)
    half = _Z * math.sqrt(share * (1.0 - share) / of + square / (4.0 * of * of))
    low, high = ((middle + end) / (1.0 + square / of) for end in (-half, half))
    return low, high


def together(promises: Iterable[Promise]) -> Kept | None:
    """All of them as one; None where there is none."""
    every = tuple(promises)
    if not every:
        return None
    return Kept(len(every), math.fsum(one.chance for one in every) / len(every), sum(p.fitted for p in every))


def by_promise(promises: Iterable[Promise]) -> tuple[Kept, ...]:
    """The same by tenths of the promise, the smallest first; tenths without a ring are left out."""
    bins: dict[int, list[Promise]] = {}
    for one in promises:
        bins.setdefault(min(BINS - 1, int(one.chance * BINS)), []).append(one)
    return tuple(kept for at in sorted(bins) if (kept := together(bins[at])) is not None)
