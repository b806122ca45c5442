"""Checks ask what has to be looked at: the page that asks never holds its own answer, a page before does."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from bench.file.slug import SHOP
from bench.job.job import words_of
from bench.shop.shop import Shop, built_in, load
from bench.shop.starter import starter_text
from rules.checks import OutOfRange
from tests.whole.repairer import Repairer, fresh
from tests.whole.seen import read

SPEEDS = (153.0, 247.0, 418.0, 719.0, 1003.0, 1511.0)
STEPS = ("inner", "second", "third", "fourth", "fifth", "outer")
SIZES = ((80, 24), (60, 20), (40, 12))
READ_BACK = ("lathe_bar", "lathe_speed", "tool_boring", "tool_turning", "tool_chamfer", "tool_parting")


def shop(**changed: object) -> Shop:
    """A shop whose speeds and tool numbers stand nowhere else on a page."""
    own = built_in()
    lathe = replace(own.lathes[0], speeds_rpm=SPEEDS)
    tools = tuple(replace(tool, number=tool.number + 60) for tool in own.tools)
    return replace(own, lathes=(replace(lathe, **changed),), tools=tools)  # type: ignore[arg-type]


def at(key: str, **changed: object) -> Repairer:
    """A repairer before a step of the straight job in such a shop."""
    return fresh(shop=shop(**changed)).on_to(key)


def page(repairer: Repairer, size: tuple[int, int] = (80, 24)) -> str:
    """What a person reads in a window of that size."""
    return read(replace(repairer.desk, columns=size[0], rows=size[1]))


def holds(text: str, answer: str) -> bool:
    """Whether a page holds a number, rounded as a check takes it, or a name."""
    numbers = {f"{float(one):.0f}" for one in re.findall(r"(?<![\d.])\d+(?:\.\d+)?(?![\d.])", text)}
    return answer in numbers or f"({answer})" in text


@pytest.mark.parametrize("size", SIZES, ids=str)
def test_no_page_that_asks_for_a_number_holds_it_and_a_page_before_does(size: tuple[int, int]) -> None:
    repairer = fresh(shop=shop()).on_to("lathe_key")
    before = set_up = page(repairer, size)
    met = []
    while repairer.asked != "dress":
        key, now = repairer.step.key, page(repairer, size)
        if key in READ_BACK:
            met.append(key)
            number = str(repairer.step.readback)
            assert not holds(now, number), (key, now)
            assert holds(set_up if key.startswith("lathe") else before, number), (key, before)
        before = now
        repairer.answer()
    assert set(met) == set(READ_BACK)


def test_a_belt_is_asked_by_the_names_of_the_shop_in_changing_order() -> None:
    repairer = at("lathe_key", speed_names=STEPS)
    assert "418 rpm (third)" in page(repairer)
    orders = set()
    for seed in range(6):
        repairer = fresh(shop=shop(speed_names=STEPS), seed=seed).on_to("lathe_speed")
        step = repairer.step
        orders.add(repairer.desk.dealt)
        assert step.readback is None and {one.text for one in step.choices} <= set(STEPS)
        assert step.choices[0].text == "third" and 3 <= len(step.choices) <= 4
        assert "rpm" not in page(repairer)
    assert len(orders) > 2
    repairer.answer()
    kept = words_of(repairer.bench.entries[-1])
    assert kept[:2] == ("right", "third") and kept[2].startswith("order {")
    assert repairer.asked == "rough_outside" and "418 rpm (third)" in repairer.step.title


def test_a_wrong_step_of_the_belt_is_named_and_the_checks_start_again() -> None:
    repairer = at("lathe_speed", speed_names=STEPS)
    wrong = repairer.desk.dealt.index(1)
    name = repairer.step.choices[1].text
    repairer.type(str(wrong + 1))
    assert repairer.asked == "lathe_hands"
    assert f"The belt is on {name}: not the step to begin on." in page(repairer)
    assert "third" not in page(repairer)


def test_the_number_on_a_lever_has_to_be_the_planned_one() -> None:
    for typed, said in (("417", "417 rpm is too slow"), ("1511", "1511 rpm is too fast")):
        repairer = at("lathe_speed")
        repairer.type(typed)
        assert repairer.asked == "lathe_hands" and said in page(repairer)
        assert "418" not in page(repairer)
    repairer = at("lathe_speed")
    repairer.type("418")
    assert repairer.asked == "rough_outside"


@pytest.mark.parametrize(
    ("typed", "said"),
    [("620", "too slow"), ("621", ""), ("690", ""), ("759", ""), ("760", "too fast"), ("7000", "too fast")],
)
def test_stepless_near_enough_is_right(typed: str, said: str) -> None:
    repairer = at("lathe_speed", speeds_rpm=(100.0, 2000.0), stepless=True)
    assert "690" not in page(repairer)
    repairer.type(typed)
    assert repairer.asked == ("lathe_hands" if said else "rough_outside")
    assert said in page(repairer)


def test_near_enough_at_a_speed_whose_tenth_has_one_digit_more() -> None:
    """The line takes what the scale may show, not only as many digits as the planned speed has."""
    repairer = at("lathe_speed", speeds_rpm=(100.0, 960.0), stepless=True, largest_rpm=960.0)
    assert repairer.step.mask is not None and repairer.step.mask.before >= 4


@pytest.mark.parametrize("changed", [{"shows_speed": False}, {"speeds_rpm": (418.0,)}], ids=str)
def test_a_lathe_that_shows_nothing_or_has_one_speed_asks_nothing(changed: dict[str, object]) -> None:
    repairer = at("lathe_key", **changed)
    assert "418 rpm" in page(repairer)
    repairer.on_to("rough_outside")
    assert "lathe_speed" not in repairer.keyed
    kept = [words_of(one) for one in repairer.bench.entries if one.key == "lathe_bar"]
    assert kept[-1][2].startswith("order {"), "the plan is kept with the last check there is"
    repairer.bench.shop = replace(shop(**changed), tools=built_in().tools)
    repairer.answer()
    repairer.on_to("tool_boring")
    repairer.wait(3600)
    repairer.open()
    assert repairer.asked == "lathe_hands"
    repairer.on_to("tool_boring")
    assert repairer.step.readback == 62, "a ring begun stays as it was begun"


def test_nothing_turns_without_the_checks_at_a_lathe_that_shows_nothing() -> None:
    repairer = at("drill", shows_speed=False)
    repairer.feed(repairer.bench.opened())
    walk = repairer.desk.walk
    assert walk is not None and walk.open is not None and walk.open.key == "lathe_hands"
    assert walk.step("rough_outside") is None


def test_where_tools_have_no_numbers_the_kind_is_dealt_out() -> None:
    repairer = at("drill", numbered_tools=False)
    assert "fit the boring bar" in page(repairer)
    orders = set()
    for seed in range(6):
        repairer = fresh(shop=shop(numbered_tools=False), seed=seed).on_to("tool_boring")
        orders.add(repairer.desk.dealt)
        assert {one.text for one in repairer.step.choices} == {
            "turning tool",
            "boring bar",
            "chamfer tool",
            "parting blade",
        }
        assert page(repairer).count("boring bar") == 1
    assert len(orders) > 2
    wrong = repairer.step.choices[2].text
    repairer.type(str(repairer.desk.dealt.index(2) + 1))
    assert repairer.asked == "tool_boring"
    assert f"The {wrong} does not cut next: / shows what does." in page(repairer)
    assert page(repairer).count("boring bar") == 1
    repairer.key("previous")
    assert repairer.step.key == "drill" and "fit the boring bar" in page(repairer)


def test_a_wrong_number_of_a_tool_says_what_is_wrong_and_not_the_right_one() -> None:
    repairer = at("tool_turning")
    repairer.type("64")
    assert repairer.asked == "tool_turning"
    assert "Tool 64 does not cut next: / shows what does." in page(repairer)
    assert not holds(page(repairer), "61")


def test_after_an_outside_too_small_the_next_tool_stands_on_the_page_before() -> None:
    repairer = at("outside_reading")
    small = f"{(repairer.step.gauge.target or 0.0) - 0.5:.3f}" if repairer.step.gauge else ""
    repairer.on_to("past_outside", {"outside_reading": small, "outside_reading_2": small})
    assert repairer.step.choices[0].word == "smaller_bore"
    assert "fit tool 62 (boring bar)" in page(repairer)


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"speed_names": STEPS[:-1]}, "names of the speeds: 5 names for 6; give each its own"),
        ({"speed_names": ("inner",) * 6}, "names of the speeds: 6 names for 6; give each its own"),
        ({"speed_names": ("a", "b"), "speeds_rpm": (100.0, 900.0), "stepless": True}, "2 names for 0"),
    ],
    ids=str,
)
def test_names_that_do_not_fit_the_speeds_are_refused(changed: dict[str, object], said: str) -> None:
    with pytest.raises(OutOfRange, match=re.escape(said)):
        shop(**changed)


def test_the_shop_file_says_it(tmp_path: Path) -> None:
    own = starter_text(shop(speed_names=STEPS, shows_speed=False, numbered_tools=False))
    (tmp_path / SHOP).write_text(own, encoding="utf-8")
    lathe = load(tmp_path).lathes[0]
    assert (lathe.speed_names, lathe.shows_speed, lathe.numbered_tools) == (STEPS, False, False)
    (tmp_path / SHOP).write_text(own.replace('"third"', "3"), encoding="utf-8")
    with pytest.raises(OutOfRange, match="speed_names must be a list of short texts"):
        load(tmp_path)
