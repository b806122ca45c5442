"""What a number that does not fit probably is, and how near is near; the clocks of hands and machines."""

from __future__ import annotations

import math

import pytest

from bench.desk.pace import Pace, by_machine, crosses, even_run, lost, mixed, one_less, quick_run, with_key
from bench.desk.suspicion import suspect, swaps

EARLIER = [32.14, 32.16, 32.10]
POINT = "(the point in the wrong place?)"


@pytest.mark.parametrize(
    ("value", "said"),
    [
        (32.34, ""),
        (31.94, ""),
        (321.4, f"looks like ten times the earlier reading {POINT}"),
        (3.21, f"looks like a tenth of the earlier reading {POINT}"),
        (1.27, "looks like the earlier reading in inch (is the gauge set to inch?)"),
        (816.4, "looks like 25.4 times the earlier reading (inch and mm mixed up?)"),
        (3214.0, f"looks like a hundred times the earlier reading {POINT}"),
        (0.32, f"looks like a hundredth of the earlier reading {POINT}"),
        (23.14, "looks like the earlier reading with two digits swapped"),
        (31.24, "looks like the earlier reading with two digits swapped"),
        (32.41, "looks like the earlier reading with two digits swapped"),
        (44.0, ""),
        (323.40, f"looks like ten times the earlier reading {POINT}"),
        (323.42, ""),
        (319.38, ""),
    ],
)
def test_a_number_beside_earlier_ones(value: float, said: str) -> None:
    """Held against the middle one, 32.14, within 0.20."""
    assert suspect(value, EARLIER, 4.0, 80.0) == said


@pytest.mark.parametrize(("value", "swapped"), [(0.312, False), (8.273, True), (2.783, False), (8.283, True)])
def test_digits_are_swapped_only_where_that_gives_the_reading_back(value: float, swapped: bool) -> None:
    """3.012 is no reading of a bar of 2.873, though nearer to it than 0.20."""
    assert ("swapped" in suspect(value, [2.873], 0.1, 9.0, decimals=3)) == swapped


@pytest.mark.parametrize(
    ("value", "said"),
    [
        (4.0, ""),
        (80.0, ""),
        (
            321.4,
            f"looks like ten times what can be {POINT}, or 25.4 times what can be (inch and mm mixed up?)",
        ),
        (
            1.27,
            f"looks like a tenth of what can be {POINT}, or what can be in inch (is the gauge set to inch?)",
        ),
        (9000.0, ""),
    ],
)
def test_a_number_alone_is_suspected_only_outside_what_can_be(value: float, said: str) -> None:
    assert suspect(value, [], 4.0, 80.0) == said


def test_neighbouring_digits_swapped() -> None:
    assert list(swaps(12.3, 1)) == [21.3, 13.2] and list(swaps(11.2, 1)) == [12.1]
    assert list(swaps(-0.12, 2)) == [1.02, 0.21] and list(swaps(5.0, 0)) == []


@pytest.mark.parametrize(
    ("steps", "machine"),
    [
        ((), False),
        ((0.029,), True),
        ((0.03,), False),
        ((0.01, 0.2), False),
        ((0.01, 0.01, 0.2), True),
        ((0.08, 0.085, 0.09), True),
        ((0.08, 0.085, 0.096), False),
        ((0.099, 0.099, 0.101), False),
        ((0.2, 0.08, 0.08, 0.08, 0.3), True),
        ((0.08, 0.08), False),
    ],
)
def test_whether_a_machine_typed(steps: tuple[float, ...], machine: bool) -> None:
    """Most steps under 30 ms, or four keys on end under 100 ms that differ by less than 15."""
    assert by_machine(steps) == machine


def test_runs_and_what_is_mixed() -> None:
    assert quick_run((0.01, 0.02, 0.2)) == 0.02 and quick_run((0.01, 0.03)) == math.inf
    assert even_run((0.05, 0.055, 0.06, 0.2)) == 0.06 and even_run((0.05, 0.06, 0.07)) == math.inf
    assert not mixed(()) and not mixed((0.2, 0.3, 0.4))
    assert not mixed((0.01, 0.02, 0.049)) and mixed((0.01, 0.02, 0.051))
    assert mixed((0.05, 0.05, 0.05, 0.09)) and not mixed((0.05, 0.05, 0.05, 0.079))


