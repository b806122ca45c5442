"""Whoever leaves the program while a case stands under pressure or vacuum hears of it first."""

from __future__ import annotations

from bench.desk.entries import items
from bench.desk.everything import saved_words
from tests.whole.places import at
from tests.whole.repairer import Repairer


def leaving(repairer: Repairer) -> tuple[str, str]:
    """The entry of leaving on the list, and the last words after it."""
    entry = next(item.text for item in items(repairer.desk) if item.word == "leave")
    return entry, saved_words(repairer.desk)


def test_leaving_during_a_hold_says_that_the_case_is_under_pressure() -> None:
    before = at("cased_check")
    assert leaving(before)[0] == "leave; the job is kept" and "STOP" not in leaving(before)[1]
    repairer = before.copy().on_to("cased_result")
    entry, last = leaving(repairer)
    assert entry == "leave: STOP, still under pressure"
    assert last.startswith("saved: ") and "\nSTOP  the case is still under pressure. Vent slowly" in last
    repairer.answer()
    assert "STOP" not in "".join(leaving(repairer))
