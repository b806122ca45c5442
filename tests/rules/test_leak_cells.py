"""The simulated leak test in its short form, and the faults it must see.

Long form with 2,000 watches for each leak in each cell:  python -m tests.campaigns.leak_cells --long
"""

from __future__ import annotations

from collections import Counter

import pytest

from rules.testing import rig
from rules.testing.line import FittedLine, autocorrelation_factor
from tests.campaigns.leak_cells import GAUGES, Cell, Gauge, Rates, cells, faults, rates

COARSE = Gauge(1.0, 0.04, fixed=True)
NOISY = Gauge(0.1, 0.3, judged_on_power=False)
WATCHES = 50


def some(gauge: Gauge, readings: int, volume_cm3: float) -> list[Rates]:
    return [rates(Cell("fixed", gauge, r, readings, volume_cm3), 150, seed=3) for r in (0.0, 0.5, 0.7)]


def limit_passes(results: list[Rates]) -> list[str]:
    return [words for words in faults(results, 150) if "limit passed" in words]


def test_the_promises_hold_in_every_cell() -> None:
    results = [rates(cell, WATCHES, seed=3) for cell in cells((2.0,))]
    assert len(results) == 2 * len(GAUGES) * 3 * 3
    assert faults(results, WATCHES) == []
    reached = sum((one.decisions for one in results), Counter[str]())
    assert min(reached[word] for word in ("PASS", "FAIL", "UNDECIDED")) > 1000, reached


def test_it_sees_that_autocorrelation_was_left_out(monkeypatch: pytest.MonkeyPatch) -> None:
    assert limit_passes(some(NOISY, 21, 1.0)) == []
    monkeypatch.setattr(rig, "autocorrelation_factor", lambda _r1, _n: 1.0)
    assert limit_passes(some(NOISY, 21, 1.0))


def test_it_sees_that_the_digit_rule_was_dropped(monkeypatch: pytest.MonkeyPatch) -> None:
    """Half-width, floor of the scatter and hold make up the rule; the hold alone still protects."""

    def observed_only(self: rig.Rig, line: FittedLine) -> float:
        return line.residual_sd * autocorrelation_factor(line.autocorrelation, line.n)

    assert limit_passes(some(COARSE, 13, 6.0)) == []
    monkeypatch.setattr(rig.Rig, "hidden_by_digits", lambda _self, **_: 0.0)
    monkeypatch.setattr(rig.Rig, "scatter", observed_only)
    assert limit_passes(some(COARSE, 13, 6.0)) == []
    monkeypatch.setattr(rig, "PLANNED_OVER_DIGIT_TIME", 0.0)
    broken = some(COARSE, 13, 6.0)
    assert limit_passes(broken)
    assert max(one.limit_passes for one in broken) > 0.5


def test_the_half_width_alone_protects_as_well(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(rig, "PLANNED_OVER_DIGIT_TIME", 0.0)
    assert limit_passes(some(COARSE, 13, 6.0)) == []


def test_the_shortest_hold_that_counts_would_be_too_short_to_ask_for(monkeypatch: pytest.MonkeyPatch) -> None:
    """On a coarse gauge a digit that turns over leaves too many tight watches undecided."""
    assert min(one.tight_passes for one in some(COARSE, 13, 2.0)) > 0.97
    monkeypatch.setattr(rig, "PLANNED_OVER_DIGIT_TIME", rig.HOLD_OVER_DIGIT_TIME)
    assert min(one.tight_passes for one in some(COARSE, 13, 2.0)) < 0.90
