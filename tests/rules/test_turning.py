"""What the plan says and does in single cases that a turner would check by hand."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from bench.shop.shop import built_in
from rules.bars import Bar
from rules.checks import OutOfRange
from rules.equipment import Axis, Lathe, Tool
from rules.ring import Ring
from rules.turning.order import SetUp
from rules.turning.passes import Plan
from rules.turning.planning import plan
from rules.turning.schedule import nearest_speed

SHOP = built_in()
LATHE = SHOP.lathes[0]
BAR = Bar(plastic="acetal", diameter_mm=36.0, length_mm=200.0)


def planned(**changed: Any) -> Plan:
    """The plan of one ring, with single numbers of the ring or parts of the set-up changed."""
    ring: dict[str, Any] = {
        "outside_diameter_mm": 33.20,
        "bore_mm": 32.04,
        "height_mm": 1.10,
        "chamfer_mm": 0.15,
        "lower_chamfer_mm": 0.10,
    }
    set_up: dict[str, Any] = {"lathe": LATHE, "tools": SHOP.tools, "bar": BAR}
    ring |= {name: value for name, value in changed.items() if name in ring}
    set_up |= {name: value for name, value in changed.items() if name not in ring}
    return plan(ring=Ring(**ring), set_up=SetUp(**set_up))


def with_cross(**axis: Any) -> Lathe:
    return replace(LATHE, cross=Axis(**axis))


def operations(made: Plan) -> list[str]:
    return list(dict.fromkeys(one.operation for one in made.passes))


def test_the_order_is_the_trade_s() -> None:
    inside_first = [
        "face",
        "rough_outside",
        "centre",
        "drill",
        "rough_bore",
        "rest",
        "finish_outside",
        "finish_bore",
    ]
    assert operations(planned()) == [*inside_first, "chamfer", "lower_chamfer", "part", "dress"]


def test_the_last_target_is_a_sentence_in_every_kind_of_display() -> None:
    def last(operation: str, **axis: Any) -> str:
        return planned(lathe=with_cross(**axis)).of(operation)[-1].reading_text

    assert last("finish_outside", shows="diameter") == "outside: go to 33.20, diameter"
    assert last("finish_outside", shows="radius", step_mm=0.005) == "outside: go to 16.600, radius"
    # 36.00 to 33.20 is 2.80 on the diameter, 1.40 of travel: 70 divisions of 0.02; to 32.04 from a
    # drilled 13.00 it is 9.52: 476 divisions, 4 turns of 100 and 76.
    dial: dict[str, Any] = {"shows": "radius", "step_mm": 0.01, "division_mm": 0.02, "direction": "inward"}
    assert last("finish_outside", **dial) == "outside: go to 70 div, makes 33.20"
    # Turned out, the figures of a dial that grow inward run backwards: 76 short of 100 is 24.
    dial |= {"divisions_per_turn": 100}
    assert last("finish_outside", **dial) == "outside: go to 0 turns 70 div, makes 33.20"
    assert last("finish_bore", **dial) == "bore: go to 4 turns 24 dial, makes 32.04"
    dial |= {"direction": "outward"}
    assert last("finish_outside", **dial) == "outside: go to 0 turns 30 dial, makes 33.20"
    assert last("finish_bore", **dial) == "bore: go to 4 turns 76 div, makes 32.04"
    inward: dict[str, Any] = {"shows": "diameter", "direction": "inward"}
    assert last("finish_outside", **inward) == "outside: go to 2.80 from zero, diameter, makes 33.20"
    assert last("finish_bore", **inward) == "bore: go to -19.04 from zero, diameter, makes 32.04"


def test_backlash_is_taken_up_in_the_cutting_direction() -> None:
    made = planned()
    assert "come to every figure moving in" in " ".join(made.of("rough_outside")[0].before)
    assert "come to every figure moving out" in " ".join(made.of("rough_bore")[0].before)


def test_parting_allows_for_the_blade_on_the_chuck_s_side() -> None:
    part = planned().of("part")[0]
    assert part.target_mm == pytest.approx(1.10 + 0.10 + 1.0)
    assert "side of the blade nearer the chuck" in " ".join(part.before)
    counting_down = replace(LATHE, carriage=Axis(shows="length", direction="from_chuck"))
    assert planned(lathe=counting_down).of("part")[0].reading_text.startswith("part: go to -2.20, length")


def test_ten_degrees_are_said() -> None:
    # 33.20 mm of acetal at 110e-6 per degree: 36.5 um in ten degrees; the wall 0.6 um.
    said = " ".join(planned(expansion_per_k=110e-6).set_up_words)
    assert "10 degrees warmer add 0.04 mm to the outside and under 0.001 mm to the wall" in said
    assert "not known" in " ".join(planned(bar=replace(BAR, plastic="mystery")).set_up_words)


@pytest.mark.parametrize(
    ("wanted", "speed"), [(100.0, 150.0), (150.0, 150.0), (719.0, 420.0), (720.0, 720.0), (9999.0, 2000.0)]
)
def test_the_speed_is_the_lathe_s_own_at_or_below(wanted: float, speed: float) -> None:
    assert nearest_speed(lathe=LATHE, wanted_rpm=wanted) == speed


def test_the_largest_speed_holds_whatever_the_list_says() -> None:
    assert nearest_speed(lathe=replace(LATHE, largest_rpm=900.0), wanted_rpm=5000.0) == 720.0
    stepless = replace(LATHE, stepless=True, speeds_rpm=(100.0, 3000.0), largest_rpm=1234.0)
    assert nearest_speed(lathe=stepless, wanted_rpm=5000.0) == 1200.0
    assert nearest_speed(lathe=stepless, wanted_rpm=968.0) == 960.0


def test_a_long_boring_bar_warns_and_cuts_lighter() -> None:
    thin = Tool(
        number=2, kind="boring", smallest_bore_mm=8.0, longest_reach_mm=20.0, shank_mm=4.5, nose_radius_mm=0.2
    )
    others = [tool for tool in SHOP.tools if tool.kind != "boring"]
    stiff, springy = planned(), planned(tools=(*others, thin))
    assert not any("springs" in word for word in stiff.warnings)
    assert any("reaches 4.4 times its shank: it springs" in word for word in springy.warnings)
    deepest = [max(one.cut_depth_mm or 0.0 for one in made.of("rough_bore")) for made in (stiff, springy)]
    assert deepest[1] <= 0.5 * 0.7 < deepest[0] <= 0.7
    assert {one.cut_depth_mm for one in springy.of("finish_bore")} == {0.05}


def test_spares_use_the_bar_and_one_is_tighter() -> None:
    made = planned(spares=2)
    each = 1.10 + 0.10 + 1.0
    assert made.order.stock.used_mm == pytest.approx(0.30 + 3 * each + 2 * 0.20)
    assert made.order.stock.left_mm == pytest.approx(200.0 - made.order.stock.used_mm)
    bores = [made.of("finish_bore", ring)[-1].material_diameter_after_mm for ring in (1, 2, 3)]
    assert bores == [32.04, 32.04, 32.02]
    assert len(made.of("finish_outside")) == 2


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"bar": replace(BAR, diameter_mm=34.0)}, "bar: 34.00 mm is too thin.*take one of 34.20 mm"),
        ({"bar": replace(BAR, length_mm=20.0)}, "bar: 20.0 mm is too short.*need 25.5 mm"),
        ({"bar": replace(BAR, diameter_mm=90.0)}, "bar: no grip of the small bench lathe holds 90.00 mm"),
    ],
)
def test_a_bar_that_will_not_do_says_what_is_missing(changed: dict[str, Any], said: str) -> None:
    with pytest.raises(OutOfRange, match=said):
        planned(**changed)


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"bore_mm": 33.0}, "wall: 0.100 mm is under 0.20"),
        (
            {"outside_diameter_mm": 8.0, "bore_mm": 7.0, "bar": replace(BAR, diameter_mm=10.0)},
            "bore: no boring bar goes into 7.00 mm; one whose smallest bore is",
        ),
        ({"height_mm": float("nan")}, "height: nan is not a finite number"),
        ({"spares": 9}, "spares: 9 is outside 0 to 4; give"),
        ({"offsets_mm": ((1, float("inf")),)}, "offset of tool 1: inf"),
        ({"chamfer_mm": 0.5}, "chamfer: 0.5 mm is outside 0 to 0.464 mm"),
        ({"tools": ()}, "no tool for parting"),
    ],
)
def test_what_cannot_be_turned_is_refused_in_plain_words(changed: dict[str, Any], said: str) -> None:
    with pytest.raises(OutOfRange, match=said):
        planned(**changed)


def test_a_slide_marked_in_inch_is_spoken_to_in_inch() -> None:
    inch = with_cross(shows="diameter", step_mm=0.0127, unit="inch")
    made = planned(lathe=inch)
    last = made.of("finish_outside")[-1]
    # 33.20 mm is 1.30709 in; the nearest step of 0.0005 in is 1.3070.
    assert last.reading_text == "outside: go to 1.3070 in, diameter"
    assert last.target_mm == pytest.approx(1.3070 * 25.4)


def test_a_drill_the_tailstock_cannot_take_is_not_planned() -> None:
    thick = Tool(number=5, kind="boring", smallest_bore_mm=20.0, longest_reach_mm=20.0, shank_mm=16.0)
    made = planned(tools=(*SHOP.tools, thick))
    assert made.order.boring.number == 2
    only_thick = tuple(tool for tool in SHOP.tools if tool.kind != "boring")
    with pytest.raises(OutOfRange, match="the tailstock takes drills to 13 mm"):
        planned(tools=(*only_thick, thick))


def test_no_room_for_the_lower_chamfer_is_said() -> None:
    made = planned(bore_mm=33.20 - 2 * 0.32)
    assert not made.of("lower_chamfer")
    assert any("no room for the lower chamfer" in word for word in made.warnings)


def test_a_tool_whose_offset_is_known_is_touched_off_where_the_figures_count_from_the_touch() -> None:
    """A dial has one zero, and another tool has moved it since; a read-out of diameters keeps the tool's."""
    offsets = {"offsets_mm": ((1, 0.055), (2, -0.046))}
    dial = with_cross(
        step_mm=0.0125, division_mm=0.025, divisions_per_turn=40, shows="radius", direction="inward"
    )
    made = planned(lathe=dial, **offsets)
    for operation, zero in (("rough_outside", "36.00"), ("rough_bore", "")):
        words = " ".join(made.of(operation)[0].before)
        assert "touch off on the" in words and "do not set it again" not in words, words
        assert zero in words and "dial to 0; turned" in words, words
    shown = " ".join(planned(**offsets).of("rough_outside")[0].before)
    assert "do not set it again, unless the read-out was set for another tool since: then touch off" in shown
