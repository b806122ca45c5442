"""A stepped go and no-go plug turned from the bar, and the seat diameter that it gives.

Invariant: steps rise evenly towards the chuck; the seat lies between the largest step that
enters and the smallest that does not, widened by what the plug's own measurement may be off.
Lengths in mm. Common practice, no source.

The smallest step is cut first, at the free end; the tool passes over it clear of the work when it cuts the
next. So every step is a full finishing cut: taking 0.01 mm off the radius of the step before would only rub.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rules.bars import Bar, Grip
from rules.checks import OutOfRange, numbers
from rules.equipment import Lathe, Tool
from rules.limits import RANGES
from rules.measuring.seat_by_plug import STEP_MM
from rules.turning.cutting_words import set_up_guards
from rules.turning.holding import grips_for
from rules.turning.readout import OUTSIDE, CrossFrame
from rules.turning.run import swarf_cautions
from rules.turning.schedule import (
    CuttingData,
    cutting_data,
    cutting_minutes,
    nearest_speed,
    rough_steps,
    spindle_rpm,
)
from rules.turning.stock import CLEAR_OF_JAWS_MM, FIRST_FACING_MM, SKIN_MM
from rules.turning.tool_choice import sharpest

STEPS = 7
STEP_LONG_MM = 3.0
CAUTIONS = ("spindle", "eyes", "bar_behind_spindle", "no_emery_by_hand")
"""Those of turning an outside; swarf has its own, by plastic."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlugWanted:
    """What plug is wanted; raises OutOfRange."""

    seat_mm: float
    """Expected seat, 5 to 80 mm."""
    plastic: str
    steps: int = STEPS
    """3 to 15."""

    def __post_init__(self) -> None:
        numbers(
            ("expected seat", self.seat_mm, *RANGES["case bore"]),
            ("steps of the plug", self.steps, 3, 15, ""),
            advice="give a value in that range",
        )

    @property
    def stick_out_mm(self) -> float:
        """How far the bar stands out for it."""
        return FIRST_FACING_MM + (self.steps + 1) * STEP_LONG_MM + CLEAR_OF_JAWS_MM


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
    cautions: tuple[str, ...]
    """Keys of the cautions that belong to it."""


@dataclass(frozen=True, slots=True)
class _Work:
    """What every pass on the plug has in common."""

    lathe: Lathe
    data: CuttingData
    frame: CrossFrame
    bar: Bar