def test_the_first_key_of_a_line() -> None:
    """Too soon after a number for half a second, a tail of something lost for a tenth."""
    before = Pace(
        last_at=9.0, number_at=10.0, broken_at=10.0, taken="3.21", steps=(0.2,), held=True, astray=True
    )
    for at, soon, jammed in (
        (10.05, True, True),
        (10.11, True, False),
        (10.49, True, False),
        (10.5, False, False),
    ):
        pace = with_key(before, at, first=True, unseen=False)
        assert (pace.soon, pace.jammed, pace.steps, pace.held, pace.astray) == (
            soon,
            jammed,
            (),
            False,
            False,
        )
        assert pace.last_at == at and pace.after_s == pytest.approx(at - 10.0)
    assert with_key(Pace(taken=""), 5.0, first=True, unseen=False).after_s == math.inf
    assert with_key(Pace(last_at=4.95, unseen=True), 5.0, first=True, unseen=False).unseen
    assert not with_key(Pace(last_at=4.89, unseen=True), 5.0, first=True, unseen=False).unseen
    assert with_key(Pace(), 5.0, first=True, unseen=True).unseen


def test_a_further_key_of_a_line() -> None:
    one = with_key(Pace(last_at=1.0, steps=(0.2,)), 1.25, first=False, unseen=False)
    assert one.steps == (0.2, 0.25) and one.last_at == 1.25 and not one.jammed
    astray = Pace(last_at=1.0, astray=True)
    assert with_key(astray, 1.02, first=False, unseen=False).jammed
    assert not with_key(astray, 1.03, first=False, unseen=False).jammed
    assert with_key(Pace(last_at=1.0, steps=(0.01, 0.01)), 1.2, first=False, unseen=False).jammed
    assert Pace(last_at=5.0).since(4.0) == 0.0 and Pace(last_at=5.0).since(5.5) == 0.5


def test_keys_taken_back_and_lost() -> None:
    pace = Pace(last_at=1.0, steps=(0.2, 0.3), broken_at=0.9)
    less = one_less(pace, 1.05, typing=True)
    assert (less.steps, less.last_at, less.broken_at, less.astray) == ((0.2,), 1.05, -math.inf, True)
    assert not one_less(pace, 1.1, typing=True).astray and not one_less(pace, 1.05, typing=False).astray
    assert (lost(pace, 3.0).last_at, lost(pace, 3.0).broken_at) == (3.0, 3.0)


@pytest.mark.parametrize(
    ("steps", "after", "text", "ended", "fits", "crossed"),
    [
        ((0.2,), 0.39, "4.56", True, True, True),
        ((0.1,), 0.39, "4.56", True, True, True),
        ((0.2,), 0.40, "4.56", True, True, False),
        ((0.01,), 0.09, "4.56", True, True, False),
        ((0.01,), 0.09, "14.56", True, True, True),
        ((0.01,), 0.10, "14.56", True, True, False),
        ((0.01,), 0.09, "4.5", False, True, False),
        ((0.01,), 0.09, "45", False, True, True),
        ((0.01,), 0.09, "4.5", True, True, True),
        ((0.01,), 0.09, "4.56", True, False, True),
        ((0.01,), 0.09, "3.21", True, False, False),
        ((), 0.09, "14", False, True, True),
    ],
)
def test_a_line_that_ran_through_the_reading_before(
    steps: tuple[float, ...], after: float, text: str, ended: bool, fits: bool, crossed: bool
) -> None:
    """The reading 3.21 was taken; what follows at once is the same form again, or of another stream."""
    pace = Pace(taken="3.21", steps=steps, after_s=after)
    assert crosses(pace, text, ended=ended, fits=fits) == crossed
    assert not crosses(Pace(steps=steps, after_s=after), text, ended=ended, fits=fits)
