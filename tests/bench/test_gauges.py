"""Gauges that type: sent twice, two at once, sent too early; the streams in numbers in the campaign."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bench.desk.entries import items
from bench.desk.keys import meaning
from bench.desk.pace import by_machine, mixed
from bench.desk.token import Token
from bench.desk.update import update
from tests.campaigns import streams as campaign
from tests.whole.places import at
from tests.whole.repairer import Repairer, fresh

BURST_S = 0.004


def send(repairer: Repairer, text: str, *, pace_s: float = BURST_S) -> None:
    """Keys at one pace, the first of them now."""
    for place, letter in enumerate(text):
        repairer.wait(pace_s if place else 0.0)
        name = {"\r": "enter"}.get(letter, letter)
        token = Token("key", meaning(name, letter), at=repairer.seconds, wall=repairer.wall(), raw=letter)
        repairer.feed(token)


def painted(repairer: Repairer, after_s: float = 0.02) -> None:
    """What is asked is painted a moment later, and not yet looked at."""
    repairer.wait(after_s)
    repairer.feed(Token("painted", at=repairer.seconds, wall=repairer.wall()))


def readings(repairer: Repairer) -> list[str]:
    """The numbers of the case bore in the file that were not taken back."""
    gone = {entry.of for entry in repairer.bench.entries if entry.kind == "undo"}
    return [
        str(entry.value[0] if isinstance(entry.value, tuple) else entry.value)
        for entry in repairer.bench.entries
        if entry.key.startswith("case_bore") and entry.kind == "answer" and entry.n not in gone
    ]


def at_the_bore() -> Repairer:
    """Before the first reading, which has been looked at."""
    return at("case_bore_1").copy()


@pytest.mark.parametrize("pace_s", [0.0, 0.004, 0.025, 0.045, 0.075])
@pytest.mark.parametrize("gap_s", [0.003, 0.12, 0.45])
def test_a_reading_sent_twice_counts_once_and_waits_for_enter(pace_s: float, gap_s: float) -> None:
    repairer = at_the_bore()
    send(repairer, "36.42\r", pace_s=pace_s)
    painted(repairer, min(0.02, gap_s / 2))
    repairer.wait(gap_s - min(0.02, gap_s / 2))
    send(repairer, "36.42\r", pace_s=pace_s)
    assert readings(repairer) == ["36.42 mm"]
    assert repairer.desk.line.text == "36.42" and "Enter takes it" in repairer.desk.message
    painted(repairer)
    repairer.wait(0.3)
    repairer.key("enter")
    assert readings(repairer) == ["36.42 mm", "36.42 mm"]


def test_a_reading_shown_is_cleared_by_one_key_or_gives_way_to_the_next() -> None:
    for key in ("back", ""):
        repairer = at_the_bore()
        send(repairer, "36.42\r36.42\r")
        painted(repairer)
        repairer.wait(1.0)
        if key:
            repairer.key(key)
            assert repairer.desk.line.text == ""
        send(repairer, "36.45\r")
        assert readings(repairer) == ["36.42 mm", "36.45 mm"]


def test_a_reading_sent_after_the_pause_is_taken() -> None:
    repairer = at_the_bore()
    for text in ("36.42\r", "36.44\r"):
        send(repairer, text)
        painted(repairer)
        repairer.wait(0.5)
    assert readings(repairer) == ["36.42 mm", "36.44 mm"]


def test_hands_are_never_kept_waiting() -> None:
    repairer = at_the_bore()
    send(repairer, "36.42\r", pace_s=0.12)
    painted(repairer)
    repairer.wait(0.1)
    send(repairer, "36.44\r", pace_s=0.12)
    assert readings(repairer) == ["36.42 mm", "36.44 mm"]


def test_a_late_reading_after_the_same_number_keyed_by_hand_waits() -> None:
    repairer = at_the_bore()
    send(repairer, "36.42\r", pace_s=0.15)
    painted(repairer)
    repairer.wait(0.2)
    send(repairer, "36.42\r")
    assert readings(repairer) == ["36.42 mm"] and repairer.desk.line.text == "36.42"


def test_a_reading_for_a_question_not_yet_painted_waits() -> None:
    repairer = fresh().on_to("case_bore_1")
    repairer.desk = replace(repairer.desk, painted=())
    send(repairer, "36.42\r")
    assert readings(repairer) == [] and "before this question stood here" in repairer.desk.message
    painted(repairer)
    repairer.wait(0.3)
    repairer.key("enter")
    assert readings(repairer) == ["36.42 mm"]


@pytest.mark.parametrize("shift_s", [0.0, 0.001, 0.005, 0.009, 0.013, 0.017])
def test_two_gauges_at_once_void_the_line_until_it_is_quiet(shift_s: float) -> None:
    repairer = at_the_bore()
    both = [(n * 0.004, key) for n, key in enumerate("36.42\r")]
    both += [(shift_s + n * 0.005, key) for n, key in enumerate("35.31\r")]
    begun = repairer.seconds
    for due, key in sorted(both):
        repairer.wait(begun + due - repairer.seconds)
        send(repairer, key)
    assert readings(repairer) == [] and "until it has been quiet" in repairer.desk.message
    repairer.wait(0.3)
    send(repairer, "36.42\r")
    assert readings(repairer) == []
    repairer.wait(0.5)
    send(repairer, "36.42\r")
    assert readings(repairer) == ["36.42 mm"]


def test_a_digit_keyed_just_before_a_reading_is_no_part_of_it() -> None:
    repairer = at_the_bore()
    send(repairer, "3")
    repairer.wait(0.2)
    send(repairer, "6.42\r")
    assert readings(repairer) == [] and "two streams of keys" in repairer.desk.message


def test_a_reading_that_another_ran_through_is_taken_back() -> None:
    """The first digit of a slow gauge, a whole short reading, the rest of the slow one."""
    repairer = at_the_bore()
    send(repairer, "3")
    repairer.wait(0.003)
    send(repairer, "7.92\r", pace_s=0.001)
    assert readings(repairer) == ["37.92 mm"]
    repairer.wait(0.01)
    send(repairer, "6.37\r", pace_s=0.02)
    assert readings(repairer) == [] and repairer.asked == "case_bore_1"
    assert "37.92 mm is taken back" in repairer.desk.message


def test_what_goes_on_and_does_not_fit_takes_back_what_it_ran_through() -> None:
    """Two slow gauges have sent a digit each when a short reading comes; the rest looks alike at first."""
    repairer = at_the_bore()
    send(repairer, "03", pace_s=0.001)
    send(repairer, "3.19\r", pace_s=0.001)
    assert readings(repairer) == ["33.19 mm"]
    repairer.wait(0.01)
    send(repairer, "355.", pace_s=0.02)
    assert readings(repairer) == [] and "taken back" in repairer.desk.message


def test_a_reading_sent_again_to_a_choice_takes_nothing_back() -> None:
    repairer = at("outside_reading").copy()
    target = repairer.usual()
    send(repairer, f"{target}\r{target}\r")
    assert repairer.step.kind != "number", repairer.asked
    assert not any(entry.kind == "undo" for entry in repairer.bench.entries)
    assert repairer.asked != "outside_reading"


def test_nothing_is_taken_back_for_a_reading_that_could_not_be_saved() -> None:
    repairer = at_the_bore()
    send(repairer, "36.42\r")
    painted(repairer)
    repairer.wait(1.0)
    for letter in (*"36.44", "enter"):
        token = Token("key", letter, at=repairer.seconds, wall=repairer.wall())
        repairer.desk, _ = update(repairer.desk, token)
    repairer.feed(Token("refused", "the disk is full", wall=repairer.wall()))
    for _ in "36.44":
        repairer.key("back")
    repairer.wait(0.05)
    send(repairer, "1.07\r")
    assert readings(repairer) == ["36.42 mm"]


def test_an_announced_series_is_taken_as_it_comes_and_ends_by_itself() -> None:
    repairer = at_the_bore()
    repairer.pick("series")
    assert "Send the stored readings now" in repairer.desk.message
    send(repairer, "36.42\r36.44\r")
    assert readings(repairer) == ["36.42 mm", "36.44 mm"]
    painted(repairer)
    repairer.wait(4.0)
    asked = repairer.asked
    send(repairer, "35.20\r35.20\r")
    assert repairer.asked != asked and repairer.desk.line.text == "35.20"


def test_a_series_is_offered_where_a_number_is_asked() -> None:
    offered = {one.word for one in items(at_the_bore().desk) if one.now}
    elsewhere = {one.word for one in items(at("lathe_eyes").desk) if one.now}
    assert "series" in offered and "series" not in elsewhere


def test_a_machine_is_told_from_hands_by_its_steps() -> None:
    assert by_machine([0.004] * 5) and by_machine([0.075, 0.077, 0.075]) and by_machine([0.0])
    assert not by_machine([0.12, 0.15, 0.11]) and not by_machine([0.09, 0.06, 0.14]) and not by_machine([])
    assert mixed([0.2, 0.004, 0.004]) and mixed([0.3, 0.075, 0.076, 0.075])
    assert not mixed([0.12, 0.9, 0.2]) and not mixed([0.012, 0.03, 0.0, 0.0]) and not mixed([])


def test_no_stream_stores_what_nobody_sent() -> None:
    counts = campaign.run()
    assert counts.clean, counts
    assert counts.seen["doubled, a number asked"] > 60 and counts.seen["mixed, a number asked"] > 150
    assert counts.seen["numbers stored"] > 200 and counts.seen["one alone, a number asked"] > 10


def test_the_campaign_sees_a_guard_taken_away() -> None:
    with campaign.planted("pause"):
        found = campaign.run(streams=100)
    assert found.seen["WRONG: too soon"] > 3 and found.seen["WRONG: unseen"] > 1
    with campaign.planted("void"):
        assert campaign.run(streams=400, shops=("mm",)).invented > 0  # fewer digits cross more often
