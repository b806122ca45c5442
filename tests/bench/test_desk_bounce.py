"""The bounce filter: worn switches, held keys and fast gauges; simulated in numbers in the campaign."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from bench.desk.bounce import Bounce, settle_ms, strain
from bench.desk.token import Token
from tests.campaigns import bounce as campaign


def passed(*presses: tuple[float, str], typing: bool = True, window_ms: int = 80) -> list[str]:
    """What comes out of the filter; times in ms, the text settle is a settle."""
    state, out = Bounce(), []
    for at_ms, text in presses:
        kind = "settle" if text == "settle" else "key"
        token = Token(kind, text, at=10 + at_ms / 1000)
        state, through = strain(state, token, typing=typing, window_ms=window_ms)
        out += [token.kind if token.kind == "undo" else token.text for token in through]
    return out


def test_a_bounce_is_dropped() -> None:
    assert passed((0, "4"), (20, "4"), (120, "settle"), (200, "2")) == ["4", "2"]
    assert passed((0, "4"), (20, "4"), (200, "2")) == ["4", "2"]


def test_the_same_key_again_by_hand_counts() -> None:
    assert passed((0, "3"), (130, "3"), (260, "3")) == ["3", "3", "3"]


def test_a_gauge_may_repeat_a_digit() -> None:
    fast = [(2.0 * place, letter) for place, letter in enumerate("0033.33")]
    assert passed(*fast, (14, "enter")) == [*"0033.33", "enter"]


def test_a_gauge_as_slow_as_75_ms_may_repeat_a_digit() -> None:
    slow = [(75.0 * place, letter) for place, letter in enumerate("33.00")]
    assert passed(*slow, (375, "enter")) == [*"33.00", "enter"]


def test_a_bounce_with_the_next_key_close_behind_is_dropped() -> None:
    assert passed((0, "4"), (15, "4"), (92, "2")) == ["4", "2"]


def test_a_second_enter_is_never_let_go() -> None:
    assert passed((0, "enter"), (1, "enter"), (2, "3")) == ["enter", "3"]


def test_a_key_held_down_makes_one_character() -> None:
    held = [(0, "2"), (300, "2"), *[(333 + 33 * n, "2") for n in range(10)]]
    assert passed(*held) == ["2", "2", "undo"]
    assert passed(*held, (680, "5")) == ["2", "2", "undo", "5"]


def test_a_sign_before_a_digit_belongs_to_the_reading() -> None:
    assert passed((0, "back"), (10, "3"), typing=False) == ["char:-", "3"]
    assert passed((0, "next"), (30, "."), typing=False) == ["char:+", "."]


def test_a_sign_by_itself_is_the_key_it_is() -> None:
    assert passed((0, "next"), typing=False) == []
    assert passed((0, "next"), (31, "settle"), typing=False) == ["next"]
    assert passed((0, "next"), (100, "3"), typing=False) == ["next", "3"]
    assert passed((0, "next"), (10, "list"), typing=False) == ["next", "list"]
    assert passed((0, "back"), typing=True) == ["back"]


def test_settle_is_asked_for_only_while_something_is_held() -> None:
    state, _ = strain(Bounce(), Token("key", "4", at=1.0), typing=True)
    assert settle_ms(state) == 0
    state, _ = strain(state, Token("key", "4", at=1.01), typing=True)
    assert settle_ms(state) == 100
    state, _ = strain(state, Token("settle", at=1.1), typing=True)
    assert settle_ms(state) == 0
    state, _ = strain(state, Token("key", "next", at=2.0), typing=False)
    assert settle_ms(state) == 30


def test_other_tokens_pass_untouched() -> None:
    tick = Token("tick", at=3.0)
    assert strain(Bounce(), tick, typing=False) == (Bounce(), (tick,))


def test_the_window_is_adjustable_from_0_to_500_ms() -> None:
    assert passed((0, "4"), (20, "4"), window_ms=0) == ["4", "4"]
    assert passed((0, "4"), (400, "4"), (950, "settle"), window_ms=500) == ["4"]
    for window_ms in (-1, 501):
        with pytest.raises(ValueError, match="0 to 500 ms"):
            passed((0, "4"), window_ms=window_ms)


@given(
    st.lists(
        st.tuples(st.floats(0, 400), st.sampled_from(["1", "2", ".", "enter", "back", "next"])), max_size=30
    ),
    st.booleans(),
)
def test_nothing_is_invented_and_different_keys_are_never_lost(
    steps: list[tuple[float, str]], typing: bool
) -> None:
    at, presses = 0.0, []
    for step, text in steps:
        at += step
        presses.append((at, text))
    out = passed(*presses, (at + 600, "settle"), typing=typing)
    plain = [{"char:-": "back", "char:+": "next"}.get(text, text) for text in out if text != "undo"]
    changes = [text for place, (_, text) in enumerate(presses) if place == 0 or presses[place - 1][1] != text]
    came = iter(text for _, text in presses)
    assert all(text in came for text in plain)  # in order, each at most as often as it came
    left = iter(plain)
    assert all(text in left for text in changes)


def test_the_simulation_alters_few_numbers_and_no_reading() -> None:
    counts = campaign.run()
    assert (
        counts.seen["bounced"] > 200 and counts.seen["held down"] > 30 and counts.seen["doubled digits"] > 200
    )
    assert counts.unfiltered > 0.15 * counts.numbers
    assert counts.altered <= 0.005 * counts.numbers
    assert counts.unnoticed == counts.broken == counts.accepted_twice == 0


def test_the_simulation_sees_a_planted_fault() -> None:
    assert campaign.run(sieve=campaign.always_dropping).broken > 500
    assert campaign.run(sieve=campaign.always_releasing).altered > 100
