"""Tests in a given order until one fails or their time is used; runs in a fork of the server."""

from __future__ import annotations

from collections.abc import Callable, Generator
from typing import Any

import pytest

from tests.mutation.recording import OPTIONS, used

LIMIT = 10.0
"""Processor seconds that a mutant's tests may use, with programs that they start; then it has survived."""
HANGS_AFTER = 40
"""Processor seconds after which a single test, of those that take less than 10 s, goes round for ever."""
AT_FIRST = 12
"""So many tests first: each further file of tests takes time to load, and most mutants die early."""


class Runner:
    """A plugin of pytest that keeps the order and the time."""

    def __init__(
        self, order: list[str], say: Callable[[dict[str, Any]], None], fresh: Callable[[], None]
    ) -> None:
        self.order = {name: place for place, name in enumerate(order)}
        self.say = say
        self.fresh = fresh
        self.seconds = 0.0
        self.run = 0
        self.failed = ""

    @pytest.hookimpl(trylast=True)
    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        """Nearest first; what was not asked for does not run."""
        items[:] = [one for one in items if one.nodeid in self.order]
        items.sort(key=lambda item: self.order[item.nodeid])

    @pytest.hookimpl(wrapper=True, tryfirst=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Generator[None, Any, Any]:
        """Counts the time, and starts the clock that ends a test that does not end."""
        self.fresh()
        self.say({"test": item.nodeid})
        before = used()
        done = yield
        self.seconds += used() - before
        self.run += 1
        if self.seconds > LIMIT:
            item.session.shouldstop = "its time is used"
        return done

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """The first failure, of the test or of what it rests on."""
        if report.failed and not self.failed:
            self.failed = report.nodeid

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        """A file of tests that can no longer be read."""
        if report.failed and not self.failed:
            self.failed = report.nodeid


def try_tests(order: list[str], say: Callable[[dict[str, Any]], None], fresh: Callable[[], None]) -> None:
    """Runs them; ends with {"end": "killed", "by": test} or {"end": "survived", "run": how many}."""
    runner = Runner(order, say, fresh)
    for some in (order[:AT_FIRST], order[AT_FIRST:]):
        if some and not runner.failed and runner.seconds < LIMIT:
            begun = [*OPTIONS, "-x"]
            if pytest.main([*begun, *some], plugins=[runner]) == pytest.ExitCode.USAGE_ERROR:
                # a name that this copy does not have would let none of them run: chosen from their files then
                pytest.main([*begun, *dict.fromkeys(one.split("::")[0] for one in some)], plugins=[runner])
    end = {"end": "killed", "by": runner.failed} if runner.failed else {"end": "survived"}
    say(end | {"run": runner.run, "seconds": round(runner.seconds, 2)})
