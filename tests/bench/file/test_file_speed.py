"""Large jobs and large folders stay quick (figures: `python -m tests.campaigns.sizes --long`)."""

from __future__ import annotations

import pytest

from tests.campaigns import sizes

pytestmark = pytest.mark.alone


def test_large_files_and_folders_are_quick_and_appending_is_constant() -> None:
    times = sizes.measure()
    assert times.list_ordinary < 8.0, times
    assert times.open_many < 0.5, times
    assert times.list_again < 0.3, times
    assert times.list_names < 0.3, times
    assert times.append_long < 2 * times.append_short + 0.001, times
