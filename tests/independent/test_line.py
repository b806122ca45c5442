"""Line and parabola against numpy and scipy, which know nothing of ours."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from rules.testing.line import fit_bend, fit_line

CASES = [(seed, n) for seed, n in enumerate((5, 6, 13, 21, 61, 200))]


@pytest.mark.parametrize(("seed", "n"), CASES)
def test_line_as_scipy(seed: int, n: int) -> None:
    dice = np.random.default_rng(seed)
    x = np.cumsum(dice.uniform(1.0, 60.0, n))
    y = 2.3 - 2e-4 * x + dice.normal(0.0, 0.01, n)
    line, found = fit_line(list(x), list(y)), stats.linregress(x, y)
    assert line.slope == pytest.approx(found.slope, rel=1e-9)
    assert line.residual_sd / line.root_sxx == pytest.approx(found.stderr, rel=1e-9)
    assert line.at(0.0) == pytest.approx(found.intercept, rel=1e-9)
    left = y - found.intercept - found.slope * x
    assert line.autocorrelation == pytest.approx(np.sum(left[1:] * left[:-1]) / np.sum(left**2), abs=1e-9)


@pytest.mark.parametrize(("seed", "n"), CASES)
def test_bend_as_numpy(seed: int, n: int) -> None:
    dice = np.random.default_rng(seed)
    x = np.cumsum(dice.uniform(1.0, 60.0, n))
    y = 2.3 - 2e-4 * x + 3e-8 * x**2 + dice.normal(0.0, 0.01, n)
    bend = fit_bend(list(x), list(y))
    middle = x - x.mean()
    parabola, straight = np.polyfit(middle, y, 2), np.polyfit(middle, y, 1)
    assert bend.curvature == pytest.approx(2.0 * parabola[0], rel=1e-7)
    at_start = np.polyval(parabola, middle[0]) - np.polyval(straight, middle[0])
    assert bend.at_start == pytest.approx(at_start, rel=1e-7, abs=1e-12)
    left = y - np.polyval(parabola, middle)
    assert bend.residual_sd == pytest.approx(np.sqrt(np.sum(left**2) / (n - 3)), rel=1e-7)