def plan_plug(wanted: PlugWanted, *, lathe: Lathe, tools: Sequence[Tool], bars: Sequence[Bar]) -> PlugPlan:
    """Passes of a plug round the expected seat, from the thinnest bar that does.

    Steps are 0.02 mm, or the lathe's nearest whole number of its own steps. Raises OutOfRange.
    """
    steps, tool = wanted.steps, sharpest(tools)
    bar = _bar_for(wanted, lathe, bars)
    frame = CrossFrame(axis=lathe.cross, surface=OUTSIDE, zero_diameter_mm=bar.start_mm)
    each = max(1, round(STEP_MM / frame.step_on_diameter_mm))
    middle = frame.steps_at(wanted.seat_mm)
    counts = [middle - frame.cut_sense * each * (at - (steps - 1) // 2) for at in range(steps)]
    step = each * frame.step_on_diameter_mm
    words = [
        f"bar: {bar.plastic}, {bar.diameter_mm:.2f} mm; face the end first",
        *set_up_guards(
            grip=_grip_of(lathe, bar).name, stick_out_mm=wanted.stick_out_mm, lathe=lathe, tool=tool
        ),
        frame.touch_words(bar.start_mm, again=False),
        f"smallest step first, at the free end; {steps} steps of {step:g} mm, each {STEP_LONG_MM:g} mm long",
        (
            "spindle stopped, let it cool, then measure every step with the micrometer: "
            "what it measures counts, not what was aimed at"
        ),
        (
            "a step enters when it goes in square by its own weight or a light push of the thumb, clean, "
            "dry and free of burrs"
        ),
    ]
    if abs(step - STEP_MM) > 1e-9:
        words.append(f"this lathe cannot be set to {STEP_MM} mm: the steps are {step:g} mm")
    return PlugPlan(
        steps_mm=tuple(frame.diameter_at(count) for count in counts),
        bar=bar,
        passes=_passes(_Work(lathe, cutting_data(bar.plastic), frame, bar), counts),
        stick_out_mm=wanted.stick_out_mm,
        words=tuple(words),
        cautions=(*CAUTIONS, *swarf_cautions(bar.plastic)),
    )


def _grip_of(lathe: Lathe, bar: Bar) -> Grip:
    """The grip that holds a bar over the shortest length; there has to be one."""
    return min(grips_for(lathe, bar), key=lambda grip: grip.length_mm)


def _bar_for(wanted: PlugWanted, lathe: Lathe, bars: Sequence[Bar]) -> Bar:
    least, stick_out = wanted.seat_mm + SKIN_MM, wanted.stick_out_mm
    for bar in sorted(bars, key=lambda one: (one.start_mm, one.length_mm)):
        if bar.plastic != wanted.plastic or bar.bore_mm or bar.start_mm < least or not grips_for(lathe, bar):
            continue
        if bar.length_mm >= stick_out + _grip_of(lathe, bar).length_mm:
            return bar
    raise OutOfRange(
        f"bar: no bar of {wanted.plastic} for a plug; one of {least:.2f} mm or more is needed, "
        f"standing out {stick_out:.1f} mm"
    )


def _passes(work: _Work, counts: Sequence[int]) -> tuple[PlugPass, ...]:
    """Rough the whole length, then each step in one full cut, from the free end inward."""
    frame, data = work.frame, work.data
    step = frame.step_on_diameter_mm
    leave = max(math.ceil(2.0 * data.least_depth / step - 1e-9), round(2.0 * data.finish_depth / step))
    end = counts[-1] - frame.cut_sense * leave
    roughs = rough_steps(
        to_take_mm=work.bar.start_mm - frame.diameter_at(end),
        step_mm=step,
        limit_mm=data.largest_turning_depth,
        finish_step=leave,
    )
    made: list[PlugPass] = []
    at, before = end - frame.cut_sense * sum(roughs), work.bar.start_mm
    length = len(counts) * STEP_LONG_MM
    for count in roughs:
        at += frame.cut_sense * count
        made.append(_pass(work, "rough", steps=at, before_mm=before, length_mm=length, n=len(made) + 1))
        before = made[-1].material_diameter_after_mm
    for position, count in enumerate(counts, start=1):
        length = position * STEP_LONG_MM
        made.append(_pass(work, "step", steps=count, before_mm=before, length_mm=length, n=len(made) + 1))
    return tuple(made)


def _pass(work: _Work, operation: str, *, steps: int, before_mm: float, length_mm: float, n: int) -> PlugPass:
    after, data = work.frame.diameter_at(steps), work.data
    speed, feed = (
        (data.rough_speed, data.rough_feed) if operation == "rough" else (data.finish_speed, data.finish_feed)
    )
    wanted = spindle_rpm(speed_m_per_min=speed, diameter_mm=before_mm)
    rpm = nearest_speed(lathe=work.lathe, wanted_rpm=wanted)
    return PlugPass(
        n=n,
        operation=operation,
        reading_text=work.frame.sentence(steps, f"{operation}, {length_mm:.0f} mm from the end"),
        target_mm=work.frame.shown_at(steps),
        material_diameter_after_mm=after,
        cut_depth_mm=round((before_mm - after) / 2.0, 6),
        from_face_mm=length_mm,
        rpm=rpm,
        minutes=cutting_minutes(length_mm=length_mm, feed_mm=feed, rpm=rpm),
    )
