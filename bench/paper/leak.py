"""The curve of a test with readings on paper: the readings, a line through them, and what a leak at the limit does.

Invariant: points are the readings as keyed; the limit line needs a known volume and is left out without one.
"""

from __future__ import annotations

import math
from typing import Any

from bench.paper.page import Paper
from rules.testing.line import fit_line
from rules.testing.rig import Rig

PARTS = 40
ROOM_C = 20.0


def draw_leak(
    paper: Paper, test: dict[str, Any], *, left: float, top: float, wide: float, high: float
) -> None:
    """Draw readings over time in a box; positions in mm, time in minutes, signal in micrometres."""
    taken = test["readings"]
    times, signals = taken["times_s"], taken["signals_um"]
    start, decay = through(times, signals)
    limit = limit_decay(test)
    floor = min(signals)
    if start is not None and limit is not None:
        floor = min(floor, start * math.exp(-limit * times[-1]))
    ceiling = max(*signals, start or 0.0)
    margin = max(0.08 * (ceiling - floor), taken["step_um"])
    low, up = max(0.0, floor - margin), ceiling + margin

    def place(time_s: float, signal: float) -> tuple[float, float]:
        return left + wide * time_s / times[-1], top + high * (up - signal) / (up - low)

    paper.stroke([(left, top), (left, top + high), (left + wide, top + high)], width_mm=0.15)
    for value in (low, up):
        paper.at(left - 1.0, place(0.0, value)[1] + 0.8, f"{value:.1f}", size=6.0, align="right")
    for share in (0.0, 0.5, 1.0):
        x = left + share * wide
        paper.stroke([(x, top + high), (x, top + high + 0.8)], width_mm=0.15)
        paper.at(x, top + high + 3.2, f"{times[-1] * share / 60:g} min", size=6.0, align="middle")
    if start is not None:
        steps = [times[-1] * n / PARTS for n in range(PARTS + 1)]
        paper.stroke([place(t, start * math.exp(-decay * t)) for t in steps], width_mm=0.3)
        if limit is not None:
            fall = [place(t, start * math.exp(-limit * t)) for t in steps]
            for n in range(0, PARTS, 2):
                paper.stroke([fall[n], fall[n + 1]], width_mm=0.15)
            if limit > decay:
                paper.at(left + wide, fall[-1][1] - 2.2, "limit", size=6.0, align="right")
    for time_s, signal in zip(times, signals, strict=True):
        x, y = place(time_s, signal)
        paper.pdf.circle(x=x, y=y, radius=0.5, style="D")
    words = "readings in um over time, and a line through them"
    shown = "; dashed: a leak at the limit" if start is not None and limit is not None else ""
    paper.at(left, top - 1.2, words + shown, size=6.0)


def through(times: list[float], signals: list[float]) -> tuple[float | None, float]:
    """Signal at time 0 and its relative fall, 1/s, through the readings; None where one of them is 0."""
    if min(signals) <= 0.0:
        return None, 0.0
    line = fit_line(times, [math.log(one) for one in signals])
    return math.exp(line.at(0.0)), -line.slope


def limit_decay(test: dict[str, Any]) -> float | None:
    """The relative fall of a leak at the limit, 1/s; None while the volume or pressure is not known."""
    taken, bar = test["readings"], test["overpressure_bar"]
    if taken["volume_cm3"] is None or not bar:
        return None
    warmth = test["temperature_c"] if test["temperature_c"] is not None else ROOM_C
    rig = Rig(taken["volume_cm3"], taken["volume_u_cm3"], bar, taken["step_um"], warmth)
    return rig.limit_decay_per_s
