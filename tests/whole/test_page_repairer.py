"""A repairer who reads only the page: what the page says suffices, and what is planted in it is caught."""

from __future__ import annotations

import pytest

from screens.pictures import limit_lines
from tests.campaigns.page_faults import FAULTS, caught
from tests.campaigns.page_repairer import SHORT, run


def test_whoever_reads_only_the_page_turns_the_ring_in_any_shop() -> None:
    tally = run(SHORT)
    assert tally.faults == [] and tally.off == []
    assert tally.jobs == len(SHORT) and tally.walls[True] >= 4 and tally.walls[False] >= 2
    for what in ("40x12", "cross dial radius in", "spares", "first bar tube", "belt", "stepless"):
        assert tally.seen[what], what
    for what in ("read behind more", "recorded one by one", "drilled", "face-grooving tool"):
        assert tally.seen[what], what
    assert tally.seen["dial counted against its figures"] and tally.seen["tools without numbers"]


@pytest.mark.parametrize("fault", FAULTS)
def test_what_is_planted_in_the_pages_is_caught(fault: str) -> None:
    many, tally = caught(fault)
    assert 0 < many <= 3, tally.faults
    assert tally.off or not FAULTS[fault].by_wall


def test_both_ends_of_a_band_are_said_where_the_target_stands_near_one() -> None:
    """A repairer reads from them whether a wall works."""
    for target in (0.385, 0.390, 0.364):
        rows = limit_lines(low=0.363, high=0.391, target=target, decimals=3, columns=36)
        assert [row.split()[-1] for row in rows] == [f"{one:.3f}" for one in sorted((0.363, target, 0.391))]
