"""What every test shares: a clean environment, and drawn examples that are the same on every run.

HYPOTHESIS_PROFILE=drawn draws new ones each time.
"""

from __future__ import annotations

import os

import pytest
from hypothesis import settings

from tests.house import beside

settings.register_profile("steady", derandomize=True, deadline=None)
settings.register_profile("drawn", deadline=None)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "steady"))


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """What is timed comes first, alone; the checks that run beside the other tests are awaited last."""
    items.sort(key=lambda item: -1 if item.get_closest_marker("alone") else awaited(item))


def awaited(item: pytest.Item) -> bool:
    """Whether a test only waits for a program that runs beside the others."""
    return getattr(item, "originalname", "") == "test_check"


def pytest_runtest_setup(item: pytest.Item) -> None:
    """Begin the checks that were asked for, once nothing is timed any more."""
    if item.get_closest_marker("alone") is None:
        for one in filter(awaited, item.session.items):
            beside.begin(one.callspec.params["name"])  # type: ignore[attr-defined]


def pytest_unconfigure() -> None:
    """Nothing is left running."""
    beside.end()


@pytest.fixture(autouse=True)
def plain_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    """No setting of the person who runs the tests reaches the program."""
    for name in list(os.environ):
        if name in ("NO_COLOR", "COLORTERM", "RINGWRIGHT_HOME", "COLUMNS", "LINES") or name.startswith(
            "TEXTUAL"
        ):
            monkeypatch.delenv(name, raising=False)
