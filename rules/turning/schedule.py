"""Speeds, feeds, depths and times of turning a plastic on a small lathe.

Invariant: no speed the lathe lacks, no depth over the limit, no finishing cut under the least depth; depths
never grow from one pass to the next and the last two are equal. Depths are on the radius, in mm.
"""

from __future__ import annotations

import math
import tomllib
from dataclasses import dataclass, fields
from functools import cache

from rules.checks import OutOfRange, numbers
from rules.equipment import STEEL_BAR_SPRINGS_FROM, Lathe, Tool
from rules.tables import DATA

VERY_LONG_BAR = 6.0
"""Beyond this many shanks a steel boring bar springs too much to cut to size. Common practice, no source."""
STEPLESS_STEPS_RPM = ((1000.0, 100.0), (0.0, 10.0))
"""A stepless drive is set to whole hundreds from a thousand on, to whole tens below."""
OUTSIDE_ALLOWANCE_MM = 0.4
BORE_ALLOWANCE_MM = 0.6
"""Left for finishing, on the diameter. Common practice, no source."""
OUTSIDE_PASSES = 2
BORE_PASSES = 3
"""Finishing passes at least. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingData:
    """How one plastic is cut here; speeds m/min, feeds mm/rev, depths mm on the radius, rest in minutes."""

    plastic: str
    rough_speed: float
    finish_speed: float
    drill_speed: float
    part_speed: float
    rough_feed: float
    finish_feed: float
    part_feed: float
    drill_feed: float
    largest_turning_depth: float
    largest_boring_depth: float
    finish_depth: float
    least_depth: float
    rest_minutes: float
    swarf: str
    """Either "curls" or "strings"."""

    def __post_init__(self) -> None:
        figures = (field.name for field in fields(self) if field.name not in ("plastic", "swarf"))
        numbers(
            *((f"{name} of {self.plastic}", getattr(self, name), 0.01, 1000.0, "") for name in figures),
            advice="correct the table of cutting data",
        )


@cache
def cutting_data(plastic: str) -> CuttingData:
    """The row of a plastic; one that is not in the table is cut by the cautious row "other"."""
    table = tomllib.loads(DATA.joinpath("turning.toml").read_text(encoding="utf-8"))["plastics"]
    row = table.get(plastic, table["other"])
    return CuttingData(plastic=plastic, **{k: v for k, v in row.items() if k not in ("source", "published")})


def spindle_rpm(*, speed_m_per_min: float, diameter_mm: float) -> float:
    """Spindle speed for a cutting speed: n = 1000 v / (pi D).

    Source: any machining handbook. Speed and diameter are above 0.

    >>> round(spindle_rpm(speed_m_per_min=100.0, diameter_mm=33.0))
    965
    """
    return 1000.0 * speed_m_per_min / (math.pi * diameter_mm)


def nearest_speed(*, lathe: Lathe, wanted_rpm: float) -> float:
    """The lathe's own speed nearest at or below the wanted one; its slowest when all are above."""
    limit = min(wanted_rpm, lathe.largest_rpm)
    if lathe.stepless:
        slowest, fastest = lathe.speeds_rpm
        most = max(min(limit, fastest), 0.0)
        step = next(step for start, step in STEPLESS_STEPS_RPM if most >= start)
        return max(slowest, math.floor(most / step) * step)
    usable = [speed for speed in lathe.speeds_rpm if speed <= lathe.largest_rpm]
    return max((speed for speed in usable if speed <= limit), default=min(usable))


def cutting_minutes(*, length_mm: float, feed_mm: float, rpm: float) -> float:
    """Time of one pass: length over feed times speed, to a thousandth of a minute."""
    return round(length_mm / (feed_mm * rpm), 3)


def boring_depth_limit(*, data: CuttingData, tool: Tool) -> float:
    """Largest depth for a boring bar: halved beyond four shanks of reach, a quarter beyond six.

    Never under twice its finishing depth. Common practice, no source.
    """
    ratio = tool.reach_over_shank
    factor = 0.25 if ratio > VERY_LONG_BAR else 0.5 if ratio > STEEL_BAR_SPRINGS_FROM else 1.0
    return max(data.largest_boring_depth * factor, 2.0 * finishing_depth(data=data, tool=tool))


def finishing_depth(*, data: CuttingData, tool: Tool) -> float:
    """Depth of the finishing passes: halved for a boring bar that springs, never under the least depth."""
    factor = 0.5 if tool.reach_over_shank > STEEL_BAR_SPRINGS_FROM else 1.0
    return max(data.finish_depth * factor, data.least_depth)


def turning_depth_limit(*, data: CuttingData, light: bool) -> float:
    """Largest depth outside: halved for a bar that stands far out or is only stuck on."""
    return data.largest_turning_depth * (0.5 if light else 1.0)


def finish_steps(
    *, step_mm: float, depth_mm: float, allowance_mm: float, least_mm: float, least_passes: int
) -> tuple[int, ...]:
    """Equal finishing passes that take about `allowance_mm` off the diameter, in steps on the diameter.

    `step_mm` is one step on the diameter;
    `depth_mm` on the radius is rounded to the step, never under `least_mm`.
    """
    least = math.ceil(2.0 * least_mm / step_mm - 1e-9)
    each = max(least, round(2.0 * depth_mm / step_mm), 1)
    return (each,) * max(least_passes, min(round(allowance_mm / (each * step_mm)), 2 * least_passes))


def rough_steps(*, to_take_mm: float, step_mm: float, limit_mm: float, finish_step: int) -> tuple[int, ...]:
    """Roughing passes that never grow, none over the limit on the radius,
    none under a finishing pass; in steps.

    `to_take_mm` on the diameter is rarely a whole number of steps: the first pass takes the fraction as well;
    `finish_step` is one finishing pass, in steps. Raises OutOfRange when no such sequence exists.
    """
    total_steps = math.floor(to_take_mm / step_mm + 1e-9)
    most = math.floor(2.0 * limit_mm / step_mm + 1e-9)
    if most < 1:
        raise OutOfRange(
            f"cross slide: one step of {step_mm:g} mm is over the largest depth {limit_mm:g} mm; "
            "use a finer lathe"
        )
    fraction_mm = max(0.0, to_take_mm - total_steps * step_mm)
    first_most = math.floor((2.0 * limit_mm - fraction_mm) / step_mm + 1e-9)
    fewest, many = math.ceil(total_steps / most), max(1, total_steps // finish_step)
    for fall in (0.3, 0.2, 0.1, 0.0):
        for count in range(max(1, fewest), min(many, 2 * fewest + 2) + 1):
            steps = _decreasing(total_steps, count, fall)
            if steps[0] <= first_most and steps[-1] >= finish_step:
                return steps
    raise OutOfRange(
        f"roughing: {total_steps * step_mm:.3f} mm on the diameter cannot be taken in cuts of "
        f"{finish_step * step_mm:g} to {2.0 * limit_mm:g} mm; take a thicker bar or a smaller drill"
    )


def _decreasing(total: int, count: int, fall: float) -> tuple[int, ...]:
    """Split a whole number into `count` falling parts, first and last `fall` of the mean apart."""
    weights = [1.0 + fall / 2.0 - fall * at / max(1, count - 1) for at in range(count)]
    bounds = [round(total * sum(weights[: at + 1]) / sum(weights)) for at in range(count)]
    parts = [bound - before for before, bound in zip([0, *bounds], bounds, strict=False)]
    return tuple(sorted(parts, reverse=True))
