"""Second rings in watches whose gap is hidden. Long form with 4,000 watches at every spread:

python -m tests.campaigns.second_rings --long
"""

from __future__ import annotations

import pytest

from tests.campaigns.second_rings import FAULTS, SPREADS, USUAL, run, said, wrong


@pytest.mark.parametrize("name", SPREADS)
def test_what_was_learned_brings_the_next_ring_home(name: str) -> None:
    ours, theirs = run(SPREADS[name], watches=500, seed=12)
    assert wrong(SPREADS[name], ours, theirs) == [], f"{said(name, ours)}; {said('half-way', theirs)}"
    assert ours.further >= 40, "hardly a ring was ever learned from"


@pytest.mark.parametrize("fault", FAULTS)
def test_a_planted_fault_is_seen(fault: str) -> None:
    ours, theirs = run(USUAL, watches=150, seed=12, told=FAULTS[fault])
    assert ours.further >= 25
    assert wrong(USUAL, ours, theirs)
