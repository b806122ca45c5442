"""The screen that shows what arrives: gauges, bouncing keys and NumLock named in words."""

from __future__ import annotations

import pytest

from bench.desk.token import Leave, Token
from screens.keys_seen import KeysSeen, Seen, last_burst, name_key, update, verdict, view


def keys(text: str, step_ms: float) -> list[Seen]:
    """Keys at one pace."""
    return [Seen(10 + place * step_ms / 1000, letter, letter) for place, letter in enumerate(text)]


@pytest.mark.parametrize(
    ("seen", "words"),
    [
        ([], "nothing yet"),
        (keys("5", 1), "one key by hand"),
        (keys("36.42\r", 3), "a machine: 36.42, 3 ms a character, ended by CR"),
        (keys("+0033.30\r\n", 12), "a machine: +0033.30, 12 ms a character, ended by CR LF"),
        (keys("33.30", 0), "CHECK: no Enter at the end"),
        (keys("44", 20), "a bouncing key"),
        (keys("4444444", 33), "a key held down: 7 times, 33 ms apart"),
        ([Seen(1, "home", "")], "NumLock is off"),
        (keys("36.42", 300), "one key by hand"),
    ],
)
def test_the_verdict(seen: list[Seen], words: str) -> None:
    assert words in verdict(seen)
    assert "bounce filter makes" not in verdict(seen)


def test_a_burst_ends_at_a_pause() -> None:
    seen = [*keys("12", 300), *[Seen(20 + n / 1000, "3", "3") for n in range(4)]]
    assert len(last_burst(seen)) == 4


def key(name: str, character: str | None, at: float = 1.0) -> Token:
    """The token the shell makes of a key here."""
    return Token("key", name_key(name, character), at=at)


def test_every_key_is_shown_also_those_that_mean_nothing() -> None:
    desk = KeysSeen()
    for token in (
        key("num_lock", None),
        key("kp_decimal", None, 2.0),
        key("5", "5", 2.5),
        key("f1", None, 9.0),
    ):
        desk, effects = update(desk, token)
        assert effects == ()
    text = "\n".join("".join(part for part, _ in line) for line in view(desk))
    assert "num_lock" in text and "nothing (a modifier or lock alone)" in text
    assert "kp_decimal" in text and "spoils a number" in text
    assert "500" in text


def test_three_stars_leave_and_two_do_not() -> None:
    desk = KeysSeen()
    for at in (1.0, 2.0):
        desk, effects = update(desk, key("asterisk", "*", at))
        assert effects == ()
    assert update(desk, key("asterisk", "*", 3.0))[1] == (Leave(0),)


@pytest.mark.parametrize("size", [(80, 24), (40, 12), (20, 3)])
def test_the_page_keeps_to_the_window(size: tuple[int, int]) -> None:
    desk, _ = update(KeysSeen(), Token("resized", columns=size[0], rows=size[1]))
    for number in range(60):
        desk, _ = update(desk, key(str(number % 10), str(number % 10), float(number)))
    lines = view(desk)
    assert len(lines) <= max(size[1], 4)
    assert all(len("".join(text for text, _ in line)) <= size[0] for line in lines)
