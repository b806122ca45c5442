"""A ring measured higher than planned is not led to the press without a word."""

from __future__ import annotations

import pytest

from tests.whole.places import at
from tests.whole.repairer import Repairer

PLANNED_MM = 1.20
"""Height of the ring of the invented watch."""


def measured(height: str) -> Repairer:
    """The ring on the bench, its walls as planned, its height read as this."""
    repairer = at("wall_1").on_to("ring_height", {})
    repairer.give(height)
    return repairer


@pytest.mark.parametrize(("height", "asked"), [("1.23", "fit_ready"), ("1.24", "too_high")])
def test_three_hundredths_are_left_and_more_is_asked_about(height: str, asked: str) -> None:
    assert measured(height).asked == asked


def test_one_that_was_dressed_is_measured_again() -> None:
    repairer = measured("1.25")
    assert f"1.25 mm high, {PLANNED_MM:.2f} was planned" in repairer.step.title
    repairer.give("dressed")
    assert repairer.asked == "ring_height"
    repairer.give("1.24")
    assert repairer.asked == "too_high"
    repairer.give("dressed")
    repairer.give("1.20")
    assert repairer.asked == "fit_ready"
    repairer.on_to("")


def test_it_may_be_pressed_as_it_is() -> None:
    repairer = measured("1.25")
    repairer.give("press")
    assert repairer.asked == "fit_ready"
    repairer.on_to("")
    assert repairer.keyed.count("too_high") == 1
