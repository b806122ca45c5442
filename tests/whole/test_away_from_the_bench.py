"""A quarter of an hour away, awake or asleep, on whatever page: turning does not go on unchecked."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest

from bench.desk.token import Token
from bench.stages.guard import LATHE_CHECKS
from tests.campaigns.lathe_walker import recorded
from tests.whole.lathe_judge import fault
from tests.whole.places import at
from tests.whole.repairer import Repairer
from tests.whole.seen import read

PAGES: dict[str, Callable[[Repairer], None]] = {
    "step": lambda repairer: None,
    "list": lambda repairer: repairer.key("list"),
    "why": lambda repairer: repairer.pick("why"),
    "keys": lambda repairer: repairer.pick("keys"),
    "sheet": lambda repairer: repairer.pick("sheet"),
    "pick": lambda repairer: repairer.pick("replace"),
    "text": lambda repairer: repairer.pick("note"),
}
AWAY: dict[str, Callable[[Repairer], None]] = {
    "idle": lambda repairer: repairer.wait(901),
    "asleep": lambda repairer: repairer.sleep(12 * 3600),
    "half and half": lambda repairer: (repairer.wait(451), repairer.sleep(451))[0],  # type: ignore[func-returns-value]
}


def at_turning(*, boot: bool = True) -> Repairer:
    """A repairer before the last pass in the bore, all checks given."""
    repairer = at("last_bore").copy()
    repairer.tells_boot = boot
    repairer.key("5")
    repairer.key("back")
    return repairer


def go_on(repairer: Repairer, came_back: int) -> Iterator[str]:
    """Keys that lead to the step again from any page, and what is wrong with what is seen after each."""
    for key in ("1", "previous", "previous", "previous", "next", "next", "next", "next"):
        repairer.key(key)
        repairer.look()
        desk = repairer.desk
        step = desk.step.key if desk.page == "step" and desk.step is not None else ""
        yield fault(recorded(repairer.bench.entries), step, opened_at=came_back, text=read(desk))


@pytest.mark.parametrize("boot", [True, False])
@pytest.mark.parametrize("away", AWAY)
@pytest.mark.parametrize("page", PAGES)
def test_away_on_every_page(page: str, away: str, *, boot: bool) -> None:
    repairer = at_turning(boot=boot)
    PAGES[page](repairer)
    assert repairer.desk.page == page
    came_back = len(repairer.bench.entries)
    AWAY[away](repairer)
    found = [wrong for wrong in go_on(repairer, came_back) if wrong]
    assert not found, found
    assert repairer.asked == LATHE_CHECKS[0]
    assert repairer.bench.entries[came_back].key == "sitting"


@pytest.mark.parametrize("page", PAGES)
def test_a_short_while_asks_nothing_again(page: str) -> None:
    repairer = at_turning()
    PAGES[page](repairer)
    repairer.wait(400)
    repairer.sleep(400)
    repairer.key("previous")
    assert repairer.asked == "last_bore" and repairer.desk.sitting


def test_a_note_half_written_is_not_lost() -> None:
    repairer = at_turning()
    repairer.pick("note")
    for letter in "bar ":
        repairer.feed(Token("key", f"char:{letter}", at=repairer.seconds, boot=repairer.boot, raw=letter))
    repairer.sleep(3600)
    for letter in "loose":
        token = Token(
            "key", letter, at=repairer.seconds, wall=repairer.wall(), boot=repairer.boot, raw=letter
        )
        repairer.feed(token)
    assert "bar loose" in read(repairer.desk) and "asked again" in repairer.desk.message
    repairer.key("enter")
    kinds = [(one.kind, one.value) for one in repairer.bench.entries[-2:]]
    assert kinds == [("note", "bar loose"), ("mark", ("work", "stands cut: turning"))]
    assert repairer.step.key == LATHE_CHECKS[0]


def test_a_clock_set_back_asks_again_where_nothing_else_tells() -> None:
    repairer = at_turning(boot=False)
    repairer.sleep(-3600)
    repairer.key("1")
    assert repairer.asked == LATHE_CHECKS[0] and "clock" in repairer.desk.message


def test_a_clock_set_asks_nothing_where_the_time_since_the_start_is_known() -> None:
    repairer = at_turning()
    repairer.sleep(3600)
    repairer.asleep -= 3600  # only the wall clock was set
    repairer.key("1")
    assert repairer.asked == "last_bore" and repairer.desk.line.text == "1"


def test_a_finished_job_is_not_begun_again_by_being_left_open() -> None:
    repairer = at("renewed").copy().on_to("")
    kept = len(repairer.bench.entries)
    repairer.wait(2000)
    repairer.key("list")
    assert repairer.desk.page == "sheet" and len(repairer.bench.entries) == kept
    assert "asked again" not in repairer.desk.message


def test_a_check_that_was_not_painted_is_not_answered() -> None:
    """The rest of what a gauge sends does not fall into the check that came in its place."""
    repairer = at("outside_reading").copy()
    repairer.key("5")
    repairer.key("back")
    repairer.wait(1000)
    kept = len(repairer.bench.entries)
    for key in (*"36.67", "enter"):
        repairer.key(key)
    assert [one.key for one in repairer.bench.entries[kept:]] == ["sitting"]
    assert repairer.asked == LATHE_CHECKS[0]
