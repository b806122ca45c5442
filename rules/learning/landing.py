"""Where the walls of a shop land beside what was aimed at, from the rings that it has finished.

Invariant: without a ring it is what is assumed; the newest rings say most; a line (one tool, plastic and
lathe) goes by its own rings and borrows the rest from the others of the shop. Lengths in mm, on the wall.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rules.learning.normal import NormalBelief, believed_before, robustly
from rules.measuring.budget import COVERAGE

ASSUMED_WORTH, ASSUMED_DOF = 2.0, 5.0
"""What is assumed weighs as much as two rings for where walls land, as five for how far they spread (own
judgement, tried in simulated shops: 1 to 5 do nearly as well).
"""
LENT_WORTH, LENT_DOF = 1.0, 10.0
"""The other lines of a shop weigh no more than this in a line of its own (own judgement)."""
HALF_AFTER_RINGS, HALF_AFTER_YEARS = 30.0, 2.0
"""A ring counts half after so many rings since, or so many years (own judgement)."""


@dataclass(frozen=True, slots=True)
class RingLanded:
    """One finished ring that was turned here."""

    off_mm: float
    """Wall as made less wall aimed at."""
    line: str
    """Tool, plastic and lathe in one word."""
    years: float = 0.0
    """How long ago."""
    name: str = ""
    """Which ring it is, for a person."""


@dataclass(frozen=True, slots=True)
class Lands:
    """Where the next wall of a line lands beside what is aimed at."""

    rings: int
    """From how many."""
    of_line: int
    """How many of them are of this line."""
    mean_mm: float
    """How much thicker than aimed at; thinner where it is negative."""
    sd_mm: float
    """Standard deviation about that, with all that is not known of either."""
    u_mm: float
    """The same as a standard uncertainty with `dof` degrees of freedom."""
    dof: float
    good_to_mm: float
    """Within this of the mean, either way, with 95 %."""
    assumed_mm: float
    """What is assumed good to."""
    odd: tuple[str, ...] = ()
    """Rings so far off that they count for less, by name."""


def weight(rings_since: int, years: float) -> float:
    """What a ring still counts, 1 for the newest.

    >>> weight(0, 0.0), weight(30, 0.5), weight(3, 4.0)
    (1.0, 0.5, 0.25)
    """
    return math.pow(0.5, max(rings_since / HALF_AFTER_RINGS, max(years, 0.0) / HALF_AFTER_YEARS))


def lands(
    rings: Sequence[RingLanded], *, line: str, assumed_sd_mm: float, least_sd_mm: float = 0.0
) -> Lands | None:
    """What the rings say of a line, the newest first; None without one.

    assumed_sd_mm: of the wall, before anything was learned; least_sd_mm: what it is measured with cannot tell
    less apart.
    """
    if not rings:
        return None
    before = believed_before(sd_mm=assumed_sd_mm, worth=ASSUMED_WORTH, dof=ASSUMED_DOF)
    weights = [weight(since, ring.years) for since, ring in enumerate(rings)]
    own = [at for at, ring in enumerate(rings) if ring.line == line]
    others = [at for at, ring in enumerate(rings) if ring.line != line]
    if others:
        lent, _ = _from(before, rings, weights, others)
        before = lent.at_most(worth=LENT_WORTH, dof=LENT_DOF)
    found, odd = _from(before, rings, weights, own)
    wider = max(1.0, least_sd_mm / found.sd_mm)
    return Lands(
        rings=len(rings),
        of_line=len(own),
        mean_mm=found.mean_mm,
        sd_mm=wider * found.sd_mm,
        u_mm=wider * found.scale_mm,
        dof=found.dof,
        good_to_mm=wider * found.good_to_mm,
        assumed_mm=COVERAGE * assumed_sd_mm,
        odd=odd,
    )


def _from(
    before: NormalBelief, rings: Sequence[RingLanded], weights: Sequence[float], chosen: Sequence[int]
) -> tuple[NormalBelief, tuple[str, ...]]:
    """What some of the rings say, and which of them are odd."""
    found, odd = robustly(before, [rings[at].off_mm for at in chosen], [weights[at] for at in chosen])
    return found, tuple(rings[chosen[at]].name for at in odd)
