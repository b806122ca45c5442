"""A result keyed over a bad one: asked which it is, held back until then,
and said on the workshop's sheet.
"""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import pytest

from bench.command import DONE
from bench.job.corrections import AGAIN, KEYED_WRONG, given_at
from bench.job.job import Answer
from bench.job.keys import EMPTY
from bench.sheet.data import sheet_data
from bench.sheet.keyed_anew import keyed_anew
from bench.sheet.text import sheet_lines
from bench.sheet.workshop import correction_lines
from ringwright import main
from tests.whole.hands import lines
from tests.whole.places import at
from tests.whole.repairer import Repairer
from tests.whole.scripts import STRAIGHT, answers


def sheet(repairer: Repairer) -> dict[str, Any]:
    """The sheet as it stands."""
    job, walk = repairer.desk.job, repairer.desk.walk
    assert job is not None and walk is not None
    return sheet_data(job, finished=walk.open is None)


def back_to(repairer: Repairer, key: str) -> None:
    """Go back with / until a step is shown."""
    for _ in range(9):
        repairer.key("previous")
        if repairer.step.key == key:
            repairer.look()
            return
    raise AssertionError(f"{key} was not reached")


def failed(name: str = "cased") -> Repairer:
    """A test has failed, and a minute has gone by."""
    repairer = at(f"{name}_hold")
    repairer.answer()
    repairer.wait(601)
    repairer.give("fail")
    repairer.wait(60)
    return repairer


def by_list(repairer: Repairer, key: str, word: str) -> None:
    """Replace an earlier answer."""
    repairer.pick("replace")
    repairer.pick_key(key)
    repairer.look()
    repairer.give(word)


@pytest.mark.parametrize("name", ["empty", "cased"])
@pytest.mark.parametrize("way", ["back", "replace"])
@pytest.mark.parametrize("word", ["pass", "not_judged"])
def test_a_fail_keyed_over_is_asked_and_holds_until_it_is_said(name: str, way: str, word: str) -> None:
    repairer = failed(name)
    if way == "back":
        back_to(repairer, f"{name}_result")
        repairer.give(word)
    else:
        by_list(repairer, f"{name}_result", word)
    assert repairer.asked == f"{name}_correction"
    assert "fail" in repairer.step.title and word.replace("_", " ") in repairer.step.title
    data = sheet(repairer)
    assert [test["result"] for test in data["tests"] if test["sitting"] == name] == ["fail"]
    assert data["corrections"][0]["how"] == "open"
    assert "not said yet" in correction_lines(data)[0]


def test_keyed_wrong_is_read_once_more_and_leaves_a_trace_for_the_workshop_alone() -> None:
    repairer = failed()
    first = repairer.bench.entries[-1]
    back_to(repairer, "cased_result")
    repairer.give("pass")
    repairer.wait(60)
    repairer.give(KEYED_WRONG)
    assert repairer.asked == "cased_result"
    assert [test["result"] for test in sheet(repairer)["tests"]][-1] == "fail"
    repairer.give("pass")
    assert repairer.asked == "hand_back"
    data = sheet(repairer)
    assert [test["result"] for test in data["tests"] if test["sitting"] == "cased"] == ["pass"]
    assert isinstance(first.value, tuple)
    (one,) = data["corrections"]
    assert (one["what"], one["first"], one["first_at"]) == ("cased", "fail", first.value[1])
    assert (one["then"], one["how"]) == ("pass", KEYED_WRONG)
    (said,) = correction_lines(data)
    clock = str(first.value[1])[11:16]
    assert said.startswith("Cased watch: first given as FAIL") and clock in said and "keyed wrong" in said
    assert "first given" not in " ".join(sheet_lines(data))


def test_read_once_more_and_still_a_fail_stays_a_fail() -> None:
    repairer = failed()
    back_to(repairer, "cased_result")
    repairer.give("pass")
    repairer.give(KEYED_WRONG)
    repairer.give("fail")
    assert repairer.asked == "hunt_kind"
    by_list(repairer, "cased_result", "pass")
    assert repairer.asked == "cased_correction"


