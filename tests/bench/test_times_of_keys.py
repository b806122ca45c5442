"""Times between keys on either side of each limit: the bounce filter and the pace of hands and machines."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from bench.desk.bounce import Bounce, settle_ms, strain
from bench.desk.pace import (
    Pace,
    by_machine,
    crosses,
    even_run,
    lost,
    mixed,
    one_less,
    quick_run,
    with_key,
)
from bench.desk.token import Token
from tests.bench.test_desk_bounce import passed


@pytest.mark.parametrize(
    ("presses", "out"),
    [
        # The window is 80 ms: at 79 the same key is held back, at 80 it counts.
        ([(0, "4"), (79, "4")], ["4"]),
        ([(0, "4"), (80, "4")], ["4", "4"]),
        # What is held is passed on when a different key follows within it, faster than hands (40 ms) ...
        ([(0, "4"), (10, "4"), (49, "5")], ["4", "4", "5"]),
        ([(0, "4"), (10, "4"), (51, "5")], ["4", "5"]),
        # ... or in an even step (15 ms of difference is not even) ...
        ([(0, "4"), (50, "4"), (114, "5")], ["4", "4", "5"]),
        ([(0, "4"), (50, "4"), (116, "5")], ["4", "5"]),
        ([(0, "4"), (50, "4"), (131, "5")], ["4", "5"]),
        # ... or where a machine was at it before: its lead was within the window.
        ([(0, "3"), (79, "4"), (89, "4"), (150, "5")], ["3", "4", "4", "5"]),
        ([(0, "3"), (81, "4"), (91, "4"), (152, "5")], ["3", "4", "5"]),
        # How often it came is kept.
        ([(0, "4"), (10, "4"), (20, "4"), (30, "5")], ["4", "4", "4", "5"]),
        # What belongs to no reading is never let go.
        ([(0, "next"), (10, "next"), (20, "5")], ["next", "5"]),
        ([(0, "char:-"), (10, "char:-"), (20, "5")], ["char:-", "char:-", "5"]),
        ([(0, "."), (10, "."), (20, "5")], [".", ".", "5"]),
        # Settled once the window is over, not before.
        ([(0, "4"), (10, "4"), (89, "settle"), (89, "5")], ["4", "5"]),
        ([(0, "4"), (10, "4"), (30, "settle"), (40, "5")], ["4", "4", "5"]),
        ([(0, "4"), (10, "4"), (91, "settle"), (92, "5")], ["4", "5"]),
    ],
)
def test_what_comes_out_of_the_filter(presses: list[tuple[float, str]], out: list[str]) -> None:
    assert passed(*presses) == out


@pytest.mark.parametrize(("pause", "undone"), [(149, False), (151, True), (1199, True), (1201, False)])
def test_a_key_held_down_is_told_by_the_pause_before_it_repeats(pause: float, undone: bool) -> None:
    repeats = [(0, "4"), (pause, "4"), (pause + 33, "4"), (pause + 66, "4")]
    assert passed(*repeats) == ["4", "4", *(["undo"] if undone else [])]
    assert ("undo" in passed(*[(at, "next") for at, _ in repeats])) is False


@pytest.mark.parametrize(("gap", "key"), [(29, "char:-"), (31, "back")])
def test_a_sign_belongs_to_a_reading_for_thirty_milliseconds(gap: float, key: str) -> None:
    assert passed((0, "back"), (gap, "3"), typing=False) == [key, "3"]
    assert passed((0, "back"), (gap, "."), typing=False) == [key, "."]
    assert passed((0, "back"), (gap, "next"), typing=False)[0] == "back"
    assert passed((0, "back"), (gap, "3"), typing=True) == ["back", "3"]


@pytest.mark.parametrize("window", [-1, 501])
def test_a_window_that_cannot_be(window: int) -> None:
    with pytest.raises(ValueError, match=f"bounce window {window} ms: 0 to 500 ms are possible"):
        strain(Bounce(), Token("key", "4", at=1.0), typing=True, window_ms=window)


def test_the_longest_window_and_none() -> None:
    assert passed((0, "4"), (499, "4"), window_ms=500) == ["4"] and passed(
        (0, "4"), (0, "4"), window_ms=0
    ) == ["4", "4"]
    state, _ = strain(Bounce(), Token("key", "4", at=1.0), typing=True, window_ms=200)
    state, _ = strain(state, Token("key", "4", at=1.1), typing=True, window_ms=200)
    assert settle_ms(state, window_ms=200) == 220
    painted = Token("painted", at=2.0)
    assert strain(state, painted, typing=True) == (state, (painted,))


@pytest.mark.parametrize(
    ("steps", "quick", "even", "machine", "two"),
    [
        ((), math.inf, math.inf, False, False),
        ((0.029,), math.inf, math.inf, True, False),
        ((0.03,), math.inf, math.inf, False, False),
        ((0.029, 0.028), 0.029, math.inf, True, False),
        ((0.03, 0.02), math.inf, math.inf, True, False),
        ((0.07, 0.08, 0.075), math.inf, 0.08, True, False),
        ((0.07, 0.085, 0.075), math.inf, math.inf, False, False),
        ((0.09, 0.099, 0.092), math.inf, 0.099, True, False),
        ((0.09, 0.101, 0.099), math.inf, math.inf, False, False),
        # A pause of more than 30 ms beyond the longest step of the run is of another hand.
        ((0.01, 0.02, 0.049), 0.02, math.inf, True, False),
        ((0.01, 0.02, 0.051), 0.02, math.inf, True, True),
        ((0.07, 0.08, 0.075, 0.109), math.inf, 0.08, True, False),
        ((0.07, 0.08, 0.075, 0.111), math.inf, 0.08, True, True),
        ((0.2, 0.3, 0.01, 0.02), 0.02, math.inf, False, True),
    ],
)
def test_steps_of_hands_and_machines(
    steps: tuple[float, ...], quick: float, even: float, machine: bool, two: bool
) -> None:
    assert (quick_run(steps), even_run(steps), by_machine(steps), mixed(steps)) == (quick, even, machine, two)


def test_the_first_key_of_a_line() -> None:
    known = Pace(last_at=9.9, number_at=9.0, broken_at=9.0, taken="1.25", held=True, jammed=True, astray=True)
    first = with_key(known, 10.0, first=True, unseen=False)
    assert (first.last_at, first.steps, first.soon, first.unseen, first.after_s) == (
        10.0,
        (),
        False,
        False,
        1.0,
    )
    assert not (first.held or first.jammed or first.astray)
    for number, soon in ((9.51, True), (9.49, False), (10.5, True)):
        assert with_key(replace(known, number_at=number), 10.0, first=True, unseen=False).soon is soon
    for broken, jammed in ((9.91, True), (9.89, False)):
        assert with_key(replace(known, broken_at=broken), 10.0, first=True, unseen=False).jammed is jammed
    assert with_key(known, 10.0, first=True, unseen=True).unseen
    for last, unseen in ((9.91, True), (9.89, False)):
        sign = replace(known, unseen=True, last_at=last)
        assert with_key(sign, 10.0, first=True, unseen=False).unseen is unseen
    assert with_key(replace(known, taken=""), 10.0, first=True, unseen=False).after_s == math.inf


def test_a_further_key_of_a_line() -> None:
    known = Pace(last_at=9.98, steps=(0.01, 0.02))
    after = with_key(known, 10.0, first=False, unseen=True)
    assert after.steps == pytest.approx((0.01, 0.02, 0.02)) and (
        after.last_at,
        after.unseen,
        after.jammed,
    ) == (10.0, False, False)
    assert with_key(known, 10.04, first=False, unseen=False).jammed
    for at, jammed in ((10.009, True), (10.011, False)):
        astray = Pace(last_at=9.98, steps=(0.5,), astray=True)
        assert with_key(astray, at, first=False, unseen=False).jammed is jammed
    back = with_key(known, 9.0, first=False, unseen=False)
    assert back.steps[-1] == 0.0, "a clock that jumps back is no time"


def test_keys_that_take_back_or_count_for_nothing() -> None:
    known = Pace(last_at=10.0, steps=(0.2, 0.3), broken_at=9.0)
    for at, astray in ((10.09, True), (10.11, False)):
        less = one_less(known, at, typing=True)
        assert (less.astray, less.steps, less.broken_at, less.last_at) == (astray, (0.2,), -math.inf, at)
        assert not one_less(known, at, typing=False).astray
    gone = lost(known, 10.5)
    assert (gone.last_at, gone.broken_at, gone.steps) == (10.5, 10.5, (0.2, 0.3))
    assert (Pace().since(3.0), known.since(10.25), known.since(9.0)) == (math.inf, 0.25, 0.0)


@pytest.mark.parametrize(
    ("taken", "text", "steps", "after", "ended", "fits", "crossed"),
    [
        ("", "12.50", (0.01,), 0.01, True, True, False),
        # Keyed on by hands within 0.4 s of the reading taken.
        ("12.50", "3", (0.1,), 0.39, False, True, True),
        ("12.50", "3", (0.1,), 0.41, False, True, False),
        # Sent on sooner than hands could, and of another form.
        ("12.50", "12.5", (0.01,), 0.05, True, True, True),
        ("12.50", "99.99", (0.01,), 0.05, True, True, False),
        ("12.50", "12.5", (0.01,), 0.05, False, True, False),
        ("12.50", "1.2", (0.01,), 0.09, False, True, True),
        ("12.50", "1.2", (0.01,), 0.11, False, True, False),
        ("12.50", "99.9", (0.01,), 0.05, False, False, True),
        ("12.50", "12.5", (0.01,), 0.05, False, False, False),
        ("12.50", "1.2", (), 0.09, False, True, True),
    ],
)
def test_a_line_that_ran_through_the_reading_before(
    taken: str, text: str, steps: tuple[float, ...], after: float, ended: bool, fits: bool, crossed: bool
) -> None:
    pace = Pace(taken=taken, steps=steps, after_s=after)
    assert crosses(pace, text, ended=ended, fits=fits) is crossed
