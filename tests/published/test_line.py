"""Straight lines against certified values.

Source: NIST/ITL Statistical Reference Datasets, linear regression, Norris (a work of the US Government):
calibration of ozone monitors, 36 observations, certified to 15 digits.
"""

from __future__ import annotations

import pytest

from rules.testing.line import fit_line

# fmt: off
X = (
    0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777, 558.2, 0.4, 0.6, 775.5, 666.9, 338,
    447.5, 11.6, 556, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999, 779, 11.1, 118.3,
    229.2, 669.1, 448.9, 0.5,
)
Y = (
    0.1, 338.8, 118.1, 888, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8,
    339.3, 448.9, 10.8, 557.7, 228.3, 998, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888, 998.5, 778.9,
    10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
)
# fmt: on


def test_norris_slope_and_its_standard_deviation() -> None:
    line = fit_line(X, Y)
    assert len(X) == len(Y) == 36
    assert line.slope == pytest.approx(1.00211681802045, rel=1e-12)
    assert line.residual_sd / line.root_sxx == pytest.approx(0.429796848199937e-3, rel=1e-11)
    assert line.at(0.0) == pytest.approx(-0.262323073774029, rel=1e-10)
    assert line.residual_sd == pytest.approx(0.884796396144373, rel=1e-12)
