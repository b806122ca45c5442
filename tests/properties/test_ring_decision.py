"""The ring's decision: what must hold whatever the numbers."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, strategies as st

from rules.checks import OutOfRange
from rules.measuring.limit import one_limit
from rules.sizing.decision import ring_decision

gaps = st.floats(0.2, 1.2)
squeezes = st.floats(-10.0, 25.0)
uncertainties = st.floats(0.0, 0.05)
LOW, HIGH = 5.0, 13.0


def wall_for(gap_mm: float, squeeze_pct: float) -> float:
    return gap_mm / (1.0 - squeeze_pct / 100.0)


@given(gap=gaps, squeeze=squeezes, wall_u=uncertainties, gap_u=uncertainties)
def test_the_whole_interval_stands_behind_a_verdict(
    gap: float, squeeze: float, wall_u: float, gap_u: float
) -> None:
    wall = wall_for(gap, squeeze)
    found = ring_decision(walls_mm=[wall] * 4, wall_u_mm=wall_u, gap_mm=gap, gap_u_mm=gap_u)
    assert found.squeeze_pct == pytest.approx(squeeze, abs=1e-9)
    ends = (found.squeeze_pct - found.squeeze_u_pct, found.squeeze_pct + found.squeeze_u_pct)
    if found.decision == "fits":
        assert ends[0] >= LOW - 1e-9 and ends[1] <= HIGH + 1e-9
    elif found.decision == "does_not":
        assert ends[1] < LOW + 1e-9 or ends[0] > HIGH - 1e-9
    else:
        assert any(ends[0] - 1e-9 <= limit <= ends[1] + 1e-9 for limit in (LOW, HIGH))
    assert (found.measure_better is None) == (found.decision != "undecided")


@given(gap=gaps, squeeze=squeezes, u=uncertainties, share=st.floats(0.0, 1.0))
def test_measuring_better_never_turns_one_verdict_into_the_other(
    gap: float, squeeze: float, u: float, share: float
) -> None:
    wall = wall_for(gap, squeeze)
    coarse = ring_decision(walls_mm=[wall], wall_u_mm=u, gap_mm=gap, gap_u_mm=u).decision
    fine = ring_decision(walls_mm=[wall], wall_u_mm=u * share, gap_mm=gap, gap_u_mm=u * share).decision
    assert coarse in ("undecided", fine)


@given(gap=gaps, squeeze=st.floats(2.0, 16.0), wall_u=st.floats(0.001, 0.02), gap_u=st.floats(0.001, 0.02))
def test_uncertainty_by_finite_differences(gap: float, squeeze: float, wall_u: float, gap_u: float) -> None:
    """Derivatives of 1 - gap/wall taken numerically, not from the formula."""
    wall, small = wall_for(gap, squeeze), 1e-6

    def squeeze_of(wall_mm: float, gap_mm: float) -> float:
        return 100.0 * (wall_mm - gap_mm) / wall_mm

    by_wall = (squeeze_of(wall + small, gap) - squeeze_of(wall - small, gap)) / (2 * small) * wall_u
    by_gap = (squeeze_of(wall, gap + small) - squeeze_of(wall, gap - small)) / (2 * small) * gap_u
    found = ring_decision(walls_mm=[wall], wall_u_mm=wall_u, gap_mm=gap, gap_u_mm=gap_u)
    assert found.squeeze_u_pct == pytest.approx(math.hypot(by_wall, by_gap), rel=1e-4)


@given(gap=gaps, squeeze=squeezes, wall_u=uncertainties, gap_u=uncertainties)
def test_what_to_measure_better_is_what_helps(
    gap: float, squeeze: float, wall_u: float, gap_u: float
) -> None:
    wall = wall_for(gap, squeeze)
    found = ring_decision(walls_mm=[wall], wall_u_mm=wall_u, gap_mm=gap, gap_u_mm=gap_u)
    assume(found.decision == "undecided" and abs(gap / wall * wall_u - gap_u) > 1e-6)
    no_wall = ring_decision(walls_mm=[wall], wall_u_mm=0.0, gap_mm=gap, gap_u_mm=gap_u).squeeze_u_pct
    no_gap = ring_decision(walls_mm=[wall], wall_u_mm=wall_u, gap_mm=gap, gap_u_mm=0.0).squeeze_u_pct
    assert found.measure_better == ("wall" if no_wall < no_gap else "gap")


@given(value=st.floats(-1e3, 1e3), half=st.floats(0, 1e3), limit=st.floats(-1e3, 1e3))
def test_one_limit_is_a_partition(value: float, half: float, limit: float) -> None:
    decision = one_limit(value, half, limit)
    assert (decision == "PASS") == (value + half <= limit)
    assert (decision == "FAIL") == (value - half > limit)
    assert decision in ("PASS", "FAIL", "UNDECIDED")


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), -0.1, 50.0])
def test_impossible_rings_are_refused(bad: float) -> None:
    with pytest.raises(OutOfRange):
        ring_decision(walls_mm=[bad], wall_u_mm=0.01, gap_mm=0.5, gap_u_mm=0.01)
    with pytest.raises(OutOfRange):
        ring_decision(walls_mm=[0.55], wall_u_mm=0.01, gap_mm=bad, gap_u_mm=0.01)
    with pytest.raises(OutOfRange):
        ring_decision(walls_mm=[0.55], wall_u_mm=bad, gap_mm=0.5, gap_u_mm=0.01)
