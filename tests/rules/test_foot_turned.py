"""A ring with a foot at the lathe: hole first, wall to depth, floor faced, corrected by both walls."""

from __future__ import annotations

from dataclasses import replace

import pytest

from rules.checks import OutOfRange
from rules.ring import Ring
from rules.turning import operations
from rules.turning.correction import keep_the_wall, replan
from rules.turning.order import DRESSING_MM, SetUp
from rules.turning.passes import Plan
from rules.turning.planning import plan
from tests.rules.test_plug_plan import SHOP

RING = Ring(
    outside_diameter_mm=30.6,
    bore_mm=29.44,
    height_mm=1.55,
    chamfer_mm=0.15,
    lower_chamfer_mm=0.1,
    foot_mm=0.4,
    foot_bore_mm=28.0,
    corner_mm=0.2,
)
BAR = next(bar for bar in SHOP.bars if bar.start_mm > 32.0)


def planned(ring: Ring = RING) -> Plan:
    """The plan of a ring on the assumed lathe."""
    return plan(ring=ring, set_up=SetUp(lathe=SHOP.lathes[0], tools=SHOP.tools, bar=BAR))


def test_the_hole_is_bored_through_before_the_wall_is_bored_to_depth() -> None:
    made = planned()
    (*_, through), (floor,) = made.of(operations.ROUGH_FOOT), made.of(operations.FLOOR)
    rough, (*_, last) = made.of(operations.ROUGH_BORE), made.of(operations.FINISH_BORE)
    assert through.material_diameter_after_mm == pytest.approx(28.0, abs=0.01)
    assert through.along_mm is not None and through.along_mm > RING.height_mm + DRESSING_MM
    assert through.n < rough[0].n < floor.n < last.n
    assert floor.along_mm == last.along_mm == pytest.approx(1.15)
    assert all(one.along_mm == pytest.approx(1.05) for one in rough), "a tenth is left for the floor"
    assert floor.material_diameter_after_mm == rough[-1].material_diameter_after_mm
    part, dress = made.of(operations.PART)[0], made.of(operations.DRESS)[0]
    assert part.material_diameter_after_mm == 28.0 and "bore of the foot" in part.reading_text
    assert "until the foot is 0.40 thick" in dress.reading_text and dress.target_mm == 0.4


def test_a_straight_ring_is_planned_as_before() -> None:
    made = planned(replace(RING, foot_mm=0.0))
    assert not made.of(operations.ROUGH_FOOT) and not made.of(operations.FLOOR)
    deep = made.of(operations.FINISH_BORE)[0].along_mm
    assert {one.along_mm for one in made.of(operations.ROUGH_BORE)} == {deep}


def test_the_corner_asks_for_a_nose_that_the_bevel_clears() -> None:
    with pytest.raises(OutOfRange, match="corner: a boring bar"):
        planned(replace(RING, corner_mm=0.1))


@pytest.mark.parametrize(
    ("wrong", "name"),
    [({"foot_mm": 0.1}, "foot"), ({"foot_mm": 1.4}, "foot"), ({"foot_bore_mm": 29.4}, "inside of the foot")],
)
def test_a_foot_that_cannot_be_turned_is_refused(wrong: dict[str, float], name: str) -> None:
    with pytest.raises(OutOfRange, match=f"^{name}: "):
        planned(replace(RING, **wrong))


def test_a_wall_read_thick_is_followed_to_the_same_floor() -> None:
    outside = replan(planned(), operation=operations.FINISH_OUTSIDE, reading_mm=30.8).plan
    found = replan(outside, operation=operations.FINISH_BORE, reading_mm=0.72)
    last = found.plan.of(operations.FINISH_BORE)[-1]
    assert last.material_diameter_after_mm == pytest.approx(29.44, abs=0.02)
    assert last.along_mm == pytest.approx(1.15) and found.plan.of(operations.FLOOR)


def test_an_outside_too_small_keeps_the_wall_and_the_foot() -> None:
    past = replan(planned(), operation=operations.FINISH_OUTSIDE, reading_mm=30.5)
    assert past.past
    kept = keep_the_wall(past.plan, outside_mm=30.5)
    assert kept.order.ring.bore_mm == pytest.approx(29.34) and kept.order.ring.foot_mm == 0.4
    assert kept.of(operations.FINISH_BORE)[-1].material_diameter_after_mm == pytest.approx(29.34, abs=0.01)
    assert len(kept.of(operations.FLOOR)) == 1
