"""What every test shares: a clean environment, and drawn examples that are the same on every run.

HYPOTHESIS_PROFILE=drawn draws new ones each time.
"""

from __future__ import annotations

import os
from collections.abc import Generator
from fcntl import LOCK_EX, LOCK_SH, LOCK_UN, flock

import pytest
from hypothesis import settings

from bench.job.remembered import FORGETTING

settings.register_profile("steady", derandomize=True, deadline=None)
settings.register_profile("drawn", deadline=None)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "steady"))


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """What is timed comes first, then the longest, so that no core is left idle at the end."""
    items.sort(key=lambda item: 0 if timed(item) else 1 if "test_check[types]" in item.name else 2)


def timed(item: pytest.Item) -> bool:
    """Whether nothing else may run beside a test."""
    return item.get_closest_marker("alone") is not None


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Generator[None, bool, bool]:
    """Where several processes share the tests: those that are timed run while the other processes wait.

    The door is passed one at a time, so that a timed test that waits is not overtaken for ever.
    """
    place = item.config.cache.mkdir("alone")
    with (place / "door").open("w") as door, (place / "room").open("w") as room:
        flock(door, LOCK_EX)
        flock(room, LOCK_EX if timed(item) else LOCK_SH)
        flock(door, LOCK_UN)
        return (yield)


@pytest.fixture(autouse=True)
def plain_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    """No setting of the person who runs the tests reaches the program."""
    for name in list(os.environ):
        if name in ("NO_COLOR", "COLORTERM", "RINGWRIGHT_HOME", "COLUMNS", "LINES") or name.startswith(
            "TEXTUAL"
        ):
            monkeypatch.delenv(name, raising=False)


@pytest.fixture(autouse=True)
def nothing_remembered() -> None:
    """No figure that an earlier test worked out, with another table perhaps, is met again."""
    for forget in FORGETTING:
        forget()