def test_tested_again_needs_a_hold_of_its_own() -> None:
    repairer = failed()
    back_to(repairer, "cased_result")
    repairer.give("pass")
    repairer.give(AGAIN)
    asked = []
    for _ in range(3):
        asked.append(repairer.asked)
        repairer.answer()
    assert asked == ["cased_pressure", "cased_check", "cased_hold"]
    repairer.give("pass")
    data = sheet(repairer)
    cased = [test for test in data["tests"] if test["sitting"] == "cased"]
    assert [(test["result"], test["counts"], test["stands"]) for test in cased] == [
        ("fail", True, False),
        ("pass", True, True),
    ]
    (said,) = correction_lines(data)
    assert "did not count: tested again" in said


def test_a_pass_not_yet_settled_opens_no_test_in_water() -> None:
    repairer = failed("cased")
    back_to(repairer, "cased_result")
    repairer.give("pass")
    repairer.pick("usual")
    repairer.pick_key("cased_method")
    assert not {"water_overpressure", "shallow_immersion"} & {one.word for one in repairer.step.choices}


def test_an_earlier_pass_does_not_stand_again_while_the_fail_holds() -> None:
    """Neither by another word over the fail, nor by another pressure, nor by taking the fail back."""
    repairer = at("hand_back")
    repairer.give("again")
    repairer.give("dry_pass_fail")
    repairer.on_to("cased_result")
    repairer.wait(601)
    repairer.give("fail")
    assert not any(test["stands"] for test in sheet(repairer)["tests"])
    over, other = repairer.copy(), repairer.copy()
    by_list(over, "cased_result", "not_judged")
    by_list(other, "cased_pressure", "01.0")
    repairer.pick("undo")
    for one in (repairer, over, other):
        assert not any(test["stands"] for test in sheet(one)["tests"]), one.asked
        assert "not water-resistant" in " ".join(sheet_lines(sheet(one)))
    assert "not taken back" in repairer.desk.message


def test_a_result_changed_for_the_worse_is_not_asked_and_is_said() -> None:
    repairer = at("hand_back")
    by_list(repairer, "cased_result", "fail")
    assert repairer.asked == "hunt_kind"
    (said,) = correction_lines(sheet(repairer))
    assert "first given as PASS" in said and "changed to FAIL" in said


def test_a_ring_that_did_not_go_home_does_not_by_another_word() -> None:
    repairer = at("fit_outcome")
    repairer.give("shaved")
    back_to(repairer, "fit_outcome")
    repairer.give("home")
    assert repairer.asked == "fit_correction"
    assert sheet(repairer)["fitting"] == {"outcome": "shaved", "at": None}
    wrong = repairer.copy()
    wrong.give(KEYED_WRONG)
    assert wrong.asked == "fit_outcome"
    wrong.give("home")
    assert wrong.asked == "marking"
    assert sheet(wrong)["fitting"]["outcome"] == "home"
    assert correction_lines(sheet(wrong))[0].startswith("Fitting: first given as ring shaved")
    repairer.give(AGAIN)
    data = sheet(repairer)
    assert data["attempt"] == 2 and data["attempts"][0]["outcome"] == "shaved"
    assert correction_lines(data)[0].startswith("Ring 1, fitting: first given as ring shaved")


def measured(decay: float) -> Repairer:
    """A test of the cased watch with readings, which fall by a share of themselves; at its verdict."""
    repairer = at("cased_pressure")
    repairer.pick("usual")
    repairer.pick_key("cased_method")
    repairer.give("dry_deflection")
    repairer.on_to("cased_signal_0")
    repairer.give("030.0")
    repairer.on_to("cased_signal_1")
    while "_signal_" in repairer.asked:
        assert repairer.step.opens_after is not None
        repairer.wait(repairer.step.opens_after[1])
        count = int(repairer.asked.rpartition("_")[2])
        repairer.give(f"{30.0 * math.exp(-decay * count / 12):05.1f}")
    repairer.give("zero")
    assert repairer.asked == "cased_result"
    return repairer


