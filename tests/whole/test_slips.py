"""Single slips of the hand on every number of the straight job,
through the desk to the figures that follow.
"""

from __future__ import annotations

import pytest

from bench.desk.desk import Desk
from bench.stages.common import Dimension
from rules.measuring.reading import Agreement
from tests.whole.slips import (
    FACTOR,
    PROOFS,
    Tally,
    base_of,
    key_in,
    number_steps,
    refused_checks,
    slips,
    tally_words,
    try_all,
)

Steps = tuple[dict[str, tuple[Desk, str]], dict[str, str]]
ONLY_READING = "seat_depth"
"""Asked once: no earlier reading and nothing expected, so a slip that stays ordinary cannot be known."""


@pytest.fixture(scope="module")
def steps(tmp_path_factory: pytest.TempPathFactory) -> Steps:
    """Every number step of the straight job, and the true answers."""
    return number_steps(tmp_path_factory.mktemp("slips"))


def test_every_slip_is_tried() -> None:
    """Counted by hand for one digit: nothing, 9 others and the point,
    2 x 10 more digits and 2 points, less twins.
    """
    assert sorted(slips("7")) == sorted(
        {"", *"012345689.", *(f"7{key}" for key in "0123456789."), *(f"{key}7" for key in "012345689.")}
    )


def test_no_slip_out_by_two_is_used(steps: Steps) -> None:
    desks, truth = steps
    measured = [key for key in desks if base_of(key) in PROOFS]
    assert {base_of(key) for key in measured} == set(PROOFS)
    total = Tally()
    for key in measured:
        desk, text = desks[key]
        tally = try_all(key, desk, text, truth)
        print(tally_words(key, text, tally))
        assert tally.slips >= 90 and tally.refused > tally.slips // 2, key
        if key != ONLY_READING:
            assert tally.used_by_two == [], key
            total.stored_by_two += tally.stored_by_two
        else:
            assert tally.used_by_two == ["3.45"]
        total.slips += tally.slips
        total.used += tally.used
    assert total.slips > 1200 and total.stored_by_two > 30
    print(f"{total.slips} slips, {total.used} used")
    assert total.used <= 15


def test_slips_on_numbers_that_are_read_back(steps: Steps) -> None:
    """Taken as right only where leading noughts or the tolerance of a whole millimetre make them so."""
    desks, _ = steps
    read_back = {
        key: pair for key, pair in desks.items() if pair[0].step and pair[0].step.readback is not None
    }
    assert set(read_back) >= {"lathe_hands", "lathe_bar", "lathe_speed", "tool_boring", "tool_parting"}
    for key, (desk, text) in read_back.items():
        count = refused_checks(desk, text)
        print(f"{key:<18} {text:>4}: {dict(count)}")
        assert count["right"] <= (3 if key == "lathe_bar" else 1), key
        assert count["wrong"] > 20, key


def test_no_slip_on_a_pressure_goes_above_what_is_offered(steps: Steps) -> None:
    desk, _ = steps[0]["empty_pressure"]
    stored = []
    for slip in slips("3.0"):
        after, kept = key_in(desk, slip)
        if kept and slip != "1":
            stored.append(float(str(after.entries[-1].value).split()[0]))
    print(f"empty_pressure     3.0: {len(stored)} stored, {min(stored)} to {max(stored)} bar")
    assert stored and max(stored) <= 3.0


def test_readings_that_need_not_agree_are_found(steps: Steps, monkeypatch: pytest.MonkeyPatch) -> None:
    """A planted fault: any readings are taken as agreeing."""
    desks, truth = steps

    def all_agree(self: Dimension, values: list[float]) -> Agreement:
        return Agreement(tuple(range(len(values))), (), bool(values), None)

    monkeypatch.setattr(Dimension, "agreement", all_agree)
    for key in ("case_bore_2", "glass_2", "wall_1", "ring_height"):
        tally = try_all(key, *desks[key], truth)
        assert tally.used_by_two and tally.used >= 10, (key, FACTOR)


@pytest.mark.parametrize(
    ("key", "first", "second"),
    [
        ("outside_reading", "34672", "34680"),
        ("outside_reading", "38000", "38010"),
        ("wall_reading", "1.900", "1.910"),
        ("wall_reading", "0.150", "0.151"),
    ],
)
def test_two_odd_readings_that_agree_leave_the_job_usable(
    steps: Steps, key: str, first: str, second: str
) -> None:
    """A slide that shows the radius makes such a ring, and it is measured truly, twice."""
    desk, _ = steps[0][key]
    for text in (first, second):
        desk, stored = key_in(desk, text)
        assert stored
    assert desk.step is not None
