"""Single slips of the hand on every number of the straight job,
through the desk to the figures that follow.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from bench.desk.desk import Desk
from bench.stages.common import Dimension
from rules.measuring.reading import Agreement
from tests.whole.script import Hand
from tests.whole.scripts import STRAIGHT, straight
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
from tests.whole.stated import with_the_rest_said

pytestmark = pytest.mark.xdist_group("slips")

IN_INCH = (
    ("case_bore_1", "14340"),
    ("case_bore_2", "14345"),
    ("glass_1", "1.3900"),
    ("glass_2", "1.3905"),
    ("seat_depth", "0.0570"),
    ("marking", "bar_5"),
)


def fine() -> Hand:
    """The straight job read to thousandths."""
    finer = {"case_bore_1": "36420", "case_bore_2": "36.440", "glass_1": "35310", "glass_2": "35.302"}
    return Hand([(key, finer.get(key, text)) for key, text in STRAIGHT])


Steps = tuple[dict[str, tuple[Desk, str]], dict[str, str]]
ONLY_READING = "seat_depth"
"""Asked once: no earlier reading and nothing expected, so a slip that stays ordinary cannot be known."""


@pytest.fixture(scope="module")
def steps(tmp_path_factory: pytest.TempPathFactory) -> Steps:
    """Every number step of the straight job, and the true answers."""
    return number_steps(tmp_path_factory.mktemp("slips"), straight())


THOUSANDTHS = """
[[instrument]]
name = "inside micrometer"
kind = "inside_micrometer"
resolution_mm = 0.001
limit_of_error_mm = 0.004
[[instrument]]
name = "micrometer"
kind = "micrometer"
resolution_mm = 0.001
limit_of_error_mm = 0.004
[[instrument]]
name = "ball micrometer"
kind = "ball_micrometer"
resolution_mm = 0.001
limit_of_error_mm = 0.004
"""
CALLIPER = """
[[instrument]]
name = "calliper"
kind = "calliper"
resolution_mm = 0.01
limit_of_error_mm = 0.03
"""
SHOPS: dict[str, tuple[str, float, Callable[[], Hand]]] = {
    "mm": (CALLIPER + THOUSANDTHS, 1.0, straight),
    "inch": ('works_in = "inch"\n', 25.4, lambda: Hand(IN_INCH)),
    "thousandths": (THOUSANDTHS + CALLIPER.replace('calliper"\nkind', 'old calliper"\nkind'), 1.0, fine),
}
"""What stands in shop.toml, what its pages speak in mm, and a job there."""
ORDINARY_BY_TWO = {"mm": "3.45", "inch": "0.0270", "thousandths": "3.45"}
"""Half, or more than twice, a depth of 1.45 mm, and still an ordinary one."""


def test_every_slip_is_tried() -> None:
    """Counted by hand for one digit: nothing, 9 others and the point,
    2 x 10 more digits and 2 points, less twins.
    """
    assert sorted(slips("7")) == sorted(
        {"", *"012345689.", *(f"7{key}" for key in "0123456789."), *(f"{key}7" for key in "012345689.")}
    )


@pytest.mark.parametrize("shop", SHOPS)
def test_no_slip_out_by_two_is_used(shop: str, tmp_path: Path) -> None:
    """In mm to hundredths with micrometers beside the calliper, in inch, and in thousandths."""
    words, in_mm, script = SHOPS[shop]
    desks, truth = number_steps(with_the_rest_said(tmp_path, words), script())
    measured = [key for key in desks if base_of(key) in PROOFS]
    assert {base_of(key) for key in measured} == set(PROOFS)
    total = Tally()
    for key in measured:
        desk, text = desks[key]
        tally = try_all(key, desk, text, truth, in_mm=in_mm)
        print(tally_words(key, text, tally))
        assert tally.slips >= 90 and tally.refused + tally.offered > tally.slips // 2, key
        if key != ONLY_READING:
            assert tally.used_by_two == [], key
            total.stored_by_two += tally.stored_by_two
        else:
            assert tally.used_by_two == [ORDINARY_BY_TWO[shop]]
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
    """A planted fault: any readings are taken as agreeing. A ring too high is asked about even so."""
    desks, truth = steps

    def all_agree(self: Dimension, values: list[float]) -> Agreement:
        return Agreement(tuple(range(len(values))), (), bool(values), None)

    monkeypatch.setattr(Dimension, "agreement", all_agree)
    for key in ("case_bore_2", "glass_2", "wall_1"):
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