def test_a_verdict_from_readings_that_were_replaced_is_asked_too() -> None:
    repairer = measured(1.5)
    assert repairer.step.choices[0].word == "fail"
    repairer.answer()
    for count in range(1, 13):
        by_list(repairer, f"cased_signal_{count}", "030.0")
    repairer.give("zero")
    assert repairer.asked == "cased_result", "the last reading makes the verdict stale"
    assert repairer.step.choices[0].word == "pass"
    repairer.type("1")
    assert repairer.asked == "cased_correction"
    data = sheet(repairer)
    assert data["tests"][-1]["result"] == "fail" and not data["marking_tested"]
    repairer.give(KEYED_WRONG)
    repairer.type("1")
    said = correction_lines(sheet(repairer))
    assert said[0].startswith("Cased watch: first given as FAIL")
    assert sum("keyed again after the hold had begun as 30.0 um" in line for line in said) == 12


def test_readings_replaced_before_the_verdict_is_taken_note_of_are_said() -> None:
    repairer = measured(1.5)
    for count in range(1, 13):
        by_list(repairer, f"cased_signal_{count}", "030.0")
    repairer.give("zero")
    repairer.type("1")
    said = correction_lines(sheet(repairer))
    assert len(said) == 12 and "reading 12: first 6.7 um, keyed again" in said[-1]


def test_the_shops_copy_and_json_say_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    given = answers(STRAIGHT)
    fail = [*given[:-2], "2", "/", "1", "2", "1", "1"]  # fail, back, pass, keyed wrong, pass, finished
    desk, _ = lines(tmp_path, fail)
    assert desk.walk is not None and desk.walk.open is None
    capsys.readouterr()
    assert main(["sheet", "1", "--shop", "--folder", str(tmp_path)]) == DONE
    assert "Cased watch: first given as FAIL" in " ".join(capsys.readouterr().out.split())
    assert main(["sheet", "1", "--folder", str(tmp_path)]) == DONE
    assert "first given" not in capsys.readouterr().out
    assert main(["sheet", "1", "--json", "--folder", str(tmp_path)]) == DONE
    assert json.loads(capsys.readouterr().out)["corrections"][0]["how"] == KEYED_WRONG


def said(n: int, key: str, *words: str, at: str = "2026-03-02T09:00:00+00:00", accepted: int = 0) -> Answer:
    """An answer."""
    return Answer(n=n, at=at, key=key, words=words, accepted=accepted)


def test_a_result_was_given_at_its_own_moment_else_when_it_was_written() -> None:
    assert (
        given_at(said(1, "cased_result", "pass", "2026-03-02T08:30:00+00:00")) == "2026-03-02T08:30:00+00:00"
    )
    assert given_at(said(1, "fit_outcome", "shaved", "walls 0.6 mm")) == "2026-03-02T09:00:00+00:00"
    assert given_at(said(1, "fit_outcome", "shaved", at="yesterday")) is None


def test_a_reading_changed_by_hand_is_not_said_to_be_keyed_again() -> None:
    """It is said with what was changed by hand; the next one keyed over it is."""
    read = ("pass", "2026-03-02T08:30:00+00:00", "method dry_deflection")
    span = [
        said(1, "empty_signal_0", "20.0 um"),
        said(2, "empty_hold", "start"),
        said(3, "empty_signal_1", "19.0 um"),
        said(4, "empty_signal_1", "18.0 um", accepted=9),
        said(5, "empty_signal_1", "17.0 um"),
        said(6, "empty_temperature", "21 C"),
        said(7, "empty_result", *read),
    ]
    found = [(was.word if was else None, now.word) for was, now in keyed_anew(span, EMPTY)]
    assert found == [("18.0 um", "17.0 um"), (None, "21 C")]
