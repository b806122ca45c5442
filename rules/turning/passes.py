"""The turning plan as data: what is made, with what, and the numbered passes.

Invariant: passes are numbered 1, 2, 3 ... in the order in which they are cut; the same order gives the
same plan.
Lengths in mm, speeds in rpm, times in minutes.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from rules.equipment import Bar, Lathe, Tool
from rules.turning.readout import BORE, OUTSIDE, CrossFrame
from rules.turning.schedule import CuttingData
from rules.turning.stock import StockUse

OPERATIONS = (
    "face",
    "rough_outside",
    "centre",
    "drill",
    "rough_bore",
    "rest",
    "finish_outside",
    "finish_bore",
    "chamfer",
    "lower_chamfer",
    "part",
    "dress",
)
HEIGHT_UNDER_MM = 0.05
"""The height may come out this much under, never over: the ring must not stand proud. Own judgement."""
TIGHTER_SPARE_MM = 0.02
"""The second spare is bored this much smaller. Common practice, no source."""


class TurningWrong(ValueError):
    """The ring cannot be turned so; the message says what is missing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RingSize:
    """The five numbers of a ring, mm."""

    outside_diameter_mm: float
    bore_mm: float
    height_mm: float
    chamfer_mm: float = 0.10
    lower_chamfer_mm: float = 0.10

    def __post_init__(self) -> None:
        limits = (
            ("outside diameter", self.outside_diameter_mm, 4.0, 85.0),
            ("bore", self.bore_mm, 3.0, 84.0),
            ("height", self.height_mm, 0.3, 6.0),
            ("chamfer", self.chamfer_mm, 0.0, 1.5),
            ("lower chamfer", self.lower_chamfer_mm, 0.0, 1.5),
        )
        for name, value, low, high in limits:
            if not math.isfinite(value) or not low <= value <= high:
                raise TurningWrong(f"{name} of the ring is {value:g} mm; give {low:g} to {high:g} mm")
        if self.wall_mm < 0.20:
            raise TurningWrong(
                f"wall of the ring is {self.wall_mm:.3f} mm; under 0.20 mm it cannot be turned: a "
                f"smaller bore is needed"
            )
        if self.chamfer_mm > 0.8 * self.wall_mm:
            raise TurningWrong(
                f"chamfer is {self.chamfer_mm:g} mm on a wall of {self.wall_mm:.2f} mm; give at "
                f"most {0.8 * self.wall_mm:.2f} mm"
            )

    @property
    def wall_mm(self) -> float:
        """Wall on the radius."""
        return (self.outside_diameter_mm - self.bore_mm) / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """Everything a plan follows from."""

    ring: RingSize
    data: CuttingData
    lathe: Lathe
    bar: Bar
    turning: Tool
    boring: Tool
    chamfer: Tool
    parting: Tool
    stock: StockUse
    spares: int
    offsets_mm: tuple[tuple[int, float], ...]
    """Pairs of tool number and offset on the diameter."""
    outside_first: bool
    dressing_mm: float
    wall_limit_mm: float
    """The wall may differ by this much either way."""
    outside_limit_mm: float
    expansion_per_k: float | None
    """Linear expansion of the plastic; None = not known."""

    def offset_mm(self, tool: Tool) -> float:
        """The tool's known offset, 0 when none was learned."""
        return dict(self.offsets_mm).get(tool.number, 0.0)

    @property
    def rings(self) -> int:
        """How many rings this set-up makes."""
        return 1 + self.spares

    def bore_of(self, ring: int) -> float:
        """Bore of the n-th ring: one on size, one the same, one tighter, further ones on size."""
        return self.ring.bore_mm - (TIGHTER_SPARE_MM if ring == 3 else 0.0)

    @property
    def drill_mm(self) -> float:
        """The smallest whole half millimetre that the boring bar goes into with room to spare."""
        return drill_for(self.boring)

    @property
    def bore_depth_mm(self) -> float:
        """How deep the bore is made for one ring."""
        return bore_depth(
            height_mm=self.ring.height_mm, dressing_mm=self.dressing_mm, blade_mm=self.parting.blade_mm
        )

    def frame(self, surface: str) -> CrossFrame:
        """How the cross slide shows the outside or the bore."""
        tool, zero = (
            (self.turning, self.bar.diameter_mm) if surface == OUTSIDE else (self.boring, self.drill_mm)
        )
        return CrossFrame(
            axis=self.lathe.cross, surface=surface, zero_diameter_mm=zero, offset_mm=self.offset_mm(tool)
        )


