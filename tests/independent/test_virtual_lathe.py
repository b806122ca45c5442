"""The wall on a lathe with hidden errors: right when the readings correct the plan, not otherwise."""

from __future__ import annotations

import pytest

from tests.campaigns.virtual_lathe import FAULTS, run, said

ENOUGH = 0.95


def test_with_correction_the_wall_is_right() -> None:
    tally = run(runs=1000, seed=7)
    print(said("with correction", tally))
    assert tally.share >= ENOUGH
    assert tally.readings >= 2 * tally.runs
    assert tally.verdicts["finish_bore: measure_again"] + tally.verdicts["finish_outside: measure_again"] > 5


def test_without_correction_it_is_not() -> None:
    tally = run(runs=1000, seed=7, corrected=False)
    print(said("without correction", tally))
    assert tally.share < 0.5


@pytest.mark.parametrize("fault", FAULTS)
def test_a_planted_fault_shows(fault: str) -> None:
    tally = run(runs=300, seed=11, fault=fault)
    print(said(fault, tally))
    assert tally.share < ENOUGH
