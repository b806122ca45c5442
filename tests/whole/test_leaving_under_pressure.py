"""Whoever leaves the program while a case stands under pressure or vacuum hears of it first."""

from __future__ import annotations

import pytest

from bench.desk.entries import NUMBERS, items
from bench.desk.everything import saved_words
from screens.app import in_width
from tests.screens.test_sizes import page_text
from tests.whole.places import at
from tests.whole.repairer import Repairer

STOP = "STOP  the case is still under pressure"


def shown(repairer: Repairer) -> str:
    """The words on the page."""
    return " ".join(" ".join(page_text(repairer.desk, 80, 24)).split())


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


@pytest.mark.parametrize(("word", "page"), [("leave", "left"), ("jobs", "jobs")])
def test_leaving_a_test_asks_first_and_staying_comes_first(word: str, page: str) -> None:
    repairer = at("cased_check").copy().on_to("cased_result")
    kept = len(repairer.bench.entries)
    for way, after in (("1", "step"), ("2", page)):
        repairer.key("list")
        repairer.type(str(NUMBERS[word]))
        assert " ".join(STOP.split()) in shown(repairer) and "Vent slowly" in shown(repairer)
        repairer.type(way)
        assert repairer.desk.page == after
    assert len(repairer.bench.entries) == kept


def test_a_job_left_under_pressure_says_so_first_when_it_is_opened_again() -> None:
    before = at("cased_check")
    assert "may still" not in shown(before)
    left = before.copy().on_to("cased_result")
    again = Repairer(left.bench.again())
    again.feed(again.bench.opened())
    for page in ("account", "step"):
        assert again.desk.page == page
        said = shown(again)
        assert "CHECK first: the case may still stand under pressure. Vent slowly" in said
        assert "It may still be under pressure: how does it stand?" in said
        if page == "account":
            again.type("1")
        else:
            again.answer()
    assert again.asked == "cased_result"


def test_the_last_words_are_broken_between_words() -> None:
    path = "/a/long/way/to/the/job/00001-a-diver.toml"
    words = in_width(f"saved: {path}\n{STOP}. Vent slowly, screen shut, face away.", 30)
    assert path in words and all(len(one) <= 30 for one in words.splitlines()[1:])
    assert " ".join(words.split()[2:]) == " ".join(f"{STOP}. Vent slowly, screen shut, face away.".split())
