"""A hold at the tester: who times it, what stands on the page while it runs, what a shorter one proves,
and what is asked once the bench was left.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest

from bench.job.in_words import moment
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from rules.testing.methods import methods
from tests.whole.places import at, before_a_hold
from tests.whole.repairer import Repairer
from tests.whole.seen import read

TIMED = [key for key, one in methods().items() if one.hold]
"""Methods whose hold is timed here."""


def last_test(repairer: Repairer) -> tuple[dict[str, Any], str]:
    """The last test on the sheet, as data and in the sheet's words."""
    assert repairer.desk.job is not None
    data = sheet_data(repairer.desk.job, finished=False)
    return data["tests"][-1], " ".join(" ".join(sheet_lines(data)).split())


def page(repairer: Repairer) -> str:
    """The page in a window in which it stands whole."""
    return read(replace(repairer.desk, columns=140, rows=80))


def come_back(repairer: Repairer, *, minutes: float = 2.0) -> None:
    """The program is ended and the job opened again so much later; the check is answered."""
    repairer.wait(minutes * 60)
    repairer.feed(repairer.bench.opened())
    repairer.look()
    repairer.type("1")
    repairer.answer()


def before_hold_of(key: str) -> Repairer:
    """Before the hold of a cased watch by a method, a dry test passed before."""
    repairer = at("hand_back")
    repairer.answer({"hand_back": "again"})
    repairer.give(key)
    return repairer.on_to("cased_hold")


def test_a_tester_with_a_verdict_of_its_own_is_neither_waited_for_nor_timed() -> None:
    repairer = at("cased_hold")
    assert "min" not in repairer.step.title and "cased_minutes" not in repairer.desk.walk.keys  # type: ignore[union-attr]
    assert "cased_minutes" not in [step.key for step in repairer.desk.walk.optional]  # type: ignore[union-attr]
    repairer.answer()
    assert repairer.asked == "cased_result" and repairer.step.opens_after is None
    repairer.type("1")
    assert repairer.asked == "hand_back"
    test, text = last_test(repairer)
    assert (test["timed"], test["minutes"], test["stopped_after_min"]) == ("tester", None, None)
    assert f"verdict of the tester at {moment(test['at'])}: PASS." in text
    assert "timed by the program" not in text and "time as keyed" not in text


def test_left_while_the_tester_measures_only_its_check_is_asked_again() -> None:
    repairer = at("cased_result")
    come_back(repairer)
    assert repairer.asked == "cased_result"


def test_how_to_vent_stands_on_the_page_after_the_pressure_was_up() -> None:
    repairer = at("cased_check")
    for key in ("cased_check", "cased_hold"):
        assert repairer.asked == key
        assert "Vent slowly" not in page(repairer) and "The watch may hold pressure" in page(repairer)
        repairer.answer()
    assert repairer.asked == "cased_result"
    assert "Vent slowly, screen shut, face away; only then open." in page(repairer)


@pytest.mark.parametrize("key", TIMED)
@pytest.mark.parametrize("word", ["fail", "not_judged"])
def test_stopped_early_the_next_page_says_how_it_is_ended(key: str, word: str) -> None:
    if "cased" not in methods()[key].sittings:
        return
    repairer = before_hold_of(key)
    repairer.answer()
    repairer.give(word)
    method = methods()[key]
    shown, small = page(repairer), read(replace(repairer.desk, columns=40, rows=12))
    ending = method.worded(method.ending.steps)
    assert all(f"CHECK first: {line}" in shown for line in ending)
    assert f"CHECK first: {' '.join(ending[0].split()[:3])}" in small
    later = repairer.copy()
    later.feed(later.bench.opened())
    later.look()
    later.type("1")
    assert later.asked == repairer.asked and "CHECK first" not in page(later), "only the very next act"


def test_while_the_clock_runs_the_page_says_what_to_do_now() -> None:
    repairer = before_hold_of("water_overpressure")
    assert "Hold for 10 minutes" not in page(repairer) and "Close the screen." in page(repairer)
    repairer.answer()
    shown = page(repairer)
    assert "Hold for 10 minutes; leave the vessel alone." in shown
    repairer.look()
    shown = page(repairer)
    assert "Another 9 min 58 s to hold, of 10 min." in shown
    assert "Release within" not in shown and "nothing seen: pass" not in shown
    assert " 2 fail" in shown and "The watch may hold pressure" in shown
    repairer.wait(600)
    repairer.look()
    shown = page(repairer)
    assert "Release within" in shown and " 1 nothing seen: pass" in shown and "Another" not in shown


