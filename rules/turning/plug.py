"""A stepped go and no-go plug turned from the bar, and the seat diameter that it gives.

Invariant: steps rise evenly towards the chuck; the seat lies between the largest step that enters and the
smallest
that does not, widened by what the plug's own measurement may be off. Lengths in mm. Common practice, no
source.

The smallest step is cut first, at the free end; the tool passes over it clear of the work when it cuts the
next.
So every step is a full finishing cut: taking 0.01 mm off the radius of the step before would only rub.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rules.equipment import Bar, Lathe, Tool
from rules.turning.cutting_words import tool_in
from rules.turning.readout import OUTSIDE, CrossFrame
from rules.turning.schedule import (
    CuttingData,
    cutting_data,
    cutting_minutes,
    nearest_speed,
    rough_steps,
    spindle_rpm,
)
from rules.turning.stock import CLEAR_OF_JAWS_MM, FIRST_FACING_MM, StockWrong

STEP_MM = 0.02
STEPS = 7
STEP_LONG_MM = 3.0


class PlugWrong(ValueError):
    """No plug can be made, or its answer is none; the message says why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlugPass:
    """One pass on the plug."""

    n: int
    operation: str
    """Either "rough" or "step"."""
    reading_text: str
    target_mm: float
    """The figure shown, as in a turning plan."""
    material_diameter_after_mm: float
    cut_depth_mm: float
    from_face_mm: float
    """Length from the free end over which it cuts."""
    rpm: float
    minutes: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PlugPlan:
    """How the plug is made."""

    steps_mm: tuple[float, ...]
    """Diameters, smallest (free end) first."""
    bar: Bar
    passes: tuple[PlugPass, ...]
    stick_out_mm: float
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SeatByPlug:
    """The seat diameter by plug."""

    diameter_mm: float
    low_mm: float
    high_mm: float
    half_width_mm: float
    """Limits of a rectangular distribution."""

    @property
    def standard_uncertainty_mm(self) -> float:
        """Half width over root three (GUM, rectangular)."""
        return self.half_width_mm / math.sqrt(3.0)


def seat_from_plug(*, enters_mm: float, stays_out_mm: float, plug_limit_mm: float = 0.004) -> SeatByPlug:
    """Seat diameter from the largest step that enters and the smallest that does not, each as measured.

    `plug_limit_mm` how far the measured steps may be off, 0 to 0.05 mm. Raises PlugWrong when the two
    steps are not
    in order or lie more than 0.5 mm apart.

    >>> round(seat_from_plug(enters_mm=33.18, stays_out_mm=33.20, plug_limit_mm=0.004).half_width_mm, 6)
    0.014
    """
    for name, value, low, high in (
        ("step that enters", enters_mm, 3.0, 90.0),
        ("step that does not", stays_out_mm, 3.0, 90.0),
        ("limit of the plug", plug_limit_mm, 0.0, 0.05),
    ):
        if not math.isfinite(value) or not low <= value <= high:
            raise PlugWrong(f"{name} is {value:g} mm; give {low:g} to {high:g} mm")
    if not 0.0 < stays_out_mm - enters_mm <= 0.5:
        raise PlugWrong(
            f"the step that enters is {enters_mm:g} mm, the one that does not {stays_out_mm:g} mm; "
            f"give the larger "
            "one second, at most 0.5 mm larger"
        )
    half = (stays_out_mm - enters_mm) / 2.0 + plug_limit_mm
    middle = (enters_mm + stays_out_mm) / 2.0
    return SeatByPlug(
        diameter_mm=round(middle, 6),
        low_mm=round(middle - half, 6),
        high_mm=round(middle + half, 6),
        half_width_mm=round(half, 6),
    )


