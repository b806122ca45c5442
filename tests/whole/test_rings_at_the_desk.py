"""Twelve jobs in plain lines, two and three rings each, the real walls fed back by a virtual lathe.

Long form:

python -m tests.campaigns.rings_at_the_desk --long
"""

from __future__ import annotations

import pytest

from bench.seals.ring.lessons import Tried
from rules.sizing import learned
from tests.campaigns.rings_at_the_desk import SPREADS, TWELVE, run, wrong


def test_none_ends_in_a_ring_over_the_band() -> None:
    done = run(TWELVE)
    assert [words for one in done for words in wrong(one)] == []
    assert all(one.rings[-1].said == "home" for one in done)
    assert all(one.watch.squeeze_pct(one.rings[-1].made_mm) <= SPREADS.high_pct for one in done)
    counts = [len(one.rings) for one in done]
    assert sum(count in (2, 3) for count in counts) >= 10 and 3 in counts


@pytest.mark.parametrize("fault", ["evidence ignored", "sign turned round"])
def test_a_planted_fault_is_seen(fault: str, monkeypatch: pytest.MonkeyPatch) -> None:
    if fault == "evidence ignored":
        monkeypatch.setattr(Tried, "evidence", lambda *_: ())
    else:
        turned = {"too_easy": (learned.TIGHT, 1.0), "would_not_start": (learned.LOOSE, 1.0)}
        monkeypatch.setattr(learned, "TELLS", learned.TELLS | turned)
    learned.learned.cache_clear()
    try:
        assert [words for one in run(TWELVE[:1]) for words in wrong(one)]
    finally:
        learned.learned.cache_clear()