def test_the_line_fills_as_the_hold_runs_and_is_no_large_clock() -> None:
    repairer = before_a_hold()
    repairer.answer()
    filled = []
    for _ in range(4):
        shown = page(repairer)
        found = re.search(r"(=*)(\.{5,})", shown)
        assert found is not None and "##" not in shown
        filled.append(len(found[1]))
        repairer.wait(150)
        repairer.look()
    assert filled == sorted(set(filled)) and filled[0] == 0


def test_a_reading_that_is_due_is_waited_for_in_words_and_the_bell_rings_each_time() -> None:
    from bench.desk.token import Bell, Token

    repairer = at("cased_pressure")
    repairer.pick("usual")
    repairer.pick_key("cased_method")
    repairer.give("dry_deflection")
    repairer.on_to("cased_signal_1", {"cased_signal_0": "030.0"})
    for n in (1, 2):
        assert repairer.asked == f"cased_signal_{n}"
        assert "This reading is due in" in page(repairer) and "Vent slowly" not in page(repairer)
        assert repairer.step.opens_after is not None
        repairer.wait(repairer.step.opens_after[1])
        repairer.effects.clear()
        repairer.feed(Token("tick", at=repairer.seconds, wall=repairer.wall()))
        assert sum(isinstance(effect, Bell) for effect in repairer.effects) == 1
        assert "due in" not in page(repairer)
        repairer.type("030.0")


def test_what_a_shorter_hold_proves_is_said_before_it_is_taken_and_on_the_sheet() -> None:
    repairer = before_hold_of("water_overpressure")
    repairer.pick("usual")
    repairer.pick_key("cased_minutes")
    repairer.type("004")
    shows = methods()["water_overpressure"].claim.shorter
    assert repairer.step.key == "cased_minutes" and shows in repairer.desk.message
    assert "no pass" in repairer.desk.message and "Enter again takes it" in repairer.desk.message
    repairer.key("enter")
    repairer.look()
    assert repairer.asked == "cased_hold" and shows in page(repairer)
    repairer.answer()
    repairer.wait(241)
    repairer.type("1")
    assert repairer.asked == "cased_unclear"
    test, text = last_test(repairer)
    assert (test["result"], test["minutes"], test["needed_minutes"]) == ("not_judged", 4, 10)
    assert "4 min of 10 min (timed by the program)" in text and f"it shows {shows}." in text


def test_a_hold_as_long_as_its_method_needs_says_nothing_of_shorter_ones() -> None:
    repairer = before_a_hold()
    repairer.answer()
    repairer.wait(601)
    repairer.type("1")
    test, text = last_test(repairer)
    assert test["stands"] and test["needed_minutes"] is None and "10 min (timed by the program)" in text


@pytest.mark.parametrize("key", ["underpressure", "dry_deflection"])
def test_left_during_a_hold_it_is_asked_about_and_never_timed_by_the_program(key: str) -> None:
    repairer = before_hold_of(key) if key == "underpressure" else with_readings()
    repairer.answer()
    come_back(repairer)
    assert repairer.asked == "cased_throughout" and "held throughout" in repairer.step.title
    come_back(repairer)
    assert repairer.asked == "cased_throughout", "asked again in another sitting"
    repairer.give("yes")
    readings = {f"cased_signal_{n}": "030.0" for n in range(13)} | {"cased_vented": "zero"}
    while repairer.asked != "hand_back":
        repairer.answer(readings)
    test, text = last_test(repairer)
    assert test["timed"] == "asked" and test["stands"]
    assert "the bench was left meanwhile; held throughout, as answered" in text
    assert "timed by the program" not in text.partition("Cased watch")[2].partition("Cased watch")[2]


def with_readings() -> Repairer:
    """Before the hold of a test with readings of a cased watch."""
    repairer = at("hand_back")
    repairer.answer({"hand_back": "again"})
    repairer.give("dry_deflection")
    return repairer.on_to("cased_hold", {"cased_signal_0": "030.0"})


def test_not_held_throughout_the_test_begins_again_and_nothing_of_it_counts() -> None:
    repairer = with_readings()
    repairer.answer()
    come_back(repairer)
    repairer.give("no")
    assert repairer.asked == "cased_pressure" and "CHECK first: Vent slowly" in page(repairer)
    assert "CHECK first: Vent slowly" in read(replace(repairer.desk, columns=40, rows=12))
    asked = []
    while repairer.asked != "cased_signal_1":
        asked.append(repairer.asked)
        repairer.answer({"cased_signal_0": "028.0"})
    assert asked == ["cased_pressure", "cased_check", "cased_volume", "cased_signal_0", "cased_hold"]


def test_a_hold_that_nobody_left_is_not_asked_about() -> None:
    repairer = before_a_hold()
    repairer.answer()
    repairer.wait(601)
    repairer.type("1")
    assert "cased_throughout" not in repairer.keyed
