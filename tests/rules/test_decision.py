"""Ring and attempt: worked cases, figures worked out by hand in the comments."""

from __future__ import annotations

import pytest

from rules.checks import OutOfRange
from rules.sizing.decision import ring_decision
from rules.sizing.next_ring import next_ring
from rules.sizing.squeeze import Band


def test_a_ring_measured_with_a_micrometer_fits() -> None:
    # wall 0.552, gap 0.500: 0.052/0.552 = 9.42 %; u: 100/0.552 hypot(0.500/0.552 x 0.004, 0.008) = 1.59 %
    found = ring_decision(
        walls_mm=[0.550, 0.553, 0.554, 0.551], wall_u_mm=0.004, gap_mm=0.500, gap_u_mm=0.008
    )
    assert found.decision == "fits"
    assert found.squeeze_pct == pytest.approx(9.42, abs=0.005)
    assert found.squeeze_u_pct == pytest.approx(1.59, abs=0.005)


def test_a_plain_calliper_leaves_it_undecided_and_goes_on() -> None:
    found = ring_decision(walls_mm=[0.55] * 4, wall_u_mm=0.04, gap_mm=0.50, gap_u_mm=0.02)
    assert found.decision == "undecided"
    assert found.measure_better == "wall"
    assert "go on" in found.words


@pytest.mark.parametrize(("wall_mm", "word"), [(0.505, "loose"), (0.62, "tight")])
def test_loose_and_tight_rings_are_named(wall_mm: float, word: str) -> None:
    found = ring_decision(walls_mm=[wall_mm] * 4, wall_u_mm=0.004, gap_mm=0.50, gap_u_mm=0.006)
    assert found.decision == "does_not"
    assert word in found.words


def test_a_ring_is_judged_by_the_band_that_was_decided_with_it() -> None:
    """0.569 in 0.500 is 12.1 %: inside 5 to 13, not inside the 5 to 9 of a plated bezel."""
    usual, gentle = (
        ring_decision(walls_mm=[0.569] * 4, wall_u_mm=0.001, gap_mm=0.500, gap_u_mm=0.001, band=band)
        for band in (Band(), Band(5.0, 9.0))
    )
    assert usual.decision == "fits"
    assert gentle.decision == "does_not"
    assert "band 5 to 9 %" in gentle.words and "tight" in gentle.words


@pytest.mark.parametrize("ends", [(float("nan"), 13.0), (5.0, 60.0), (9.0, 5.0), (-1.0, 13.0)])
def test_a_band_that_cannot_be_is_refused(ends: tuple[float, float]) -> None:
    with pytest.raises(OutOfRange, match="limit of the squeeze"):
        Band(*ends)


def test_a_bore_off_centre_is_said() -> None:
    found = ring_decision(walls_mm=[0.52, 0.55, 0.58, 0.55], wall_u_mm=0.004, gap_mm=0.50, gap_u_mm=0.006)
    assert "differs by 0.060 mm round the ring: the bore is not central" in found.words


def test_too_easy_makes_the_wall_thicker() -> None:
    # squeeze 1 - 0.50/0.54 = 7.41 %; half the way to 13: 10.2 %, wall 0.5568, bore 33.02 - 1.1136 = 31.906
    after = next_ring("too_easy", wall_mm=0.54, gap_mm=0.50, outside_mm=33.02)
    assert after.bore_mm == pytest.approx(31.91)
    assert after.wall_mm == pytest.approx(0.555)
    assert after.squeeze_pct == pytest.approx(100 * (1 - 0.50 / 0.555))


def test_would_not_start_makes_the_wall_thinner() -> None:
    # squeeze 1 - 0.50/0.57 = 12.28 %; half the way to 5: 8.64 %, wall 0.5473, bore 33.00 - 1.0946 = 31.905
    after = next_ring("would_not_start", wall_mm=0.57, gap_mm=0.50, outside_mm=33.00)
    assert after.bore_mm == pytest.approx(31.91)


def test_the_change_is_taken_from_the_ring_as_made() -> None:
    """Planned 0.55, made 0.520: the next wall is thicker than 0.520, not than 0.55."""
    # gap 0.5025: 3.4 %, begun at 5; half the way to 13: 9 %, wall 0.5522, bore 32.46 - 1.1044 = 31.356
    after = next_ring("too_easy", wall_mm=0.520, gap_mm=0.5025, outside_mm=32.46)
    assert after.bore_mm == pytest.approx(31.36)
    assert after.squeeze_pct == pytest.approx(100 * (1 - 0.5025 / 0.55))
    assert "wall 0.550 mm (this one has 0.520), squeeze 8.6 %" in after.words


def test_the_bore_is_the_outside_less_two_walls() -> None:
    one = next_ring("too_easy", wall_mm=0.54, gap_mm=0.50, outside_mm=33.02)
    other = next_ring("too_easy", wall_mm=0.54, gap_mm=0.50, outside_mm=33.07)
    assert one.bore_mm is not None and other.bore_mm == pytest.approx(one.bore_mm + 0.05)


def test_at_the_end_of_the_band_it_says_measure_again() -> None:
    after = next_ring("too_easy", wall_mm=0.5745, gap_mm=0.50, outside_mm=33.00)
    assert after.bore_mm is None and after.wall_mm is None
    assert "measure" in after.words


def test_a_band_that_ends_early_is_kept_to() -> None:
    """Thin gold ends at 9 %: half the way from 7.41 is 8.2 %, wall 0.5447;
    and from 8.8 % there is no room.
    """
    after = next_ring("too_easy", wall_mm=0.54, gap_mm=0.50, outside_mm=33.02, band=Band(5.0, 9.0))
    assert after.bore_mm is None, "0.55 would be 9.1 %"
    after = next_ring("too_easy", wall_mm=0.53, gap_mm=0.50, outside_mm=33.02, band=Band(5.0, 9.0))
    assert after.squeeze_pct < 9.0 and after.wall_mm == pytest.approx(0.54)


def test_a_shaved_ring_that_was_not_tight_keeps_its_wall() -> None:
    same = next_ring("shaved", wall_mm=0.545, gap_mm=0.50, outside_mm=33.00)
    assert same.wall_mm == pytest.approx(0.545)
    thinner = next_ring("shaved", wall_mm=0.572, gap_mm=0.50, outside_mm=33.00)
    assert thinner.wall_mm is not None and thinner.wall_mm < 0.572


def test_unknown_outcomes_are_refused_with_the_list() -> None:
    with pytest.raises(ValueError, match="too_easy"):
        next_ring("so_so", wall_mm=0.55, gap_mm=0.50, outside_mm=33.0)
