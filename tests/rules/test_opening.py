"""Drills, cores and bores that let a boring bar in, each by hand on either side of where it changes."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from rules.bars import Bar
from rules.checks import OutOfRange
from rules.equipment import Tool
from rules.turning.drills import drill_for, drill_words, drills_to, needed_for, per_mm
from rules.turning.opening import (
    Opening,
    Wanted,
    cored_by,
    could_be_cored,
    could_be_drilled,
    drills_of,
    opening_for,
    usual_opening,
)
from tests.rules.test_turning import BAR, LATHE

SMALL = Tool(number=2, kind="boring", smallest_bore_mm=8.0, longest_reach_mm=20.0, shank_mm=6.0)
CORING: dict[str, Any] = {
    "number": 9,
    "kind": "face_grooving",
    "blade_mm": 3.0,
    "smallest_groove_mm": 28.0,
    "largest_groove_mm": 36.0,
    "depth_mm": 2.8,
}


def tool(**changed: Any) -> Tool:
    return Tool(**{**CORING, **changed})


def boring(bore: float) -> Tool:
    return replace(SMALL, smallest_bore_mm=bore)


def wanted(**changed: Any) -> Wanted:
    """A hole of 31.0 at most, 2.5 deep for a ring and 5.2 for two of them."""
    usual: dict[str, Any] = {"room_mm": 31.0, "ring_deep_mm": 2.5, "bar_deep_mm": 5.2, "bar": BAR}
    return Wanted(**{**usual, "lathe": LATHE, "tools": (), **changed})


@pytest.mark.parametrize(
    ("bore", "unit", "drill"),
    [
        # 0.3 wider than the bar, then up to the next half; in inch the next thirty-second, 0.79375 mm.
        (8.0, "mm", 8.5),
        (8.2, "mm", 8.5),
        (8.21, "mm", 9.0),
        (8.7, "mm", 9.0),
        (8.0, "inch", 11 * 25.4 / 32),
        (25.4 * 10 / 32 - 0.3, "inch", 7.9375),
        (7.7, "inch", 11 * 25.4 / 32),
    ],
)
def test_the_drill_for_a_boring_bar(bore: float, unit: str, drill: float) -> None:
    assert drill_for(boring(bore), unit) == pytest.approx(drill, abs=1e-6)
    assert needed_for(boring(bore)) == pytest.approx(bore + 0.3)
    assert usual_opening(boring(bore), unit) == Opening(
        hole_mm=drill_for(boring(bore), unit), drills_mm=(drill_for(boring(bore), unit),)
    )


def test_drills_come_in_halves_of_a_millimetre_or_thirty_seconds_of_an_inch() -> None:
    assert (drill_for(SMALL), usual_opening(SMALL).hole_mm) == (8.5, 8.5), "in mm unless said"
    assert drills_to(2.5, "mm") == (1.0, 1.5, 2.0, 2.5) == drills_to(2.99, "mm")
    assert drills_to(2.3813, "inch") == (1.5875, 2.38125), "1/16 and 3/32; 1/32 is under 1 mm"
    assert (per_mm("mm"), per_mm("inch")) == pytest.approx((2.0, 1.2598425))
    said = {1.0: "1 mm", 12.5: "12.5 mm"}
    assert {drill: drill_words(drill, "mm") for drill in said} == said
    inches = {0.79375: "1/32 in", 6.35: "1/4 in", 25.4: "1 in", 26.19375: "1 1/32 in"}
    assert {drill: drill_words(drill, "inch") for drill in inches} == inches


def test_the_drills_there_are() -> None:
    said = replace(LATHE, largest_drill_mm=10.0, drills_mm=(10.0, 4.0, 10.5, 8.0))
    assert drills_of(said) == (4.0, 8.0, 10.0)
    assert drills_of(replace(LATHE, largest_drill_mm=2.0)) == (1.0, 1.5, 2.0)
    assert drills_of(replace(LATHE, largest_drill_mm=2.0, drill_unit="inch")) == (1.5875,)


@pytest.mark.parametrize(
    ("drills", "room", "chain"),
    [
        ((8.3, 9.0), 31.0, (9.0,)),
        ((8.3,), 31.0, (8.3,)),
        ((8.3,), 8.3, (8.3,)),
        ((8.29,), 31.0, None),
        ((8.4,), 8.3, None),
        # Over 13 mm one of about half the size goes first, and before that again if it is over 13 too.
        ((5.0, 13.0), 31.0, (13.0,)),
        ((5.0, 6.75, 13.5), 31.0, (6.75, 13.5)),
        ((5.0, 6.8, 13.5), 31.0, (5.0, 13.5)),
        ((7.0, 14.0, 28.0), 31.0, (7.0, 14.0, 28.0)),
        ((20.0, 28.0), 31.0, (28.0,)),
        ((8.0, 12.0, 24.0, 31.5), 31.0, (12.0, 24.0)),
    ],
)
def test_drills_one_after_another(drills: tuple[float, ...], room: float, chain: Any) -> None:
    lathe = replace(LATHE, drills_mm=drills, largest_drill_mm=40.0)
    found = opening_for(SMALL, wanted(lathe=lathe, room_mm=room))
    assert found == (None if chain is None else Opening(hole_mm=chain[-1], drills_mm=chain))


def test_a_bore_of_the_bar_s_own_is_used_or_drilled_over() -> None:
    tube = replace(BAR, kind="tube", bore_mm=8.3)
    assert opening_for(SMALL, wanted(bar=tube)) == Opening(hole_mm=8.3)
    for deep, uses in ((5.2, True), (5.1, False)):
        found = opening_for(SMALL, wanted(bar=replace(tube, bore_deep_mm=deep)))
        assert found is not None and bool(found.drills_mm) != uses
    narrow = replace(tube, bore_mm=6.0)
    lathe = replace(LATHE, drills_mm=(5.0, 6.0, 14.0), largest_drill_mm=40.0)
    # What is narrower than the bore there is cuts nothing.
    assert opening_for(SMALL, wanted(bar=narrow, lathe=lathe)) == Opening(hole_mm=14.0, drills_mm=(14.0,))
    assert wanted(bar=replace(tube, bore_mm=31.0)).own_mm == 31.0
    with pytest.raises(
        OutOfRange, match=r"31.01 mm leaves too little to cut; one of 31.00 mm or less, or a"
    ) as e:
        _ = wanted(bar=replace(tube, bore_mm=31.01)).own_mm
    assert "saw" not in str(e.value)


@pytest.mark.parametrize(
    ("changed", "bore", "grooves"),
    [
        # Beside the core the bar needs 8.3: 3.0 and twice 2.7 more; with 3.0 it needs no second groove.
        ({}, 8.0, (31.0, 25.6, 20.2)),
        ({}, 2.7, (31.0,)),
        ({}, 2.71, (31.0, 25.6)),
        ({"largest_groove_mm": 30.07}, 8.0, (30.0, 24.6, 19.2)),
        ({"smallest_groove_mm": 31.0}, 8.0, (31.0, 25.6, 20.2)),
        ({"smallest_groove_mm": 31.1}, 8.0, None),
        ({"depth_mm": 2.79}, 8.0, None),
        ({"kind": "parting"}, 8.0, None),
        ({"blade_mm": 0.32}, 0.2, (31.0, 30.9, 30.8, 30.7, 30.6)),
    ],
)
def test_grooves_of_a_core(changed: dict[str, Any], bore: float, grooves: tuple[float, ...] | None) -> None:
    bar = replace(SMALL, smallest_bore_mm=max(bore, 1.0), shank_mm=0.0)
    if bore < 1.0:
        bar, grooves = (
            replace(bar, smallest_bore_mm=1.0),
            tuple(round(31.0 - 0.1 * at, 6) for at in range(21)),
        )
    found = cored_by(tool(**changed), bar, wanted())
    assert (found.grooves_mm if found else None) == grooves
    if found and grooves:
        assert found.hole_mm == grooves[0] and not found.drills_mm
        assert found.core_mm == pytest.approx(grooves[-1] - 2.0 * found.tool.blade_mm if found.tool else 0.0)


@pytest.mark.parametrize(
    ("room", "step", "shows", "cut"),
    [
        (22.9, 0.01, "diameter", True),
        (22.8, 0.01, "diameter", False),
        (23.0, 0.05, "radius", True),
        (22.9, 0.05, "diameter", True),
    ],
)
def test_a_core_is_thick_enough(room: float, step: float, shows: str, cut: bool) -> None:
    """Three grooves leave 16.8 less than the outermost: 6.0 has to be left, and a step of the slide."""
    cross = replace(LATHE.cross, step_mm=step, shows=shows)
    there = wanted(room_mm=room, lathe=replace(LATHE, cross=cross))
    assert (cored_by(tool(smallest_groove_mm=10.0), SMALL, there) is not None) == cut


def test_a_core_round_a_bore_keeps_a_millimetre_of_wall() -> None:
    """The core of 14.2 round a bore of 12.0 and a step of 0.01 has 1.1; round one of 12.2 it has 1.0 less."""
    for bore, cut in ((12.0, True), (12.19, True), (12.2, False)):
        tube = replace(BAR, kind="tube", bore_mm=bore)
        assert (cored_by(tool(), SMALL, wanted(bar=tube)) is not None) == cut


@pytest.mark.parametrize(("largest", "core"), [(26.0, True), (26.1, False), (8.0, True)])
def test_a_core_is_worth_it_from_5_mm_over_the_largest_drill(largest: float, core: bool) -> None:
    """31.0 cored; drilled 26.0 it would leave 5.0 more to bore, drilled 26.1 only 4.9."""
    lathe = replace(LATHE, drills_mm=(largest,), largest_drill_mm=40.0)
    found = opening_for(SMALL, wanted(lathe=lathe, tools=(tool(), SMALL)))
    assert found is not None and bool(found.tool) == core
    widest = opening_for(SMALL, wanted(tools=(tool(largest_groove_mm=29.0), tool(number=10))))
    assert widest is not None and widest.hole_mm == 31.0
    assert opening_for(SMALL, wanted(lathe=lathe)) == (
        None if largest == 8.0 else Opening(hole_mm=largest, drills_mm=(largest,))
    )


def test_what_could_be_done_here_with_other_tools() -> None:
    cored = could_be_cored(SMALL, wanted())
    assert cored is not None and cored.grooves_mm == (31.0, 25.6, 20.2)
    assert could_be_cored(SMALL, wanted(room_mm=22.8)) is None
    drilled = could_be_drilled(SMALL, wanted(lathe=replace(LATHE, drills_mm=(9.0,))), 25.0)
    assert drilled == Opening(hole_mm=25.0, drills_mm=(12.5, 25.0))
    assert (
        could_be_drilled(SMALL, wanted(bar=Bar(plastic="acetal", diameter_mm=36.0, length_mm=50.0)), 8.0)
        is None
    )
