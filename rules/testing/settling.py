"""Has the reading settled?

Invariant: what scatter, gauge steps or laminar flow by themselves can explain is never called unsettled.
Thresholds are our judgement, checked by simulation; no source.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rules.measuring.student import coverage_factor
from rules.testing.line import autocorrelation_factor, fit_bend, fit_line
from rules.testing.pressure import STANDARD_ATMOSPHERE_BAR

SURE = 0.9995
"""Significance at which a departure counts as real."""
BEND_STEPS = 0.6
"""Rounding alone bends a straight decay by up to 0.46 steps (every fall up to 8 steps tried)."""


@dataclass(frozen=True, slots=True)
class Settling:
    """Whether the logarithm of the reading runs straight."""

    settled: bool
    bend: float
    """How far the start stands off the straight line, as a share of the signal;
    negative when creep goes on.
    """
    allowed: float
    """What scatter and gauge steps allow."""
    words: str


def settled(
    times_s: Sequence[float], signal: Sequence[float], *, overpressure_bar: float, step: float
) -> Settling:
    """Whether the readings depart from a straight decay more than scatter,
    gauge steps and laminar flow explain.

    times_s in s, signal positive and in the unit of step, overpressure in bar; at least 5
    readings. Two looks: the parabola through all readings, for slow settling, and the first sixth
    of the readings against the line through the later half, for quick settling. Creep departs one
    way, temperature and gauge the other.
    """
    logs = [math.log(one) for one in signal]
    step_share = step / min(signal)
    laminar = _laminar_curvature(times_s, signal, overpressure_bar)
    found = [_slow(times_s, logs, step_share, laminar), _quick(times_s, logs, step_share, laminar)]
    for departs, lowest, highest in found:
        if departs < lowest:
            words = "the reading was still creeping inward at the start: let it settle longer and repeat"
            return Settling(False, departs, highest, words)
        if departs > highest:
            words = (
                "the reading was still falling off at the start (temperature, gauge): wait longer and repeat"
            )
            return Settling(False, departs, highest, words)
    return Settling(True, found[0][0], found[0][2], "settled")


def _slow(
    times_s: Sequence[float], logs: Sequence[float], step_share: float, laminar: float
) -> tuple[float, float, float]:
    """How far the parabola lifts the start off the line; the lowest and highest that say nothing."""
    bend = fit_bend(times_s, logs)
    scatter = _scatter(bend.residual_sd, bend.autocorrelation, bend.n, step_share)
    allowed = max(coverage_factor(bend.n - 3, SURE) * scatter * bend.start_sd_factor, BEND_STEPS * step_share)
    by_itself = laminar * bend.at_start / bend.curvature if bend.curvature else 0.0
    return bend.at_start, by_itself - allowed, allowed


def _quick(
    times_s: Sequence[float], logs: Sequence[float], step_share: float, laminar: float
) -> tuple[float, float, float]:
    """How far the first readings lie off the line through the later half; the lowest and highest as above."""
    keep, first = max(4, len(logs) // 2), max(1, len(logs) // 6)
    later = fit_line(times_s[-keep:], logs[-keep:])
    early_s = math.fsum(times_s[:first]) / first
    reach_s = later.middle - early_s
    scatter = _scatter(later.residual_sd, later.autocorrelation, keep, step_share)
    wide = math.sqrt(1.0 / first + 1.0 / keep + (reach_s / later.root_sxx) ** 2)
    digits = step_share * (0.75 + reach_s / (times_s[-1] - times_s[-keep]))
    allowed = max(coverage_factor(keep - 2, SURE) * scatter * wide, digits)
    return math.fsum(logs[:first]) / first - later.at(early_s), 0.5 * laminar * reach_s**2 - allowed, allowed


def _scatter(residual_sd: float, autocorrelation: float, n: int, step_share: float) -> float:
    """Scatter of one logarithm; what rounding to steps explains is not widened for autocorrelation."""
    digits = step_share / math.sqrt(12)
    beyond = math.sqrt(max(residual_sd**2 - digits**2, 0.0))
    return math.hypot(beyond * autocorrelation_factor(autocorrelation, n), digits)


def _laminar_curvature(times_s: Sequence[float], signal: Sequence[float], overpressure_bar: float) -> float:
    """Second derivative, 1/s2, that laminar flow alone gives the logarithm (0 or negative).

    The logarithm of the difference d falls at k (p_o + p_i), so it bends by -rate^2 d/(p_o + p_i).
    """
    rate = max(math.log(signal[0] / signal[-1]), 0.0) / (times_s[-1] - times_s[0])
    d = overpressure_bar * math.sqrt(signal[-1] / signal[0])
    return -(rate**2) * d / (2.0 * (STANDARD_ATMOSPHERE_BAR + overpressure_bar) - d)
