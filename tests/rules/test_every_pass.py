"""Every pass of a plan worked out again: speed, feed, length, depth, size and minutes."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

import pytest

from rules.bars import Bar
from rules.turning.passes import Pass, Plan
from tests.grooving import CORING
from tests.rules.test_turning import LATHE, SHOP, planned, with_cross

SPEEDS = (150.0, 250.0, 420.0, 720.0, 1000.0, 1500.0, 2000.0)
SMOKES = ("swarf_hook", "acetal_smoulder")


@dataclass(frozen=True)
class Row:
    """What passes of one operation have in common; speed in m/min at a diameter, lengths in mm."""

    operation: str
    tool: int | None
    m_per_min: float
    at_mm: float
    feed_mm: float | None
    long_mm: float
    axis: str
    shows: str | None
    cautions: tuple[str, ...] = ()


def rpm(m_per_min: float, at_mm: float) -> float:
    """The lathe's own speed at or under 1000 v / (pi D)."""
    return max(own for own in SPEEDS if own <= 1000.0 * m_per_min / math.pi / at_mm)


def check(row: Row, passes: tuple[Pass, ...]) -> None:
    """Each pass against the row."""
    assert passes, row.operation
    for one in passes:
        turns = rpm(row.m_per_min, row.at_mm)
        assert (one.tool, one.rpm, one.feed_mm) == (row.tool, turns, row.feed_mm), row
        assert (one.axis, one.shows) == (row.axis, row.shows), row
        if row.feed_mm:
            assert one.minutes == pytest.approx(row.long_mm / (row.feed_mm * turns), abs=0.00051), row
        if one.measure:
            assert one.cautions == ("spindle",)
        else:
            assert one.cautions == row.cautions, row


# One ring of 1.10, dressing 0.10 and a blade of 1.0 take 2.20, the bore goes 0.30 deeper; two of them, 0.20
# faced between and 0.50 more are 5.10. Drilled 13: the point is 0.3 x 13 long. The chamfer is 0.15, the
# groove of the lower one 0.10 + 0.10, the wall 0.58.
PLAIN = (
    Row("face", 1, 100, 36.0, 0.15, 18.0, "long", "length", ("spindle", "eyes", "bar_behind_spindle")),
    Row("rough_outside", 1, 100, 36.0, 0.15, 5.1, "cross", "diameter", SMOKES),
    Row("centre", None, 40, 13.0, None, 0.0, "tailstock", None),
    Row("drill", None, 40, 13.0, 0.10, 2.5 + 3.9, "tailstock", None, SMOKES),
    Row("rough_bore", 2, 100, 31.44, 0.15, 2.5, "cross", "diameter", SMOKES),
    Row("finish_outside", 1, 150, 33.2, 0.08, 5.1, "cross", "diameter"),
    Row("finish_bore", 2, 150, 32.04, 0.08, 2.5, "cross", "diameter"),
    Row("chamfer", 3, 60, 32.04, 0.04, 0.15, "long", "length"),
    Row("lower_chamfer", 3, 60, 33.2, 0.04, 0.2, "cross", "diameter"),
    Row("part", 4, 60, 33.2, 0.04, 0.58, "long", "length", ("parting_catch", *SMOKES)),
)
AGAIN = {"face": Row("face", 1, 100, 33.2, 0.15, (33.2 - 32.04) / 2.0, "long", "length", ("spindle",))}


@pytest.mark.parametrize("row", PLAIN, ids=lambda row: row.operation)
def test_speeds_feeds_and_minutes_of_a_ring_and_its_spare(row: Row) -> None:
    made = planned(spares=1)
    check(row, made.of(row.operation))
    if row.operation == "centre":
        assert made.of("centre", 2) == (), "the hole of the ring before is there"
    elif row.operation not in ("rough_outside", "finish_outside"):
        check(AGAIN.get(row.operation, row), made.of(row.operation, 2))


def depths(made: Plan, operation: str, ring: int = 1) -> list[float]:
    return [one.cut_depth_mm or 0.0 for one in made.of(operation, ring)]


def sizes(made: Plan, operation: str, ring: int = 1) -> list[float]:
    return [one.material_diameter_after_mm or 0.0 for one in made.of(operation, ring)]


