"""A leak rate from readings of a gauge, and what may be said of it.

Invariant: nothing passes unless the whole 95 % interval lies under the limit, over a hold fixed before the
test, with a reading that moved, settled and could be resolved; stopping early never helps.
Thresholds without a source are our judgement, checked by simulation.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from rules.checks import number
from rules.measuring.limit import FAIL, NOT_JUDGED, PASS, UNDECIDED
from rules.testing.air import LIMIT_UG_MIN, REFERENCE_OVERPRESSURE_BAR
from rules.testing.creep import STIFF_STEPS, after_venting, silent_words, unreadable
from rules.testing.gauge import LEAST_READINGS, inward, usable
from rules.testing.leak_result import Leak
from rules.testing.line import FittedLine, autocorrelation_factor, fit_line
from rules.testing.rig import LEAST_HOLD_S, LONGEST_HOLD_S, Rig
from rules.testing.settling import Settling, settled

GONE = 0.1
"""Below this fraction of the first reading the inside has filled already: a gross leak."""
MOST_ALLOWANCE = 0.05
"""The signal's own uncertainty eases the hold by at most this share."""


def fit_leak(
    times_s: Sequence[float],
    signal: Sequence[float],
    rig: Rig,
    *,
    fixed_hold_s: float | None = None,
    after_venting_reading: float | None = None,
) -> Leak:
    """The leak from readings under a held overpressure.

    times_s: s since the pressure was reached, rising. signal: the gauge, proportional to the pressure
    difference, in the unit of the rig's step. fixed_hold_s: length of the hold as fixed before the test;
    readings after it do not count. Without it the needed hold follows from the readings themselves.
    after_venting_reading: the gauge once the pressure is off, same sign and unit: creep left in the case
    takes a pass away, an outward bulge makes a silent gauge a gross leak.
    Raises OutOfRange for impossible figures, fewer than 5 readings or times that do not rise.
    """
    if fixed_hold_s is not None:
        advice = "hold at least 10 minutes"
        number("hold", fixed_hold_s, low=LEAST_HOLD_S, high=LONGEST_HOLD_S, unit="s", advice=advice)
    times, readings = usable(times_s, signal, fixed_hold_s)
    return _sorted_out(rig, times, readings, fixed_hold_s, inward(after_venting_reading, signal))


def _sorted_out(
    rig: Rig, times: list[float], readings: list[float], fixed_s: float | None, vented: float | None
) -> Leak:
    """Silent, dropped out, gross or measurable: each its own way."""
    start = max(readings[:3])
    hold = fixed_s if fixed_s is not None else rig.least_hold_s(max(start, rig.step))
    unread = unreadable(readings, start=start, step=rig.step)
    if unread:
        return _not_judged(rig, *unread, hold, times, vented)
    low = max(rig.step, GONE * start)
    gone = next((i for i, one in enumerate(readings) if one < low), len(readings))
    if max(readings[gone:], default=0.0) > 2.0 * low:
        dropped = f"the reading dropped out at {times[gone]:g} s and came back: see to the gauge and repeat"
        return _not_judged(rig, "dropped_out", dropped, hold, times, vented)
    if gone < len(readings) and (gone < LEAST_READINGS or times[gone - 1] - times[0] < hold):
        return _gross(rig, times, readings, gone, hold)
    return _doubt_creep(_judged(rig, times[:gone], readings[:gone], fixed_s), vented, rig.step)


def _doubt_creep(leak: Leak, vented: float | None, step: float) -> Leak:
    """A pass with creep left in the case is no pass."""
    if vented is None or leak.signal_at_start is None or leak.decision != PASS:
        return leak
    seen = after_venting(reading=vented, step=step, overpressure_signal=leak.signal_at_start)
    if seen.kind != "creep":
        return leak
    return replace(
        leak, decision=UNDECIDED, settled=False, reason=f"{leak.reason}. {seen.words.removesuffix('.')}"
    )


def _not_judged(
    rig: Rig, kind: str, reason: str, hold: float, times: Sequence[float], vented: float | None
) -> Leak:
    bulged = vented is not None and vented <= -STIFF_STEPS * rig.step
    if bulged:
        kind, reason = (
            "gross",
            silent_words(moves_when_touched=None, after_venting_reading=vented, step=rig.step),
        )
    return Leak(
        rate_ug_min=None,
        low_ug_min=None,
        high_ug_min=None,
        law=rig.law,
        decision=FAIL if bulged else NOT_JUDGED,
        hold_needed_s=hold,
        settled=None,
        reason=reason,
        kind=kind,
        duration_s=times[-1] - times[0],
        signal_at_start=None,
        decay_per_s=None,
        limit_decay_per_s=rig.limit_decay_per_s,
    )


