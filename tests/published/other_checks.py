"""What measuring, turning and testing compute for a published case."""

from __future__ import annotations

import itertools
import math
import tomllib
from collections.abc import Callable
from typing import Any

from rules.measuring.budget import Combined, Component, combine, whole
from rules.measuring.reading import mean_and_deviation
from rules.measuring.student import coverage_factor
from rules.testing import air
from rules.testing.line import FittedLine, fit_line
from rules.turning.grades import tolerance_um
from rules.turning.schedule import cutting_minutes, spindle_rpm
from tests.published.figures import DATA


def _observed(values: list[float] | str) -> list[float]:
    """Values as given, or those of a named data set."""
    if not isinstance(values, str):
        return values
    sets: dict[str, dict[str, Any]] = tomllib.loads((DATA / "nist_univariate.toml").read_text("utf-8"))
    return [float(one) for one in sets[values]["values"]]


def accuracy_set(*, big: float) -> list[float]:
    """1001 observations of the sets NumAcc: x.2, then x.1 and x.3 in turn."""
    return [big + 0.2] + [big + 0.1, big + 0.3] * 500


def mean(*, values: list[float] | str) -> float:
    """Mean of readings."""
    return mean_and_deviation(_observed(values))[0]


def deviation(*, values: list[float] | str) -> float:
    """Standard deviation of readings, n - 1."""
    return mean_and_deviation(_observed(values))[1]


def deviation_of_mean(*, values: list[float]) -> float:
    """Standard deviation of the mean."""
    return deviation(values=values) / math.sqrt(len(values))


def big_mean(*, big: float) -> float:
    """Mean of a set with large numbers."""
    return mean(values=accuracy_set(big=big))


def big_deviation(*, big: float) -> float:
    """Standard deviation of a set with large numbers."""
    return deviation(values=accuracy_set(big=big))


def autocorrelation(*, values: str) -> float:
    """First autocorrelation of a set about the mean computed here."""
    observed, middle = _observed(values), mean(values=values)
    off = [value - middle for value in observed]
    return math.fsum(a * b for a, b in itertools.pairwise(off)) / math.fsum(a * a for a in off)


def student(*, dof: float, level: float) -> float:
    """Student's t, two-sided."""
    return coverage_factor(dof, level)


def half_width(*, n: int, deviation: float, level: float) -> float:
    """Half of a confidence interval of a mean."""
    return coverage_factor(n - 1, level) * deviation / math.sqrt(n)


def combined(*, parts: list[float], over: float = 1.0) -> float:
    """Standard uncertainties combined, over what they are a part of."""
    return combine([Component(f"{one}", part) for one, part in enumerate(parts)]).u_mm / over


def end_gauge_budget() -> Combined:
    """GUM H.1, components in nm: standard, observations, comparator random and systematic, expansion,
    difference of temperature.
    """
    length_m = 0.050000623
    return combine(
        [
            Component("calibration of the standard", 25.0, 18),
            Component("repeated observations", 5.8, 24),
            Component("comparator, random", 3.9, 5),
            Component("comparator, systematic", 6.7, 8),
            Component("difference of expansion", length_m * 0.1 * 0.58e-6 * 1e9, 50),
            Component("difference of temperature", length_m * 11.5e-6 * 0.05 / math.sqrt(3) * 1e9, 2),
        ]
    )


def end_gauge(*, what: str) -> float:
    """A figure of GUM H.1, rounded on the way as it is there."""
    together = end_gauge_budget()
    factor = coverage_factor(whole(together.dof), 0.99)
    return {
        "u": together.u_mm,
        "dof": together.dof,
        "t": factor,
        "U": factor * round(together.u_mm),
    }[what]


def _norris() -> FittedLine:
    raw = tomllib.loads((DATA / "nist_norris.toml").read_text("utf-8"))
    return fit_line(raw["x"], raw["y"])


def fitted(
    *, what: str, at: float = 0.0, x: list[float] | None = None, y: list[float] | None = None
) -> float:
    """A figure of a straight line through x and y, or through the set Norris."""
    line = fit_line(x, y) if x and y else _norris()
    return {
        "slope": line.slope,
        "at": line.at(at),
        "residual": line.residual_sd,
        "slope_sd": line.residual_sd / line.root_sxx,
        "t": line.slope * line.root_sxx / line.residual_sd if line.residual_sd else math.inf,
        "squares": line.residual_sd**2 * ((len(x) if x else 36) - 2),
    }[what]


def air_density(*, celsius: float, bar: float, volume_m3: float = 1.0) -> float:
    """Mass of a volume of air, kg."""
    return air.air_ug_cm3_bar(temperature_c=celsius) * bar * 1e-3 * volume_m3


def rpm(*, speed: float, diameter: float) -> float:
    """Spindle speed."""
    return spindle_rpm(speed_m_per_min=speed, diameter_mm=diameter)


def surface_speed(*, rpm: float, diameter: float) -> float:
    """Surface speed in the unit of the diameter, per minute."""
    return 1000.0 * rpm / spindle_rpm(speed_m_per_min=1.0, diameter_mm=diameter)


def minutes(*, length: float, feed: float, rpm: float) -> float:
    """Time of a cut."""
    return cutting_minutes(length_mm=length, feed_mm=feed, rpm=rpm)


def turned(*, length: float, feed: float, speed: float, diameter: float) -> float:
    """Time of a cut at a surface speed."""
    return minutes(length=length, feed=feed, rpm=rpm(speed=speed, diameter=diameter))


def tolerance(*, size: float, grade: int) -> float:
    """Width of a tolerance grade, um."""
    return tolerance_um(size_mm=size, grade=grade)


CHECKS: dict[str, Callable[..., float]] = {
    one.__name__: one
    for one in (
        *(mean, deviation, deviation_of_mean, big_mean, big_deviation, autocorrelation, student),
        *(half_width, combined, end_gauge, fitted, air_density),
        *(rpm, surface_speed, minutes, turned, tolerance),
    )
}
"""By name."""
