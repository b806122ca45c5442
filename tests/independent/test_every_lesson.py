"""What rings tried teach of the gap, each outcome and a wall read badly, beside a plain sum over gaps."""

from __future__ import annotations

import math

import numpy as np
import pytest

from rules.measuring.reading import (
    DIAMETERS_AGREE_MM,
    HEIGHTS_AGREE_MM,
    OVAL_BETWEEN_MM,
    RING_HEIGHTS_AGREE_MM,
    judge,
)
from rules.sizing.learned import Belief, Bounds, RingTried, bounds, learned
from rules.sizing.squeeze import Band
from rules.testing.line import autocorrelation_factor, fit_bend, fit_line

TOLD = {
    "home": ("home", 1.0),
    "too_easy": ("loose", 1.0),
    "would_not_start": ("tight", 1.0),
    "bezel_moved": ("tight", 0.5),
    "shaved": ("tight", 0.5),
    "chipped": ("tight", 0.3),
    "leaked": ("loose", 0.5),
}
"""Outcome: what it says, and how likely the squeeze was behind it (own judgement)."""
GAP = Belief(0.53, 0.018)


def tried(outcome: str, wall: float, number: int = 1, u: float = 0.0) -> RingTried:
    """A ring tried, its band 5 to 13 %."""
    return RingTried(number=number, outcome=outcome, wall_mm=wall, wall_u_mm=u, band=Band(5.0, 13.0))


def by_sum(rings: list[RingTried], scale: float) -> tuple[float, float]:
    """Mean and spread of the gap: the prior times what each outcome is likely in each gap."""
    gaps = GAP.mean_mm + GAP.sd_mm * np.linspace(-5, 5, 4001)
    weights = np.exp(-(((gaps - GAP.mean_mm) / GAP.sd_mm) ** 2) / 2)
    for one in rings:
        squeeze = 100 * (1 - gaps / one.wall_mm)
        soft = np.hypot(scale, math.sqrt(3) / math.pi * 100 * gaps / one.wall_mm**2 * one.wall_u_mm)
        loose = 1 / (1 + np.exp((squeeze - 5.0) / soft))
        tight = 1 / (1 + np.exp((13.0 - squeeze) / soft))
        says, share = TOLD[one.outcome]
        felt = {"loose": loose, "tight": tight, "home": 1 - loose - tight}[says]
        weights = weights * (1 - share + share * felt)
    mean = float(np.sum(gaps * weights) / np.sum(weights))
    return mean, math.sqrt(float(np.sum(weights * (gaps - mean) ** 2) / np.sum(weights)))


@pytest.mark.parametrize("outcome", TOLD)
@pytest.mark.parametrize(("wall", "u"), [(0.55, 0.0), (0.58, 0.004), (0.61, 0.012)])
def test_one_ring(outcome: str, wall: float, u: float) -> None:
    found = learned(GAP, (tried(outcome, wall, u=u),), 0.8)
    assert [found.mean_mm, found.sd_mm] == pytest.approx(by_sum([tried(outcome, wall, u=u)], 0.8), abs=2e-5)


@pytest.mark.parametrize("scale", [0.3, 0.8, 2.0])
def test_several_rings(scale: float) -> None:
    rings = [tried("leaked", 0.56), tried("chipped", 0.60, 2, 0.005), tried("home", 0.58, 3)]
    found = learned(GAP, tuple(rings), scale)
    assert [found.mean_mm, found.sd_mm] == pytest.approx(by_sum(rings, scale), abs=2e-5)


def test_a_wall_is_exact_unless_its_doubt_is_said() -> None:
    plain = RingTried(number=1, outcome="too_easy", wall_mm=0.57, band=Band(5.0, 13.0))
    assert learned(GAP, (plain,), 0.8) == learned(GAP, (tried("too_easy", 0.57),), 0.8)
    assert learned(GAP, (), 0.8) == GAP and learned(Belief(0.5, 0.0), (plain,), 0.8) == Belief(0.5, 0.0)


@pytest.mark.parametrize("outcome", TOLD)
def test_only_what_the_hand_said_outright_is_a_bound(outcome: str) -> None:
    outright = {"too_easy": "loose", "would_not_start": "tight"}
    assert tried(outcome, 0.58).bound == outright.get(outcome, "")


