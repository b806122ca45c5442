"""What watch, tester and gauge make of a falling reading: rate, uncertainty, hold.

Invariant: a rate and its half-width are micrograms a minute at 2 bar overpressure by the law that quotes the
larger; the half-width is never under what one frozen step of the gauge could hide.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules.checks import number, numbers
from rules.measuring.limit import FAIL, UNDECIDED, one_limit
from rules.measuring.student import coverage_factor
from rules.testing.air import (
    LIMIT_UG_MIN,
    ROOM_C,
    ZERO_C_K,
    air_ug_cm3_bar,
    share_by_lesser_law,
    worse_law,
)
from rules.testing.gauge import LARGEST_READING, LEAST_READINGS
from rules.testing.line import FittedLine, autocorrelation_factor
from rules.testing.pressure import LARGEST_BAR, LEAST_BAR, STANDARD_ATMOSPHERE_BAR

VOLUME_CM3, OVERPRESSURE_BAR, TEMPERATURE_C = (0.05, 100.0), (LEAST_BAR, LARGEST_BAR), (0.0, 50.0)
"""Lowest and highest free volume, overpressure and temperature a test can be judged with (our judgement)."""
STEP = (1e-9, LARGEST_READING)
"""Lowest and highest step of a gauge, in its own unit."""
LEAST_HOLD_S, LONGEST_HOLD_S = 600.0, 864_000.0
"""No hold shorter than ten minutes counts, none is longer than ten days (our judgement)."""
READINGS = 13
"""Readings over a hold at the bench, the first one included (our judgement)."""
HOLD_OVER_DIGIT_TIME, PLANNED_OVER_DIGIT_TIME = 1.5, 3.0
"""Digit times in the shortest hold that counts, and in the hold planned before a test."""
SHARE_FOR_SCATTER = 0.4
"""Share of the limit that the scatter may fill over a hold as planned (our judgement)."""
AIR_U_K = 2.0
"""How well the temperature of the air is known, 95 % (our judgement)."""
DRIFT_U_K = 0.5
"""How far the temperature inside may drift over the hold, 95 % (our judgement)."""
_CORRELATED = math.sqrt(1.7 / 0.3)


@dataclass(frozen=True, slots=True)
class Rig:
    """What stands at the tester: watch, air and gauge; raises OutOfRange for an impossible figure."""

    volume_cm3: float
    """Free inner volume."""
    volume_u_cm3: float
    """Its expanded uncertainty, 95 %."""
    overpressure_bar: float
    step: float
    """Smallest step of the gauge, in the gauge's unit."""
    temperature_c: float = ROOM_C

    def __post_init__(self) -> None:
        numbers(
            ("volume", self.volume_cm3, *VOLUME_CM3, "cm3"),
            ("volume uncertainty", self.volume_u_cm3, 0.0, self.volume_cm3, "cm3"),
            ("overpressure", self.overpressure_bar, *OVERPRESSURE_BAR, "bar"),
            ("step", self.step, *STEP, "(gauge)"),
            ("temperature", self.temperature_c, *TEMPERATURE_C, "C"),
            advice="look at what the test was set up with",
        )

    @property
    def law(self) -> str:
        """fixed or laminar."""
        return worse_law(self.overpressure_bar)[0]

    @property
    def scale(self) -> float:
        """ug/min at 2 bar for a relative fall of the signal of 1/s."""
        mass = self.volume_cm3 * air_ug_cm3_bar(temperature_c=self.temperature_c)
        return 60.0 * mass * self.overpressure_bar * worse_law(self.overpressure_bar)[1]

    @property
    def limit_decay_per_s(self) -> float:
        """Relative fall that a leak at the limit shows, 1/s."""
        return LIMIT_UG_MIN / self.scale

    def decision(self, rate_ug_min: float, half_width_ug_min: float) -> str:
        """PASS, FAIL or UNDECIDED: over the limit only when the law of flow that quotes less says so too."""
        said = one_limit(rate_ug_min, half_width_ug_min, LIMIT_UG_MIN)
        return UNDECIDED if said == FAIL and self.law_decides(rate_ug_min - half_width_ug_min) else said

    def law_decides(self, least_ug_min: float) -> bool:
        """Whether a leak of at least so much is over the limit by one law of flow only."""
        return least_ug_min > LIMIT_UG_MIN >= least_ug_min * share_by_lesser_law(self.overpressure_bar)

    def half_width(self, line: FittedLine, *, signal: float, duration_s: float) -> float:
        """95 % half-width of the rate, ug/min, from scatter, gauge step, volume and temperature.

        line: through the logarithm of the signal against s. signal: fitted at time 0, gauge unit.
        Scatter times the autocorrelation factor, never under step/sqrt 12; then the digit rule: a gauge
        frozen for the whole hold may hide one step.
        """
        scatter = coverage_factor(line.n - 2) * self.scatter(line) / line.root_sxx
        digit = self.hidden_by_digits(signal=signal, duration_s=duration_s)
        drift = DRIFT_U_K / self._kelvin * STANDARD_ATMOSPHERE_BAR / self.overpressure_bar / duration_s
        relative = math.hypot(self.volume_u_cm3 / self.volume_cm3, AIR_U_K / self._kelvin)
        return self.scale * math.hypot(max(scatter, digit), drift, line.slope * relative)

    def hidden_by_digits(self, *, signal: float, duration_s: float) -> float:
        """Relative fall of the signal, 1/s, that a gauge frozen for the whole hold hides."""
        return self.step / signal / duration_s

    def scatter(self, line: FittedLine) -> float:
        """Standard deviation of the logarithm of one reading, autocorrelation allowed for."""
        observed = line.residual_sd * autocorrelation_factor(line.autocorrelation, line.n)
        return max(observed, self.step / math.sqrt(12) / math.exp(line.level))

    def least_hold_s(self, signal: float) -> float:
        """The shortest hold that counts, s: 600 or 1.5 digit times, in whole minutes.

        signal: at time 0. The digit time is that in which a leak at the limit moves the gauge by one step.
        """
        return _minutes_up(HOLD_OVER_DIGIT_TIME * self._digit_time_s(signal))

    def planned_hold_s(self, signal: float, *, scatter: float = 0.0, readings: int = READINGS) -> float:
        """The hold to fix before a test, s: 600 or 3 digit times,
        or what a known scatter needs, in whole minutes.

        A digit that happens to turn over in a tight watch reads as up to 1.5 steps; only from 3 digit
        times on that is under the limit with its half-width. A record of 1.5 digit times counts already,
        but leaves one tight watch in six undecided on a coarse gauge. signal: the reading when the
        pressure has been reached, in the unit of step. scatter: standard deviation of the gauge at rest,
        0 when not known; the half-width of so many readings, correlated 0.7, then stays within 0.4 of the
        limit. Raises OutOfRange for impossible figures.
        """
        number(
            "signal",
            signal,
            low=1e-9,
            high=LARGEST_READING,
            unit="(gauge)",
            advice="read the gauge under pressure",
        )
        number("scatter", scatter, low=0.0, high=signal, unit="(gauge)", advice="less than the signal")
        number("readings", readings, low=LEAST_READINGS, high=100_000, unit="", advice="read more often")
        slope_s = math.sqrt(12.0 * (readings - 1) / (readings * (readings + 1)))
        widened = coverage_factor(readings - 2) * _CORRELATED * scatter / signal * slope_s
        scatter_time_s = widened / (SHARE_FOR_SCATTER * self.limit_decay_per_s)
        return _minutes_up(max(PLANNED_OVER_DIGIT_TIME * self._digit_time_s(signal), scatter_time_s))

    def _digit_time_s(self, signal: float) -> float:
        return self.step / signal / self.limit_decay_per_s

    @property
    def _kelvin(self) -> float:
        return ZERO_C_K + self.temperature_c


def _minutes_up(seconds: float) -> float:
    return 60.0 * math.ceil(max(LEAST_HOLD_S, seconds) / 60.0 - 1e-9)
