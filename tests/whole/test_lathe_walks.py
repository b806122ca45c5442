"""No turning without every check of the lathe: random walks, and the faults that they must find."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager
from dataclasses import replace
from importlib import import_module
from typing import Any
from unittest.mock import patch

import pytest

from bench.job.steps import Step
from bench.stages.guard import LATHE_CHECKS
from tests.campaigns.lathe_walks import PLACES, SHORT, Tally, remembered, walks
from tests.whole.lathe_judge import RIGHT, Recorded, fault

STEPS = ("rough_outside", "drill", "rough_bore", "finish_outside", "last_outside", "finish_bore", "last_bore")
LATE_STEPS = ("chamfer", "part", "spare_2", "spare_3")


def test_walks_reach_turning_often_and_never_without_the_checks() -> None:
    with remembered():
        tally = walks(SHORT, until=Tally.enough)
    print(tally)
    assert not tally.faults, tally.faults[:3]
    assert tally.enough(), tally
    assert tally.steps >= {*STEPS, *LATE_STEPS}


def faulty(tally: Tally) -> bool:
    """Whether a fault was met."""
    return bool(tally.faults)


def without(key: str) -> AbstractContextManager[Any]:
    """The lathe checks with one of them left out."""
    cut = import_module("bench.stages.cut")
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
    cut = import_module("bench.stages.cut")
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


PLANTED: dict[Callable[[], AbstractContextManager[None]], Mapping[str, float]] = {
    checks_of_any_sitting: PLACES,
    checks_that_take_any_answer: PLACES,
    sitting_without_mark: PLACES,
    old_passes_shown: {"wall_1": 1},
}
"""Faults, and where walks begin that are to meet them."""


@pytest.mark.parametrize("plant", PLANTED)
def test_walks_fail_for_other_planted_faults(plant: Callable[[], AbstractContextManager[None]]) -> None:
    with remembered(), plant():
        tally = walks(SHORT, places=PLANTED[plant], until=faulty)
    assert tally.faults, tally


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
    wrong_key = [replace(one, words=("right", "bed")) if one.key == "lathe_key" else one for one in checks]
    assert "lathe_key" in fault(wrong_key, "drill")
