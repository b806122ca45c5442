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
    """The checks that run beside the tests are awaited last, and what is timed comes after them, alone."""
    items.sort(key=lambda item: 2 if item.get_closest_marker("alone") else awaited(item))


def awaited(item: pytest.Item) -> bool:
    """Whether a test only waits for a program that was begun with the session."""
    return getattr(item, "originalname", "") == "test_check"


def pytest_collection_finish(session: pytest.Session) -> None:
    """Begin the checks that were asked for."""
    if not session.config.option.collectonly:
        for item in filter(awaited, session.items):
            beside.begin(item.callspec.params["name"])  # type: ignore[attr-defined]


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
