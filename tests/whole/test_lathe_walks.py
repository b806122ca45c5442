"""No turning without every check of the lathe: random walks, and the faults that they must find."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager
from dataclasses import replace
from importlib import import_module
from typing import Any
from unittest.mock import patch

import pytest

from bench.desk.away import AWAY_S, Moment
from bench.desk.desk import Desk
from bench.job.job import Job
from bench.job.steps import Step
from bench.stages.guard import LATHE_CHECKS
from tests.campaigns.lathe_walker import Tally
from tests.campaigns.lathe_walks import PLACES, SHORT, remembered, standing, walks
from tests.whole.lathe_judge import RIGHT, Recorded, fault

STEPS = ("rough_outside", "drill", "rough_bore", "finish_outside", "last_outside", "finish_bore", "last_bore")
PAGES = {"step", "list", "pick", "why", "keys", "sheet", "text", "account", "jobs"}
LATE_STEPS = ("chamfer", "part", "spare_2", "spare_3")


@pytest.fixture(autouse=True, scope="module")
def _standing() -> None:
    """Where walks begin is made before any fault is planted."""
    standing()


def test_walks_reach_turning_often_and_never_without_the_checks() -> None:
    with remembered():
        tally = walks(SHORT, until=Tally.enough)
    print(tally)
    assert not tally.faults, tally.faults[:3]
    assert tally.enough(), tally
    assert tally.steps >= {*STEPS, *LATE_STEPS}
    assert tally.pages >= PAGES, tally


def faulty(tally: Tally) -> bool:
    """Whether a fault was met."""
    return bool(tally.faults)


def without(key: str) -> AbstractContextManager[Any]:
    """The lathe checks with one of them left out."""
    cut = import_module("bench.seals.ring.cut")
    checks: Callable[..., tuple[Step, ...]] = cut.lathe_checks

    def fewer(*given: Any, **named: Any) -> tuple[Step, ...]:
        return tuple(step for step in checks(*given, **named) if step.key != key)

    return patch.object(cut, "lathe_checks", fewer)


@pytest.mark.parametrize("key", LATHE_CHECKS)
def test_walks_fail_when_one_check_is_left_out(key: str) -> None:
    with remembered(), without(key):
        tally = walks(40, until=faulty)
    assert any(key in words for words in tally.faults), tally


@contextmanager
def checks_of_any_sitting() -> Iterator[None]:
    """A lathe whose checks are not asked again in another sitting."""
    cut = import_module("bench.seals.ring.cut")
    checks: Callable[..., tuple[Step, ...]] = cut.lathe_checks

    def never_again(made: Any, *, asked_again: bool) -> tuple[Step, ...]:
        return checks(made, asked_again=False)

    with patch.object(cut, "lathe_checks", never_again):
        yield


@contextmanager
def checks_that_take_any_answer() -> Iterator[None]:
    """A desk that writes a wrong answer to a check down and goes on all the same."""
    answering = import_module("bench.desk.answering")

    def kept(desk: Any, step: Step, what: str) -> Any:
        return answering.keep(desk, step, ("wrong", what))

    with patch.object(answering, "slipped", kept):
        yield


@contextmanager
def sitting_without_mark() -> Iterator[None]:
    """A desk that lets a step be picked from the account without beginning a sitting."""
    with patch.object(import_module("bench.desk.update"), "sitting_is_due", lambda desk: False):
        yield


@contextmanager
def old_passes_shown() -> Iterator[None]:
    """A desk on which old turning steps may be looked at in any sitting."""
    with patch.object(import_module("bench.job.route"), "hidden", lambda job, done: frozenset()):
        yield


@contextmanager
def earlier_checks_until_work_begins() -> Iterator[None]:
    """A desk on which checks of an earlier sitting count until the mark of this one is written."""
    with patch.object(Job, "unchecked", lambda self: self):
        yield


@contextmanager
def idle_on_a_step_only() -> Iterator[None]:
    """A desk on which the quarter of an hour counts on the page of a step alone."""
    update = import_module("bench.desk.update")
    anew = update.checks_anew

    def on_a_step(desk: Any, why: str) -> Any:
        return anew(desk, why) if desk.page == "step" else (desk, ())

    with patch.object(update, "checks_anew", on_a_step):
        yield


@contextmanager
def sleep_that_does_not_count() -> Iterator[None]:
    """A desk that knows the time awake only."""

    def awake(last: Moment, now: Moment) -> str:
        return "away" if now.at - last.at > AWAY_S else ""

    with patch.object(import_module("bench.desk.update"), "why_anew", awake):
        yield


@contextmanager
def sleep_by_boot_time_only() -> Iterator[None]:
    """A desk that does not look at the wall clock where there is no boot time."""
    away = import_module("bench.desk.away")

    def passed(last: Moment, now: Moment, idle_s: float) -> float:
        return idle_s if last.boot is None or now.boot is None else now.boot - last.boot

    with patch.object(away, "passed", passed):
        yield


@contextmanager
def keys_in_any_window() -> Iterator[None]:
    """A desk that takes keys in a window too small to show what they answer."""
    with patch.object(Desk, "too_small", property(lambda self: False)):
        yield


@contextmanager
def pressure_check_of_any_sitting() -> Iterator[None]:
    """A tester whose check is not asked again in another sitting."""
    proving = import_module("bench.stages.proving")
    check: Callable[..., Step] = proving.check_step

    def never_again(*given: Any, asked_again: bool) -> Step:
        return check(*given, asked_again=False)

    with patch.object(proving, "check_step", never_again):
        yield


@contextmanager
def old_holds_shown() -> Iterator[None]:
    """A desk on which the hold of a test that is over may be looked at in any sitting."""

    def open_to_all(stage: Any, checks: Any, behind: Any) -> Any:
        return stage

    with patch.object(import_module("bench.stages.proving"), "guarded", open_to_all):
        yield


@contextmanager
def raising_told_with_the_pressure() -> Iterator[None]:
    """A page of the test pressure that says how to raise it, before the check."""
    proving = import_module("bench.stages.proving")
    ask: Callable[..., Step] = proving.pressure_step

    def telling(sitting: Any, offer: Any, chosen: Any, rests: Any) -> Step:
        return replace(ask(sitting, offer, chosen, rests), how=chosen.worded(chosen.raising))

    with patch.object(proving, "pressure_step", telling):
        yield


PLANTED: dict[Callable[[], AbstractContextManager[None]], tuple[str, Mapping[str, float]]] = {
    checks_of_any_sitting: ("lathe_", PLACES),
    checks_that_take_any_answer: ("lathe_", PLACES),
    sitting_without_mark: ("asked again at once", PLACES),
    old_passes_shown: ("", {"wall_1": 1}),
    earlier_checks_until_work_begins: ("", PLACES),
    idle_on_a_step_only: ("", PLACES),
    sleep_that_does_not_count: ("", PLACES),
    sleep_by_boot_time_only: ("", PLACES),
    keys_in_any_window: ("window", PLACES),
    pressure_check_of_any_sitting: ("_check", PLACES),
    old_holds_shown: ("_check", PLACES),
    raising_told_with_the_pressure: ("_check", PLACES),
}
"""Faults, a word of what the judge says of each, and where walks begin that are to meet them."""


@pytest.mark.parametrize("plant", PLANTED)
def test_walks_fail_for_other_planted_faults(plant: Callable[[], AbstractContextManager[None]]) -> None:
    word, places = PLANTED[plant]
    with remembered(), plant():
        tally = walks(SHORT, places=places, until=faulty)
    print(f"{plant.__name__}: caught in walk {tally.walks}: {tally.faults[:1]}")
    assert tally.faults and word in tally.faults[0], tally


def recorded_checks(n: int = 1) -> list[Recorded]:
    """A sitting in which every check was answered rightly."""
    values = {"lathe_hands": "read 0", "lathe_bar": "read 6", "lathe_speed": "read 420"}
    entries = [Recorded(n, "mark", "sitting", ("work",))]
    entries += [
        Recorded(n + at, "answer", key, ("right", values.get(key, RIGHT[key])))
        for at, key in enumerate(RIGHT, 1)
    ]
    return entries


def test_the_judge_itself() -> None:
    """What the judge of the walks lets pass and what not, on entries written by hand."""
    checks = recorded_checks()
    assert fault(checks, "rough_outside") == ""
    assert fault(checks[:-1], "tool_boring") == ""
    assert "lathe_speed" in fault(checks[:-1], "spare_2")
    assert "sitting" in fault([], "last_bore")
    assert fault([*checks, Recorded(7, "mark", "sitting", ("work",))], "part") != ""
    assert fault([*checks, Recorded(7, "answer", "ring", ("accept",))], "part") != ""
    assert fault([*checks, Recorded(7, "answer", "lathe_slip", ("wrong",))], "part") != ""
    assert fault([*checks, Recorded(7, "undo", "lathe_key", ("right",), of=4)], "part") != ""
    assert (
        "go to 29.00" in fault([], "", text="outside: go to 29.00, diameter")
        and fault([], "", text="go home") == ""
    )
    assert fault(checks, "", text="outside: go to 29.00, diameter") == ""
    assert fault(checks, "", text="go to 29.00", opened_at=7) != ""
    assert (
        "empty_check" in fault(checks, "empty_hold")
        and fault(checks, "", text="Raise it in steps: 1 bar") != ""
    )
    shut = [*checks, Recorded(8, "answer", "empty_check", ("right", "shut"))]
    assert fault(shut, "empty_hold", text="Raise it in steps: 1 bar") == ""
    assert fault([*shut, Recorded(9, "answer", "empty_slip", ("wrong",))], "empty_hold") != ""
    assert fault(shut, "cased_hold") != "" and fault(shut, "empty_hold", opened_at=8) != ""
    wrong_key = [replace(one, words=("right", "bed")) if one.key == "lathe_key" else one for one in checks]
    assert "lathe_key" in fault(wrong_key, "drill")
