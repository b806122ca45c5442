"""What every test shares: a clean environment, and drawn examples that are the same on every run.

HYPOTHESIS_PROFILE=drawn draws new ones each time.
"""

from __future__ import annotations

import os

import pytest
from hypothesis import settings

settings.register_profile("steady", derandomize=True, deadline=None)
settings.register_profile("drawn", deadline=None)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "steady"))


@pytest.fixture(autouse=True)
def plain_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    """No setting of the person who runs the tests reaches the program."""
    for name in list(os.environ):
        if name in ("NO_COLOR", "COLORTERM", "RINGWRIGHT_HOME", "COLUMNS", "LINES") or name.startswith(
            "TEXTUAL"
        ):
            monkeypatch.delenv(name, raising=False)
