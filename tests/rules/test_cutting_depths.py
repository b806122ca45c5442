"""Speeds, depths and lengths of bar, each by hand, on either side of where it changes."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import pytest

from rules.bars import Bar, Grip
from rules.checks import OutOfRange
from rules.equipment import Axis, Lathe, Tool
from rules.turning.holding import grips_for
from rules.turning.schedule import (
    boring_depth_limit,
    cutting_data,
    cutting_minutes,
    finish_steps,
    finishing_depth,
    rough_steps,
    spindle_rpm,
    turning_depth_limit,
)
from rules.turning.stock import use_of_bar, used_for

ACETAL = cutting_data("acetal")
"""Roughed at most 1.0 outside and 0.7 in the bore, finished at 0.10, never under 0.05, mm on the radius."""


def bar_of(shanks: float) -> Tool:
    """A boring bar with a shank of 5 mm."""
    return Tool(number=3, kind="boring", smallest_bore_mm=8.0, longest_reach_mm=5.0 * shanks, shank_mm=5.0)


@pytest.mark.parametrize(
    ("shanks", "rough", "finish"),
    [(3.0, 0.7, 0.10), (4.0, 0.7, 0.10), (4.1, 0.35, 0.05), (6.0, 0.35, 0.05), (6.1, 0.175, 0.05)],
)
def test_a_boring_bar_cuts_lighter_the_longer_it_is(shanks: float, rough: float, finish: float) -> None:
    """Half beyond four shanks, a quarter beyond six (common practice)."""
    assert boring_depth_limit(data=ACETAL, tool=bar_of(shanks)) == pytest.approx(rough)
    assert finishing_depth(data=ACETAL, tool=bar_of(shanks)) == pytest.approx(finish)


def test_roughing_in_the_bore_is_never_under_two_finishing_depths() -> None:
    shy = replace(ACETAL, largest_boring_depth=0.1)
    assert boring_depth_limit(data=shy, tool=bar_of(3.0)) == pytest.approx(0.2)
    assert boring_depth_limit(data=shy, tool=bar_of(7.0)) == pytest.approx(0.1)


def test_a_shank_that_is_not_given_is_seven_tenths_of_the_smallest_bore() -> None:
    plain = Tool(number=3, kind="boring", smallest_bore_mm=10.0, longest_reach_mm=35.0)
    assert plain.reach_over_shank == pytest.approx(5.0) and bar_of(4.5).reach_over_shank == 4.5
    assert Tool(number=1, kind="turning").reach_over_shank == 0.0


def test_a_bar_that_stands_far_out_is_turned_lighter() -> None:
    assert [turning_depth_limit(data=ACETAL, light=light) for light in (False, True)] == [1.0, 0.5]


def test_speed_and_minutes_by_hand() -> None:
    assert spindle_rpm(speed_m_per_min=100.0, diameter_mm=40.0) == pytest.approx(1e5 / math.pi / 40.0)
    assert cutting_minutes(length_mm=12.0, feed_mm=0.08, rpm=1500.0) == 0.1
    assert cutting_minutes(length_mm=1.0, feed_mm=0.15, rpm=720.0) == 0.009
    assert cutting_data("unheard of").swarf == cutting_data("other").swarf


@pytest.mark.parametrize(
    ("step", "depth", "allowance", "least", "passes", "steps"),
    [
        (0.01, 0.10, 0.4, 0.05, 2, (20, 20)),
        (0.01, 0.10, 0.6, 0.05, 3, (20, 20, 20)),
        (0.01, 0.05, 0.6, 0.05, 3, (10,) * 6),
        (0.01, 0.05, 0.9, 0.05, 3, (10,) * 6),
        (0.01, 0.02, 0.4, 0.05, 2, (10, 10, 10, 10)),
        (0.03, 0.10, 0.4, 0.05, 2, (7, 7)),
        (0.5, 0.05, 0.4, 0.05, 2, (1, 1)),
    ],
)
def test_finishing_passes_by_hand(
    step: float, depth: float, allowance: float, least: float, passes: int, steps: tuple[int, ...]
) -> None:
    """Equal ones that together take about the allowance, twice the least number of them at most."""
    found = finish_steps(
        step_mm=step, depth_mm=depth, allowance_mm=allowance, least_mm=least, least_passes=passes
    )
    assert found == steps


@pytest.mark.parametrize("step", [0.005, 0.01, 0.02, 0.0254, 0.05])
@pytest.mark.parametrize("to_take", [0.4, 1.0, 2.013, 7.7, 23.1])
def test_roughing_passes_fall_and_keep_their_bounds(step: float, to_take: float) -> None:
    finish = round(0.2 / step)
    steps = rough_steps(to_take_mm=to_take, step_mm=step, limit_mm=0.7, finish_step=finish)
    whole = math.floor(to_take / step + 1e-9)
    assert sum(steps) == whole and steps[-1] >= finish
    assert all(first >= then for first, then in itertools.pairwise(steps))
    assert steps[0] * step + (to_take - whole * step) <= 1.4 + 1e-9
    assert len(steps) <= 2 * math.ceil(whole / math.floor(1.4 / step + 1e-9)) + 2


def test_roughing_that_cannot_be_is_refused() -> None:
    with pytest.raises(OutOfRange, match="use a finer lathe"):
        rough_steps(to_take_mm=5.0, step_mm=1.5, limit_mm=0.7, finish_step=1)
    with pytest.raises(OutOfRange, match="take a thicker bar or a smaller drill"):
        rough_steps(to_take_mm=0.1, step_mm=0.01, limit_mm=0.7, finish_step=20)


CHUCK = Grip(name="chuck", smallest_mm=2.0, largest_mm=60.0, length_mm=15.0)
COLLET = Grip(name="collet", smallest_mm=30.0, largest_mm=36.0, length_mm=20.0)
CARRIAGE = Axis(shows="length", direction="to_chuck")
LATHE = Lathe(
    name="lathe",
    speeds_rpm=(100.0, 500.0),
    largest_rpm=500.0,
    grips=(CHUCK, COLLET),
    cross=Axis(),
    carriage=CARRIAGE,
)


def test_how_much_of_a_bar_is_used() -> None:
    """0.30 to face, 2.2 each, 0.20 between; the rest of the bar, and 3 mm clear of the jaws."""
    assert used_for(rings=3, each_mm=2.2) == pytest.approx(0.30 + 6.6 + 0.40)
    bar = Bar(plastic="acetal", diameter_mm=35.0, length_mm=60.0)
    use = use_of_bar(bar=bar, lathe=LATHE, outside_diameter_mm=33.0, each_mm=2.2, rings=3)
    assert (use.grip, use.used_mm, use.stick_out_mm, use.left_mm) == (COLLET, 7.3, 10.3, 52.7)
    assert len(use.words(bar)) == 2 and "3 rings use 7.30 mm of it; 52.7 mm are left" in use.words(bar)[1]
    for size, grips in ((30.0, [COLLET, CHUCK]), (36.1, [CHUCK]), (60.1, [])):
        assert grips_for(LATHE, replace(bar, diameter_mm=size)) == grips


@pytest.mark.parametrize(
    ("diameter", "length", "words"),
    [
        (33.99, 60.0, "too thin for an outside of 33.00 mm; take one of 34.00 mm or more"),
        (35.0, 30.2, "too short, this set-up and the collet need 30.3 mm"),
        (61.0, 60.0, "no grip of the lathe holds 61.00 mm"),
    ],
)
def test_a_bar_that_will_not_do(diameter: float, length: float, words: str) -> None:
    bar = Bar(plastic="acetal", diameter_mm=diameter, length_mm=length)
    with pytest.raises(OutOfRange) as refused:
        use_of_bar(bar=bar, lathe=LATHE, outside_diameter_mm=33.0, each_mm=2.2, rings=3)
    assert words in str(refused.value)


def test_a_bar_that_just_does_says_that_it_ends() -> None:
    bar = Bar(plastic="acetal", diameter_mm=34.0, length_mm=30.3)
    use = use_of_bar(bar=bar, lathe=LATHE, outside_diameter_mm=33.0, each_mm=2.2, rings=3)
    assert use.words(bar)[-1] == "what is left is too short for another such set-up"
    one = use_of_bar(bar=bar, lathe=LATHE, outside_diameter_mm=33.0, each_mm=2.2, rings=1)
    assert one.words(bar)[1].startswith("1 ring uses")


def test_a_refusal_of_roughing_gives_its_bounds() -> None:
    with pytest.raises(OutOfRange) as why:
        rough_steps(to_take_mm=0.1, step_mm=0.01, limit_mm=0.7, finish_step=20)
    assert str(why.value) == (
        "roughing: 0.100 mm on the diameter cannot be taken in cuts of 0.2 to 1.4 mm; "
        "take a thicker bar or a smaller drill"
    )
    with pytest.raises(OutOfRange) as why:
        rough_steps(to_take_mm=5.0, step_mm=1.5, limit_mm=0.7, finish_step=1)
    assert str(why.value) == (
        "cross slide: one step of 1.5 mm is over the largest depth 0.7 mm; use a finer lathe"
    )
