"""Which tools a plan takes, what an order knows, and what a plan warns of, on either side of each limit."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from rules.bars import Bar
from rules.checks import OutOfRange
from rules.equipment import Tool
from rules.turning.cutting_words import (
    expansion_words,
    kept_offset,
    offset_words,
    set_up_guards,
    smaller_bore,
    speed_set,
    speed_words,
    tool_in,
    tool_short,
    tool_words,
)
from rules.turning.tool_choice import narrowest_blade, sharpest, tool_of, tools_of
from tests.grooving import CORING
from tests.rules.test_turning import BAR, LATHE, SHOP, planned

BY_KIND = {tool.kind: tool for tool in SHOP.tools}


def also(*more: Tool, without: str = "") -> tuple[Tool, ...]:
    return (*(tool for tool in SHOP.tools if tool.kind != without), *more)


def boring(number: int, bore: float, reach: float, shank: float) -> Tool:
    return Tool(
        number=number,
        kind="boring",
        smallest_bore_mm=bore,
        longest_reach_mm=reach,
        shank_mm=shank,
        nose_radius_mm=0.2,
    )


def test_the_sharpest_tool_and_the_narrowest_blade_of_the_smallest_number() -> None:
    keen = [Tool(number=n, kind="turning", nose_radius_mm=r) for n, r in ((8, 0.1), (7, 0.1), (6, 0.4))]
    assert sharpest(keen).number == 7
    blades = [Tool(number=n, kind="parting", blade_mm=w) for n, w in ((8, 1.0), (7, 1.0), (6, 1.5))]
    assert narrowest_blade(blades).number == 7
    two = also(Tool(number=11, kind="chamfer"), Tool(number=2, kind="chamfer"), without="chamfer")
    assert planned(tools=two).order.chamfer.number == 2
    for find, kind in ((sharpest, "turning"), (narrowest_blade, "parting")):
        with pytest.raises(
            OutOfRange, match=f"tools: no tool for {kind} in the tool set; say one to the shop"
        ):
            find([])


@pytest.mark.parametrize(
    ("bars", "number"),
    [
        # Reach over shank: 3.3, 2.5 and 4.0.
        ((boring(2, 8.0, 20.0, 6.0), boring(5, 8.0, 15.0, 6.0), boring(6, 8.0, 16.0, 4.0)), 5),
        # Alike in that: the larger bore, then the smaller number.
        ((boring(5, 8.0, 18.0, 6.0), boring(6, 9.0, 18.0, 6.0)), 6),
        ((boring(6, 8.0, 18.0, 6.0), boring(5, 8.0, 18.0, 6.0)), 5),
        # It has to reach 2.5 deep.
        ((boring(5, 8.0, 2.4, 6.0), boring(6, 8.0, 20.0, 4.0)), 6),
        ((boring(5, 8.0, 2.5, 6.0), boring(6, 8.0, 20.0, 4.0)), 5),
    ],
)
def test_the_stiffest_boring_bar_that_reaches(bars: tuple[Tool, ...], number: int) -> None:
    assert planned(tools=also(*bars, without="boring")).order.boring.number == number


@pytest.mark.parametrize(
    ("tool", "said"),
    [
        # 32.04 less 0.60 to finish and 0.40 to rough is 31.04; the bar wants 0.3 beside it.
        (
            boring(5, 30.75, 20.0, 20.0),
            "no boring bar goes into 32.04 mm; one whose smallest bore is 30.7 mm or less",
        ),
        (
            boring(5, 8.0, 2.4, 6.0),
            "reach: no boring bar that goes in reaches 2.50 mm deep; a longer one is missing",
        ),
        (
            boring(5, 12.71, 20.0, 6.0),
            "the boring bars that go in need 13.0 mm, the tailstock takes drills to 13 mm",
        ),
    ],
)
def test_a_boring_bar_that_will_not_do(tool: Tool, said: str) -> None:
    with pytest.raises(OutOfRange, match=said):
        planned(tools=also(tool, without="boring"))


def test_the_widest_boring_bars_that_go_in() -> None:
    lathe = replace(LATHE, drills_mm=(13.0, 31.0), largest_drill_mm=40.0)
    for bore, goes in ((30.7, True), (30.74, False), (30.76, False)):
        tools = also(boring(5, bore, 20.0, 20.0), without="boring")
        if goes:
            assert planned(tools=tools, lathe=lathe).order.opening.hole_mm == 31.0
        else:
            with pytest.raises(OutOfRange):
                planned(tools=tools, lathe=lathe)


def test_tools_of_a_plan() -> None:
    order = planned(tools=also(CORING)).order
    assert [tool.number for tool in tools_of(order)] == [1, 2, 3, 4, 9]
    assert [tool_of(order, number) for number in (9, 1, None, 77)] == ["tool 9", "tool 1", "", ""]
    assert [tool.number for tool in tools_of(planned().order)] == [1, 2, 3, 4]


def test_what_an_order_knows() -> None:
    order = planned(spares=4, offsets_mm=((2, -0.02), (1, 0.03))).order
    assert (order.offset_mm(BY_KIND["turning"]), order.offset_mm(BY_KIND["boring"])) == (0.03, -0.02)
    assert order.offset_mm(BY_KIND["chamfer"]) == 0.0 and order.offsets_mm == ((1, 0.03), (2, -0.02))
    assert order.rings == 5 and [order.bore_of(ring) for ring in range(1, 6)] == pytest.approx(
        [32.04, 32.04, 32.02, 32.04, 32.04]
    )
    coarse = replace(LATHE, cross=replace(LATHE.cross, step_mm=0.025, shows="radius"))
    made = planned(spares=2, lathe=coarse)
    bores = [made.of("finish_bore", ring)[-1].material_diameter_after_mm for ring in (1, 2, 3)]
    assert bores[0] == bores[1] and (bores[0] or 0.0) - (bores[2] or 0.0) == pytest.approx(0.05), (
        "one step tighter"
    )
    # 1.10 + 0.10 + 1.0 a ring, 0.20 faced between, 0.50 more; the bore 0.30 deeper than is parted.
    assert order.turned_length_mm == pytest.approx(5 * 2.2 + 4 * 0.2 + 0.5)
    assert order.bore_depth_mm == pytest.approx(2.5)
    outside, bore = order.frame("outside"), order.frame("bore")
    assert (outside.zero_diameter_mm, outside.offset_mm, bore.zero_diameter_mm, bore.offset_mm) == (
        36.0, 0.03, 13.0, -0.02,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("changed", "taken"),
    [
        ({"spares": 4}, True), ({"spares": -1}, False), ({"spares": 5}, False),
        ({"offsets_mm": ((1, 5.0),)}, True), ({"offsets_mm": ((1, 5.01),)}, False),
        ({"offsets_mm": ((1, -5.0),)}, True), ({"offsets_mm": ((1, -5.01),)}, False),
        ({"expansion_per_k": 0.01}, True), ({"expansion_per_k": 0.0101}, False),
        ({"expansion_per_k": -1e-9}, False), ({"expansion_per_k": 0.0}, True),
    ],
)  # fmt: skip
def test_ends_of_what_an_order_takes(changed: dict[str, Any], taken: bool) -> None:
    if taken:
        assert planned(**changed).order
    else:
        with pytest.raises(OutOfRange, match="give a value in that range"):
            planned(**changed)


def warned(**changed: Any) -> str:
    return "; ".join(planned(**changed).warnings)


def test_a_boring_bar_springs_over_four_shanks() -> None:
    for reach, springs in ((20.0, False), (20.1, True)):
        said = warned(tools=also(boring(5, 8.0, reach, 5.0), without="boring"))
        assert (
            "tool 5 (boring bar) reaches 4.0 times its shank: it springs; lighter cuts are planned" in said
        ) == springs


def test_a_bar_that_stands_far_out_is_said_and_cut_lighter() -> None:
    """A rod of 10 mm may stand out 30: of 5 rings of 4.98, with 0.30, 0.80 and 3.0, it is 29.0 or 30.1."""
    small = {"outside_diameter_mm": 9.0, "bore_mm": 7.4, "chamfer_mm": 0.1}
    tools = also(boring(5, 3.0, 8.0, 2.0), without="boring")
    for height, out in ((4.0, False), (4.09, True)):
        made = planned(**small, height_mm=height, tools=tools, bar=replace(BAR, diameter_mm=10.0), spares=4)
        said = "the bar stands out 30.1 mm, over 3 diameters: lighter cuts are planned" in made.warnings
        assert (said, made.order.light) == (out, out), made.order.stock


def test_thin_walls_are_said() -> None:
    for bore, slight in ((32.6, False), (32.62, True)):
        assert (
            "wall 0.29 mm: hard to turn, to part and to measure" in warned(bore_mm=bore, chamfer_mm=0.1)
        ) == slight
    blunt = Tool(number=1, kind="turning", nose_radius_mm=0.21)
    said = "tool 1 has a nose radius of 0.21 mm: 0.1 to 0.2 suits a thin wall"
    for bore, there in ((31.2, False), (31.22, True)):
        assert (said in warned(bore_mm=bore, tools=also(blunt, without="turning"))) == there
    assert "nose radius" not in warned(bore_mm=31.22)
    bar = replace(boring(2, 8.0, 20.0, 6.0), nose_radius_mm=0.4)
    assert "tool 2 has a nose radius of 0.4 mm" in warned(tools=also(bar, without="boring"))


def test_room_for_the_lower_chamfer() -> None:
    """0.10 and 0.10 that dressing takes are 0.6 of a wall of 0.3334."""
    said = (
        "no room for the lower chamfer at the lathe: break that edge off the lathe, two strokes on fine paper"
    )
    for bore, room in ((32.53, True), (32.54, False)):
        made = planned(bore_mm=bore, chamfer_mm=0.1)
        assert (bool(made.of("lower_chamfer")), said in made.warnings) == (room, not room)
    assert said not in planned(bore_mm=32.54, chamfer_mm=0.1, lower_chamfer_mm=0.0).warnings


def test_the_slowest_speed_and_strings() -> None:
    """100 m/min at 36.00 mm are 884 rpm."""
    said = "the slowest speed of the lathe is over the wanted 884 rpm: watch the heat"
    for slowest, over in ((884.0, False), (885.0, True)):
        assert (said in warned(lathe=replace(LATHE, speeds_rpm=(slowest, 2000.0)))) == over
    strings = "this plastic gives long strings: never let them wrap; stop and clear them with a hook"
    assert strings in warned(bar=replace(BAR, plastic="pa66")) and strings not in warned()


def test_what_is_said_of_speeds_and_tools() -> None:
    belt = replace(LATHE, speeds_rpm=(420.0, 900.0), speed_names=("inner step", "outer step"))
    assert (speed_words(belt, 900.0), speed_words(belt, 500.0)) == ("900 rpm (outer step)", "500 rpm")
    assert speed_words(LATHE, 720.0) == "720 rpm"
    assert speed_set(belt, 420.0) == "spindle off at the switch: belt over, to 420 rpm (inner step)"
    assert speed_set(LATHE, 720.0) == "spindle stopped: set 720 rpm"
    plain, named = Tool(number=7, kind="parting", blade_mm=1.0), BY_KIND["parting"]
    bare = replace(LATHE, numbered_tools=False)
    assert [tool_words(LATHE, one) for one in (plain, named)] == [
        "tool 7 (parting blade)",
        "tool 4 (parting blade)",
    ]
    assert (tool_short(bare, plain), tool_words(bare, plain)) == ("the parting blade", "the parting blade")
    assert tool_in(bare, plain) == "spindle stopped: fit the parting blade, tight, on centre height"
    kinds = {"turning": "turning tool", "boring": "boring bar", "chamfer": "chamfer tool"}
    assert {kind: tool_short(bare, BY_KIND[kind]) for kind in kinds} == {
        k: f"the {v}" for k, v in kinds.items()
    }
    assert set_up_guards(grip="chuck", stick_out_mm=25.52, lathe=LATHE, tool=plain) == (
        "grip the bar in the chuck, 25.5 mm standing out, nothing behind the spindle or in a guide",
        "fit tool 7, tight, on centre height; chuck key out",
    )


def test_what_is_said_of_warmth_and_offsets() -> None:
    assert expansion_words(diameter_mm=30.0, wall_mm=0.6, expansion_per_k=1e-4) == (
        "10 degrees warmer add 0.03 mm to the outside and under 0.001 mm to the wall"
    )
    assert expansion_words(diameter_mm=30.0, wall_mm=0.6, expansion_per_k=None) == (
        "warm work measures too large; how much is not known for this plastic: let it cool"
    )
    said = {-0.03: "0.030 mm smaller", 0.0125: "0.013 mm larger"}
    said = {mm: f"{words} than it shows" for mm, words in said.items()} | {0.0: "as it shows"}
    assert {mm: offset_words(mm) for mm in said} == said
    assert kept_offset(LATHE, BY_KIND["boring"], -0.03, "touch it") == (
        "tool 2 cuts 0.030 mm smaller than it shows: allowed for; do not set it again, "
        "unless the read-out was set for another tool since: then touch it"
    )
    assert smaller_bore(wall_mm=0.58, bore_mm=31.98) == "bore 31.98 mm keeps the wall of 0.58 mm"


def test_a_bar_of_another_plastic_is_cut_by_its_own_row() -> None:
    peek = planned(bar=Bar(plastic="peek", diameter_mm=36.0, length_mm=200.0))
    # 80 m/min at 36.00 are 707 rpm; PEEK is roughed at most 0.8 outside and 0.5 in the bore.
    assert peek.of("face")[0].rpm == 420.0
    deepest = [max(one.cut_depth_mm or 0 for one in peek.of(act)) for act in ("rough_outside", "rough_bore")]
    assert deepest[0] <= 0.8 and 0.4 < deepest[1] <= 0.5
