"""Has the reading settled, and was it creep or a leak?

Invariant: nothing here turns a doubtful test into a pass; an early reading off the later line, an inward
residue after venting and a silent gauge each have their own name.
Thresholds are our judgement, checked by simulation; no source.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rules.air import ATMOSPHERE_BAR
from rules.checks import number
from rules.line import Line, autocorrelation_factor, fit_line
from rules.student import coverage_factor

STIFF_STEPS = 3.0
"""A deflection of fewer gauge steps cannot be judged (our judgement)."""
SURE = 0.9995
"""Level at which early readings off the later line are believed."""


@dataclass(frozen=True, slots=True)
class Settling:
    """The early readings compared with the line through the later ones."""

    settled: bool
    excess: float
    """Early readings over the later line, as a fraction of the signal; negative when creep goes on."""
    allowed: float
    """What scatter and gauge steps allow."""
    later: Line
    """The line through the logarithm of the later half."""
    words: str


@dataclass(frozen=True, slots=True)
class AfterVenting:
    """What the reading after venting says."""

    kind: str
    """leak, creep or neither."""
    words: str


def settled(
    times_s: Sequence[float], signal: Sequence[float], *, overpressure_bar: float, step: float
) -> Settling:
    """Compare the first sixth of the readings with the line through the logarithm of the later half.

    times_s in s, signal positive and in the unit of step, overpressure in bar; at least 5 readings. The bend
    that laminar flow gives by itself is allowed for.
    """
    n = len(times_s)
    keep, first = max(4, n // 2), max(1, n // 6)
    logs = [math.log(one) for one in signal]
    later = fit_line(times_s[-keep:], logs[-keep:])
    early_time = math.fsum(times_s[:first]) / first
    excess = math.fsum(logs[:first]) / first - later.at(early_time)
    reach = later.middle - early_time
    wide = math.sqrt(1.0 / keep + 1.0 / first + (reach / later.spread) ** 2)
    scatter = coverage_factor(keep - 2, SURE) * later.residual_sd * autocorrelation_factor(later) * wide
    span = times_s[-1] - times_s[-keep]
    digits = (reach / span + 0.5) * step / min(signal[-keep:])
    allowed = max(scatter, digits)
    bend = _laminar_bend(later, reach, signal, overpressure_bar)
    good = bend - allowed <= excess <= allowed
    if good:
        words = "settled"
    elif excess < 0.0:
        words = "the reading was still creeping inward at the start: let it settle longer and repeat"
    else:
        words = "the reading was still falling off at the start (temperature, gauge): wait longer and repeat"
    return Settling(good, excess, allowed, later, words)


def _laminar_bend(later: Line, reach_s: float, signal: Sequence[float], overpressure_bar: float) -> float:
    """How far below the later line laminar flow alone puts the early readings (0 or negative)."""
    rate = max(-later.slope, 0.0)
    start = max(signal[0], math.exp(later.level))
    lost = overpressure_bar * (1.0 - math.exp(later.level) / start)
    return -rate * reach_s * 0.5 * lost / (2.0 * ATMOSPHERE_BAR + overpressure_bar + lost)


def after_venting(*, reading: float, step: float, overpressure_signal: float) -> AfterVenting:
    """Creep told from leak by the gauge once the pressure is off.

    reading: gauge after venting, against the zero before the test, inward positive, in the unit of step.
    overpressure_signal: the first reading under pressure. Air that leaked in bulges the case outward; creep
    leaves it pressed in. Less than a step and less than 1 % of the signal says nothing either way.
    """
    number("reading after venting", reading, low=-1e9, high=1e9, unit="(gauge)")
    still = max(step, 0.01 * abs(overpressure_signal))
    if reading < -still:
        return AfterVenting("leak", "Outward bulge after venting: air went in. It leaks.")
    if reading > still:
        words = "Pressed inward after venting: creep, which can hide a leak. Let it rest and repeat the test."
        return AfterVenting("creep", words)
    return AfterVenting("neither", "Back to zero after venting: no sign of creep, none of much air gone in.")


def unreadable(readings: Sequence[float], *, start: float, step: float) -> tuple[str, str] | None:
    """Kind (no_deflection, too_stiff) and reason when the gauge hardly moved; None when it can be read.

    readings and step in the gauge's unit, deflection positive; start: the largest of the first readings.
    """
    if max(readings) < step:
        return "no_deflection", (
            "no deflection: gross leak (the inside filled at once) or no contact of the gauge; never a pass"
        )
    if start >= STIFF_STEPS * step:
        return None
    if readings[-1] < 0.5 * start:
        return (
            "no_deflection",
            "hardly any deflection, and it fell away: gross leak or poor contact; never a pass",
        )
    return "too_stiff", (
        "too stiff to judge: under three gauge steps of deflection; "
        "next: a finer gauge or a higher pressure, then a test in water"
    )


def silent_words(*, moves_when_touched: bool | None, after_venting_reading: float | None, step: float) -> str:
    """What a gauge that did not move under pressure may mean; never a pass.

    moves_when_touched: whether the reading moves when the glass is touched lightly; None when not tried.
    after_venting_reading: gauge after venting, inward positive, in the unit of step; None when not read.
    """
    if after_venting_reading is not None and after_venting_reading < -step:
        return "Gross leak: the inside filled as fast as the pressure rose, and bulged outward after venting."
    if moves_when_touched is False:
        return "No contact: the gauge does not follow the glass. Set the probe again and repeat."
    if moves_when_touched:
        return "Gross leak, or a case too stiff to read. Next: underpressure, then the bubble test."
    return "Gross leak or no contact: touch the glass lightly; if the reading moves, it is not the contact."
