"""The repairer who reads only the page turns rings with a foot; a page that misleads is noticed."""

from __future__ import annotations

import pytest

from tests.campaigns.foot_repairer import FAULTS, SHORT, caught, run


def test_rings_with_a_foot_come_off_the_lathe_as_the_page_says() -> None:
    tally = run(SHORT)
    assert tally.clean and tally.jobs == len(SHORT) and tally.walls >= 2


@pytest.mark.parametrize("name", FAULTS)
def test_a_planted_fault_is_caught(name: str) -> None:
    assert caught(name, 2)
