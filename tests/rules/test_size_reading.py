"""Which readings count, and what they say together."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bench.shop.shop import built_in
from rules.checks import OutOfRange
from rules.measuring.budget import good_to_mm
from rules.measuring.instruments import decimals, in_a_bore, on_a_wall
from rules.measuring.reading import DIAMETERS_AGREE_MM, HEIGHTS_AGREE_MM, judge, summarise
from rules.sizing.squeeze import Gap


@pytest.mark.parametrize(
    ("readings", "within", "used", "struck", "flagged", "settled"),
    [
        pytest.param([33.20], DIAMETERS_AGREE_MM, (0,), (), (), False, id="one is not enough"),
        pytest.param([33.20, 33.24], DIAMETERS_AGREE_MM, (0, 1), (), (), True, id="two agree"),
        pytest.param([33.20, 33.40], DIAMETERS_AGREE_MM, (0, 1), (), (), True, id="just within"),
        pytest.param([33.20, 30.50], DIAMETERS_AGREE_MM, (0,), (), (), False, id="odd, ask again"),
        pytest.param([33.20, 30.50, 33.22], DIAMETERS_AGREE_MM, (0, 2), (1,), (), True, id="odd struck"),
        pytest.param([33.20, 30.50, 30.52], DIAMETERS_AGREE_MM, (1, 2), (0,), (), True, id="first was odd"),
        pytest.param(
            [33.20, 33.22, 30.50, 30.50],
            DIAMETERS_AGREE_MM,
            (0, 1),
            (),
            (2, 3),
            False,
            id="odd one twice: kept",
        ),
        pytest.param(
            [33.20, 33.22, 30.50, 30.50, 33.21],
            DIAMETERS_AGREE_MM,
            (0, 1, 4),
            (),
            (2, 3),
            True,
            id="then decided",
        ),
        pytest.param([1.20, 1.26], HEIGHTS_AGREE_MM, (0,), (), (), False, id="heights closer"),
        pytest.param(
            [33.0, 33.15, 33.30], DIAMETERS_AGREE_MM, (0, 1), (2,), (), True, id="a chain is no group"
        ),
        pytest.param([], DIAMETERS_AGREE_MM, (), (), (), False, id="none"),
    ],
)
def test_judge(
    readings: list[float],
    within: float,
    used: tuple[int, ...],
    struck: tuple[int, ...],
    flagged: tuple[int, ...],
    settled: bool,
) -> None:
    found = judge(readings, within_mm=within)
    assert (found.used, found.struck, found.flagged, found.settled) == (used, struck, flagged, settled)


def test_difference_is_told_until_settled() -> None:
    assert judge([33.20, 30.50], within_mm=0.2).difference_mm == pytest.approx(2.70)
    assert judge([33.20, 33.22, 30.5, 30.5], within_mm=0.2).difference_mm == pytest.approx(2.70)
    assert judge([33.20, 33.22], within_mm=0.2).difference_mm is None


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), -1.0])
def test_no_reading_that_is_not_a_number(bad: float) -> None:
    with pytest.raises(OutOfRange):
        judge([33.2, bad], within_mm=0.2)
    with pytest.raises(OutOfRange):
        summarise([33.2, bad], limit_of_error_mm=0.02, resolution_mm=0.01)


def test_shape_is_not_noise() -> None:
    """An oval seat read twice at each of two places: the ovality is a range, the repeats are the noise."""
    oval = summarise(
        [33.20, 33.28, 33.21, 33.27],
        limit_of_error_mm=0.0,
        resolution_mm=0.0,
        positions=["12", "3", "12", "3"],
    )
    assert oval.ovality_mm == pytest.approx(0.07)
    assert oval.mean_mm == pytest.approx(33.24)
    assert oval.u_mm == pytest.approx(0.00707 / 2, rel=1e-3)
    assert oval.dof == pytest.approx(2)
    blind = summarise([33.20, 33.28, 33.21, 33.27], limit_of_error_mm=0.0, resolution_mm=0.0)
    assert blind.u_mm > 5 * oval.u_mm


def test_one_reading_at_each_place_rests_on_the_limit_of_error() -> None:
    two = summarise([33.20, 33.24], limit_of_error_mm=0.04, resolution_mm=0.01, positions=["12", "3"])
    assert two.ovality_mm == pytest.approx(0.04)
    assert two.expanded_mm == pytest.approx(0.0454, abs=0.0005)
    assert sum(line.share for line in two.components) == pytest.approx(1.0)


def test_positions_must_go_with_readings() -> None:
    with pytest.raises(OutOfRange, match="position"):
        summarise([33.2, 33.3], limit_of_error_mm=0.02, resolution_mm=0.01, positions=["12"])
    with pytest.raises(OutOfRange, match="none given"):
        summarise([], limit_of_error_mm=0.02, resolution_mm=0.01)


def test_a_calliper_reads_worse_in_a_bore_and_a_wall_wants_a_ball_micrometer() -> None:
    calliper, micrometer, ball = built_in().instruments
    assert (in_a_bore(calliper).limit_of_error_mm, in_a_bore(micrometer)) == (0.035, micrometer)
    worse = replace(calliper, limit_of_error_mm=0.05)
    assert in_a_bore(worse) == worse
    assert on_a_wall([calliper, micrometer, ball]) == ball
    assert on_a_wall([calliper, micrometer]).limit_of_error_mm == 0.02
    assert [decimals(tool) for tool in (calliper, micrometer)] == [2, 3]


def test_a_limit_of_error_alone_as_expanded_uncertainty() -> None:
    """GUM 4.3.7: a rectangular distribution of half width 0.02 has
    u = 0.02 / root 3 = 0.01155; times 1.96.
    """
    assert good_to_mm(0.02) == pytest.approx(0.02263, abs=5e-6)


def test_the_gap_is_half_of_two_diameters_and_so_is_its_uncertainty() -> None:
    gap = Gap(case_bore_mm=33.20, case_bore_u_mm=0.04, glass_mm=32.14, glass_u_mm=0.03)
    assert (gap.mm, gap.u_mm) == pytest.approx((0.53, 0.025))
