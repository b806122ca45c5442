"""Drawn jobs, drawn readings: whatever the reading, what is left ends on size or stops."""

from __future__ import annotations

import json
import random
from collections import Counter

import pytest

from bench.seals.lathe.turning_facts import from_text, to_text
from rules.checks import OutOfRange
from rules.turning.correction import Correction, replan
from rules.turning.passes import Plan
from rules.turning.planning import plan, plan_of
from tests.turning_draws import job

DRAWS = 300


def drawn_plan(seed: int) -> Plan:
    """The plan of a drawn job."""
    ring, set_up, _ = job(seed)
    return plan(ring=ring, set_up=set_up)


def corrected(made: Plan, operation: str, draw: random.Random) -> tuple[Correction, float]:
    """One reading somewhere near the promise, and the diameter that it means."""
    waiting = next(one for one in made.of(operation) if one.measure and one.n not in made.read_after)
    promised = waiting.material_diameter_after_mm or 0.0
    error = draw.gauss(0.0, 0.12)
    if operation == "finish_outside":
        return replan(made, operation=operation, reading_mm=promised + error), promised + error
    wall = (outside_that_stands(made) - promised - error) / 2.0
    return replan(made, operation=operation, reading_mm=wall), promised + error


def outside_that_stands(made: Plan) -> float:
    """The outside as the last pass leaves it, or as it was measured where none follows."""
    last = made.of("finish_outside")[-1]
    return dict(made.measured_mm).get(last.n) or last.material_diameter_after_mm or 0.0


def wrong_with(done: Correction, operation: str, now: float, limit: float) -> str:
    """What is wrong with a correction, by arithmetic of its own on the diameters."""
    made = done.plan
    ring, data = made.order.ring, made.order.data
    outside = operation == "finish_outside"
    wanted = ring.outside_diameter_mm if outside else ring.bore_mm
    left = (now - wanted if outside else wanted - now) / 2.0
    after = [one for one in made.of(operation) if one.n > made.read_after[-1]]
    if done.past:
        return "" if left < -limit and done.ways_out else f"past with {left} left"
    half_step = made.order.lathe.cross.step_on_diameter_mm / 2.0 + 1e-6
    if done.verdict == "on_size":
        nearest = max(limit, half_step / 2.0) if "half a step" in done.words[0] else limit
        return "" if not after and abs(left) <= nearest + 1e-9 else f"on size with {left} left"
    end = after[-1].material_diameter_after_mm or 0.0
    if abs(end - wanted) > half_step:
        return f"ends on {end} instead of {wanted}"
    depths = [one.cut_depth_mm or 0.0 for one in after]
    if abs(sum(depths) - abs(end - now) / 2.0) > 1e-5:
        return f"depths {depths} do not take {left}"
    if done.verdict != "thin_cut" and min(depths) < data.least_depth - half_step / 2.0 - 1e-6:
        return f"depth {min(depths)} is under the least"
    if done.verdict == "measure_again" and (len(after) < 2 or not after[-2].measure):
        return "no second reading"
    if [one.n for one in made.passes] != list(range(1, len(made.passes) + 1)):
        return "numbers"
    return ""


def test_what_is_left_ends_on_size_or_stops() -> None:
    seen: Counter[str] = Counter()
    caught = 0
    for seed in range(DRAWS):
        draw = random.Random(seed)
        made = drawn_plan(seed)
        for operation in ("finish_outside", "finish_bore"):
            limit = 0.01  # of the wall; of the outside 0.02 on the diameter
            done, now = corrected(made, operation, draw)
            assert wrong_with(done, operation, now, limit) == "", (seed, operation, done.verdict)
            caught += not done.past and wrong_with(done, operation, now + 2.0, limit) != ""
            seen[done.verdict] += 1
            made = made if done.past else done.plan
    print(f"verdicts: {dict(sorted(seen.items()))}; a reading mistaken by 2 mm noticed {caught} times")
    assert min(seen[verdict] for verdict in ("go_on", "measure_again", "thin_cut", "on_size", "past")) >= 10
    assert caught == sum(seen.values()) - seen["past"]


def test_an_order_kept_as_text_gives_the_same_plan() -> None:
    longest = 0
    for seed in range(60):
        made = drawn_plan(seed)
        text = to_text(made.order)
        longest = max(longest, len(text))
        assert from_text(text) == made.order
        assert plan_of(from_text(text)) == made
    print(f"longest order {longest} characters")
    assert longest < 4000


@pytest.mark.parametrize("spoil", ["", "{", "[]", "null", '{"ring":{}}', "[" * 100_000])
def test_a_text_that_is_no_order_is_refused(spoil: str) -> None:
    with pytest.raises(OutOfRange):
        from_text(spoil)


def test_a_kept_order_is_checked_again() -> None:
    raw = json.loads(to_text(drawn_plan(0).order))
    raw["bar"]["diameter_mm"] = -5.0
    with pytest.raises(OutOfRange, match="bar diameter: -5 mm"):
        from_text(json.dumps(raw))


def test_a_nonsense_reading_never_changes_the_plan() -> None:
    made = drawn_plan(1)
    for reading in (0.0, -1.0, 1e9, float("nan"), float("inf")):
        with pytest.raises(OutOfRange):
            replan(made, operation="finish_outside", reading_mm=reading)
