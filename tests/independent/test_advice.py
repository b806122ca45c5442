"""The short forms of the campaigns over proposals and advice, and the faults they have to see."""

from __future__ import annotations

from dataclasses import replace

import pytest

from rules.sizing import remedies
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import Sizing, size
from tests.campaigns import advice, best_steps


def test_every_remedy_named_raises_the_chance_by_what_it_says() -> None:
    counts = advice.run()
    assert counts.clean, str(counts)
    assert counts.seen["no bore works"] > 10 and counts.seen["chance poor"] > 10
    kinds = [kind for kind in counts.seen if kind.startswith("remedy: ")]
    assert len(kinds) >= 8, "the places have to want every kind of remedy"


def test_a_remedy_that_says_more_than_it_brings_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(remedies.Remedy, "chance", property(lambda one: min(1.0, one.window.chance + 0.06)))
    assert advice.run(count=12).seen["WRONG: another chance after it"] > 0


def test_missing_data_sold_as_a_remedy_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the names of what is left out, plastics of which little is known look better."""
    monkeypatch.setattr("rules.sizing.window.not_judged", lambda *_: ())
    assert advice.run(count=30).seen["WRONG: a limit is dropped"] > 0


def test_the_proposed_ring_is_the_best_step_of_its_own_window() -> None:
    counts = best_steps.run()
    assert counts.clean, str(counts)
    assert counts.seen["open"] > 90 and counts.seen["several steps in the window"] > 80


def aside(question: SizingQuestion) -> Sizing:
    """A sizer that goes three steps from the best one, out of the window where that is narrow."""
    answer = size(question)
    bore = round(answer.ring.bore_mm + 3 * question.lathe_step_mm, 4)
    return replace(answer, ring=replace(answer.ring, bore_mm=bore))


def test_a_proposal_beside_the_best_step_is_seen() -> None:
    counts = best_steps.run(sizer=aside, count=40)
    assert counts.seen["WRONG: outside its own window"] > 0
    assert counts.seen["WRONG: another step lands oftener"] > 0