def test_bounds_of_the_next_wall() -> None:
    """The last word of each side; where they contradict each other the later alone."""
    easy, tight = tried("too_easy", 0.56), tried("would_not_start", 0.60, 2)
    both = bounds((easy, tight))
    assert (both.least_mm, both.most_mm) == (0.56, 0.60)
    assert both.least_words == "as thick as ring 1, which went in too easily"
    assert both.most_words == "as thin as ring 2, which would not start"
    assert bounds((easy, tight, tried("too_easy", 0.57, 3))) == Bounds(
        0.57, 0.60, "as thick as ring 3, which went in too easily", both.most_words
    )
    later = bounds((tight, tried("too_easy", 0.61, 3)))
    assert (later.least_mm, later.most_mm, later.most_words) == (0.61, math.inf, "")
    other = bounds((tried("too_easy", 0.61), tight))
    assert (other.least_mm, other.most_mm, other.least_words) == (0.0, 0.60, "")
    even = bounds((tried("too_easy", 0.60), tight))
    assert (even.least_mm, even.most_mm) == (0.60, 0.60)
    assert bounds((tried("home", 0.58), tried("shaved", 0.58))) == Bounds() == Bounds(0.0, math.inf, "", "")


@pytest.mark.parametrize(
    ("within", "agree", "differ"),
    [
        (DIAMETERS_AGREE_MM, 0.20, 0.21),
        (HEIGHTS_AGREE_MM, 0.05, 0.06),
        (RING_HEIGHTS_AGREE_MM, 0.10, 0.11),
    ],
)
def test_how_near_readings_agree(within: float, agree: float, differ: float) -> None:
    """Diameters to 0.20, heights to 0.05, heights of a finished ring to 0.10 mm (own judgement)."""
    assert judge([2.0, 2.0 + agree], within_mm=within).settled
    odd = judge([2.0, 2.0 + differ], within_mm=within)
    assert not odd.settled and odd.difference_mm == pytest.approx(differ)
    assert OVAL_BETWEEN_MM == 0.03


def test_readings_in_two_camps_say_how_far_apart_they_are() -> None:
    """The nearest of one camp to the nearest of the other; one alone is struck, a camp is kept and said."""
    found = judge([2.00, 2.02, 3.00, 3.03], within_mm=0.05)
    assert not found.settled and found.difference_mm == pytest.approx(0.98)
    assert (found.used, found.flagged, found.struck) == ((0, 1), (2, 3), ())
    won = judge([2.00, 3.00, 3.03, 2.01, 2.02], within_mm=0.05)
    assert (won.used, won.flagged, won.settled) == ((0, 3, 4), (1, 2), True)
    three = judge([2.0, 3.0, 4.5], within_mm=0.05)
    assert (three.used, three.struck, three.difference_mm) == ((0,), (), 1.5)


def test_a_perfect_line_leaves_nothing_that_correlates() -> None:
    line, bend = fit_line([0.0, 1.0, 2.0, 3.0], [2.0] * 4), fit_bend([0.0, 1.0, 2.0, 3.0, 4.0], [2.0] * 5)
    assert (line.residual_sd, line.autocorrelation) == (0.0, 0.0)
    assert (bend.residual_sd, bend.autocorrelation, bend.curvature, bend.at_start) == (0.0,) * 4
    assert autocorrelation_factor(0.0, 100) == pytest.approx(math.sqrt((1 + 2 / 96) / (1 - 2 / 96)))
    assert autocorrelation_factor(-0.9, 100) == 1.0
    assert autocorrelation_factor(0.99, 100) == pytest.approx(math.sqrt(1.95 / 0.05))
    assert autocorrelation_factor(-0.9, 29) == pytest.approx(math.sqrt(1.5 / 0.5))
    assert autocorrelation_factor(0.9, 29) == pytest.approx(math.sqrt(1.75 / 0.25))
    assert autocorrelation_factor(0.9, 30) == pytest.approx(math.sqrt(1.95 / 0.05))
    assert autocorrelation_factor(0.5, 5) == autocorrelation_factor(0.75, 5)
