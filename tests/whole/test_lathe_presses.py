"""The lathe part of a straight job takes as few presses as its answers can take, on every kind of lathe."""

from __future__ import annotations

import pytest

from tests.whole.lathe_presses import SHOPS, at_the_lathe

BEFORE = 55
"""Presses at a lathe with a lever when passes could only be recorded all at once."""


@pytest.mark.parametrize("shop", SHOPS)
def test_the_lathe_part_is_as_short_as_it_can_be(shop: str) -> None:
    pressed = at_the_lathe(SHOPS[shop]())
    assert pressed.answers > 20
    assert pressed.presses == pressed.least <= BEFORE
    assert at_the_lathe(SHOPS[shop](), each_pass=True).presses > pressed.presses + 40
