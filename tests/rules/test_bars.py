"""Bars, what holds them, how their holes are opened, and what that takes and saves: worked by hand."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from rules.bars import ARBOR, SOFT_JAWS, STEP_COLLET, THREE_JAW, Bar, Grip
from rules.checks import OutOfRange
from rules.equipment import Tool
from rules.turning.cooling import Cooling
from rules.turning.duration import ASSUMED, SET_UP_MIN, duration, pace_of
from rules.turning.holding import grips_for, held_words
from rules.turning.savings import saving_words
from rules.turning.stock import unless_through
from tests.rules.test_turning import BAR, LATHE, SHOP, planned

CORING: dict[str, Any] = {
    "number": 9,
    "kind": "face_grooving",
    "blade_mm": 3.0,
    "smallest_groove_mm": 28.0,
    "largest_groove_mm": 36.0,
    "depth_mm": 4.0,
}


def cored(**changed: Any) -> Any:
    return planned(tools=(*SHOP.tools, Tool(**{**CORING, **changed})))


def test_a_blank_needs_less_over_its_size_than_a_bar_that_runs_out() -> None:
    blank = replace(BAR, kind="blank", outside_mm=33.95, diameter_mm=33.95)
    assert planned(bar=blank).of("rough_outside")[0].cut_depth_mm == pytest.approx((33.95 - 33.60) / 2.0)
    with pytest.raises(OutOfRange, match=r"33.95 mm is too thin.*take one of 34.20"):
        planned(bar=replace(blank, kind="bar"))


def test_passes_begin_at_a_tube_s_own_bore_where_it_is_deep_enough() -> None:
    tube = replace(BAR, kind="tube", bore_mm=28.0)
    made = planned(bar=tube)
    assert not made.of("drill") and (made.of("rough_bore")[0].material_diameter_after_mm or 0.0) > 28.0
    assert planned(bar=replace(tube, bore_deep_mm=2.0)).of("drill"), "2.0 of 2.5 deep: as if it were solid"
    with pytest.raises(OutOfRange, match=r"its bore of 31.50 mm leaves too little to cut; one of 31.04"):
        planned(bar=replace(tube, bore_mm=31.5))


def test_drills_are_those_there_are_and_large_ones_go_in_steps() -> None:
    def drills(*sizes: float, largest: float = 30.0) -> list[float]:
        lathe = replace(LATHE, largest_drill_mm=largest, drills_mm=sizes)
        return [one.material_diameter_after_mm or 0.0 for one in planned(lathe=lathe).of("drill")]

    assert drills(9.0, 12.0, 24.0, 40.0) == [12.0, 24.0]
    assert drills(9.0, 12.0, 24.0, largest=16.0) == [12.0]
    with pytest.raises(OutOfRange, match=r"need 8.3 mm, the drills go to 8 mm"):
        drills(6.0, 8.0)
    with pytest.raises(OutOfRange, match=r"none there is between 8.3 and 31.0 mm"):
        drills(6.0, 45.0, largest=60.0)


def test_a_core_is_grooved_from_the_outside_in_and_leaves_room_for_the_boring_bar() -> None:
    """31.0 fits a bore of 32.04; the bar needs 8.3 beside the core: 3.0 + 2 x 2.7; the core has 14.2."""
    grooves = [one.material_diameter_after_mm for one in cored().of("core")]
    assert grooves == pytest.approx([31.0, 25.6, 20.2])
    assert cored().order.opening.core_mm == pytest.approx(14.2)
    assert all(one.along_mm == pytest.approx(2.8) for one in cored().of("core"))
    assert "the core catches the ring" in " ".join(cored().of("part")[0].before)


@pytest.mark.parametrize(
    "changed",
    [
        {"largest_groove_mm": 15.0, "smallest_groove_mm": 10.0},
        {"smallest_groove_mm": 31.5},
        {"depth_mm": 2.7},
    ],
)
def test_a_tool_not_relieved_for_the_size_or_too_short_cuts_no_core(changed: dict[str, float]) -> None:
    made = cored(**changed)
    assert not made.of("core") and made.of("drill")


def test_a_core_is_judged_as_the_slides_can_be_set() -> None:
    """2.8 deep is 2.835 in steps of 0.045; a core of 6.08 may be left 0.1 thinner by a coarse slide."""
    coarse = replace(LATHE, carriage=replace(LATHE.carriage, step_mm=0.045))
    tools = (*SHOP.tools, Tool(**{**CORING, "depth_mm": 2.83}))
    assert cored(depth_mm=2.83).of("core") and not planned(lathe=coarse, tools=tools).of("core")
    thick = Tool(number=5, kind="boring", smallest_bore_mm=11.8, longest_reach_mm=20.0, shank_mm=9.0)
    others = tuple(one for one in SHOP.tools if one.kind != "boring")
    for step, cuts in ((0.01, True), (0.05, False)):
        lathe = replace(LATHE, cross=replace(LATHE.cross, shows="radius", step_mm=step))
        made = planned(lathe=lathe, tools=(*others, thick, Tool(**{**CORING, "blade_mm": 3.34})))
        assert bool(made.of("core")) == cuts, made.order.opening


def test_a_billet_is_sawn_or_refused_in_plain_words() -> None:
    narrow = replace(LATHE, spindle_hole_mm=20.0)
    stock = planned(lathe=narrow).order.stock
    assert stock.sawn_mm == pytest.approx(5.5 + 20.0) and stock.stick_out_mm == pytest.approx(5.5)
    assert stock.left_mm == pytest.approx(200.0 - 25.5 - 2.0)
    assert "saw off 26 mm first" in " ".join(planned(lathe=narrow).stock_words)
    short = planned(lathe=narrow, bar=replace(BAR, length_mm=60.0)).order.stock
    assert (short.sawn_mm, short.stick_out_mm) == (0.0, 40.0), "all of it stands out but what is gripped"
    thin = {"outside_diameter_mm": 12.0, "bore_mm": 10.6, "height_mm": 6.0, "spares": 4}
    boring = Tool(number=8, kind="boring", smallest_bore_mm=4.0, longest_reach_mm=14.0)
    with pytest.raises(OutOfRange, match="would stand out unsupported, 39 mm are safe"):
        planned(
            lathe=replace(narrow, spindle_hole_mm=10.0),
            tools=(*SHOP.tools, boring),
            bar=replace(BAR, diameter_mm=13.0),
            **thin,
        )


def test_where_the_hole_through_the_spindle_is_not_said_a_long_bar_says_what_is_done() -> None:
    """Three diameters of 36 mm are 108: of 200 mm in a chuck of 20 more stands out, of 120 mm less."""
    for length, said in (
        (200.0, ("if it does not go through the spindle, saw off 26 mm first",)),
        (120.0, ()),
    ):
        bar = replace(BAR, length_mm=length)
        assert unless_through(bar, LATHE, planned(bar=bar).order.stock) == said
    assert unless_through(BAR, replace(LATHE, spindle_hole_mm=50.0), planned().order.stock) == ()


def grip(kind: str, largest: float = 60.0) -> Grip:
    return Grip(
        name=kind, smallest_mm=5.0, largest_mm=largest, length_mm=0.0 if kind == ARBOR else 8.0, kind=kind
    )


def test_grips_are_chosen_by_what_they_can_hold() -> None:
    lathe = replace(LATHE, grips=tuple(map(grip, (THREE_JAW, ARBOR, STEP_COLLET, SOFT_JAWS))))

    def best(bar: Bar) -> list[str]:
        return [one.kind for one in grips_for(lathe, bar)]

    assert best(BAR)[0] in (THREE_JAW, SOFT_JAWS) and ARBOR not in best(BAR) and STEP_COLLET not in best(BAR)
    disc = replace(BAR, kind="blank", length_mm=20.0)
    assert best(disc) == [SOFT_JAWS, STEP_COLLET, ARBOR, THREE_JAW]
    tube = replace(BAR, kind="tube", bore_mm=28.0)
    assert "squeeze it out of round" in " ".join(held_words(grip(THREE_JAW), tube))
    assert "squeeze" not in " ".join(held_words(grip(SOFT_JAWS), tube))


def test_what_is_stuck_on_is_cut_lighter() -> None:
    disc = replace(BAR, diameter_mm=38.0, kind="blank", length_mm=20.0)
    stuck = planned(bar=disc, lathe=replace(LATHE, grips=(grip(ARBOR),)))
    held = planned(bar=disc, lathe=replace(LATHE, grips=(grip(SOFT_JAWS),)))
    deepest = [max(one.cut_depth_mm or 0.0 for one in made.of("rough_outside")) for made in (stuck, held)]
    assert deepest[0] <= 0.5 < deepest[1]


def test_the_time_counts_every_pass_tool_and_reading() -> None:
    made = planned()
    takes = duration(made)
    assert takes.passes == sum(1 for one in made.passes if one.rpm)
    # turning tool, centre, drill, boring bar, turning tool, boring bar, chamfer tool, blade
    assert (takes.tools, takes.readings) == (8, 2)
    assert takes.waiting == pytest.approx(10.0 + 3.0)
    by_hand = SET_UP_MIN + 0.4 * takes.passes + 1.5 * 8 + 1.5 * 2 + made.cutting_minutes + 13.0
    assert takes.minutes == pytest.approx(by_hand)
    assert "assumed" in ASSUMED.words(made)


def test_the_shop_s_own_rings_count_more_the_more_there_are() -> None:
    one, six = pace_of([(80.0, 40.0)]), pace_of([(80.0, 40.0)] * 6)
    assert one.factor == pytest.approx(2.0 ** (1.0 / 3.0)) and six.factor == pytest.approx(2.0 ** (6.0 / 8.0))
    assert "by the last 6 turned here" in six.words(planned())
    assert pace_of([(4000.0, 40.0), (1.0, 40.0)]) == ASSUMED, "keyed in another way than it was turned"


def test_what_cooling_is_worth_here() -> None:
    """36.43 of acetal at 110e-6 per K, ten degrees: 40.1 um; the wall of 0.62: 0.68. A tube of 1.12 mm, bare
    on both sides: 2 x 10 W/m2 K over 2.1 MJ/m3 K x 1.12 mm is 1/118 s.
    """
    cooling = Cooling(outside_mm=36.43, wall_mm=0.62, standing_mm=1.12, expansion_per_k=110e-6)
    assert cooling.outside_um(0.0) == pytest.approx(40.07, abs=0.01)
    assert cooling.wall_um(0.0) == pytest.approx(0.682, abs=0.001)
    assert cooling.left(5.0) == pytest.approx(math.exp(-300.0 / 117.6), rel=1e-3)
    assert cooling.outside_um(10.0) < 0.5


def test_a_bore_just_too_shallow_to_be_used_is_no_bore_where_savings_are_said() -> None:
    """One ring takes 2.5 mm; a bore of 2.7 mm ends before the clearance of 0.3 and is drilled over. A wider
    one would be missing from the ring's wall.
    """
    blind = replace(BAR, kind="left_over", bore_mm=24.0, bore_deep_mm=2.7)
    made = planned(bar=blind)
    assert made.of("drill") and "face-grooving" in " ".join(saving_words(made.order))
    with pytest.raises(OutOfRange, match=r"its bore of 31.80 mm .*; or saw off its first 2.7 mm"):
        planned(bar=replace(blind, bore_mm=31.8))


def test_what_would_save_passes_is_said_where_it_saves_some() -> None:
    said = " ".join(saving_words(planned().order))
    assert " drill would save" not in said, "the tailstock takes none larger than there are"
    assert "face-grooving tool relieved for 31 mm" in said
    lathe = replace(LATHE, drills_mm=(8.5,), largest_drill_mm=25.0)
    assert "a 25 mm drill would save" in " ".join(saving_words(planned(lathe=lathe).order))
    assert saving_words(cored().order) == ()