def test_sizes_follow_from_depths() -> None:
    """Outside 36.00 to 33.60 and two finishing cuts of 0.20, the bore from 13.00 to 31.44 and three."""
    made = planned(spares=2)
    for operation, start, way, end in (("rough_outside", 36.0, -2, 33.6), ("rough_bore", 13.0, 2, 31.44)):
        at = start
        for depth, after in zip(depths(made, operation), sizes(made, operation), strict=True):
            at += way * depth
            assert after == pytest.approx(at)
        assert at == pytest.approx(end)
    assert sizes(made, "finish_outside") == [33.4, 33.2]
    assert sizes(made, "finish_bore") == [31.64, 31.84, 32.04] == sizes(made, "finish_bore", 2)
    assert sizes(made, "finish_bore", 3) == [31.62, 31.82, 32.02]
    assert [one.measure for one in made.of("finish_bore", 2)] == ["", "wall", ""]
    assert [one.measure for one in made.of("finish_outside")] == ["outside", ""]
    for ring in (1, 2, 3):
        assert sizes(made, "drill", ring) == [13.0]
        assert depths(made, "face", ring) == [0.3 if ring == 1 else 0.2]
        assert sizes(made, "chamfer", ring) == [32.32 if ring == 3 else 32.34]
        assert sizes(made, "part", ring) == [32.02 if ring == 3 else 32.04]
        assert (sizes(made, "lower_chamfer", ring), depths(made, "lower_chamfer", ring)) == ([32.8], [0.2])
        assert depths(made, "dress", ring) == [0.1] and depths(made, "chamfer", ring) == [0.15]
    assert [one.n for one in made.passes] == list(range(1, len(made.passes) + 1))


def test_what_stands_still_is_counted_in_minutes() -> None:
    made = planned()
    rest, dress, centre = (made.of(act)[0] for act in ("rest", "dress", "centre"))
    assert (rest.minutes, dress.minutes, centre.minutes) == (10.0, 3.0, 0.2)
    assert rest.cautions == SMOKES and dress.cautions == ("no_emery_by_hand",)
    assert {(one.tool, one.rpm, one.axis, one.shows) for one in (rest, dress)} == {(None,) * 4}
    assert dress.target_mm == 1.1 and centre.target_mm == 1.5 and rest.target_mm is None
    assert made.of("drill")[0].target_mm == pytest.approx(6.4) and made.of("face")[0].target_mm == 0.0
    assert made.minutes == pytest.approx(sum(one.minutes for one in made.passes), abs=0.006)
    assert made.cutting_minutes == pytest.approx(made.minutes - 13.0)


def test_targets_are_the_size_itself_on_a_read_out_of_diameters() -> None:
    made = planned()
    for operation in ("rough_outside", "rough_bore", "finish_outside", "finish_bore", "lower_chamfer"):
        for one in made.of(operation):
            assert one.target_mm == one.material_diameter_after_mm == pytest.approx((one.steps or 0) / 100.0)
            assert one.figure_text == f"{one.target_mm:.2f}" and one.zero_diameter_mm is None
    assert [made.of(act)[0].along_mm for act in ("rough_outside", "finish_bore", "drill")] == [2.7, 2.5, None]
    assert [one.target_mm for one in made.of("chamfer")] == [0.15]
    assert {one.along_text for one in made.of("rough_outside")} == {"turn along: go to 2.70, length"}
    assert {one.along_text for one in made.of("finish_bore")} == {"bore along: go to 2.50, length"}
    # 0.10 of 45 degrees behind 1.10 and 0.10: at 1.20 along.
    assert made.of("lower_chamfer")[0].along_text == "edge along: go to 1.20, length, point of the tool"


def coring() -> Plan:
    """A ring and a spare from a bar that a core is cut out of, on a dial of 0.02 mm that counts inward."""
    dial: dict[str, Any] = {"shows": "radius", "step_mm": 0.01, "division_mm": 0.02, "direction": "inward"}
    lathe = with_cross(**dial, divisions_per_turn=100)
    return planned(tools=(*SHOP.tools, CORING), spares=1, lathe=lathe)


