"""A turn of the wheel reaches some terminals as arrow keys: it voids no answer and leaves no question."""

from __future__ import annotations

import random

import pytest

from bench.desk.token import Token
from bench.desk.wheel import MOVES_NOTHING
from tests.whole.places import at
from tests.whole.repairer import Repairer


def arrows(repairer: Repairer, text: str, many: int, *, apart_s: float = 0.0) -> None:
    """So many arrow keys, as a terminal hands on a turn of the wheel, or as a hand strikes them."""
    for _ in range(many):
        repairer.feed(Token("key", text, at=repairer.seconds, wall=repairer.wall(), boot=repairer.boot))
        repairer.wait(apart_s)


@pytest.mark.parametrize("text", ["arrow:previous", "arrow:next"])
@pytest.mark.parametrize("many", [2, 3, 5, 15])
def test_in_the_middle_of_an_answer_it_voids_nothing(text: str, many: int) -> None:
    repairer = at("glass_1")
    for character in "35":
        repairer.key(character)
        repairer.wait(0.2)
    arrows(repairer, text, many)
    assert (repairer.desk.line.text, repairer.desk.line.void) == ("35", "")
    assert repairer.desk.message == MOVES_NOTHING and "NumLock" not in repairer.desk.message
    for character in (".", "3", "1", "enter"):
        repairer.wait(0.5)
        repairer.key(character)
    assert repairer.keyed[-1] == "glass_1"


@pytest.mark.parametrize("key", ["glass_1", "lathe_eyes", "fit_outcome"])
@pytest.mark.parametrize("apart_s", [0.0, 0.02])
def test_with_nothing_typed_it_leaves_no_question(key: str, apart_s: float) -> None:
    repairer = at(key)
    for text in ("arrow:previous", "arrow:next", "arrow:previous"):
        arrows(repairer, text, 3, apart_s=apart_s)
        repairer.wait(0.3)
    assert repairer.step.key == key and not repairer.desk.looking_back
    repairer.look()
    repairer.answer()
    assert repairer.keyed[-1] == key


def test_on_a_page_of_text_it_goes_nowhere() -> None:
    repairer = at("glass_1")
    repairer.pick("why")
    arrows(repairer, "arrow:previous", 3)
    assert repairer.desk.page == "why"


def test_an_arrow_key_that_was_struck_still_moves_and_still_says_numlock() -> None:
    repairer = at("glass_1")
    arrows(repairer, "arrow:previous", 2, apart_s=0.3)
    assert repairer.step.key not in ("glass_1", "glass_way")
    arrows(repairer, "arrow:next", 2, apart_s=0.3)
    assert repairer.step.key == "glass_1"
    repairer.key("3")
    repairer.wait(0.2)
    arrows(repairer, "arrow:previous", 1)
    assert "NumLock is off" in repairer.desk.line.void


def test_nothing_that_was_saved_is_ever_undone_by_it() -> None:
    """After a quarter of an hour the first arrow begins a sitting, which is written: that stays."""
    repairer = at("glass_1")
    repairer.wait(16 * 60)
    before = len(repairer.bench.entries)
    arrows(repairer, "arrow:previous", 3)
    assert len(repairer.bench.entries) == before + 1 == len(repairer.desk.entries)
    repairer.look()
    repairer.answer()
    assert repairer.keyed[-1] == "glass_1"


def test_turned_at_any_moment_of_a_job_it_changes_no_answer() -> None:
    turned = 0
    for seed in range(12):
        chance, repairer = random.Random(seed), at("case_bore_1")
        while repairer.asked != "lathe_hands":
            if chance.random() < 0.8:
                arrows(repairer, chance.choice(["arrow:previous", "arrow:next"]), chance.choice([2, 3, 5]))
                repairer.wait(0.6)
                turned += 1
            repairer.answer()
        assert repairer.keyed == at("lathe_hands").keyed
    assert turned > 40
