"""Guards of lathe and tester taken away one at a time, to see that the walks find it.

Each fault is a context in which it holds; `lathe_fault_list` has them all.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager, ExitStack, contextmanager
from dataclasses import replace
from importlib import import_module
from typing import Any
from unittest.mock import patch

from bench.desk.away import AWAY_S
from bench.job.job import Job
from bench.job.steps import Choice, Step
from bench.stages.guard import LATHE_CHECKS

CUT, PROVING, UPDATE = "bench.seals.ring.cut", "bench.stages.proving", "bench.desk.update"
POSTS = (CUT, "bench.seals.ring.roughing")
"""Where a change of tool is asked for."""


@contextmanager
def changed(module: str, name: str, make: Callable[[Any], Any]) -> Iterator[None]:
    """A name of a module in which `make` of it stands instead."""
    home = import_module(module)
    with patch.object(home, name, make(getattr(home, name))):
        yield


@contextmanager
def changed_in(modules: Sequence[str], name: str, make: Callable[[Any], Any]) -> Iterator[None]:
    """The same name in several modules."""
    with ExitStack() as stack:
        for module in modules:
            stack.enter_context(changed(module, name, make))
        yield


def given_already(step: Step) -> Step:
    """A check that nobody has to answer."""
    return replace(
        step, kind="choice", optional=True, usual="right", readback=None, choices=(Choice("right", "right"),)
    )


def without_lathe_check(key: str) -> AbstractContextManager[None]:
    """The lathe checks with one of them left out."""

    def fewer(checks: Any) -> Any:
        return lambda *given, **named: tuple(one for one in checks(*given, **named) if one.key != key)

    return changed(CUT, "lathe_checks", fewer)


def without_look_at_the_post(key: str) -> AbstractContextManager[None]:
    """A change of tool after which nobody looks."""

    def unseen(ask: Any) -> Any:
        def change(asked: str, *given: Any) -> Step:
            step: Step = ask(asked, *given)
            return given_already(step) if asked == key else step

        return change

    return changed_in(POSTS, "tool_change", unseen)


def resting_less(modules: str | Sequence[str], name: str, *left_out: str) -> AbstractContextManager[None]:
    """Steps that do not rest on some of what they rest on."""

    def less(step: Step) -> Step:
        return replace(step, rests_on=tuple(key for key in step.rests_on if key not in left_out))

    def make(ask: Any) -> Any:
        def asked(*given: Any, **named: Any) -> Any:
            made = ask(*given, **named)
            return less(made) if isinstance(made, Step) else tuple(map(less, made))

        return asked

    return changed_in([modules] if isinstance(modules, str) else modules, name, make)


def without_pressure_check(name: str) -> AbstractContextManager[None]:
    """A test whose check before the pressure nobody has to answer."""

    def unasked(ask: Any) -> Any:
        def check(setup: Any, **named: Any) -> Step:
            step: Step = ask(setup, **named)
            return given_already(step) if setup.sitting.name == name else step

        return check

    return changed(PROVING, "check_step", unasked)


def always(module: str, name: str, value: Any) -> AbstractContextManager[None]:
    """A function that gives the same whatever it is asked."""
    return changed(module, name, lambda _: lambda *given, **named: value)


def value_of(module: str, name: str, value: object) -> AbstractContextManager[None]:
    """A constant that is another one."""
    return changed(module, name, lambda _: value)


def asked_once(module: str, name: str) -> AbstractContextManager[None]:
    """Checks that are not asked again in another sitting."""
    return changed(
        module, name, lambda ask: lambda *given, **named: ask(*given, **{**named, "asked_again": False})
    )


def open_to_all(module: str) -> AbstractContextManager[None]:
    """Steps behind checks that may be looked at in any sitting."""
    return changed(module, "guarded", lambda _: lambda stage, checks, behind: stage)


def earlier_checks_until_work_begins() -> AbstractContextManager[object]:
    """A desk on which checks of an earlier sitting count until the mark of this one is written."""
    return patch.object(Job, "unchecked", lambda self: self)


def idle_on_a_step_only() -> AbstractContextManager[None]:
    """A desk on which the quarter of an hour counts on the page of a step alone."""
    return changed(
        UPDATE,
        "checks_anew",
        lambda anew: lambda desk, why: anew(desk, why) if desk.page == "step" else (desk, ()),
    )


def sleep_that_does_not_count() -> AbstractContextManager[None]:
    """A desk that knows the time awake only."""
    return changed(
        UPDATE, "why_anew", lambda _: lambda last, now: "away" if now.at - last.at > AWAY_S else ""
    )


def sleep_by_boot_time_only() -> AbstractContextManager[None]:
    """A desk that does not look at the wall clock where there is no boot time."""

    def passed(last: Any, now: Any, idle_s: float) -> float:
        return idle_s if last.boot is None or now.boot is None else now.boot - last.boot

    return changed("bench.desk.away", "passed", lambda _: passed)


def a_clock_set_back_is_believed() -> AbstractContextManager[None]:
    """A desk that takes a clock that went backwards for no time at all."""
    return changed(
        "bench.desk.away",
        "passed",
        lambda passed: lambda last, now, idle: max(idle, passed(last, now, idle) or 0.0),
    )


def keys_in_any_window() -> AbstractContextManager[object]:
    """A desk that takes keys in a window too small to show anything."""
    desk = import_module("bench.desk.desk").Desk
    return patch.object(desk, "too_small", property(lambda self: False))


def any_answer() -> AbstractContextManager[None]:
    """A desk that writes a wrong answer to a check down and goes on all the same."""
    answering = import_module("bench.desk.answering")
    return changed(
        "bench.desk.answering",
        "slipped",
        lambda _: lambda desk, step, what, words: answering.keep(desk, step, ("wrong", what)),
    )


def a_sitting_that_goes_on() -> AbstractContextManager[None]:
    """A desk on which a job that is opened is still in the sitting before."""
    arrivals = import_module("bench.desk.arrivals")

    def make(opened: Any) -> Any:
        def still(desk: Any, token: Any) -> Any:
            after, effects = opened(desk, token)
            if after.job is None:
                return after, effects
            return arrivals.replayed(replace(after, sitting=bool(token.entries))), effects

        return still

    return changed(UPDATE, "opened", make)


def a_sitting_though_not_saved() -> AbstractContextManager[None]:
    """A desk that takes a sitting for begun though its mark was refused."""

    def make(handlers: Any) -> Any:
        def refused(desk: Any, token: Any) -> Any:
            return replace(desk, pending=None, then=(), message=token.text, sitting=True, page="step"), ()

        return {**handlers, "refused": refused}

    return changed(UPDATE, "HANDLERS", make)


def a_wrong_check_taken_back() -> AbstractContextManager[None]:
    """A list from which a wrong answer to a check is taken back like any other."""

    def make(take_back: Any) -> Any:
        def anything(desk: Any, job: Job) -> Any:
            right = tuple(
                replace(one, words=("right",)) if one.word == "wrong" else one for one in job.answers
            )
            return take_back(desk, replace(job, answers=right))

        return anything

    return changed("bench.desk.everything", "take_back", make)


def raising_told_with_the_pressure() -> AbstractContextManager[None]:
    """A page of the test pressure that says how to raise it, before the check."""

    def make(ask: Any) -> Any:
        def telling(sitting: Any, offer: Any, chosen: Any, rests: Any) -> Step:
            step: Step = ask(sitting, offer, chosen, rests)
            return replace(step, how=chosen.worded(chosen.raising))

        return telling

    return changed(PROVING, "pressure_step", make)


def a_gate_that_names_figures() -> AbstractContextManager[None]:
    """A gate that says of a changed act what it was to do."""
    return changed("bench.file.gather", "shown", lambda _: lambda entry: str(entry.value))


def told_on(page: str) -> AbstractContextManager[None]:
    """A page that says where to go to, whoever reads it."""

    def make(view: Any) -> Any:
        def telling(desk: Any, look: Any) -> Any:
            lines = view(desk, look)
            return [*lines, [("outside: go to 29.00", "ink")]] if desk.page == page else lines

        return telling

    return changed("tests.whole.seen", "view", make)


def told_in_lines() -> AbstractContextManager[None]:
    """Plain lines that say at the first check where to go to."""

    def make(line: Any) -> Any:
        return lambda desk: (
            line(desk) + (" go to 29.00" if desk.step and desk.step.key == LATHE_CHECKS[0] else "")
        )

    return changed("screens.plain", "prompt_line", make)