def plan_plug(
    *,
    seat_mm: float,
    lathe: Lathe,
    tools: Sequence[Tool],
    bars: Sequence[Bar],
    plastic: str,
    steps: int = STEPS,
) -> PlugPlan:
    """Passes of a plug of 3 to 15 steps round the expected seat, 5 to 80 mm.

    Steps are 0.02 mm, or the lathe's nearest whole number of its own steps. Raises PlugWrong, StockWrong.
    """
    if not math.isfinite(seat_mm) or not 5.0 <= seat_mm <= 80.0:
        raise PlugWrong(f"expected seat is {seat_mm:g} mm; give 5 to 80 mm")
    if not 3 <= steps <= 15:
        raise PlugWrong(f"steps of the plug are {steps}; give 3 to 15")
    turning = [tool for tool in tools if tool.kind == "turning"]
    if not turning:
        raise PlugWrong("no turning tool in the tool set; add one to shop.toml")
    tool = min(turning, key=lambda one: (one.nose_radius_mm, one.number))
    bar, stick_out = _bar_for(seat_mm, lathe, bars, plastic, steps)
    frame = CrossFrame(axis=lathe.cross, surface=OUTSIDE, zero_diameter_mm=bar.diameter_mm)
    each = max(1, round(STEP_MM / frame.step_on_diameter_mm))
    middle = frame.steps_at(seat_mm)
    counts = [middle - frame.cut_sense * each * (at - (steps - 1) // 2) for at in range(steps)]
    diameters = tuple(frame.diameter_at(count) for count in counts)
    passes = _passes(frame, counts, lathe, cutting_data(plastic), bar)
    step = each * frame.step_on_diameter_mm
    words = [
        f"bar: {bar.plastic}, {bar.diameter_mm:.2f} mm, standing out {stick_out:.1f} mm; face the end first",
        tool_in(tool),
        frame.touch_words(bar.diameter_mm, again=False),
        f"smallest step first, at the free end; {steps} steps of {step:g} mm, each {STEP_LONG_MM:g} mm long",
        "let it cool, then measure every step with the micrometer: what it measures counts, not "
        "what was aimed at",
        "enters means by its own weight or a light thumb, square, without force; clean and dry, no burr",
    ]
    if abs(step - STEP_MM) > 1e-9:
        words.append(f"this lathe cannot be set to {STEP_MM} mm: the steps are {step:g} mm")
    return PlugPlan(steps_mm=diameters, bar=bar, passes=passes, stick_out_mm=stick_out, words=tuple(words))


def _bar_for(
    seat_mm: float, lathe: Lathe, bars: Sequence[Bar], plastic: str, steps: int
) -> tuple[Bar, float]:
    stick_out = FIRST_FACING_MM + (steps + 1) * STEP_LONG_MM + CLEAR_OF_JAWS_MM
    need = seat_mm + 1.0
    for bar in sorted(bars, key=lambda one: (one.diameter_mm, one.length_mm)):
        grips = [grip for grip in lathe.grips if grip.smallest_mm <= bar.diameter_mm <= grip.largest_mm]
        enough = grips and bar.length_mm >= stick_out + min(grip.length_mm for grip in grips)
        if bar.plastic == plastic and bar.diameter_mm >= need and enough:
            return bar, stick_out
    raise StockWrong(
        f"no bar of {plastic} for a plug: {need:.2f} mm thick or more, standing out {stick_out:.1f} mm"
    )


def _passes(
    frame: CrossFrame, counts: Sequence[int], lathe: Lathe, data: CuttingData, bar: Bar
) -> tuple[PlugPass, ...]:
    """Rough the whole length, then each step in one full cut, from the free end inward."""
    step = frame.step_on_diameter_mm
    largest = counts[-1]
    leave = max(math.ceil(2.0 * data.least_depth / step - 1e-9), round(2.0 * data.finish_depth / step))
    rough_end = largest - frame.cut_sense * leave
    to_take = bar.diameter_mm - frame.diameter_at(rough_end)
    whole = math.floor(to_take / step + 1e-9)
    made: list[PlugPass] = []
    at, before = rough_end - frame.cut_sense * whole, bar.diameter_mm
    length = len(counts) * STEP_LONG_MM
    for count in rough_steps(
        total_steps=whole,
        first_fraction_mm=max(0.0, to_take - whole * step),
        step_mm=step,
        limit_mm=data.largest_turning_depth,
        finish_step=leave,
    ):
        at += frame.cut_sense * count
        made.append(_pass(frame, "rough", at, before, length, lathe, data, len(made) + 1))
        before = made[-1].material_diameter_after_mm
    for position, count in enumerate(counts, start=1):
        made.append(_pass(frame, "step", count, before, position * STEP_LONG_MM, lathe, data, len(made) + 1))
    return tuple(made)


def _pass(
    frame: CrossFrame,
    operation: str,
    steps: int,
    before: float,
    length: float,
    lathe: Lathe,
    data: CuttingData,
    n: int,
) -> PlugPass:
    after = frame.diameter_at(steps)
    speed, feed = (
        (data.rough_speed, data.rough_feed) if operation == "rough" else (data.finish_speed, data.finish_feed)
    )
    rpm = nearest_speed(lathe=lathe, wanted_rpm=spindle_rpm(speed_m_per_min=speed, diameter_mm=before))
    return PlugPass(
        n=n,
        operation=operation,
        reading_text=frame.sentence(steps, f"{operation}, {length:.0f} mm from the end"),
        target_mm=frame.shown_at(steps),
        material_diameter_after_mm=after,
        cut_depth_mm=round((before - after) / 2.0, 6),
        from_face_mm=length,
        rpm=rpm,
        minutes=round(cutting_minutes(length_mm=length, feed_mm=feed, rpm=rpm), 3),
    )
