"""What stands in a shop is accepted at the ends of its range and refused a hair beyond, by its own name."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from rules import press_and_tester as pressing
from rules.bars import Bar, Grip
from rules.checks import OutOfRange, plain
from rules.equipment import Axis, Lathe, Tool
from rules.instrument import Instrument
from rules.limits import RANGES, thick_enough, under, within, within_or_none
from rules.ring import Ring
from rules.turning.order import check_ring, with_room_for_chamfers
from rules.turning.plug import PlugWanted
from tests.grooving import CORING

CHUCK = Grip(name="chuck", smallest_mm=2.0, largest_mm=60.0)
LATHE = Lathe(
    name="bench lathe",
    cross=Axis(),
    carriage=Axis(shows="length", direction="to_chuck"),
    speeds_rpm=(100.0, 500.0),
    largest_rpm=500.0,
    grips=(CHUCK,),
)
BAR = Bar(plastic="acetal", diameter_mm=36.0, length_mm=200.0)
PARTING = Tool(number=4, kind="parting", blade_mm=1.0)
BORING = Tool(number=2, kind="boring", smallest_bore_mm=8.0, longest_reach_mm=20.0)
WIDE = replace(CORING, largest_groove_mm=300.0)
GAUGE = Instrument(name="gauge", kind="calliper", resolution_mm=0.01, limit_of_error_mm=0.03)
RING = Ring(outside_diameter_mm=33.2, bore_mm=32.04, height_mm=1.1, chamfer_mm=0.15, lower_chamfer_mm=0.1)

ENDS: tuple[tuple[Any, str, float, float, str], ...] = (
    (replace(CHUCK, largest_mm=300.0), "smallest_mm", 0.5, 300.0, "smallest diameter of the grip"),
    (CHUCK, "largest_mm", 2.0, 300.0, "largest diameter of the grip"),
    (CHUCK, "length_mm", 1.0, 200.0, "length of the grip"),
    (replace(CHUCK, kind="arbor"), "length_mm", 0.0, 200.0, "length of the grip"),
    (BAR, "diameter_mm", 3.0, 300.0, "bar diameter"),
    (BAR, "length_mm", 1.0, 4000.0, "bar length"),
    (replace(BAR, outside_mm=36.5), "outside_mm", 3.0, 300.0, "outside of the bar"),
    (BAR, "bore_mm", 0.0, 35.5, "bore of the bar"),
    (replace(BAR, outside_mm=37.0), "bore_mm", 0.0, 36.5, "bore of the bar"),
    (BAR, "bore_deep_mm", 0.0, 200.0, "depth of the bar's bore"),
    (LATHE.cross, "division_mm", 0.0, 0.5, "division"),
    (LATHE.cross, "step_mm", 0.0005, 0.05, "step"),
    (LATHE.cross, "divisions_per_turn", 0, 1000, "divisions per turn"),
    (LATHE.cross, "backlash_mm", 0.0, 2.0, "backlash"),
    (LATHE, "largest_drill_mm", 1.0, 60.0, "largest drill"),
    (LATHE, "spindle_hole_mm", 0.0, 200.0, "hole through the spindle"),
    (replace(LATHE, speeds_rpm=(10.0,)), "largest_rpm", 10.0, 20000.0, "largest speed"),
    (PARTING, "number", 1, 9999, "tool number"),
    (PARTING, "nose_radius_mm", 0.0, 2.0, "nose radius"),
    (PARTING, "blade_mm", 0.2, 6.0, "blade of tool 4"),
    (CORING, "blade_mm", 0.2, 6.0, "blade of tool 9"),
    (BORING, "smallest_bore_mm", 1.0, 80.0, "smallest bore of tool 2"),
    (BORING, "longest_reach_mm", 1.0, 200.0, "reach of tool 2"),
    (BORING, "shank_mm", 0.0, 8.0, "shank of tool 2"),
    (WIDE, "smallest_groove_mm", 3.0, 200.0, "smallest groove of tool 9"),
    (CORING, "largest_groove_mm", 28.0, 300.0, "largest groove of tool 9"),
    (CORING, "depth_mm", 0.5, 100.0, "depth of tool 9"),
    (GAUGE, "resolution_mm", 0.0001, 0.1, "resolution"),
    (GAUGE, "limit_of_error_mm", 0.0001, 0.5, "limit of error"),
    (pressing.Press(), "largest_force_n", 10.0, 50000.0, "press force"),
    (pressing.Tester(), "largest_bar", 0.1, 200.0, "largest pressure of the tester"),
    (pressing.Tester(), "gauge_step_bar", 0.001, 5.0, "gauge step of the tester"),
    (PlugWanted(seat_mm=33.0, plastic="acetal"), "seat_mm", 5.0, 80.0, "expected seat"),
    (PlugWanted(seat_mm=33.0, plastic="acetal"), "steps", 3, 15, "steps of the plug"),
)  # fmt: skip


def refused(name: str, make: Callable[..., Any], *what: Any, **changed: Any) -> str:
    """What is said when this is made, by its name."""
    with pytest.raises(OutOfRange) as why:
        make(*what, **changed)
    assert str(why.value).startswith(f"{name}: "), why.value
    return str(why.value)


UNITS = {"mm": " mm", "rpm": " rpm", "bar": " bar", "n": " N"}


@pytest.mark.parametrize("row", ENDS, ids=lambda row: f"{type(row[0]).__name__}-{row[1]}")
def test_both_ends_are_taken_and_nothing_beyond(row: tuple[Any, str, float, float, str]) -> None:
    thing, field, low, high, name = row
    unit = UNITS.get(field.rpartition("_")[2], "")
    said = f"is outside {plain(low)} to {plain(high)}{unit}; "
    for end, way in ((low, -1.0), (high, 1.0)):
        assert getattr(replace(thing, **{field: end}), field) == end
        beyond = end + way if isinstance(end, int) else end + way * max(1e-9, abs(end) * 1e-9)
        assert said in refused(name, replace, thing, **{field: beyond})
    refused(name, replace, thing, **{field: math.nan})


def test_lists_of_a_lathe_are_looked_at_one_by_one() -> None:
    assert replace(LATHE, drills_mm=(0.5, 60.0)).drills_mm == (0.5, 60.0)
    for drill in (0.49, 60.1):
        refused("one of the drills", replace, LATHE, drills_mm=(8.0, drill))
    assert replace(LATHE, speeds_rpm=(10.0, 20000.0)).speeds_rpm[1] == 20000.0
    for speed in (9.9, 20001.0):
        refused("spindle speed", replace, LATHE, speeds_rpm=(100.0, speed))
    names = "names of the speeds"
    assert replace(LATHE, speed_names=("inner", "outer")).speed_names[0] == "inner"
    for wrong in (("inner",), ("same", "same"), ("inner", " ")):
        refused(names, replace, LATHE, speed_names=wrong)
    refused(names, replace, LATHE, stepless=True, speed_names=("inner", "outer"))
    whose = "lathe 'bench lathe'"
    assert "at least one of each" in refused(whose, replace, LATHE, speeds_rpm=())
    assert "at least one of each" in refused(whose, replace, LATHE, grips=())
    assert replace(LATHE, stepless=True).stepless and replace(LATHE, stepless=True, speeds_rpm=(50.0, 50.0))
    for speeds in ((100.0,), (100.0, 200.0, 300.0), (500.0, 100.0)):
        said = refused(whose, replace, LATHE, stepless=True, speeds_rpm=speeds)
        assert "slowest first" in said
    assert "every speed lies above the largest, 99 rpm" in refused(whose, replace, LATHE, largest_rpm=99.0)
    assert replace(LATHE, largest_rpm=100.0).largest_rpm == 100.0


@pytest.mark.parametrize(
    ("make", "name"),
    [
        (lambda: replace(CHUCK, kind="hand"), "kind of grip"),
        (lambda: replace(BAR, kind="plank"), "kind of bar"),
        (lambda: Axis(shows="weight"), "shows"),
        (lambda: Axis(direction="up"), "direction"),
        (lambda: Axis(unit="cubit"), "unit of the slide"),
        (lambda: replace(LATHE, cross=Axis(shows="length")), "what the cross slide shows"),
        (lambda: replace(LATHE, carriage=Axis()), "what the carriage shows"),
        (lambda: replace(LATHE, cross=Axis(direction="to_chuck")), "direction of the cross slide"),
        (lambda: replace(LATHE, carriage=Axis(shows="radius")), "direction of the carriage"),
        (lambda: replace(LATHE, drill_unit="cubit"), "unit of the drills"),
        (lambda: replace(PARTING, kind="spoon"), "kind of tool"),
        (lambda: replace(GAUGE, kind="ruler"), "kind of instrument"),
        (lambda: replace(GAUGE, unit="cubit"), "unit of the instrument"),
        (lambda: pressing.Tester(gives="hope"), "what the tester gives"),
    ],
)
def test_a_word_that_is_not_known_is_refused_by_its_name(make: Callable[[], Any], name: str) -> None:
    assert "is not known; known are" in refused(name, make)


def test_what_a_thing_is_where_nothing_is_said() -> None:
    assert (CHUCK.length_mm, CHUCK.kind, BAR.colour, BAR.kind) == (15.0, "not_said", "not said", "bar")
    assert (BAR.outside_mm, BAR.bore_mm, BAR.bore_deep_mm, BAR.start_mm) == (0.0, 0.0, 0.0, 36.0)
    axis = Axis()
    assert (axis.shows, axis.step_mm, axis.division_mm, axis.divisions_per_turn) == ("diameter", 0.01, 0.0, 0)
    assert (axis.backlash_mm, axis.unit, axis.direction) == (0.0, "mm", "outward")
    assert not LATHE.stepless and LATHE.shows_speed and LATHE.numbered_tools and LATHE.drill_unit == "mm"
    assert (LATHE.largest_drill_mm, LATHE.drills_mm, LATHE.spindle_hole_mm, LATHE.speed_names) == (
        13.0,
        (),
        0.0,
        (),
    )
    plain = Tool(number=1, kind="turning")
    assert (plain.nose_radius_mm, plain.tool_set, plain.name, plain.blade_mm) == (0.1, "bench", "", 0.0)
    assert (plain.smallest_bore_mm, plain.longest_reach_mm, plain.shank_mm, plain.depth_mm) == (0.0,) * 4
    assert (plain.smallest_groove_mm, plain.largest_groove_mm, GAUGE.unit) == (0.0, 0.0, "mm")
    assert PlugWanted(seat_mm=33.0, plastic="acetal").steps == 7
    assert (pressing.Press().name, pressing.Press().largest_force_n) == ("hand press", None)
    tester = pressing.Tester()
    assert (tester.name, tester.largest_bar, tester.gauge_step_bar) == ("air tester", 3.0, 0.1)
    assert tester.gives == "verdict"
    assert (RING.chamfer_mm, replace(RING).lower_chamfer_mm) == (0.15, 0.1)
    assert RING.wall_mm == pytest.approx(0.58)
    # 0.30 faced, seven steps of 3.0 and one more to hold them off, 3.0 clear of the jaws.
    assert PlugWanted(seat_mm=33.0, plastic="acetal").stick_out_mm == pytest.approx(27.3)


def test_bars_and_slides_as_they_are_read() -> None:
    tube = replace(BAR, kind="tube", bore_mm=20.0, bore_deep_mm=5.0, outside_mm=36.4)
    assert (tube.start_mm, tube.was_turned, BAR.was_turned) == (36.4, True, False)
    assert [tube.bore_to(deep) for deep in (4.9, 5.0, 5.1)] == [20.0, 20.0, 0.0]
    assert replace(tube, bore_deep_mm=0.0).bore_to(150.0) == 20.0
    assert not Axis().is_dial and Axis(division_mm=0.01).is_dial
    assert (
        Axis(shows="radius", step_mm=0.02).step_on_diameter_mm == 0.04 and Axis().step_on_diameter_mm == 0.01
    )


def test_a_ring_that_nobody_can_turn() -> None:
    """A wall of 0.58 leaves a chamfer 0.8 of it, 0.464; no wall is under 0.20."""
    check_ring(replace(RING, chamfer_mm=0.464, lower_chamfer_mm=0.0))
    refused("chamfer", check_ring, replace(RING, chamfer_mm=0.4641))
    refused("lower chamfer", check_ring, replace(RING, lower_chamfer_mm=0.4641))
    refused("lower chamfer", check_ring, replace(RING, lower_chamfer_mm=-0.01))
    refused("outside", check_ring, replace(RING, outside_diameter_mm=81.1))
    refused("bore", check_ring, replace(RING, bore_mm=0.09))
    refused("height", check_ring, replace(RING, height_mm=0.29))
    refused("wall", check_ring, replace(RING, bore_mm=32.802))
    check_ring(replace(RING, bore_mm=32.8, chamfer_mm=0.1))
    roomy = with_room_for_chamfers(replace(RING, chamfer_mm=0.6, lower_chamfer_mm=0.5))
    assert (roomy.chamfer_mm, roomy.lower_chamfer_mm) == pytest.approx((0.464, 0.464))
    assert with_room_for_chamfers(RING) == RING
    thick_enough(0.2)
    refused("wall", thick_enough, 0.1999)
    under("bore", 32.0, "outside", 32.1)
    assert "32 mm must be under the outside, 32 mm" in refused("bore", under, "bore", 32.0, "outside", 32.0)


KEYED: dict[str, tuple[float, float]] = {
    "case bore": (5.0, 80.0), "glass": (4.0, 80.0), "outside": (4.0, 81.0), "bore": (0.1, 80.0),
    "seat depth": (0.3, 6.0), "glass edge": (0.3, 6.0), "glass thickness": (0.3, 6.0), "height": (0.3, 6.0),
    "case wall": (0.2, 20.0), "case height": (0.2, 20.0), "friction": (0.02, 0.6),
    "case bore uncertainty": (0.0, 0.5), "glass uncertainty": (0.0, 0.5), "ovality": (0.0, 0.5),
    "overpressure": (0.0, 100.0), "press force": (10.0, 50000.0), "turning spread": (0.0, 0.2),
    "ring offset": (0.0, 10.0), "temperature": (-20.0, 60.0), "support diameter": (3.0, 80.0),
    "case yield": (20.0, 2000.0), "lathe step": (0.0005, 0.5), "height spread": (0.0, 0.2),
    "softness of the hand": (0.2, 3.0),
}  # fmt: skip
"""What the help of the commands and the pages say can be keyed."""


def test_every_range_is_kept_at_both_ends() -> None:
    assert RANGES.keys() == KEYED.keys()
    for name, (low, high) in KEYED.items():
        assert (within(name, low), within(name, high), within_or_none(name, None)) == (low, high, None)
        refused(name, within, name, low - 1e-6)
        refused(name, within_or_none, name, high + 1e-6)
