"""The curve of a test with readings as data:
what the screen, paper and the command line draw is this and no more.

Invariant: every line lies between `low` and `high`; a line that cannot be known is empty, never guessed.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from rules.testing.air import LIMIT_UG_MIN, REFERENCE_OVERPRESSURE_BAR
from rules.testing.gauge import sign
from rules.testing.leak_result import Leak

PARTS = 59
"""Straight parts of a line: as many points as the plain plot has columns."""
READING, FITTED = "reading", "fit"
AT_LIMIT = f"a leak at the limit, {LIMIT_UG_MIN:g} ug/min at {REFERENCE_OVERPRESSURE_BAR:g} bar"
"""What the readings and the two lines are called."""

Points = tuple[tuple[float, float], ...]
"""(minutes since the pressure was reached, signal)."""


@dataclass(frozen=True, slots=True)
class LeakCurve:
    """Readings over time, the line fitted to them and the line of a leak at the limit."""

    readings: Points
    fitted: Points
    """Empty where nothing could be fitted."""
    limit: Points
    """Empty where nothing could be fitted."""
    unit: str
    """Unit of the signal; empty where it is not known."""

    @property
    def minutes(self) -> tuple[float, float]:
        """Times of the first and of the last reading."""
        return self.readings[0][0], self.readings[-1][0]

    @property
    def signals(self) -> tuple[float, float]:
        """The smallest and the largest signal drawn."""
        drawn = [signal for _, signal in (*self.readings, *self.fitted, *self.limit)]
        return min(drawn), max(drawn)


def leak_curve(
    times_s: Sequence[float], signal: Sequence[float], leak: Leak | None, *, unit: str = ""
) -> LeakCurve:
    """The curve of at least two readings and of what was made of them.

    times_s: s since the pressure was reached, rising; signal as the gauge shows it, in `unit`. leak: None
    where they cannot be judged, as without a volume; then the readings stand alone.
    """
    turned, first, last = sign(signal), times_s[0], times_s[-1]

    def line(at: Callable[[float], float | None]) -> Points:
        steps = [first + (last - first) * part / PARTS for part in range(PARTS + 1)]
        return tuple((time / 60, value) for time in steps if (value := at(time)) is not None)

    return LeakCurve(
        readings=tuple((time / 60, turned * one) for time, one in zip(times_s, signal, strict=True)),
        fitted=line(leak.fitted) if leak else (),
        limit=line(leak.at_limit) if leak else (),
        unit=unit,
    )
