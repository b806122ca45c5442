"""The ring as made: worked cases, figures worked out by hand in the comments."""

from __future__ import annotations

from typing import Any

import pytest

from rules.checks import OutOfRange
from rules.sizing.decision import ring_decision
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


@pytest.mark.parametrize(
    ("wall_mm", "decision"), [(0.55, "undecided"), (0.53, "undecided"), (0.70, "does_not")]
)
def test_nothing_fits_where_no_bore_works(wall_mm: float, decision: str) -> None:
    """Nor does measuring decide it; a ring far off is off there too."""
    known = {"walls_mm": [wall_mm] * 4, "wall_u_mm": 0.002, "gap_mm": 0.50, "gap_u_mm": 0.006}
    found = ring_decision(**known, shut="5 % of the wall and the press, 900 N")  # type: ignore[arg-type]
    assert found.decision == decision and found.measure_better is None
    assert ("the press, 900 N cannot both be met" in found.words) == (decision == "undecided")
    assert ring_decision(**known).decision == {0.55: "fits", 0.53: "undecided"}.get(wall_mm, "does_not")  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"gap_mm": 0.01}, "gap: 0.01 mm is outside 0.02 to 10 mm; measure it again"),
        ({"walls_mm": [0.04]}, "wall: 0.04 mm is outside 0.05 to 10 mm; measure it again"),
        ({"wall_u_mm": 1.1}, "uncertainty of the wall: 1.1 mm is outside 0 to 1 mm; measure it again"),
        ({"gap_u_mm": -0.1}, "uncertainty of the gap: -0.1 mm is outside 0 to 1 mm; measure it again"),
        ({"walls_mm": []}, "wall: none was given; measure it at four angles"),
    ],
)
def test_what_cannot_be_judged_is_said_by_its_name(changed: dict[str, Any], said: str) -> None:
    usual: dict[str, Any] = {"walls_mm": [0.55] * 4, "wall_u_mm": 0.004, "gap_mm": 0.5, "gap_u_mm": 0.008}
    with pytest.raises(OutOfRange) as why:
        ring_decision(**{**usual, **changed})
    assert str(why.value) == said
