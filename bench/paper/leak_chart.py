"""The curve of a test with readings on paper.

Invariant: points are the readings as keyed; without a known volume neither line is drawn.
"""

from __future__ import annotations

from typing import Any

from bench.paper.page import Paper
from rules.checks import OutOfRange
from rules.testing.air import ROOM_C
from rules.testing.leak_curve import AT_LIMIT, FITTED, READING, LeakCurve, leak_curve
from rules.testing.leak_fit import fit_leak
from rules.testing.leak_result import Leak
from rules.testing.rig import LEAST_HOLD_S, Rig


def draw_leak(paper: Paper, curve: LeakCurve, *, left: float, top: float, wide: float, high: float) -> None:
    """Draw a curve in a box; positions in mm."""
    (first, last), (least, most) = curve.minutes, curve.signals
    margin = 0.08 * (most - least) or 1.0
    low, up = max(0.0, least - margin), most + margin

    def place(point: tuple[float, float]) -> tuple[float, float]:
        return left + wide * (point[0] - first) / (last - first), top + high * (up - point[1]) / (up - low)

    paper.stroke([(left, top), (left, top + high), (left + wide, top + high)], width_mm=0.15)
    for value in (low, up):
        paper.at(left - 1.0, place((first, value))[1] + 0.8, f"{value:.1f}", size=6.0, align="right")
    for share in (0.0, 0.5, 1.0):
        x = left + share * wide
        paper.stroke([(x, top + high), (x, top + high + 0.8)], width_mm=0.15)
        minutes = first + (last - first) * share
        paper.at(x, top + high + 3.2, f"{minutes:g} min", size=6.0, align="middle")
    if curve.fitted:
        paper.stroke([place(point) for point in curve.fitted], width_mm=0.3)
    for start, end in zip(curve.limit[::2], curve.limit[1::2], strict=False):
        paper.stroke([place(start), place(end)], width_mm=0.15)
    for x, y in map(place, curve.readings):
        paper.pdf.circle(x=x, y=y, radius=0.5, style="D")
    lines = f"; line: {FITTED}; dashed: {AT_LIMIT}" if curve.limit else ""
    paper.at(left, top - 1.2, f"{READING}s in {curve.unit} over time{lines}", size=6.0)


def curve_of(test: dict[str, Any]) -> LeakCurve:
    """The curve of a test as the sheet holds it, fitted over the readings taken."""
    taken = test["readings"]
    return leak_curve(taken["times_s"], taken["signals_um"], fitted(test), unit="um")


def fitted(test: dict[str, Any]) -> Leak | None:
    """What the readings of a test give; None while the volume or pressure is not known,
    or one is impossible.
    """
    taken, bar = test["readings"], test["overpressure_bar"]
    if taken["volume_cm3"] is None or not bar:
        return None
    warmth = test["temperature_c"] if test["temperature_c"] is not None else ROOM_C
    times = taken["times_s"]
    try:
        rig = Rig(taken["volume_cm3"], taken["volume_u_cm3"], bar, taken["step_um"], warmth)
        return fit_leak(times, taken["signals_um"], rig, fixed_hold_s=max(times[-1], LEAST_HOLD_S))
    except OutOfRange:
        return None
