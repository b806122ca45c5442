"""What a reading does to the passes left, in single cases worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from rules.checks import OutOfRange
from rules.turning.correction import keep_the_wall, replan
from tests.rules.test_turning import planned, with_cross


def test_a_reading_moves_the_last_pass_and_stays_with_the_tool() -> None:
    # Promised 33.40, measured 33.43: the tool leaves 0.03 more, so the last figure is 0.03 less.
    done = replan(planned(), operation="finish_outside", reading_mm=33.43)
    assert (done.verdict, done.offset_mm) == ("go_on", 0.03)
    assert done.plan.of("finish_outside")[-1].reading_text == "outside: go to 33.17, diameter"
    assert done.plan.order.offsets_mm == ((1, 0.03),)
    # The next ring starts from what was learned: figure 33.17, size 33.20.
    following = planned(offsets_mm=done.plan.order.offsets_mm).of("finish_outside")[-1]
    assert (following.target_mm, following.material_diameter_after_mm) == (33.17, 33.2)


def test_the_wall_corrects_the_bore_and_the_spares() -> None:
    # Promised wall 0.68, measured 0.69: 0.11 to go on the radius, so the figure is 32.06.
    done = replan(planned(spares=1), operation="finish_bore", reading_mm=0.69)
    assert done.plan.of("finish_bore")[-1].target_mm == 32.06
    assert done.plan.of("finish_bore", 2)[-1].target_mm == 32.06
    assert [one.n for one in done.plan.passes] == list(range(1, len(done.plan.passes) + 1))


def test_a_wall_is_kept_on_the_outside_that_the_slide_made() -> None:
    # Steps of 0.03 on the diameter count from the bar: what they make is not the 33.20 that was wanted, and
    # the wall of 0.58 is kept by another bore.
    made = planned(lathe=with_cross(shows="radius", step_mm=0.015, direction="inward"))
    stands = made.outside_made_mm
    assert stands != made.order.ring.outside_diameter_mm
    bore = made.of("finish_bore")[-2].material_diameter_after_mm or 0.0
    done = replan(made, operation="finish_bore", reading_mm=(stands - bore) / 2.0)
    assert done.offset_mm == pytest.approx(0.0, abs=1e-6)
    assert done.plan.order.ring.outside_diameter_mm == stands
    assert done.plan.order.ring.wall_mm == pytest.approx(made.order.ring.wall_mm)


def test_far_off_is_taken_in_equal_passes_and_measured_again() -> None:
    done = replan(planned(), operation="finish_bore", reading_mm=0.74)
    left = done.plan.of("finish_bore")[2:]
    assert done.verdict == "measure_again"
    assert [(one.cut_depth_mm, one.measure) for one in left] == [(0.08, "wall"), (0.08, "")]
    again = replan(done.plan, operation="finish_bore", reading_mm=0.665)
    assert again.plan.of("finish_bore")[-1].cut_depth_mm == pytest.approx(0.085)


@pytest.mark.parametrize(
    ("operation", "reading", "verdict"),
    [
        ("finish_outside", 33.19, "on_size"),
        ("finish_outside", 33.26, "thin_cut"),
        ("finish_outside", 33.175, "past"),
        ("finish_bore", 0.575, "on_size"),
        ("finish_bore", 0.60, "thin_cut"),
        ("finish_bore", 0.565, "past"),
    ],
)
def test_verdicts(operation: str, reading: float, verdict: str) -> None:
    assert replan(planned(), operation=operation, reading_mm=reading).verdict == verdict


def test_past_the_window_stops_and_offers_the_ways_out() -> None:
    small = replan(planned(), operation="finish_outside", reading_mm=33.14)
    assert small.past
    assert small.words[0].startswith("STOP: the outside is too small")
    assert small.same_wall_bore_mm == pytest.approx(33.14 - 2 * 0.58)
    assert "smaller" in small.ways_out[1]
    kept = keep_the_wall(small.plan, outside_mm=33.14)
    assert kept.order.ring.wall_mm == pytest.approx(0.58)
    assert kept.of("finish_bore")[-1].material_diameter_after_mm == 31.98
    depths = [one.cut_depth_mm or 0.0 for one in kept.of("finish_bore")]
    assert depths[-1] == pytest.approx(depths[-2])
    assert min(depths) >= 0.05
    big = replan(planned(), operation="finish_bore", reading_mm=0.55)
    assert big.ways_out[0].startswith("the next larger glass")


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ({"operation": "finish_outside", "reading_mm": 3.343}, "measure again, spindle stopped"),
        ({"operation": "finish_outside", "reading_mm": float("nan")}, "measure again"),
        ({"operation": "part", "reading_mm": 1.0}, "no pass of 'part' waits"),
        ({"operation": "finish_bore", "reading_mm": 32.04}, "wall: 32.040 mm is too far from the 0.680 mm"),
    ],
)
def test_a_reading_that_cannot_be_is_refused(arguments: dict[str, Any], said: str) -> None:
    with pytest.raises(OutOfRange, match=said):
        replan(planned(), **arguments)


def test_a_pass_waits_for_one_reading_only() -> None:
    done = replan(planned(), operation="finish_outside", reading_mm=33.40)
    with pytest.raises(OutOfRange, match="no pass of 'finish_outside' waits"):
        replan(done.plan, operation="finish_outside", reading_mm=33.40)


def test_what_is_under_half_a_step_is_left_and_said() -> None:
    # Steps of 0.10 on the diameter: expected wall 0.70, measured 0.62,
    # so 0.04 on the diameter is left of 0.58.
    coarse = with_cross(shows="radius", step_mm=0.05)
    made = planned(lathe=coarse, outside_diameter_mm=33.20, bore_mm=32.00)
    expected = next(one for one in made.of("finish_bore") if one.measure).material_diameter_after_mm or 0.0
    assert expected == 31.8
    done = replan(made, operation="finish_bore", reading_mm=0.62)
    assert done.verdict == "on_size"
    assert (
        done.words[0] == "0.020 mm left on the radius, under half a step of the cross slide: no further pass"
    )
