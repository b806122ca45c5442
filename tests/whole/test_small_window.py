"""Below the smallest window one line is shown, which says that no key counts; and none does."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from bench.desk.desk import SMALLEST, Desk
from bench.desk.token import Token
from bench.desk.update import update
from screens.look import Look
from screens.view import view
from tests.whole.places import at
from tests.whole.repairer import Repairer

KEYS = (*"0123456789.", "enter", "back", "previous", "next", "list", "tab", "paste:1", "navigation", "char:x")
SMALL = ((39, 12), (40, 11), (20, 5), (1, 1), (200, 11), (39, 60))
PLACES = ("case_bore_1", "ring", "lathe_eyes", "drill", "outside_reading", "empty_check", "empty_result")


def resized(repairer: Repairer, columns: int, rows: int) -> None:
    """The window has another size, and its page stands there."""
    repairer.feed(Token("resized", at=repairer.seconds, wall=repairer.wall(), columns=columns, rows=rows))
    repairer.look()


@pytest.mark.parametrize("size", SMALL, ids=str)
@pytest.mark.parametrize("key", PLACES)
def test_no_key_answers(key: str, size: tuple[int, int]) -> None:
    repairer = at(key).copy()
    repairer.key("1")
    resized(repairer, *size)
    before, kept, dice = repairer.desk, list(repairer.bench.entries), random.Random(1)
    for _ in range(200):
        repairer.key(dice.choice(KEYS))
        repairer.wait(dice.choice((0.01, 0.1, 2)))
    after = repairer.desk
    assert repairer.bench.entries == kept
    assert (after.line, after.page, after.at) == (before.line, before.page, before.at)
    assert replace(after, now=before.now, wall=before.wall, bounce=before.bounce) == before
    resized(repairer, *SMALLEST)
    repairer.key("back")
    assert repairer.desk.line != before.line, "the keys count again"


def test_time_in_a_window_too_small_is_time_away() -> None:
    repairer = at("last_bore").copy()
    repairer.key("5")
    resized(repairer, 30, 8)
    for _ in range(4):
        repairer.wait(400)
        repairer.key("enter")
    resized(repairer, 80, 24)
    repairer.key("1")
    assert repairer.asked == "lathe_hands"


def test_a_check_painted_in_a_window_too_small_was_not_seen() -> None:
    repairer = at("lathe_hands").copy()
    resized(repairer, 30, 8)
    fresh = replace(repairer.desk, painted=(), painted_at=0.0)
    repairer.desk = fresh
    repairer.look()
    repairer.feed(Token("resized", at=repairer.seconds, columns=80, rows=24))
    repairer.key("0")
    repairer.key("enter")
    assert repairer.asked == "lathe_hands" and "too quick" in repairer.desk.message


@pytest.mark.parametrize("size", SMALL, ids=str)
def test_the_one_line_says_so(size: tuple[int, int]) -> None:
    desk, _ = update(Desk(), Token("resized", columns=size[0], rows=size[1]))
    (line,) = view(desk, Look("ascii"))
    text = "".join(piece for piece, _ in line)
    assert len(text) <= size[0]
    if size[0] >= 20:
        assert text.startswith("No key counts")
    if size[0] >= 39:
        assert "40 x 12" in text


def test_a_sign_held_back_is_let_go_of() -> None:
    """What the bounce filter holds when the window shrinks is dropped, not waited for."""
    desk, _ = update(Desk(), Token("key", "next", at=5.0))
    assert desk.bounce.held is not None
    desk, _ = update(desk, Token("resized", at=5.01, columns=30, rows=8))
    desk, _ = update(desk, Token("settle", at=5.1))
    assert desk.bounce.held is None
