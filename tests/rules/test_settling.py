"""Whether a reading has settled: the limits of both looks found by halving, against scipy and numpy."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
from scipy import stats

from rules.testing.settling import settled

TIMES = [90.0 + 30.0 * at for at in range(24)]
SURE = 0.9995
STEP, BAR = 0.01, 2.0
CREEPS = "the reading was still creeping inward at the start: let it settle longer and repeat"
FALLS = "the reading was still falling off at the start (temperature, gauge): wait longer and repeat"


def signal(rate: float, departs: Callable[[int], float]) -> list[float]:
    """A straight decay whose logarithm departs at each reading by so much."""
    return [10.0 * math.exp(-rate * time + departs(at)) for at, time in enumerate(TIMES)]


def turns_at(rate: float, departs: Callable[[int, float], float], words: str) -> tuple[float, list[float]]:
    """The size of a departure at which it stops being settled, and the readings there."""
    low, high = 0.0, 0.5
    for _ in range(48):
        middle = (low + high) / 2.0
        readings = signal(rate, lambda at, size=middle: departs(at, size))  # type: ignore[misc]
        found = settled(TIMES, readings, overpressure_bar=BAR, step=STEP)
        low, high = (middle, high) if found.settled else (low, middle)
        assert found.settled or found.words == words
    return low, signal(rate, lambda at: departs(at, low))


def bends_by_itself(readings: list[float]) -> float:
    """Of laminar flow from P outside: d falls at k (2P - d) d, worked out by differences, not by formula."""
    rate = math.log(readings[0] / readings[-1]) / (TIMES[-1] - TIMES[0])
    d = BAR * math.sqrt(readings[-1] / readings[0])
    outside = 1.01325 + BAR
    k = rate / (2.0 * outside - d)

    def fall(gap: float) -> float:
        return -k * (2.0 * outside - gap)

    later = d + d * fall(d) * 1e-3
    return (fall(later) - fall(d)) / 1e-3


@pytest.mark.parametrize(("way", "words"), [(-1.0, CREEPS), (1.0, FALLS)])
@pytest.mark.parametrize("rate", [0.0, 2e-3])
def test_the_first_sixth_against_the_later_half(way: float, words: str, rate: float) -> None:
    """Four of 24 readings stand off the line through the last twelve; scatter there is rounding alone."""
    size, readings = turns_at(rate, lambda at, size: way * size if at < 4 else 0.0, words)
    share = STEP / min(readings)
    reach = float(np.mean(TIMES[12:]) - np.mean(TIMES[:4]))
    wide = math.sqrt(1 / 4 + 1 / 12 + reach**2 / (12 * np.var(TIMES[12:])))
    scatter = float(stats.t.ppf((1 + SURE) / 2, 10)) * share / math.sqrt(12) * wide
    allowed = max(scatter, share * (0.75 + reach / (TIMES[-1] - TIMES[12])))
    laminar = 0.5 * abs(bends_by_itself(readings)) * reach**2 if way < 0.0 else 0.0
    assert size == pytest.approx(allowed + laminar, rel=2e-3)


@pytest.mark.parametrize(("way", "words"), [(-1.0, CREEPS), (1.0, FALLS)])
@pytest.mark.parametrize("rate", [0.0, 5e-4])
def test_the_parabola_through_all(way: float, words: str, rate: float) -> None:
    """A pure parabola: 0.6 of a step, or what rounding leaves sure, and what laminar flow bends by itself."""
    size, readings = turns_at(rate, lambda at, size: way * size * (at / 23.0 - 1.0) ** 2, words)
    logs, x = np.log(readings), np.array(TIMES)
    share = STEP / min(readings)
    basis = np.polyval(np.polyfit(x, x**2, 1), x)
    v = x**2 - basis
    start = np.polyval(np.polyfit(x, logs, 2), x[0]) - np.polyval(np.polyfit(x, logs, 1), x[0])
    sure = float(stats.t.ppf((1 + SURE) / 2, 21)) * share / math.sqrt(12) * v[0] / math.sqrt(np.sum(v**2))
    laminar = 0.5 * abs(bends_by_itself(readings)) * v[0] if way < 0.0 else 0.0
    assert size > 0.0 and abs(start) == pytest.approx(max(sure, 0.6 * share) + laminar, rel=2e-3)
    found = settled(TIMES, readings, overpressure_bar=BAR, step=STEP)
    assert found.bend == pytest.approx(start) and found.allowed == pytest.approx(
        max(sure, 0.6 * share), rel=1e-6
    )


@pytest.mark.parametrize(
    ("count", "first", "keep"), [(5, 1, 4), (7, 1, 4), (11, 1, 5), (12, 2, 6), (17, 2, 8)]
)
def test_how_many_readings_are_the_first_and_the_later_ones(count: int, first: int, keep: int) -> None:
    """Of a reading that falls off at once, the limit follows from the sixth and the half of their number."""
    times = [30.0 * at for at in range(count)]
    low, high = 0.0, 0.5
    for _ in range(48):
        middle = (low + high) / 2.0
        readings = [10.0 * math.exp(middle if at < first else 0.0) for at in range(count)]
        found = settled(times, readings, overpressure_bar=BAR, step=STEP)
        low, high = (middle, high) if found.settled else (low, middle)
    reach = float(np.mean(times[-keep:]) - np.mean(times[:first]))
    wide = math.sqrt(1 / first + 1 / keep + reach**2 / (keep * np.var(times[-keep:])))
    share = STEP / 10.0
    scatter = float(stats.t.ppf((1 + SURE) / 2, keep - 2)) * share / math.sqrt(12) * wide
    assert low == pytest.approx(max(scatter, share * (0.75 + reach / (times[-1] - times[-keep]))), rel=2e-3)


def test_what_is_straight_is_settled() -> None:
    found = settled(TIMES, signal(1e-3, lambda _: 0.0), overpressure_bar=BAR, step=STEP)
    assert (found.settled, found.words) == (True, "settled") and abs(found.bend) < 1e-9


def test_scatter_widens_what_is_allowed() -> None:
    """Readings that come and go by 5 steps: their own scatter counts, and no autocorrelation widens it."""
    readings = signal(0.0, lambda at: 0.05 * (-1.0) ** at)
    found = settled(TIMES, readings, overpressure_bar=BAR, step=1e-6)
    x, logs = np.array(TIMES), np.log(readings)
    parabola = np.polyfit(x, logs, 2)
    sd = math.sqrt(float(np.sum((logs - np.polyval(parabola, x)) ** 2)) / 21)
    v = x**2 - np.polyval(np.polyfit(x, x**2, 1), x)
    assert found.settled
    # Fewer than 30 readings: r1 is never taken under 0.5, which widens by the root of 3.
    sure = float(stats.t.ppf((1 + SURE) / 2, 21)) * sd * v[0] / math.sqrt(float(np.sum(v**2)))
    assert found.allowed == pytest.approx(sure * math.sqrt(3.0), rel=1e-4)
