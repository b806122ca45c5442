"""The simulated leak test in its short form, and two faults it must see.

Long form with 2,000 watches for each leak in each cell:  python -m tests.campaigns.leak_cells --long
"""

from __future__ import annotations

from collections import Counter

import pytest

from rules import rig
from tests.campaigns.leak_cells import GAUGES, Cell, Rates, cells, faults, rates

FINE, COARSE, NOISY = GAUGES[0], GAUGES[1], GAUGES[2]
WATCHES = 60


def short(**only: object) -> list[Rates]:
    chosen = [cell for cell in cells((2.0,)) if all(getattr(cell, k) == v for k, v in only.items())]
    return [rates(cell, WATCHES, seed=3) for cell in chosen]


def test_limits_hold_in_every_cell() -> None:
    results = short()
    assert len(results) == 2 * len(GAUGES) * 3 * 3
    assert faults(results, WATCHES) == []
    reached = sum((one.decisions for one in results), Counter[str]())
    assert min(reached[word] for word in ("PASS", "FAIL", "UNDECIDED")) > 500, reached


def one_law(gauge: object, readings: int) -> list[Rates]:
    return [
        rates(Cell("fixed", gauge, correlation, readings, volume), 150, seed=3)  # type: ignore[arg-type]
        for correlation in (0.5, 0.7)
        for volume in (1.0, 2.0)
    ]


def test_it_sees_that_autocorrelation_was_left_out(monkeypatch: pytest.MonkeyPatch) -> None:
    assert not [one for one in faults(one_law(NOISY, 21), 150) if "limit" in one]
    monkeypatch.setattr(rig, "autocorrelation_factor", lambda _r1, _n: 1.0)
    assert [one for one in faults(one_law(NOISY, 21), 150) if "limit passed" in one]
