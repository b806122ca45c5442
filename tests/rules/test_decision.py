"""Ring and attempt: worked cases, figures worked out by hand in the comments."""

from __future__ import annotations

import pytest

from rules.sizing.decision import free_diameter_words, next_ring_change, ring_decision


def test_a_ring_measured_with_a_micrometer_fits() -> None:
    # wall 0.552, gap 0.500: 0.052/0.552 = 9.42 %; u: 100/0.552 hypot(0.500/0.552 x 0.004, 0.008) = 1.59 %
    found = ring_decision(
        walls_mm=[0.550, 0.553, 0.554, 0.551], wall_u_mm=0.004, gap_mm=0.500, gap_u_mm=0.008
    )
    assert found.decision == "fits"
    assert found.interference_mm == pytest.approx(0.052)
    assert found.squeeze_pct == pytest.approx(9.42, abs=0.005)
    assert found.squeeze_u_pct == pytest.approx(1.59, abs=0.005)


def test_a_plain_calliper_leaves_it_undecided_and_goes_on() -> None:
    found = ring_decision(walls_mm=[0.55] * 4, wall_u_mm=0.04, gap_mm=0.50, gap_u_mm=0.02)
    assert found.decision == "undecided"
    assert found.measure_better == "wall"
    assert "Go on" in found.words


@pytest.mark.parametrize(("wall_mm", "word"), [(0.505, "loose"), (0.62, "tight")])
def test_loose_and_tight_rings_are_named(wall_mm: float, word: str) -> None:
    found = ring_decision(walls_mm=[wall_mm] * 4, wall_u_mm=0.004, gap_mm=0.50, gap_u_mm=0.006)
    assert found.decision == "does_not"
    assert word in found.words


def test_a_bore_off_centre_is_said() -> None:
    found = ring_decision(walls_mm=[0.52, 0.55, 0.58, 0.55], wall_u_mm=0.004, gap_mm=0.50, gap_u_mm=0.006)
    assert found.spread_mm == pytest.approx(0.06)
    assert "not central" in found.words


def test_why_the_free_diameter_is_not_asked() -> None:
    assert "bends" in free_diameter_words()


def test_too_easy_makes_the_bore_smaller() -> None:
    # squeeze 1 - 0.50/0.54 = 7.41 %; half the way to 13: 10.2 %, wall 0.5568, bore -0.034, to 0.01: -0.03
    after = next_ring_change("too_easy", wall_mm=0.54, gap_mm=0.50, bore_mm=31.94)
    assert after.bore_change_mm == pytest.approx(-0.03)
    assert after.bore_mm == pytest.approx(31.91)


def test_would_not_start_makes_the_bore_larger() -> None:
    # squeeze 1 - 0.50/0.57 = 12.28 %; half the way to 5: 8.64 %, wall 0.5473, bore +0.045, to 0.01: 0.05
    after = next_ring_change("would_not_start", wall_mm=0.57, gap_mm=0.50, bore_mm=31.86)
    assert after.bore_change_mm == pytest.approx(0.05)


def test_at_the_end_of_the_band_it_says_measure_again() -> None:
    after = next_ring_change("too_easy", wall_mm=0.5745, gap_mm=0.50, bore_mm=31.86)
    assert after.bore_change_mm == 0.0
    assert "measure" in after.words


def test_a_shaved_ring_that_was_not_tight_keeps_its_bore() -> None:
    assert next_ring_change("shaved", wall_mm=0.545, gap_mm=0.50, bore_mm=31.9).bore_change_mm == 0.0
    assert next_ring_change("shaved", wall_mm=0.572, gap_mm=0.50, bore_mm=31.9).bore_change_mm > 0.0


def test_unknown_outcomes_are_refused_with_the_list() -> None:
    with pytest.raises(ValueError, match="too_easy"):
        next_ring_change("so_so", wall_mm=0.55, gap_mm=0.50, bore_mm=31.9)
