"""Passes made and not keyed when work was broken off, and walls that differ round the ring."""

from __future__ import annotations

import pytest

from tests.whole.places import at
from tests.whole.repairer import Repairer


def said(repairer: Repairer) -> str:
    """What the step on the screen says."""
    return " ".join((*repairer.step.say, *repairer.step.consequence))


@pytest.mark.parametrize("act", ["rough_outside", "rough_bore", "finish_outside"])
def test_a_break_within_an_act_says_that_passes_not_keyed_are_not_known(act: str) -> None:
    repairer = at(act)
    repairer.wait(16 * 60)
    repairer.type("1")
    repairer.on_to("touch_off")
    assert "key 2 Enter for each that was made" in said(repairer) and "never at the first" in said(repairer)
    assert ("Not the size a micrometer reads" in said(repairer)) is (act != "rough_outside")
    repairer.on_to(act)


def test_before_anything_could_be_cut_nothing_is_said_of_passes() -> None:
    repairer = at("lathe_bar")
    repairer.wait(16 * 60)
    repairer.type("1")
    repairer.on_to("rough_outside")
    assert "touch_off" not in repairer.keyed


def wall_by_wall(*walls: str) -> Repairer:
    """The four walls on the bar keyed one by one."""
    repairer = at("wall_reading")
    repairer.type("1")
    for wall in walls:
        repairer.type(wall)
    return repairer


def test_a_wall_that_differs_is_asked_about_and_none_is_dropped() -> None:
    repairer = wall_by_wall("0.720", "0.720", "0.720", "0.620")
    while repairer.step.kind == "number":
        repairer.type("0.620")
    assert "The walls differ by 0.100 mm round the ring" in repairer.step.title
    assert "0.720, 0.720, 0.720, 0.620" in said(repairer)
    again = repairer.copy()
    repairer.give("mean")
    assert repairer.asked == "last_bore"
    again.give("again")
    again.answer()
    assert again.asked == "wall_reading"


@pytest.mark.parametrize("walls", ["0.720 0.716 0.722 0.718", "0.765 0.765 0.775 0.765"])
def test_walls_that_agree_are_taken_as_their_mean_unasked(walls: str) -> None:
    """Also where the cross slide let a wall be expected from which one of them is a little further off."""
    repairer = wall_by_wall(*walls.split())
    assert repairer.asked in ("last_bore", "more_bore_1")


def test_with_the_walls_keyed_one_by_one_a_test_is_gone_on_with_away_from_the_lathe() -> None:
    repairer = wall_by_wall("0.720", "0.716", "0.722", "0.718").on_to("empty_hold")
    repairer.wait(60)
    repairer.feed(repairer.bench.opened())
    repairer.type("1")
    assert repairer.asked == "empty_check"