def test_a_core_by_hand() -> None:
    """The blade's far side touches 33.60, so the near one stands at 39.60: to 31.00 it is 4.30 of travel, 215
    divisions; for the spare the outside is 33.20. The core left is 14.20: 2.20 long, three cuts of 0.733.
    """
    made = coring()
    check(Row("core", 9, 60, 31.0, 0.04, 2.8, "cross", "dial", ("face_grooving", *SMOKES)), made.of("core"))
    assert [one.target_mm for one in made.of("core")] == [4.3, 7.0, 9.7]
    assert [one.target_mm for one in made.of("core", 2)] == [4.1, 6.8, 9.5]
    assert [made.of("core", ring)[0].zero_diameter_mm for ring in (1, 2)] == [39.6, 39.2]
    assert [bool(one.before) for one in made.of("core")] == [True, False, False]
    first = made.of("core")[0]
    assert (
        first.figure_text == "2 turns 15 div"
        and first.reading_text == "core: go to 2 turns 15 div, makes 31.00"
    )
    assert first.along_text == "groove along: go to 2.80, length; draw it out often"
    assert {one.cut_depth_mm for one in made.of("core")} == {3.0} and made.of("shorten_core") == ()
    short = made.of("shorten_core", 2)[0]
    assert (short.rpm, short.feed_mm, short.cautions, short.axis) == (2000.0, 0.15, ("spindle",), "long")
    assert short.minutes == pytest.approx(3 * 7.1 / (0.15 * 2000.0), abs=0.0016)
    assert short.reading_text == "core: face it down, 2.20 long, 3 cuts of 0.73 at most"
    assert (short.cut_depth_mm, short.material_diameter_after_mm) == pytest.approx((2.2 / 3.0, 14.2))
    assert sizes(made, "rough_bore") == [31.44] and depths(made, "rough_bore") == [0.22]
    assert made.of("rough_bore")[0].zero_diameter_mm == 31.0
    assert [one.operation for one in made.passes if one.ring == 2][:3] == ["shorten_core", "face", "core"]


def test_where_the_slide_stands_beside_the_groove_it_is_the_next_smaller() -> None:
    """Steps of 0.10 on the diameter: a groove of 31.00 may be left at 30.95, never wider."""
    lathe = with_cross(shows="radius", step_mm=0.05, direction="inward")
    bar = Bar(plastic="acetal", diameter_mm=36.05, length_mm=200.0)
    made = planned(tools=(*SHOP.tools, CORING), lathe=lathe, bar=bar)
    touched = sizes(made, "rough_outside")[-1] + 6.0
    grooves = sizes(made, "core")
    for wanted, left in zip((31.0, 25.6, 20.2), grooves, strict=True):
        assert wanted - 0.1 < left <= wanted
        assert round((touched - left) / 0.1, 6) == round((touched - left) / 0.1)


def test_a_tube_is_drilled_without_a_centre_and_faced_only_over_its_wall() -> None:
    """Bored 6.0 all along: what is faced is 15.0 wide, and the drills follow one another."""
    tube = Bar(plastic="ptfe", diameter_mm=36.0, length_mm=200.0, kind="tube", bore_mm=6.0)
    lathe = replace(LATHE, drills_mm=(9.0, 12.0, 24.0), largest_drill_mm=30.0)
    made = planned(bar=tube, lathe=lathe)
    assert made.of("centre") == () and sizes(made, "drill") == [12.0, 24.0]
    zero = "point at the face: tailstock to zero"
    assert [one.before for one in made.of("drill")] == [("spindle stopped: tool post clear", zero), (zero,)]
    face = made.of("face")[0]
    assert face.minutes == pytest.approx(15.0 / (0.15 * (face.rpm or 0.0)), abs=0.00051)
    # PTFE: roughed at 80 m/min, 707 rpm at 36.00, and its swarf smokes.
    assert face.rpm == 420.0 and made.of("drill")[0].cautions == ("swarf_hook", "ptfe_smoke")
    assert [one.rpm for one in made.of("drill")] == [720.0, 250.0]


def test_a_wide_chamfer_is_cut_in_parts_and_one_under_a_step_takes_a_step() -> None:
    """Acetal is bored 0.7 deep at most: 1.0 takes two cuts of 0.5."""
    wide = planned(bore_mm=29.6, chamfer_mm=1.0, bar=Bar(plastic="acetal", diameter_mm=36.0, length_mm=200.0))
    assert [one.target_mm for one in wide.of("chamfer")] == [0.5, 1.0]
    assert depths(wide, "chamfer") == [0.5, 0.5] and sizes(wide, "chamfer") == [30.6, 31.6]
    assert [len(one.before) for one in wide.of("chamfer")] == [2, 0]
    fine = planned(chamfer_mm=0.004)
    assert [one.target_mm for one in fine.of("chamfer")] == [0.01]
    assert not planned(chamfer_mm=0.0).of("chamfer") and not planned(lower_chamfer_mm=0.0).of("lower_chamfer")
