"""Where a reading's verdict changes, what is then cut and what is said, each worked out by hand."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from rules.checks import OutOfRange
from rules.turning.correction import Correction, keep_the_wall, replan
from tests.rules.test_turning import LATHE, planned, with_cross


def outside(reading: float, **changed: Any) -> Correction:
    """33.40 is expected on the way to 33.20."""
    return replan(planned(**changed), operation="finish_outside", reading_mm=reading)


def wall(reading: float, **changed: Any) -> Correction:
    """0.68 is expected on the way to 0.58."""
    return replan(planned(**changed), operation="finish_bore", reading_mm=reading)


@pytest.mark.parametrize(
    ("reading", "verdict", "depths"),
    [
        # Left on the radius: the reading less 33.20, halved. On size to 0.010 either way.
        (33.1794, "past", [0.1]),
        (33.1806, "on_size", []),
        (33.2194, "on_size", []),
        (33.2206, "thin_cut", [0.01]),
        # A cut under 0.05 is thin; from there to 0.14, and a little over, it is as the last.
        (33.298, "thin_cut", [0.049]),
        (33.30, "go_on", [0.05]),
        (33.38, "go_on", [0.09]),
        (33.48, "go_on", [0.14]),
        (33.484, "measure_again", [0.072, 0.07]),
        (33.60, "measure_again", [0.10, 0.10]),
        (33.69, "measure_again", [0.125, 0.12]),
        (33.71, "measure_again", [0.085, 0.085, 0.085]),
        (34.40, "measure_again", [0.10] * 6),
    ],
)
def test_verdicts_outside(reading: float, verdict: str, depths: list[float]) -> None:
    done = outside(reading)
    cut = [one.cut_depth_mm for one in done.plan.of("finish_outside")[1:]]
    assert done.verdict == verdict and done.past == (verdict == "past")
    assert cut == pytest.approx(depths, abs=0.0051)
    assert done.offset_mm == pytest.approx(reading - 33.40) and done.tool == 1
    if cut and verdict not in ("past", "on_size"):
        last = done.plan.of("finish_outside")[-1]
        assert last.material_diameter_after_mm == pytest.approx(33.20, abs=0.0051)
        assert sum(depth or 0.0 for depth in cut) == pytest.approx((reading - 33.2) / 2.0, abs=0.0026)
        asked = [one.measure for one in done.plan.of("finish_outside")[1:]]
        assert asked[-2:-1] == (["outside"] if verdict == "measure_again" else [])


@pytest.mark.parametrize(
    ("reading", "verdict"),
    [
        (0.5694, "past"), (0.5706, "on_size"), (0.5894, "on_size"), (0.5906, "thin_cut"),
        (0.6290, "thin_cut"), (0.6301, "go_on"), (0.7199, "go_on"), (0.7301, "measure_again"),
    ],
)  # fmt: skip
def test_verdicts_in_the_bore(reading: float, verdict: str) -> None:
    """The wall read less 0.58; its window is 0.01."""
    done = wall(reading)
    assert (done.verdict, done.tool) == (verdict, 2)
    assert done.offset_mm == pytest.approx(33.2 - 2.0 * reading - 31.84)
    n, now = done.plan.measured_mm[0]
    assert planned().passes[n - 1].measure == "wall" and now == pytest.approx(33.2 - 2.0 * reading)


def test_how_far_off_a_reading_is_believed() -> None:
    """A millimetre on the diameter."""
    assert outside(32.401).past and outside(34.399).verdict == "measure_again"
    said = (
        "outside: {0:.3f} mm is too far from the 33.400 mm expected, over 1 mm on the diameter; measure again"
    )
    for reading in (32.399, 34.401):
        with pytest.raises(OutOfRange, match=said.format(reading)):
            outside(reading)
    assert wall(0.181).past and wall(1.179).verdict == "measure_again"
    for reading in (0.179, 1.181):
        with pytest.raises(OutOfRange, match=f"wall: {reading:.3f} mm is too far from the 0.680 mm expected"):
            wall(reading)


def test_what_is_said() -> None:
    kept = "tool {0} cuts {1} than it shows, on the diameter; kept for the next ring"
    off = kept.replace("; kept", "; over 0.10 mm, not kept")
    assert outside(33.43).words == ("0.115 mm left on the radius", kept.format(1, "0.030 mm larger"))
    assert outside(33.20).words == ("on size: no further pass", off.format(1, "0.200 mm smaller"))
    thin = "a thin cut: use the sharpest edge, or it rubs instead of cutting"
    assert outside(33.26).words == ("0.030 mm left on the radius", off.format(1, "0.140 mm smaller"), thin)
    again = "further from the size than usual: equal passes, and measure again before the last"
    assert outside(33.60).words == ("0.200 mm left on the radius", off.format(1, "0.200 mm larger"), again)
    assert "tool 1 cuts as it shows, on the diameter; kept for the next ring" in outside(33.40).words
    stop = "STOP: the {0} already, by {1} on the radius; nothing more is cut"
    small, big = outside(33.14), wall(0.55)
    assert small.words == (
        stop.format("outside is too small", "0.030 mm"),
        off.format(1, "0.260 mm smaller"),
    )
    assert big.words == (stop.format("bore is too big", "0.030 mm"), off.format(2, "0.260 mm larger"))
    further = "start a new ring further up the bar"
    assert small.ways_out == (
        "bore 31.98 mm keeps the wall of 0.58 mm",
        "make the bore smaller by the same amount: same wall, checked against the seat before it is parted",
        further,
    )
    assert big.ways_out == ("the next larger glass: the ring is parted and kept for it", further)
    assert small.same_wall_bore_mm == pytest.approx(31.98) and big.same_wall_bore_mm is None
    assert (outside(33.43).ways_out, outside(33.43).same_wall_bore_mm) == ((), None)
    unnumbered = outside(33.43, lathe=replace(LATHE, numbered_tools=False)).words
    assert unnumbered[1].startswith("the turning tool cuts 0.030 mm larger")


def test_a_past_size_leaves_the_passes_as_they_were() -> None:
    made = planned()
    done = replan(made, operation="finish_outside", reading_mm=33.14)
    assert done.plan.passes == made.passes and done.plan.order.offsets_mm == ((1, -0.26),)
    assert done.plan.read_after == (made.of("finish_outside")[0].n,)


def test_the_rest_of_the_plan_follows() -> None:
    """Other operations stay, spares are planned again with what was learned, numbers run on."""
    made = planned(spares=2, offsets_mm=((1, 0.01),))
    expected = made.of("finish_outside")[0]
    assert expected.offset_mm == 0.01 and expected.target_mm == 33.39
    done = replan(made, operation="finish_outside", reading_mm=33.43).plan
    ((tool, offset),) = done.order.offsets_mm
    assert tool == 1 and offset == pytest.approx(0.04)
    for act in ("finish_bore", "chamfer", "part", "dress"):
        for ring in (1, 2, 3):
            assert [one.reading_text for one in done.of(act, ring)] == [
                one.reading_text for one in made.of(act, ring)
            ]
    assert [one.n for one in done.passes] == list(range(1, len(done.passes) + 1))
    assert [one.operation for one in done.passes] == [one.operation for one in made.passes]
    assert done.of("finish_outside")[-1].target_mm == 33.16


def test_under_half_a_step_of_a_coarse_slide_nothing_is_cut() -> None:
    """Steps of 0.10: what is left, 0.02, is 0.04 on the diameter."""
    coarse = {"lathe": with_cross(shows="radius", step_mm=0.05), "bore_mm": 32.0}
    done = wall(0.62, **coarse)
    assert done.verdict == "on_size" and len(done.plan.of("finish_bore")) == 2
    assert (
        done.words[0] == "0.020 mm left on the radius, under half a step of the cross slide: no further pass"
    )
    assert wall(0.67, **coarse).verdict == "go_on"


def test_the_wall_is_kept_by_a_smaller_bore() -> None:
    """Outside 33.14 with a wall of 0.58: bore 31.98; from 31.44 it is 0.54 in three: 0.18 each."""
    small = replan(planned(spares=1), operation="finish_outside", reading_mm=33.14).plan
    kept = keep_the_wall(small, outside_mm=33.14)
    ring = kept.order.ring
    assert (ring.outside_diameter_mm, ring.bore_mm) == (33.14, 31.98)
    assert kept.passes[: small.read_after[0]] == small.passes[: small.read_after[0]]
    assert [one.cut_depth_mm for one in kept.of("finish_bore")] == pytest.approx([0.09, 0.09, 0.09])
    assert [one.measure for one in kept.of("finish_bore")] == ["", "wall", ""]
    assert kept.of("finish_bore")[0].before == small.of("finish_bore")[0].before
    assert (
        len(kept.of("finish_outside")) == 1
        and kept.of("finish_bore", 2)[-1].material_diameter_after_mm == 31.98
    )
    assert [one.n for one in kept.passes] == list(range(1, len(kept.passes) + 1))
    odd = keep_the_wall(small, outside_mm=33.13)
    # 0.53 in three: what is over goes to the first.
    assert [one.cut_depth_mm for one in odd.of("finish_bore")] == pytest.approx([0.095, 0.085, 0.085])


def test_only_a_pass_that_waits_takes_a_reading() -> None:
    with pytest.raises(
        OutOfRange, match="reading: no pass of 'part' waits for one; go on with the next pass"
    ):
        replan(planned(), operation="part", reading_mm=1.0)


def test_a_second_reading_is_held_against_the_depth_of_its_own_pass() -> None:
    """Two passes of 0.12 follow a reading of 33.68: 0.155 left after the first is as the 0.12 just cut."""
    first = outside(33.68)
    assert [one.cut_depth_mm for one in first.plan.of("finish_outside")[1:]] == pytest.approx([0.12, 0.12])
    for reading, verdict in ((33.51, "go_on"), (33.53, "measure_again")):
        again = replan(first.plan, operation="finish_outside", reading_mm=reading)
        assert again.verdict == verdict, reading
