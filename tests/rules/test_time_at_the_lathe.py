"""How long a ring takes, what cooling is worth and what would save passes: worked out again by hand."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from rules.turning.cooling import Cooling
from rules.turning.duration import ASSUMED, Duration, ShopPace, duration, pace_of
from rules.turning.passes import Plan
from rules.turning.savings import saving_words
from tests.grooving import CORING
from tests.rules.test_turning import BAR, LATHE, SHOP, planned


def test_minutes_of_a_ring() -> None:
    """5 to set up, 0.4 a pass, 1.5 a tool and 1.5 a reading, and what cuts and waits."""
    takes = Duration(passes=10, tools=3, readings=2, cutting=6.0, waiting=13.0)
    assert takes.minutes == pytest.approx(5.0 + 4.0 + 4.5 + 3.0 + 19.0)


def test_tools_are_counted_as_they_are_changed() -> None:
    """Turning tool, centre, two drills, boring bar, turning tool, boring bar, chamfer tool, blade; for a
    spare the turning tool, the larger drill, boring bar, chamfer tool and blade again.
    """
    lathe = replace(LATHE, drills_mm=(12.0, 24.0), largest_drill_mm=30.0)
    assert duration(planned(lathe=lathe)).tools == 9
    assert duration(planned(lathe=lathe, spares=1)).tools == 9 + 5
    assert duration(planned(lathe=lathe, spares=1)).readings == 3
    tube = replace(BAR, kind="tube", bore_mm=30.0)
    # No drill: turning tool, boring bar, turning tool, boring bar, chamfer tool, blade.
    assert duration(planned(bar=tube)).tools == 6


def test_words_of_the_pace() -> None:
    made = planned(bar=replace(BAR, kind="tube", bore_mm=30.0))
    takes = duration(made)
    whole = 5.0 + 0.4 * takes.passes + 1.5 * 6 + 1.5 * 2 + made.cutting_minutes + 13.0
    rest = f"{takes.passes} passes, 6 tools and drills, 2 readings, 13 min cooling and dressing."
    assert ASSUMED.words(made) == f"At the lathe about {whole:.0f} min, assumed: {rest}"
    one = ShopPace(factor=2.0, rings=1).words(made)
    assert one == f"At the lathe about {2 * whole:.0f} min, by the one ring turned here: {rest}"
    assert "by the last 2 turned here: " in ShopPace(factor=1.0, rings=2).words(made)
    assert ShopPace() == ASSUMED == ShopPace(1.0, 0)


@pytest.mark.parametrize(
    ("rings", "factor", "count"),
    [
        ([(80.0, 40.0)], 2.0 ** (1.0 / 3.0), 1),
        ([(200.0, 40.0)], 5.0 ** (1.0 / 3.0), 1),
        ([(8.0, 40.0)], 0.2 ** (1.0 / 3.0), 1),
        ([(200.1, 40.0)], 1.0, 0),
        ([(7.9, 40.0)], 1.0, 0),
        ([(40.0, 0.0), (80.0, 40.0), (20.0, 40.0)], 1.0, 2),
        ([(80.0, 0.5), (60.0, 40.0), (60.0, 40.0)], 1.5**0.5, 2),
    ],
)
def test_the_pace_is_drawn_towards_the_assumed(rings: Any, factor: float, count: int) -> None:
    """The mean of the logarithms with two rings as assumed."""
    found = pace_of(rings)
    assert found.factor == pytest.approx(factor) and found.rings == count


def test_cooling_of_a_thin_tube() -> None:
    """Both faces give off 10 W/m2 K; 2.1 mJ/mm3 K are stored in 2.0 mm: 20 over 4200 a second."""
    tube = Cooling(outside_mm=40.0, wall_mm=0.5, standing_mm=2.0, expansion_per_k=1e-4)
    share = math.exp(-20.0 / 4200.0 * 300.0)
    assert tube.left(5.0) == pytest.approx(share) and tube.left(0.0) == 1.0
    assert tube.outside_um(5.0) == pytest.approx(40.0 * share) and tube.outside_um(0.0) == pytest.approx(40.0)
    assert tube.wall_um(5.0) == pytest.approx(0.5 * share) and tube.wall_um(0.0) == pytest.approx(0.5)
    assert tube.words(10.0) == (
        "Taken 10 degrees warm: worth 0.04 mm on the outside, under 0.001 mm in the wall.",
        f"After 5 min about {40.0 * share / 1000.0:.2f} mm of that are left outside, after 10 min "
        f"{40.0 * share * share / 1000.0:.3f} mm (estimate).",
    )


def with_core(deep: float = 4.0) -> Plan:
    core = replace(CORING, depth_mm=deep)
    return planned(tools=(*SHOP.tools, core))


def minutes(made: Plan) -> tuple[int, float]:
    """Passes until the bore is roughed, and their minutes by hand with the tools that they take."""
    kinds = ("centre", "drill", "core", "rough_bore")
    passes = [one for one in made.passes if one.operation in kinds]
    opening = made.order.opening
    return len(passes), sum(one.minutes + 0.4 for one in passes) + 1.5 * (
        len(opening.drills_mm) + (opening.tool is not None)
    )


def test_what_is_saved_is_the_difference_of_the_two_plans() -> None:
    """The tailstock takes 25 mm, but the largest drill there is has 13."""
    lathe = replace(LATHE, largest_drill_mm=25.0, drills_mm=(13.0,))
    now, cored = planned(lathe=lathe), with_core()
    drilled = planned(lathe=replace(lathe, drills_mm=()))
    assert drilled.order.opening.drills_mm == (12.5, 25.0)
    saved = []
    for other in (drilled, cored):
        (passes, took), (left, takes) = minutes(now), minutes(other)
        saved.append(f"{passes - left} of {passes} passes, about {took - takes:.0f} min")
    assert saving_words(now.order) == (
        f"a 25 mm drill would save {saved[0]}",
        f"a face-grooving tool relieved for 31 mm, 2.8 deep, would save {saved[1]}: "
        "the core stays on the bar and catches the ring",
    )
    assert not any("drill" in said for said in saving_words(planned().order)), "the tailstock takes no more"


def test_nothing_is_said_that_saves_little() -> None:
    """From a bore of 28.0 it is three cuts to 31.44: a core would leave one, and save two."""
    tube = planned(bar=replace(BAR, kind="tube", bore_mm=28.0))
    assert len(tube.of("rough_bore")) == 3 and saving_words(tube.order) == ()
    assert saving_words(with_core().order) == ()
    # A drill of 24 mm at hand is a pass or two short of one of 25 mm; in a bore of 24.04 one of 23 mm goes.
    near = planned(lathe=replace(LATHE, drills_mm=(12.0, 24.0), largest_drill_mm=25.0))
    assert not any("drill would save" in said for said in saving_words(near.order))
    small = {"outside_diameter_mm": 25.2, "bore_mm": 24.04, "bar": replace(BAR, diameter_mm=28.0)}
    roomy = replace(LATHE, largest_drill_mm=30.0, drills_mm=(13.0,))
    said = " ".join(saving_words(planned(**small, lathe=roomy).order))
    assert "a 23 mm drill would save" in said
