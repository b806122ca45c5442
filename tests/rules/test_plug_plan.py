"""The stepped plug, pass by pass; rings without a lower chamfer; how far the model is trusted."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from bench.shop.shop import built_in
from rules.bars import Bar, Grip
from rules.checks import OutOfRange
from rules.equipment import Axis, Tool
from rules.ring import Ring
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import size
from rules.turning import operations
from rules.turning.order import SetUp
from rules.turning.planning import plan
from rules.turning.plug import PlugPlan, PlugWanted, plan_plug
from rules.turning.schedule import cutting_data

SHOP = built_in()
LATHE = replace(SHOP.lathes[0], cross=Axis(step_mm=0.01))
BARS = [
    Bar(plastic="pa66", diameter_mm=35.0, length_mm=100.0),
    Bar(plastic="acetal", diameter_mm=50.0, length_mm=100.0),
    Bar(plastic="acetal", diameter_mm=36.0, length_mm=100.0),
    Bar(plastic="acetal", diameter_mm=36.0, length_mm=20.0),
    Bar(plastic="acetal", diameter_mm=34.1, length_mm=100.0),
]


WANTED = PlugWanted(seat_mm=33.2, plastic="acetal", steps=5)


def plug(steps: int = 5, *, step_mm: float = 0.01, shows: str = "diameter") -> PlugPlan:
    """A plug round 33.20."""
    lathe = replace(LATHE, cross=Axis(step_mm=step_mm, shows=shows))
    return plan_plug(replace(WANTED, steps=steps), lathe=lathe, tools=SHOP.tools, bars=BARS)


@pytest.mark.parametrize(
    ("steps", "step_mm", "shows", "sizes"),
    [
        (5, 0.01, "diameter", (33.16, 33.18, 33.20, 33.22, 33.24)),
        (4, 0.01, "diameter", (33.18, 33.20, 33.22, 33.24)),
        (3, 0.005, "radius", (33.18, 33.20, 33.22)),
        (3, 0.05, "diameter", (33.15, 33.20, 33.25)),
    ],
)
def test_steps_stand_round_the_seat_smallest_first(
    steps: int, step_mm: float, shows: str, sizes: tuple[float, ...]
) -> None:
    made = plug(steps, step_mm=step_mm, shows=shows)
    assert made.steps_mm == pytest.approx(sizes)
    coarse = "this lathe cannot be set to 0.02 mm: the steps are 0.05 mm"
    assert (coarse in made.words) == (step_mm == 0.05)


def test_the_thinnest_bar_that_does_is_taken() -> None:
    made = plug()
    assert made.bar == BARS[2], "34.10 is under 33.20 and 1; one of 36 is too short"
    assert made.stick_out_mm == WANTED.stick_out_mm
    with pytest.raises(OutOfRange, match=r"no bar of acetal for a plug; one of 34\.20 mm or more is needed"):
        plan_plug(WANTED, lathe=LATHE, tools=SHOP.tools, bars=BARS[:1])


def test_passes_of_a_plug_one_after_the_other() -> None:
    """Roughed over the whole length to a finishing cut over the largest, then each step from the end in."""
    made, data = plug(), cutting_data("acetal")
    roughs = [one for one in made.passes if one.operation == "rough"]
    steps = [one for one in made.passes if one.operation == "step"]
    assert [one.n for one in made.passes] == list(range(1, len(made.passes) + 1))
    assert roughs[-1].material_diameter_after_mm == pytest.approx(33.24 + 2 * data.finish_depth)
    before = 36.0
    for one in roughs:
        assert one.cut_depth_mm == pytest.approx((before - one.material_diameter_after_mm) / 2)
        assert data.least_depth <= one.cut_depth_mm <= data.largest_turning_depth + 1e-9
        before = one.material_diameter_after_mm
    assert [one.material_diameter_after_mm for one in steps] == pytest.approx(list(made.steps_mm))
    each = steps[0].from_face_mm
    assert [one.from_face_mm for one in steps] == [each * n for n in range(1, 6)]
    assert all(one.from_face_mm == 5 * each for one in roughs)
    for one in steps:
        assert one.cut_depth_mm == pytest.approx((before - one.material_diameter_after_mm) / 2)
    for one in made.passes:
        rough = one.operation == "rough"
        speed, feed = (data.rough_speed, data.rough_feed) if rough else (data.finish_speed, data.finish_feed)
        turned = one.material_diameter_after_mm + 2 * one.cut_depth_mm
        wanted = 1000 * speed / math.pi / turned
        usable = [rpm for rpm in LATHE.speeds_rpm if rpm <= min(wanted, LATHE.largest_rpm)]
        assert one.rpm == max(usable, default=min(LATHE.speeds_rpm))
        assert one.minutes == round(one.from_face_mm / feed / one.rpm, 3)
        assert f"{one.material_diameter_after_mm:.2f}" in one.reading_text


@pytest.mark.parametrize("chamfer", [0.0, 0.1])
def test_a_ring_without_a_lower_chamfer_has_no_pass_for_it(chamfer: float) -> None:
    ring = Ring(outside_diameter_mm=33.2, bore_mm=32.04, height_mm=1.1, lower_chamfer_mm=chamfer)
    made = plan(ring=ring, set_up=SetUp(lathe=SHOP.lathes[0], tools=SHOP.tools, bar=BARS[2]))
    assert bool(made.of(operations.LOWER_CHAMFER)) == bool(chamfer)
    assert not any("no room for the lower chamfer" in words for words in made.warnings)


@pytest.mark.parametrize(
    ("diameter", "height", "far"), [(36.0, 4.0, False), (8.0, 1.1, False), (8.0, 4.0, True)]
)
def test_a_bar_is_said_to_stand_out_far_only_where_it_does(diameter: float, height: float, far: bool) -> None:
    ring = Ring(outside_diameter_mm=diameter - 2.0, bore_mm=diameter - 3.2, height_mm=height)
    bar = Bar(plastic="acetal", diameter_mm=diameter, length_mm=200.0)
    chucks = replace(SHOP.lathes[0], grips=(Grip(name="chuck", smallest_mm=2.0, largest_mm=60.0),))
    thin = Tool(number=9, kind="boring", smallest_bore_mm=2.0, longest_reach_mm=60.0, shank_mm=12.0 / 8.0)
    tools = (*(tool for tool in SHOP.tools if tool.kind != "boring"), thin)
    made = plan(ring=ring, set_up=SetUp(lathe=chucks, tools=tools, bar=bar, spares=4))
    assert (made.order.stock.stick_out_mm > 3 * diameter) == far
    assert any("over 3 diameters: lighter cuts are planned" in words for words in made.warnings) == far


CASED = SizingQuestion(
    case_bore_mm=31.46,
    glass_mm=30.44,
    case_metal="316L",
    case_wall_mm=2.5,
    case_height_mm=5.0,
    outside_mm=31.46,
    bore_mm=30.34,
)


def test_how_far_the_model_is_trusted() -> None:
    """Compared up to 5.5 times as high as the squeezed wall, from 3.6 on low, and to a friction of 0.25."""

    def said(height: float, friction: float = 0.2) -> str:
        return size(replace(CASED, height_mm=height, friction=friction)).consequences.model_words

    ratio = size(replace(CASED, height_mm=2.0)).fit.height_over_wall
    assert ratio == pytest.approx(3.7, abs=0.05) and said(1.9).startswith("estimate, about +-25 %")
    low = "times as high as its wall: reads up to 24 % low, besides about +-25 %"
    assert said(2.0).startswith(f"ring 3.7 {low}") and said(2.9).startswith(f"ring 5.3 {low}")
    assert said(3.1) == "ring 5.7 times as high as its wall: outside the range the model was compared in"
    assert said(1.2, 0.25).startswith("estimate")
    assert said(1.2, 0.26) == "friction 0.26: above the range the model was compared in"
    assert size(replace(CASED, case_metal=None, height_mm=1.2)).consequences.model_words == ""
