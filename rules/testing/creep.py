"""Creep or leak, distinguished after venting, and a gauge that hardly moved.

Invariant: nothing here turns a doubtful test into a pass; an inward residue after venting and a silent gauge
each have their own name. Thresholds are our judgement, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rules.checks import number
from rules.testing.gauge import LARGEST_READING

STIFF_STEPS = 3.0 - 1e-9
"""A deflection of fewer gauge steps cannot be judged (our judgement); three of 0.1 are three."""


@dataclass(frozen=True, slots=True)
class AfterVenting:
    """What the reading after venting says."""

    kind: str
    """leak, creep or neither."""
    words: str


def after_venting(*, reading: float, step: float, overpressure_signal: float) -> AfterVenting:
    """Creep or leak, by where the gauge stands once the pressure is off.

    reading: gauge after venting, against the zero before the test, inward positive, in the unit of step.
    overpressure_signal: the first reading under pressure. Air that leaked in bulges the case outward; creep
    leaves it pressed in. Less than a step and less than 1 % of the signal says nothing either way.
    """
    number("reading after venting", reading, low=-LARGEST_READING, high=LARGEST_READING, unit="(gauge)")
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
        "next: a finer gauge, a higher pressure, or a dry test with the tester's own pass or fail"
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
