"""Readings and an uncertainty budget beside another library; Student's t turned back; lengths at 20 C."""

from __future__ import annotations

import math

import pytest

from rules.measuring.budget import rectangular
from rules.measuring.reading import summarise
from rules.measuring.student import coverage_factor, tail
from rules.sizing.question import SizingQuestion
from rules.sizing.resolved import resolve
from tests.published.other_checks import end_gauge_budget


@pytest.mark.parametrize("dof", [1, 2, 3, 5, 10, 16, 20, 50, 100, math.inf])
@pytest.mark.parametrize("level", [0.90, 0.95, 0.99])
def test_student_turned_back(dof: float, level: float) -> None:
    assert tail(coverage_factor(dof, level), dof) == pytest.approx(1 - level, abs=1e-9)


def test_gum_end_gauge_beside_gtc() -> None:
    """The same budget in GTC, a library of its own: u and degrees of freedom to six digits."""
    from GTC import ureal

    parts = [ureal(0.0, line.u_mm, df=line.dof, label=line.name) for line in end_gauge_budget().components]
    theirs = sum(parts[1:], parts[0])
    ours = end_gauge_budget()
    assert ours.u_mm == pytest.approx(theirs.u, rel=1e-9)
    assert ours.dof == pytest.approx(theirs.df, rel=1e-6)
    assert math.fsum(line.share for line in ours.components) == pytest.approx(1.0)


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
