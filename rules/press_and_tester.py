"""What stands in the workshop to put a glass in and to test a watch with, as plain data.

Invariant: every object that exists is usable; a wrong value is refused with OutOfRange when the object is
made. Forces in N, pressures in bar.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules.bars import ADVICE
from rules.checks import numbers, one_of
from rules.limits import within

TESTER_GIVES = ("verdict", "deflection", "water")
USUAL_GAUGE_STEP_BAR = 0.1
"""Where a shop does not say it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Press:
    """The glass press."""

    name: str = "hand press"
    largest_force_n: float | None = None
    """None = not known; then it limits nothing."""

    def __post_init__(self) -> None:
        if self.largest_force_n is not None:
            within("press force", self.largest_force_n)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tester:
    """The air tester."""

    name: str = "air tester"
    largest_bar: float = 3.0
    """Largest overpressure it reaches."""
    gauge_step_bar: float = USUAL_GAUGE_STEP_BAR
    gives: str = "verdict"
    """Pass or fail by itself, the deflection of the watch to be read, or bubbles in water alone."""

    def __post_init__(self) -> None:
        one_of("what the tester gives", self.gives, TESTER_GIVES)
        numbers(
            ("largest pressure of the tester", self.largest_bar, 0.1, 200.0, "bar"),
            ("gauge step of the tester", self.gauge_step_bar, 0.001, 5.0, "bar"),
            advice=ADVICE,
        )
