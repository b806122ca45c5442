"""Every figure of a size from its readings beside the same by numpy and scipy, over drawn readings."""

from __future__ import annotations

import math
from collections import Counter

import numpy as np
import pytest
from scipy import stats

from rules.instrument import Instrument
from rules.measuring.budget import Combined, Component, combine, good_to_mm, whole
from rules.measuring.instruments import COMPARED, decimals, ground_agree_mm, in_a_bore, on_a_wall, wall_u_mm
from rules.measuring.reading import summarise
from rules.measuring.seat_by_plug import nearest_that_can_be, seat_from_plug
from rules.measuring.student import coverage_factor, tail


@pytest.mark.parametrize("dof", [1.0, 1.3, 2.0, 3.7, 4.0, 9.5, 30.0, 200.0, 1e5, 1e6, math.inf])
def test_student_beside_scipy(dof: float) -> None:
    for level in (0.5, 0.683, 0.95, 0.9995, 0.9999):
        theirs = stats.norm if math.isinf(dof) else stats.t(dof)
        assert coverage_factor(dof, level) == pytest.approx(theirs.ppf(0.5 + level / 2), rel=1e-5)
    for t in (0.0, 0.01, 0.1, 0.3, 1.0, 2.5, 8.0, -2.5):
        assert tail(t, dof) == pytest.approx(2 * theirs.sf(abs(t)), rel=1e-6, abs=1e-15)


def test_beyond_a_million_degrees_of_freedom_it_is_the_normal_distribution() -> None:
    assert coverage_factor(1e9) == coverage_factor(math.inf) == pytest.approx(stats.norm.ppf(0.975))


def place(dice: np.random.Generator) -> tuple[list[float], list[str] | None, float, float, bool]:
    """Readings with or without places, a limit of error, a step, and whether the part is ground."""
    count = int(dice.integers(1, 9))
    oval, noise = float(dice.choice([0.0, 0.03])), float(dice.choice([0.0, 0.002, 0.02]))
    names = [str(name) for name in dice.choice(["12", "3", "6"], count)]
    values = [33.2 + oval * (name == "3") + float(dice.normal(0, noise)) for name in names]
    step = float(dice.choice([0.001, 0.01, 0.05]))
    limit = float(dice.choice([0.004, 0.03]))
    return values, names if dice.random() < 0.6 else None, limit, step, bool(dice.random() < 0.25)


def expected(
    values: list[float], names: list[str] | None, limit: float, step: float, ground: bool
) -> tuple[float, float, float, float]:
    """Standard uncertainty, degrees of freedom, good to, ovality (GUM 4.2, 4.3, G.4)."""
    n = len(values)
    sd = float(np.std(values, ddof=1)) if n > 1 else 0.0
    rounding = step / math.sqrt(12) / (math.sqrt(n) if sd > step / 2 else 1.0)
    parts = [limit / math.sqrt(3), rounding]
    if ground:
        parts.append(float(np.ptp(values)) / 2 / math.sqrt(3))
    groups = {
        name: [v for v, at in zip(values, names or (), strict=True) if at == name] for name in names or ()
    }
    if names is None:
        repeats, freedom, oval = sd / math.sqrt(n), n - 1, float(np.ptp(values))
    else:
        means = [float(np.mean(group)) for group in groups.values()]
        freedom, oval = n - len(groups), max(means) - min(means)
        squares = sum(float(np.var(group)) * len(group) for group in groups.values())
        repeats = math.sqrt(squares / freedom / n) if freedom else 0.0
    if ground or freedom < 1:
        u = math.sqrt(sum(one**2 for one in parts))
        return u, math.inf, stats.norm.ppf(0.975) * u, oval
    u = math.sqrt(repeats**2 + sum(one**2 for one in parts))
    dof = freedom * u**4 / repeats**4 if repeats else math.inf
    plain = (stats.norm if math.isinf(dof) else stats.t(float(max(1, math.floor(dof + 1e-9))))).ppf(0.975) * u
    if freedom == 1 and repeats:
        rest = math.sqrt(u**2 - repeats**2)
        plain = math.sqrt(plain * math.hypot(stats.t(1).ppf(0.975) * repeats, stats.norm.ppf(0.975) * rest))
    return u, dof, plain, oval


