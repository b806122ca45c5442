"""How the hole is opened that the boring bar goes into: the bar's own bore, drills, or a core cut out.

Invariant: what is opened lets the boring bar in and leaves the bore something to cut; nothing is used that
the shop lacks. Diameters and lengths in mm. Common practice, no source, unless said.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from rules.bars import Bar
from rules.checks import OutOfRange
from rules.equipment import FACE_GROOVING, Lathe, Tool
from rules.lengths import MM
from rules.turning.drills import CLEARANCE_MM, drill_for, drills_to, needed_for
from rules.turning.readout import carriage_target

FIRST_DRILL_MM = 13.0
"""A larger drill follows one of about half its size: straight into the full bar it may crack the work."""
OVERLAP_MM = 0.3
"""Grooves side by side overlap by so much. Own judgement."""
LEAST_CORE_MM = 6.0
"""A thinner core may break off while it turns. Own judgement."""
WORTH_MM = 5.0
"""A core is cut out where a drill would leave so much more to bore. Own judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """What is done before the boring bar goes in; nothing where the bar has a bore of its own."""

    hole_mm: float
    """Diameter from which the bore is roughed."""
    drills_mm: tuple[float, ...] = ()
    """Drills, one after another."""
    tool: Tool | None = None
    """The face-grooving tool where a core is cut out."""
    grooves_mm: tuple[float, ...] = ()
    """Outer diameters of its grooves side by side, the outermost first."""

    @property
    def core_mm(self) -> float:
        """Diameter of the core that stays on the bar; 0 where there is none."""
        return round(self.grooves_mm[-1] - 2.0 * self.tool.blade_mm, 6) if self.tool else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What hole is wanted."""

    room_mm: float
    """It may be no wider, so that the bore has something to cut."""
    ring_deep_mm: float
    """How deep it is made for one ring."""
    bar_deep_mm: float
    """How far all rings of the set-up reach into the bar."""
    bar: Bar
    lathe: Lathe
    tools: tuple[Tool, ...]

    @property
    def groove_deep_mm(self) -> float:
        """How deep a core is grooved, as the carriage shows it: the boring bar's end stays free."""
        return groove_deep_mm(self.lathe, self.ring_deep_mm)

    @property
    def own_mm(self) -> float:
        """The bar's own bore, where it is deep enough; raises OutOfRange where it is too wide."""
        if self.bar.bore_mm > self.room_mm + 1e-9:
            deep = self.bar.bore_deep_mm
            raise OutOfRange(
                f"bar: its bore of {self.bar.bore_mm:.2f} mm leaves too little to cut; one of "
                f"{self.room_mm:.2f} mm or less, or a solid bar, would do"
                + (f"; or saw off its first {deep:.1f} mm" if deep else "")
            )
        return self.bar.bore_to(self.bar_deep_mm)


def groove_deep_mm(lathe: Lathe, ring_deep_mm: float) -> float:
    """How deep a core is grooved for a bore so deep, on the carriage's grid."""
    return carriage_target(lathe.carriage, ring_deep_mm + CLEARANCE_MM, up=True)


def usual_opening(boring: Tool, unit: str = MM) -> Opening:
    """One drill, just wide enough: of a plan that keeps nothing else."""
    drill = drill_for(boring, unit)
    return Opening(hole_mm=drill, drills_mm=(drill,))


def opening_for(boring: Tool, wanted: Wanted) -> Opening | None:
    """How the hole for a boring bar is opened, by what saves most; None where the shop cannot."""
    own = wanted.own_mm
    if own >= needed_for(boring) - 1e-9:
        return Opening(hole_mm=own)
    drilled = _drilled(boring, wanted)
    cored = [one for tool in wanted.tools if (one := cored_by(tool, boring, wanted)) is not None]
    widest = max(cored, key=lambda one: one.hole_mm, default=None)
    if widest is not None and (drilled is None or widest.hole_mm - drilled.hole_mm >= WORTH_MM):
        return widest
    return drilled


def drills_of(lathe: Lathe) -> tuple[float, ...]:
    """The drills that the tailstock takes, smallest first."""
    there = lathe.drills_mm or drills_to(lathe.largest_drill_mm, lathe.drill_unit)
    return tuple(sorted(drill for drill in there if drill <= lathe.largest_drill_mm + 1e-9))


def _drilled(boring: Tool, wanted: Wanted) -> Opening | None:
    """With the largest drill that leaves room."""
    least = max(needed_for(boring), wanted.own_mm)
    there = drills_of(wanted.lathe)
    fitting = [drill for drill in there if least - 1e-9 <= drill <= wanted.room_mm + 1e-9]
    if not fitting:
        return None
    chain = [fitting[-1]]
    while chain[0] > max(FIRST_DRILL_MM, wanted.own_mm):
        smaller = [drill for drill in there if wanted.own_mm < drill <= chain[0] / 2.0]
        if not smaller:
            break
        chain.insert(0, smaller[-1])
    return Opening(hole_mm=chain[-1], drills_mm=tuple(chain))


def cored_by(tool: Tool, boring: Tool, wanted: Wanted) -> Opening | None:
    """A core cut out with this tool, wide enough round it for the boring bar; None where it cannot be."""
    outer = math.floor(10.0 * min(wanted.room_mm, tool.largest_groove_mm) + 1e-9) / 10.0
    if tool.kind != FACE_GROOVING or outer < tool.smallest_groove_mm or tool.depth_mm < wanted.groove_deep_mm:
        return None
    further = max(0.05, tool.blade_mm - OVERLAP_MM)
    more = max(0, math.ceil((needed_for(boring) - tool.blade_mm) / further - 1e-9))
    grooves = tuple(round(outer - 2.0 * further * at, 6) for at in range(more + 1))
    cored = Opening(hole_mm=outer, tool=tool, grooves_mm=grooves)
    set_inside = wanted.lathe.cross.step_on_diameter_mm
    least = max(LEAST_CORE_MM, wanted.own_mm + 2.0) + set_inside
    return cored if cored.core_mm >= least else None


def could_be_cored(boring: Tool, wanted: Wanted) -> Opening | None:
    """A core cut out with a tool that would do here, to say what it would save."""
    deep, across = wanted.groove_deep_mm, wanted.room_mm
    imagined = Tool(
        number=1,
        kind=FACE_GROOVING,
        blade_mm=3.0,
        smallest_groove_mm=max(3.0, across - 1.0),
        largest_groove_mm=max(3.0, across),
        depth_mm=max(0.5, deep),
    )
    return cored_by(imagined, boring, wanted)


def could_be_drilled(boring: Tool, wanted: Wanted, largest_mm: float) -> Opening | None:
    """With every drill up to a size, to say what a larger one would save."""
    lathe = replace(wanted.lathe, drills_mm=(), largest_drill_mm=largest_mm)
    return _drilled(boring, replace(wanted, lathe=lathe))
