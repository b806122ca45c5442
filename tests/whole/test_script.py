"""The hand that types scripts: what it does with steps nobody scripted, and how it fails."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.whole.hands import lines
from tests.whole.script import Hand, Recorder, ordinary
from tests.whole.scripts import STRAIGHT, answers, straight


def asked(folder: Path, hand: Hand) -> str:
    """The step that is asked when the hand is done."""
    desk, _ = lines(folder, [hand])
    assert desk.walk is not None
    return desk.walk.open.key if desk.walk.open is not None else ""


def test_what_is_not_scripted_is_answered_as_usual(tmp_path: Path) -> None:
    assert asked(tmp_path, Hand()) == ""


def test_a_script_stops_before_a_step(tmp_path: Path) -> None:
    assert asked(tmp_path, straight(until="drill")) == "drill"


def test_a_mapping_has_no_order(tmp_path: Path) -> None:
    desk, _ = lines(tmp_path, [Hand({"marking": "bar_3", "glass_2": "35.33", "watch": "a bag"})])
    assert desk.job is not None
    given = {answer.key: answer.word for answer in desk.job.answers}
    assert (given["marking"], given["glass_2"], given["watch"]) == ("bar_3", "35.33 mm", "a bag")


@pytest.mark.parametrize(
    ("script", "words"),
    [
        ((*STRAIGHT, ("past_bore", "fresh")), "never asked: past_bore"),
        ((("glass_1", "35.31"), ("case_bore_1", "36.42")), "never asked: case_bore_1"),
        ((("hold", "with string"),), "with string is not among front, behind"),
        ((("case_bore_1", "364"),), "not taken: '36"),
    ],
    ids=["never asked", "asked before", "no such choice", "refused"],
)
def test_a_script_that_does_not_fit_is_found(
    script: tuple[tuple[str, str], ...], words: str, tmp_path: Path
) -> None:
    with pytest.raises(AssertionError, match=words):
        lines(tmp_path, [Hand(script)])


def test_a_step_that_is_never_reached_is_found(tmp_path: Path) -> None:
    with pytest.raises(AssertionError, match="past_bore is never asked"):
        lines(tmp_path, [straight(until="past_bore")])


def test_an_optional_step_is_changed_as_soon_as_it_is_offered(tmp_path: Path) -> None:
    recorder = Recorder(Hand((("empty_pressure", "usual"), ("empty_temperature", "015")), until="empty_hold"))
    desk, _ = lines(tmp_path, [recorder])
    assert desk.walk is not None and (kept := desk.walk.answer("empty_temperature")) is not None
    assert kept.word == "15 C"
    assert recorder.lines.count("*") == 1


def test_lines_written_down_do_the_same(tmp_path: Path) -> None:
    written = answers(STRAIGHT)
    assert written[0] == "0" and "3642" in written
    desk, _ = lines(tmp_path, written)
    assert desk.walk is not None and desk.walk.open is None


def test_a_number_that_nobody_knows_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    desk, _ = lines(tmp_path, [straight(until="glass_2")])
    monkeypatch.delitem(ordinary.__globals__["ORDINARY"], "glass_2")
    with pytest.raises(AssertionError, match="no ordinary answer to glass_2"):
        ordinary(desk)
