"""What is turned, with what, and how far along the bar: everything that a plan follows from.

Invariant: an order that exists can be planned; the same order gives the same plan. Lengths in mm.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from rules.bars import Bar
from rules.checks import numbers
from rules.equipment import Lathe, Tool
from rules.limits import LEAST_FOOT_MM, MOST_OF_WALL_CHAMFERED, thick_enough, within
from rules.ring import Ring
from rules.turning.drills import CLEARANCE_MM
from rules.turning.holding import HOLDING, longest_safe_mm
from rules.turning.opening import Opening
from rules.turning.readout import OUTSIDE, CrossFrame, carriage_target
from rules.turning.schedule import CuttingData
from rules.turning.stock import FIRST_FACING_MM, StockUse

DRESSING_MM = 0.10
"""Left on the height, and taken off when the parted face is dressed. Common practice, no source."""
TIGHTER_SPARE_MM = 0.02
"""The second spare is bored about this much smaller. Common practice, no source."""
BEYOND_MM = 0.5
"""The outside is turned this much further than the rings need."""
LEAST_ON_FOOT_MM = 0.30
"""A lower wall on it is none (own judgement)."""
LEAST_STEP_MM = 0.10
"""A foot that stands out less from its wall carries nothing (own judgement)."""
FLOOR_MM = 0.10
"""Left on the floor of a bore that ends on a foot while it is roughed, and faced off at the end.
Common practice, no source.
"""
LARGEST_SPARES = 4
LARGEST_OFFSET_MM = 5.0
"""No tool has a larger offset, on the diameter; beyond this the figures are mixed up. Own judgement."""


def check_ring(ring: Ring) -> None:
    """Raises OutOfRange for a ring that nobody can turn."""
    within("outside", ring.outside_diameter_mm)
    within("bore", ring.bore_mm)
    within("height", ring.height_mm)
    thick_enough(ring.wall_mm)
    most = MOST_OF_WALL_CHAMFERED * ring.wall_mm
    numbers(
        ("chamfer", ring.chamfer_mm, 0.0, most, "mm"),
        ("lower chamfer", ring.lower_chamfer_mm, 0.0, most, "mm"),
        advice="so much of the wall is left to it",
    )
    if ring.foot_mm:
        _check_foot(ring)


def _check_foot(ring: Ring) -> None:
    """Raises OutOfRange for a foot that cannot be turned on this ring."""
    numbers(
        ("foot", ring.foot_mm, LEAST_FOOT_MM, ring.height_mm - LEAST_ON_FOOT_MM, "mm"),
        ("inside of the foot", ring.foot_bore_mm, 1.0, ring.bore_mm - 2.0 * LEAST_STEP_MM, "mm"),
        ("corner", ring.corner_mm, 0.01, 2.0, "mm"),
        advice="measure again what it follows from",
    )


def with_room_for_chamfers(ring: Ring) -> Ring:
    """The ring with chamfers that leave enough of its wall."""
    most = MOST_OF_WALL_CHAMFERED * ring.wall_mm
    return replace(
        ring,
        chamfer_mm=min(ring.chamfer_mm, most),
        lower_chamfer_mm=min(ring.lower_chamfer_mm, most),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUp:
    """What a ring is to be turned with."""

    lathe: Lathe
    tools: tuple[Tool, ...]
    """One tool set; the plan chooses from it."""
    bar: Bar
    spares: int = 0
    """Further rings in the same set-up, 0 to 4."""
    offsets_mm: tuple[tuple[int, float], ...] = ()
    """Pairs of tool number and the tool's known offset:
    how much larger it cuts than it shows, on the diameter.
    """
    expansion_per_k: float | None = None
    """Linear expansion of the plastic; None = not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """Everything a plan follows from; raises OutOfRange for a ring, spares or an offset that cannot be."""

    ring: Ring
    data: CuttingData
    lathe: Lathe
    bar: Bar
    turning: Tool
    boring: Tool
    chamfer: Tool
    parting: Tool
    opening: Opening
    stock: StockUse
    spares: int
    offsets_mm: tuple[tuple[int, float], ...]
    """As in the set-up, by tool number."""
    expansion_per_k: float | None

    def __post_init__(self) -> None:
        check_ring(self.ring)
        numbers(
            ("spares", self.spares, 0, LARGEST_SPARES, ""),
            ("expansion", self.expansion_per_k or 0.0, 0.0, 0.01, "per K"),
            *(
                (f"offset of tool {tool}", mm, -LARGEST_OFFSET_MM, LARGEST_OFFSET_MM, "mm")
                for tool, mm in self.offsets_mm
            ),
            advice="give a value in that range",
        )

    def offset_mm(self, tool: Tool) -> float:
        """The tool's known offset, 0 when none was learned."""
        return dict(self.offsets_mm).get(tool.number, 0.0)

    @property
    def light(self) -> bool:
        """Whether roughing is halved: it stands far out, or is only stuck on."""
        far = self.stock.stick_out_mm > longest_safe_mm(self.bar)
        return far or HOLDING[self.stock.grip.kind].light

    @property
    def rings(self) -> int:
        """How many rings this set-up makes."""
        return 1 + self.spares

    def bore_of(self, ring: int) -> float:
        """Bore of the n-th ring: one on size, one the same, one tighter, further ones on size."""
        return self.ring.bore_mm - (self.tighter_mm if ring == 3 else 0.0)

    @property
    def tighter_mm(self) -> float:
        """How much smaller the second spare is bored, in whole steps of this slide: one at least, else no
        tighter ring can be set.
        """
        step = self.lathe.cross.step_on_diameter_mm
        return round(max(1, round(TIGHTER_SPARE_MM / step)) * step, 6)

    @property
    def turned_length_mm(self) -> float:
        """How far from the faced end the outside is turned: all rings of the set-up, and a little more."""
        return self.stock.used_mm - FIRST_FACING_MM + BEYOND_MM

    @property
    def bore_depth_mm(self) -> float:
        """How deep the hole is made for one ring."""
        return bore_depth(self.ring, self.parting)

    @property
    def pocket_mm(self) -> float:
        """How deep the bore is that the glass goes into, on the carriage's grid: down to the foot, or right
        through.
        """
        if not self.ring.foot_mm:
            return self.bore_depth_mm
        return carriage_target(self.lathe.carriage, self.ring.height_mm - self.ring.foot_mm, up=False)

    def frame(self, surface: str) -> CrossFrame:
        """How the cross slide shows the outside or the bore."""
        tool, zero = (
            (self.turning, self.bar.start_mm) if surface == OUTSIDE else (self.boring, self.opening.hole_mm)
        )
        return CrossFrame(
            axis=self.lathe.cross, surface=surface, zero_diameter_mm=zero, offset_mm=self.offset_mm(tool)
        )


def parted_mm(ring: Ring, parting: Tool) -> float:
    """Length of bar that one ring takes: height, dressing and the width of the blade."""
    return ring.height_mm + DRESSING_MM + parting.blade_mm


def bore_depth(ring: Ring, parting: Tool) -> float:
    """Depth of the bore for one ring: all that is parted, and the clearance."""
    return parted_mm(ring, parting) + CLEARANCE_MM
