"""Means, deviations, Student's t and an uncertainty budget beside printed and certified values."""

from __future__ import annotations

import itertools
import math
import tomllib
from pathlib import Path
from typing import Any

import pytest

from rules.measuring.budget import Component, combine, rectangular, whole
from rules.measuring.reading import mean_and_deviation, summarise
from rules.measuring.student import coverage_factor, tail
from rules.sizing.question import SizingQuestion
from rules.sizing.resolved import resolve

SETS: dict[str, dict[str, Any]] = tomllib.loads(
    (Path(__file__).parent / "data" / "nist_univariate.toml").read_text("utf-8")
)


@pytest.mark.parametrize("name", sorted(SETS))
def test_nist_mean_and_deviation(name: str) -> None:
    """NIST StRD, univariate: Lew, Lottery, Michelso, Mavro, to the certified 15 digits less rounding."""
    certified = SETS[name]
    mean, deviation = mean_and_deviation(certified["values"])
    assert mean == pytest.approx(certified["mean"], rel=1e-14)
    assert deviation == pytest.approx(certified["sd"], rel=1e-12)


@pytest.mark.parametrize("name", sorted(SETS))
def test_nist_lag_one_autocorrelation(name: str) -> None:
    """The sets are what they are called: their certified r1 comes out of the observations as carried here."""
    certified = SETS[name]
    mean, _ = mean_and_deviation(certified["values"])
    off = [value - mean for value in certified["values"]]
    r1 = math.fsum(a * b for a, b in itertools.pairwise(off)) / math.fsum(a * a for a in off)
    assert r1 == pytest.approx(certified["r1"], rel=1e-9)


@pytest.mark.parametrize(
    ("big", "error"), [(1.0, 1e-12), (1_000_000.0, 1e-9), (10_000_000.0, 1e-8)], ids=["2", "3", "4"]
)
def test_nist_numacc_needs_two_passes(big: float, error: float) -> None:
    """NumAcc2 to 4: 1001 observations x.2, then x.1 and x.3 in turn: mean x.2, s 0.1. One pass gives s = 0
    for 4.
    """
    values = [big + 0.2] + [big + 0.1, big + 0.3] * 500
    mean, deviation = mean_and_deviation(values)
    assert mean == pytest.approx(big + 0.2, rel=1e-15)
    assert deviation == pytest.approx(0.1, rel=error)


def test_nist_numacc1() -> None:
    """10000001, 10000003, 10000002: mean 10000002, s 1, exactly."""
    assert mean_and_deviation([10000001.0, 10000003.0, 10000002.0]) == (10000002.0, 1.0)


@pytest.mark.parametrize(
    ("dof", "level", "printed"),
    [
        (1, 0.95, 12.71),
        (2, 0.95, 4.30),
        (3, 0.95, 3.18),
        (4, 0.95, 2.78),
        (5, 0.95, 2.57),
        (10, 0.95, 2.23),
        (20, 0.95, 2.09),
        (50, 0.95, 2.01),
        (100, 0.95, 1.984),
        (math.inf, 0.95, 1.960),
        (1, 0.99, 63.66),
        (2, 0.99, 9.92),
        (5, 0.99, 4.03),
        (10, 0.99, 3.17),
        (16, 0.99, 2.92),
        (100, 0.99, 2.626),
        (math.inf, 0.99, 2.576),
        (1, 0.90, 6.31),
        (10, 0.90, 1.81),
    ],
)
def test_student_table(dof: float, level: float, printed: float) -> None:
    """NIST TN 1297, table B.1."""
    places = len(str(printed).split(".")[1])
    assert coverage_factor(dof, level) == pytest.approx(printed, abs=0.5 * 10**-places)
    assert tail(coverage_factor(dof, level), dof) == pytest.approx(1 - level, abs=1e-9)


def _end_gauge() -> list[Component]:
    """GUM example H.1, components in nm (table H.1):
    standard, comparator, expansion, temperature difference.
    """
    length_m = 0.050000623
    return [
        Component("calibration of the standard", 25.0, 18),
        Component("repeated observations", 5.8, 24),
        Component("comparator, random", 3.9, 5),
        Component("comparator, systematic", 6.7, 8),
        Component("difference of expansion", length_m * 0.1 * 0.58e-6 * 1e9, 50),
        Component("difference of temperature", length_m * 11.5e-6 * 0.05 / math.sqrt(3) * 1e9, 2),
    ]


def test_gum_end_gauge() -> None:
    """JCGM 100:2008, H.1: u_c 32 nm, effective degrees of freedom 16.7 cut to 16, t99 2.92, U99 93 nm."""
    together = combine(_end_gauge())
    assert together.u_mm == pytest.approx(31.66, abs=0.01)
    assert round(together.u_mm) == 32
    assert together.dof == pytest.approx(16.7, abs=0.06)
    assert whole(together.dof) == 16
    factor = coverage_factor(whole(together.dof), 0.99)
    assert round(factor, 2) == 2.92
    assert round(factor * round(together.u_mm)) == 93
    assert math.fsum(line.share for line in together.components) == pytest.approx(1.0)


def test_gum_end_gauge_beside_gtc() -> None:
    """The same budget in GTC, a library of its own: u and degrees of freedom to six digits."""
    from GTC import ureal

    parts = [ureal(0.0, line.u_mm, df=line.dof, label=line.name) for line in _end_gauge()]
    theirs = sum(parts[1:], parts[0])
    ours = combine(_end_gauge())
    assert ours.u_mm == pytest.approx(theirs.u, rel=1e-9)
    assert ours.dof == pytest.approx(theirs.df, rel=1e-6)


def test_summary_beside_gtc() -> None:
    """Readings with limit of error and resolution, put together again in GTC."""
    from GTC import type_a, type_b, ureal

    readings = [33.21, 33.19, 33.22, 33.20, 33.21]
    ours = summarise(readings, limit_of_error_mm=0.02, resolution_mm=0.01)
    scatter = type_a.estimate(readings)
    limit = ureal(0, type_b.uniform(0.02))
    rounding = ureal(0, type_b.uniform(0.005) / math.sqrt(5))
    theirs = scatter + limit + rounding
    assert ours.mean_mm == pytest.approx(theirs.x, abs=1e-9)
    assert ours.u_mm == pytest.approx(theirs.u, rel=2e-4)
    assert ours.dof == pytest.approx(theirs.df, rel=2e-3)


def test_temperature_correction() -> None:
    """ISO 1: a steel seat of 33 mm read at 30 C is 33 x 16e-6 x 10 = 5.3 um smaller at 20 C."""
    warm = resolve(SizingQuestion(case_bore_mm=33.0, glass_mm=32.0, case_metal="316L", temperature_c=30.0))
    assert 1000 * (33.0 - warm.joint.case_bore_mm) == pytest.approx(5.28, abs=0.005)
    assert warm.joint.glass_mm == 32.0
    assert rectangular(0.03) == pytest.approx(0.01732, abs=5e-6)