@pytest.mark.parametrize("first", range(0, 160, 40))
def test_a_size_from_its_readings(first: int) -> None:
    seen = Counter[str]()
    for seed in range(first, first + 40):
        values, names, limit, step, ground = place(np.random.default_rng(seed))
        ours = summarise(values, limit_of_error_mm=limit, resolution_mm=step, positions=names, ground=ground)
        u, dof, good, oval = expected(values, names, limit, step, ground)
        assert ours.mean_mm == pytest.approx(float(np.mean(values)), abs=1e-12) and ours.n == len(values)
        assert ours.range_mm == pytest.approx(float(np.ptp(values)), abs=1e-12)
        assert ours.ovality_mm == pytest.approx(oval, abs=1e-12)
        assert ours.u_mm == pytest.approx(u) and ours.expanded_mm == pytest.approx(good, rel=1e-5)
        assert ours.dof == pytest.approx(dof, rel=1e-6) if dof < 1e9 else ours.dof > 1e8
        assert math.fsum(one.share for one in ours.components) == pytest.approx(1.0)
        repeated = ours.components[0].name == "repeat readings"
        assert repeated == (not math.isinf(dof) or "repeat readings" in [c.name for c in ours.components])
        seen["repeats" if repeated else "limits alone"] += 1
        seen["ground"] += ground
    assert min(seen["repeats"], seen["limits alone"], seen["ground"]) >= 4, seen


def test_components_together() -> None:
    """Root of squares; Welch and Satterthwaite; nothing uncertain is known exactly."""
    parts = [Component("a", 0.003, 4.0), Component("b", 0.004)]
    found = combine(parts)
    assert found.u_mm == pytest.approx(0.005) and found.dof == pytest.approx(0.005**4 / (0.003**4 / 4))
    assert [one.share for one in found.components] == pytest.approx([0.36, 0.64])
    assert found.good_to_mm() == pytest.approx(stats.t(30).ppf(0.975) * 0.005)
    assert combine([Component("a", 0.0)]) == Combined(0.0, math.inf, (Component("a", 0.0),))
    assert [whole(one) for one in (0.4, 1.0, 2.9999999999, 3.9, math.inf)] == [1.0, 1.0, 3.0, 3.0, math.inf]
    assert good_to_mm(0.02) == pytest.approx(stats.norm.ppf(0.975) * 0.02 / math.sqrt(3))


def tool(kind: str, *, limit: float = 0.004, step: float = 0.01) -> Instrument:
    """An instrument."""
    return Instrument(name="mine", kind=kind, resolution_mm=step, limit_of_error_mm=limit)


def test_limits_of_error_where_they_are_other_than_the_instruments() -> None:
    """A calliper's jaws in a bore 0.035, on a wall 0.02; beside a micrometer 0.013 (common practice)."""
    assert in_a_bore(tool("calliper")).limit_of_error_mm == 0.035
    assert in_a_bore(tool("calliper", limit=0.05)).limit_of_error_mm == 0.05
    assert in_a_bore(tool("bore_gauge")).limit_of_error_mm == 0.004
    assert on_a_wall([tool("calliper")]).limit_of_error_mm == 0.02
    ball = tool("ball_micrometer", limit=0.003)
    assert on_a_wall([tool("calliper"), ball]) is ball
    assert wall_u_mm([ball]) == pytest.approx(0.003 / math.sqrt(3))
    assert wall_u_mm([]) == pytest.approx(0.02 / math.sqrt(3))
    assert (COMPARED.kind, COMPARED.resolution_mm, COMPARED.limit_of_error_mm) == ("calliper", 0.01, 0.013)
    assert ground_agree_mm(tool("micrometer")) == 0.03
    assert ground_agree_mm(tool("calliper", limit=0.05)) == pytest.approx(0.1 / math.sqrt(3))
    steps = (0.0049, 0.005, 0.01, 0.001)
    assert [decimals(tool("micrometer", step=one)) for one in steps] == [3, 2, 2, 3]


def test_a_seat_by_plug_is_even_between_its_steps() -> None:
    """Half the steps apart and the limit of the plug either way; a rectangular distribution."""
    found = seat_from_plug(enters_mm=33.18, stays_out_mm=33.22)
    assert (found.diameter_mm, found.low_mm, found.high_mm) == (33.2, 33.176, 33.224)
    assert found.half_width_mm == 0.024
    size = found.size()
    assert size.u_mm == pytest.approx(0.024 / math.sqrt(3)) and size.expanded_mm == pytest.approx(
        2 * size.u_mm
    )
    assert (size.mean_mm, size.n, size.ovality_mm, size.dof, size.components) == (33.2, 2, 0.0, math.inf, ())
    assert size.range_mm == pytest.approx(0.048)
    assert nearest_that_can_be(33.0, 33.1) == 33.1
    assert nearest_that_can_be(33.0, 33.0) == 33.02 and nearest_that_can_be(33.0, 34.0) == 33.5
