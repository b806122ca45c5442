"""Which test reaches which line: one file of tests is run under coverage, each test a context of its own.

What a module works out while it is collected, and a fixture wider than one test, counts for every test that
rests on it. Answers kept from an earlier test (`functools.cache`) are forgotten before each test, so that
each reaches what it rests on. Not seen is what a program started by a test reaches in a process of its own.
"""

from __future__ import annotations

import gzip
import json
import resource
import signal
import sys
from collections.abc import Callable, Generator
from pathlib import Path
from typing import Any

import coverage
import pytest

OPTIONS = ("-q", "-p", "no:randomly", "-p", "pytest_asyncio.plugin", "-p", "_hypothesis_pytestplugin")
TOO_LONG = 20.0
"""Processor seconds, recorded, of a test that would not end within a mutant's limit: it is given up."""
KEPT = ("rules", "bench", "screens", "tests", "ringwright")


def forget() -> None:
    """Empties every cache of the product and of the tests."""
    for name, module in list(sys.modules.items()):
        if name.split(".")[0] in KEPT:
            for thing in list(vars(module).values()):
                clear = getattr(thing, "cache_clear", None)
                if callable(clear) and hasattr(thing, "cache_info"):
                    clear()


def used() -> float:
    """Processor seconds of this process and of those that have ended below it."""
    own, others = (resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    return own.ru_utime + own.ru_stime + others.ru_utime + others.ru_stime


def give_up(_signal: int, _frame: object) -> None:
    """A test that takes too long to be of use here fails, and is not used."""
    pytest.fail("takes too long")


class Recorder:
    """A plugin of pytest that tells coverage whose lines it sees."""

    def __init__(self, cov: coverage.Coverage, say: Callable[[dict[str, Any]], None]) -> None:
        self.cov = cov
        self.say = say
        self.seconds: dict[str, float] = {}
        self.unfit: set[str] = set()
        """Tests that fail or are skipped in a copy as it is, and timed ones."""
        self.wider: dict[str, list[str]] = {}
        """Contexts besides its own on which a test rests."""

    @pytest.hookimpl(wrapper=True)
    def pytest_make_collect_report(self, collector: pytest.Collector) -> Generator[None, Any, Any]:
        """Whatever is worked out while the file is read."""
        self.cov.switch_context("collect")
        return (yield)

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Generator[None, Any, Any]:
        """One test, its own fixtures included."""
        forget()
        names = getattr(item, "fixturenames", ())
        self.wider[item.nodeid] = ["collect", *(f"fixture {name}" for name in names)]
        if item.get_closest_marker("alone"):
            self.unfit.add(item.nodeid)
        self.cov.switch_context(item.nodeid)
        self.say({"test": item.nodeid})
        signal.setitimer(signal.ITIMER_PROF, TOO_LONG)
        started = used()
        done = yield
        signal.setitimer(signal.ITIMER_PROF, 0.0)
        self.seconds[item.nodeid] = used() - started
        return done

    @pytest.hookimpl(wrapper=True)
    def pytest_fixture_setup(self, fixturedef: Any, request: Any) -> Generator[None, Any, Any]:
        """A fixture of a module or of the session is set up within one test and serves others."""
        if fixturedef.scope in ("function", "class"):
            return (yield)
        self.cov.switch_context(f"fixture {fixturedef.argname}")
        done = yield
        self.cov.switch_context(request._pyfuncitem.nodeid)
        return done

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """A test that does not pass as things are says nothing about a mutant."""
        if not report.passed:
            self.unfit.add(report.nodeid)


def record(file: str, into: Path, say: Callable[[dict[str, Any]], None]) -> None:
    """Runs a file of tests and writes what each reaches: lines as the bits of a number, in hexadecimal."""
    cov = coverage.Coverage(data_file=None, config_file=False, source=["rules", "bench"])
    recorder = Recorder(cov, say)
    signal.signal(signal.SIGPROF, give_up)
    cov.start()
    pytest.main([*OPTIONS, file], plugins=[recorder])
    cov.stop()
    data = cov.get_data()
    lines: dict[str, dict[str, int]] = {}
    for name in data.measured_files():
        place = Path(name).relative_to(Path.cwd()).as_posix()
        for line, contexts in data.contexts_by_lineno(name).items():
            for context in contexts:
                row = lines.setdefault(context, {})
                row[place] = row.get(place, 0) | 1 << line
    tests = {}
    for test, seconds in recorder.seconds.items():
        if test not in recorder.unfit:
            reached: dict[str, int] = {}
            for context in (test, *recorder.wider[test]):
                for place, bits in lines.get(context, {}).items():
                    reached[place] = reached.get(place, 0) | bits
            tests[test] = {"seconds": round(seconds, 4), "reach": {k: f"{v:x}" for k, v in reached.items()}}
    into.write_bytes(gzip.compress(json.dumps({"tests": tests, "unfit": sorted(recorder.unfit)}).encode(), 4))
    say({"end": "recorded", "tests": len(tests), "unfit": len(recorder.unfit)})
