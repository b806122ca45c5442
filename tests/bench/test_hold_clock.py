"""A hold runs on a clock that nobody sets: the wall clock may jump as it likes meanwhile."""

from __future__ import annotations

import random
from datetime import timedelta
from typing import Any

import pytest

from bench.desk.hold import seconds_left
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from tests.whole.places import at, before_a_hold
from tests.whole.repairer import Repairer

HOLD_S = 600.0


def last_test(repairer: Repairer) -> tuple[dict[str, Any], str]:
    """The last test on the sheet, as data and in the sheet's words."""
    assert repairer.desk.job is not None
    data = sheet_data(repairer.desk.job, finished=False)
    return data["tests"][-1], " ".join(" ".join(sheet_lines(data)).split())


def set_clock(repairer: Repairer, seconds: float) -> None:
    """Somebody, or the network, sets the wall clock on or back."""
    repairer.now += timedelta(seconds=seconds)


def holding() -> Repairer:
    """A hold of ten minutes has just begun."""
    repairer = before_a_hold()
    repairer.answer()
    assert repairer.asked == "cased_result"
    return repairer


@pytest.mark.parametrize("jump_s", [3600.0, 86400.0, 601.0])
def test_a_clock_set_on_opens_nothing(jump_s: float) -> None:
    repairer = holding()
    set_clock(repairer, jump_s)
    repairer.type("1")
    assert repairer.asked == "cased_result" and "still to run" in repairer.desk.message
    assert seconds_left(repairer.desk, repairer.step) > HOLD_S - 30
    repairer.wait(HOLD_S)
    repairer.type("1")
    assert repairer.asked == "hand_back"
    test, text = last_test(repairer)
    assert test["stopped_after_min"] is None and "10 min (timed by the program)" in text


@pytest.mark.parametrize("jump_s", [-3600.0, -86400.0, -300.0])
def test_a_clock_set_back_leaves_nobody_before_a_shut_door(jump_s: float) -> None:
    repairer = holding()
    set_clock(repairer, jump_s)
    repairer.wait(HOLD_S)
    repairer.type("1")
    assert repairer.asked == "hand_back"
    test, text = last_test(repairer)
    assert test["stopped_after_min"] is None and "stopped after" not in text


def test_a_fail_after_two_seconds_is_not_said_to_have_been_held() -> None:
    repairer = holding()
    set_clock(repairer, 3600)
    repairer.give("fail")
    test, text = last_test(repairer)
    assert test["stopped_after_min"] == 0.0 and "stopped after 0 of 10 min" in text


def test_the_clock_on_the_screen_and_the_bell_follow_the_same_clock() -> None:
    repairer = holding()
    set_clock(repairer, 3600)
    from bench.desk.token import Bell, Token

    repairer.feed(Token("tick", at=repairer.seconds, wall=repairer.wall()))
    assert not any(isinstance(effect, Bell) for effect in repairer.effects)
    set_clock(repairer, -7200)
    repairer.wait(HOLD_S)
    repairer.feed(Token("tick", at=repairer.seconds, wall=repairer.wall()))
    assert sum(isinstance(effect, Bell) for effect in repairer.effects) == 1


def test_a_reading_at_a_fixed_time_waits_for_the_same_clock() -> None:
    repairer = at("cased_pressure")
    repairer.pick("usual")
    repairer.pick_key("cased_method")
    repairer.give("dry_deflection")
    repairer.on_to("cased_signal_0")
    repairer.give("030.0")
    repairer.on_to("cased_signal_1")
    set_clock(repairer, 7200)
    repairer.type("030.0")
    assert repairer.asked == "cased_signal_1" and "due in" in repairer.desk.message
    assert repairer.step.opens_after is not None
    repairer.wait(repairer.step.opens_after[1])
    set_clock(repairer, -7200 * 2)
    repairer.type("030.0")
    assert repairer.asked == "cased_signal_2"


def test_opened_again_in_the_same_run_it_goes_on_where_it_was() -> None:
    repairer = holding()
    repairer.wait(200)
    set_clock(repairer, 3600)
    repairer.feed(repairer.bench.opened())
    repairer.type("1")
    repairer.answer()
    assert repairer.asked == "cased_throughout"
    repairer.give("yes")
    assert repairer.asked == "cased_result"
    assert seconds_left(repairer.desk, repairer.step) == pytest.approx(HOLD_S - 200, abs=30)


def test_in_another_run_a_clock_set_back_costs_one_hold_at_most() -> None:
    repairer = holding()
    repairer.wait(300)
    set_clock(repairer, -86400)
    later = Repairer(repairer.bench)
    later.now, later.seconds = repairer.now, 5.0
    later.feed(later.bench.opened())
    later.look()
    later.type("1")
    later.answer()
    later.give("yes")
    assert later.asked == "cased_result"
    later.type("1")
    assert later.asked == "cased_result"
    later.wait(HOLD_S)
    later.type("1")
    assert later.asked == "hand_back"


def test_walks_with_a_clock_that_jumps() -> None:
    """A pass is taken never before the hold was over and always after it;
    what ran is written to a tenth below.
    """
    early = late = 0
    for seed in range(60):
        chance = random.Random(seed)
        repairer = holding()
        began = repairer.seconds
        while repairer.asked == "cased_result":
            repairer.wait(chance.uniform(1, 240))
            for _ in range(chance.randrange(3)):
                set_clock(repairer, chance.choice([-1, 1]) * chance.choice([0.5, 60, 3600, 90000]))
            if chance.random() < 0.2:
                repairer.look()
            ran = repairer.seconds - began
            repairer.type("1")
            if ran < HOLD_S - 3:
                assert repairer.asked == "cased_result", (seed, ran)
                early += 1
            elif ran > HOLD_S + 3:
                assert repairer.asked == "hand_back", (seed, ran)
                late += 1
        test, text = last_test(repairer)
        assert test["stopped_after_min"] is None and "timed by the program" in text
    assert early > 120 and late > 40