def _gross(rig: Rig, times: Sequence[float], readings: Sequence[float], gone: int, hold: float) -> Leak:
    """The signal fell to nothing within the hold: the least leak that does so is judged."""
    fell_s = times[gone] - times[0]
    least = rig.scale * -math.log(max(rig.step / readings[0], GONE)) / fell_s
    sure = least * (1.0 - rig.volume_u_cm3 / rig.volume_cm3)
    decision = rig.decision(sure, 0.0) if sure > LIMIT_UG_MIN else UNDECIDED
    reason = f"gross leak: the deflection was gone after {fell_s:.0f} s, at least {least:.0f} ug/min"
    if rig.law_decides(sure):
        reason = f"{reason}; {ONE_LAW_ONLY}"
    return Leak(
        rate_ug_min=least,
        low_ug_min=sure,
        high_ug_min=None,
        law=rig.law,
        decision=decision,
        hold_needed_s=hold,
        settled=None,
        reason=reason,
        kind="gross",
        duration_s=times[-1] - times[0],
        signal_at_start=readings[0],
        decay_per_s=least / rig.scale,
        limit_decay_per_s=rig.limit_decay_per_s,
    )


def _judged(rig: Rig, times: Sequence[float], readings: Sequence[float], fixed_s: float | None) -> Leak:
    line = fit_line(times, [math.log(one) for one in readings])
    start, duration = math.exp(line.at(0.0)), times[-1] - times[0]
    rate = (0.0 - line.slope) * rig.scale
    half = rig.half_width(line, signal=start, duration_s=duration)
    hold = fixed_s if fixed_s is not None else _hold_from(rig, line, start, duration)
    settling = settled(times, readings, overpressure_bar=rig.overpressure_bar, step=rig.step)
    rising = rate + half < 0.0
    later = fit_line(times[len(times) // 2 :], [math.log(one) for one in readings[len(times) // 2 :]])
    decision, reason = _decide(rig, rate, half, settling, later, rising=rising, short=duration < hold - 1e-6)
    return Leak(
        rate_ug_min=rate,
        low_ug_min=rate - half,
        high_ug_min=rate + half,
        law=rig.law,
        decision=decision,
        hold_needed_s=hold,
        settled=settling.settled and not rising,
        reason=reason,
        kind="measured",
        duration_s=duration,
        signal_at_start=start,
        decay_per_s=-line.slope,
        limit_decay_per_s=rig.limit_decay_per_s,
    )


def _hold_from(rig: Rig, line: FittedLine, start: float, duration_s: float) -> float:
    """The shortest hold that counts with the signal as fitted, s.

    A record that was long enough for the signal within its own scatter (three standard deviations) counts.
    """
    hold = rig.least_hold_s(start)
    scatter = line.residual_sd * autocorrelation_factor(line.autocorrelation, line.n)
    sd = scatter * math.sqrt(1.0 / line.n + (line.middle / line.root_sxx) ** 2)
    eased = rig.least_hold_s(start * (1.0 + min(3.0 * sd, MOST_ALLOWANCE)))
    return 60.0 * math.floor(duration_s / 60.0 + 1e-9) if eased <= duration_s < hold else hold


def _decide(
    rig: Rig, rate: float, half: float, settling: Settling, later: FittedLine, *, rising: bool, short: bool
) -> tuple[str, str]:
    read = f"leak {rate:.1f} +- {half:.1f} ug/min (95 %, at 2 bar overpressure; limit {LIMIT_UG_MIN:g})"
    if short:
        return UNDECIDED, f"{read}: held shorter than the hold needed, so it does not count"
    if rising:
        return (
            UNDECIDED,
            f"{read}: the reading still rises, so creep may hide a leak; let it settle and repeat",
        )
    decision = rig.decision(rate, half)
    if settling.settled:
        return decision, f"{read}: {ONE_LAW_ONLY if rig.law_decides(rate - half) else _WORDS[decision]}"
    if decision == FAIL and _later_fails(rig, later):
        return FAIL, f"{read}: {_WORDS[FAIL]}, by the later readings alone as well"
    return UNDECIDED, f"{read}: not settled, {settling.words}"


ONE_LAW_ONLY = (
    "over the limit by one law of flow, under it by the other; "
    f"the same test at {REFERENCE_OVERPRESSURE_BAR:g} bar over decides"
)
"""What is said where the two laws of flow disagree."""
_WORDS = {
    PASS: "the whole interval lies under the limit",
    FAIL: "the whole interval lies over the limit",
    UNDECIDED: "the limit lies inside the interval; hold longer, a finer gauge or a better volume would help",
}


def _later_fails(rig: Rig, later: FittedLine) -> bool:
    duration = later.root_sxx * math.sqrt(12.0 * (later.n - 1) / (later.n * (later.n + 1)))
    half = rig.half_width(later, signal=math.exp(later.level), duration_s=duration)
    return rig.decision(-later.slope * rig.scale, half) == FAIL
