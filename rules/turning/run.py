"""What all passes of one operation on one surface have in common: tool, frame, lengths, depths and speed.

Invariant: targets are whole steps of the slide; a bore that ends on a foot is never driven past its floor.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules.equipment import Tool
from rules.turning import operations
from rules.turning.order import FLOOR_MM, Order
from rules.turning.passes import OUTSIDE_LIMIT_MM, SURFACE_OF, WALL_LIMIT_MM, Pass
from rules.turning.readout import OUTSIDE, CrossFrame, carriage_target, carriage_words
from rules.turning.schedule import (
    BORE_ALLOWANCE_MM,
    BORE_PASSES,
    OUTSIDE_ALLOWANCE_MM,
    OUTSIDE_PASSES,
    boring_depth_limit,
    cutting_minutes,
    finish_steps,
    finishing_depth,
    nearest_speed,
    spindle_rpm,
    turning_depth_limit,
)


@dataclass(frozen=True, slots=True)
class Run:
    """What all passes of one operation on a surface have in common."""

    order: Order
    operation: str
    """One of the keys of SURFACE_OF."""
    ring: int = 1
    begun_mm: float | None = None
    """Diameter of a core's groove as the slide leaves it, where the bore begins there."""

    @property
    def is_rough(self) -> bool:
        """True for roughing, false for finishing."""
        return self.operation in operations.ROUGHING

    @property
    def is_outside(self) -> bool:
        """True on the outside, false in the bore."""
        return SURFACE_OF[self.operation] == OUTSIDE

    @property
    def is_foot(self) -> bool:
        """True for the hole in a foot, which is not finished by itself."""
        return self.operation == operations.ROUGH_FOOT

    @property
    def name(self) -> str:
        """What is cut, as its targets say it."""
        return "foot bore" if self.is_foot else self.frame.surface

    @property
    def frame(self) -> CrossFrame:
        """How the cross slide shows this surface."""
        return self.order.frame(SURFACE_OF[self.operation])

    @property
    def tool(self) -> Tool:
        """The tool that cuts it."""
        return self.order.turning if self.is_outside else self.order.boring

    @property
    def wanted_mm(self) -> float:
        """Diameter it is to have."""
        if self.is_foot:
            return self.order.ring.foot_bore_mm
        return self.order.ring.outside_diameter_mm if self.is_outside else self.order.bore_of(self.ring)

    @property
    def limit_mm(self) -> float:
        """It may differ from it by this much, on the radius."""
        return OUTSIDE_LIMIT_MM / 2.0 if self.is_outside else WALL_LIMIT_MM

    @property
    def start_mm(self) -> float:
        """Diameter it is roughed from: the bar as it is, or the hole in it."""
        return self.order.bar.start_mm if self.is_outside else self.begun_mm or self.order.opening.hole_mm

    @property
    def length_mm(self) -> float:
        """Length of one pass: all rings of the set-up outside, one ring in the bore, down to its foot."""
        if self.is_outside:
            return self.order.turned_length_mm
        if self.is_foot:
            return self.order.bore_depth_mm
        short = FLOOR_MM if self.is_rough and self.order.ring.foot_mm else 0.0
        return self.order.pocket_mm - short

    @property
    def along_mm(self) -> float:
        """Where the tool stops, from the face, on the carriage's grid: never short of the length, and never
        past the floor on a foot.
        """
        ends = not self.is_outside and not self.is_foot and bool(self.order.ring.foot_mm)
        return carriage_target(self.order.lathe.carriage, self.length_mm, up=not ends)

    @property
    def along_text(self) -> str:
        """The same as a sentence."""
        act, axis = "turn" if self.is_outside else "bore", self.order.lathe.carriage
        return f"{act} along: {carriage_words(axis, self.along_mm)}"

    @property
    def finish_counts(self) -> tuple[int, ...]:
        """The finishing passes, in steps."""
        allowance, passes = (
            (OUTSIDE_ALLOWANCE_MM, OUTSIDE_PASSES) if self.is_outside else (BORE_ALLOWANCE_MM, BORE_PASSES)
        )
        return finish_steps(
            step_mm=self.frame.step_on_diameter_mm,
            depth_mm=finishing_depth(data=self.order.data, tool=self.tool),
            allowance_mm=allowance,
            least_mm=self.order.data.least_depth,
            least_passes=passes,
        )

    @property
    def roughed_steps(self) -> int:
        """Where roughing ends and finishing begins, in steps of the cross slide."""
        left = 0 if self.is_foot else sum(self.finish_counts)
        return self.frame.steps_at(self.wanted_mm) - self.frame.cut_sense * left

    @property
    def depth_limit_mm(self) -> float:
        """Largest depth of a roughing pass, on the radius; never under one finishing pass."""
        data, step = self.order.data, self.frame.step_on_diameter_mm
        limit = (
            turning_depth_limit(data=data, light=self.order.light)
            if self.is_outside
            else boring_depth_limit(data=data, tool=self.tool)
        )
        return max(limit, (self.finish_counts[0] + 0.5) * step)

    @property
    def feed_mm(self) -> float:
        """Feed, mm a turn."""
        return self.order.data.rough_feed if self.is_rough else self.order.data.finish_feed

    @property
    def rpm(self) -> float:
        """Spindle speed, for the largest diameter that is cut."""
        if not self.is_rough:
            return speed(self.order, self.order.data.finish_speed, self.wanted_mm)
        largest = self.start_mm if self.is_outside else self.frame.diameter_at(self.roughed_steps)
        return speed(self.order, self.order.data.rough_speed, largest)

    def cuts(self, start_steps: int, counts: tuple[int, ...], start_mm: float) -> list[Pass]:
        """Passes of these numbers of steps, from a place of the cross slide
        and the diameter that stands there.
        """
        at, before_mm, passes = start_steps, start_mm, []
        frame, rpm = self.frame, self.rpm
        for count in counts:
            at += frame.cut_sense * count
            after_mm = frame.diameter_at(at)
            passes.append(
                Pass(
                    n=0,
                    operation=self.operation,
                    ring=self.ring,
                    tool=self.tool.number,
                    rpm=rpm,
                    axis="cross",
                    reading_text=frame.sentence(at, self.name),
                    shows=frame.shows,
                    target_mm=frame.shown_at(at),
                    along_mm=self.along_mm,
                    along_text=self.along_text,
                    figure_text=frame.figure_at(at),
                    zero_diameter_mm=None if frame.is_absolute else frame.zero_diameter_mm,
                    offset_mm=frame.offset_mm,
                    steps=at,
                    cut_depth_mm=round(abs(before_mm - after_mm) / 2.0, 6),
                    material_diameter_after_mm=after_mm,
                    feed_mm=self.feed_mm,
                    minutes=cutting_minutes(length_mm=self.length_mm, feed_mm=self.feed_mm, rpm=rpm),
                    cautions=swarf_cautions(self.order.data.plastic) if self.is_rough else (),
                )
            )
            before_mm = after_mm
        return passes


def speed(order: Order, speed_m_per_min: float, diameter_mm: float) -> float:
    """The lathe's own speed for a cutting speed at a diameter, rpm."""
    wanted = spindle_rpm(speed_m_per_min=speed_m_per_min, diameter_mm=diameter_mm)
    return nearest_speed(lathe=order.lathe, wanted_rpm=wanted)


def swarf_cautions(plastic: str) -> tuple[str, ...]:
    """Keys of the cautions about swarf of a plastic."""
    return ("swarf_hook", *{"acetal": ("acetal_smoulder",), "ptfe": ("ptfe_smoke",)}.get(plastic, ()))