def drill_for(tool: Tool) -> float:
    """Drill that lets a boring bar in: its smallest bore and 0.3 mm, up to the next half millimetre."""
    return math.ceil(2.0 * (tool.smallest_bore_mm + 0.3) - 1e-9) / 2.0


def bore_depth(*, height_mm: float, dressing_mm: float, blade_mm: float) -> float:
    """Depth of the bore for one ring: height, dressing, blade and 0.3 mm. Common practice, no source."""
    return height_mm + dressing_mm + blade_mm + 0.3


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """One pass or act at the lathe."""

    n: int
    operation: str
    """One of OPERATIONS."""
    ring: int
    """1 for the ring, 2 and on for spares."""
    tool: int | None
    """Number in the shop's list; None for the tailstock and by hand."""
    rpm: float | None
    axis: str | None
    """Either "cross", "long", "tailstock" or None."""
    reading_text: str
    """The target as a sentence."""
    shows: str | None
    """Either diameter, radius, dial or length; None where no slide is read."""
    target_mm: float | None
    """The figure shown, in the display's own millimetres; travel from zero where the slide is zeroed."""
    figure_text: str = ""
    """The bare figure of a cross pass as it is read, for lists; empty elsewhere."""
    zero_diameter_mm: float | None = None
    """Diameter touched where the target counts from zero; None where the figure is the size itself."""
    offset_mm: float = 0.0
    """What the tool is known to leave over the figure, on the diameter; already allowed for."""
    steps: int | None = None
    """The target in whole steps of the cross slide."""
    cut_depth_mm: float | None = None
    """On the radius; along the bar for facing and the chamfer."""
    material_diameter_after_mm: float | None = None
    feed_mm: float | None = None
    minutes: float = 0.0
    measure: str = ""
    """What is measured after it, spindle stopped: "outside", "wall" or nothing."""
    before: tuple[str, ...] = ()
    """Setting and tool change that come before it."""
    cautions: tuple[str, ...] = ()
    """Keys of the cautions that belong here."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A turning plan; corrected plans are plans."""

    order: Order
    passes: tuple[Pass, ...]
    set_up: tuple[str, ...]
    """What is done before the first pass, a sentence each."""
    stock_words: tuple[str, ...]
    warnings: tuple[str, ...]
    measured_mm: tuple[tuple[int, float], ...] = ()
    """Pairs of pass number and the diameter that a reading after it found."""

    @property
    def minutes(self) -> float:
        """Time of all passes, rests and dressing, without changing tools and measuring."""
        return round(sum(one.minutes for one in self.passes), 2)

    @property
    def read_after(self) -> tuple[int, ...]:
        """Numbers of the passes after which a reading was already used."""
        return tuple(n for n, _ in self.measured_mm)

    @property
    def cutting_minutes(self) -> float:
        """Time in which a tool cuts."""
        return round(sum(one.minutes for one in self.passes if one.rpm), 2)

    @property
    def offsets_mm(self) -> Mapping[int, float]:
        """The tools' offsets as known now, for the next ring."""
        return dict(self.order.offsets_mm)

    def of(self, operation: str, ring: int = 1) -> tuple[Pass, ...]:
        """The passes of one operation on one ring."""
        return tuple(one for one in self.passes if one.operation == operation and one.ring == ring)


SURFACE_OF = {"finish_outside": OUTSIDE, "rough_outside": OUTSIDE, "finish_bore": BORE, "rough_bore": BORE}
