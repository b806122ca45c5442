"""The short form of the campaign over ordinary jobs."""

from __future__ import annotations

import pytest

from rules import limits
from tests.campaigns.ordinary_jobs import count


def test_verdicts_read_like_a_repairers() -> None:
    counts = count(500, seed=3)
    assert counts.open >= 450
    assert counts.contradictions == []
    few = counts.warnings_a_job[0] + counts.warnings_a_job[1]
    assert few >= 450
    assert counts.good_chance >= 400
    assert len(counts.force) >= 2 and len(counts.bezel) >= 2, "the jobs have to differ"


def test_a_limit_gone_wrong_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    """With a demand of 60 MPa after ten years the count of open windows falls under nine in ten."""
    monkeypatch.setattr(limits, "LEAST_PRESSURE_MPA", 60.0)
    assert count(200, seed=3).open < 180
