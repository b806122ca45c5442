"""The turning plan as data: what is made, with what, and the numbered passes.

Invariant: passes are numbered 1, 2, 3 ... in the order in which they are cut;
the same order gives the same plan. Lengths in mm, speeds in rpm, times in minutes.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from rules.checks import numbers
from rules.equipment import Bar, Lathe, Tool
from rules.limits import MOST_OF_WALL_CHAMFERED, thick_enough, within
from rules.ring import Ring
from rules.turning import operations
from rules.turning.drills import CLEARANCE_MM, drill_for
from rules.turning.readout import BORE, OUTSIDE, CrossFrame
from rules.turning.schedule import CuttingData
from rules.turning.stock import FIRST_FACING_MM, StockUse

SURFACE_OF = {
    operations.FINISH_OUTSIDE: OUTSIDE,
    operations.ROUGH_OUTSIDE: OUTSIDE,
    operations.FINISH_BORE: BORE,
    operations.ROUGH_BORE: BORE,
}
HEIGHT_UNDER_MM = 0.05
"""The height may be this much too small, never too large: the ring must not stand proud. Own judgement."""
WALL_LIMIT_MM = 0.01
"""The wall may be this much too thick or too thin. Own judgement."""
OUTSIDE_LIMIT_MM = 0.02
"""So may the outside, on the diameter. Own judgement."""
DRESSING_MM = 0.10
"""Left on the height, and taken off when the parted face is dressed. Common practice, no source."""
TIGHTER_SPARE_MM = 0.02
"""The second spare is bored this much smaller. Common practice, no source."""
BEYOND_MM = 0.5
"""The outside is turned this much further than the rings need."""
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
    def rings(self) -> int:
        """How many rings this set-up makes."""
        return 1 + self.spares

    def bore_of(self, ring: int) -> float:
        """Bore of the n-th ring: one on size, one the same, one tighter, further ones on size."""
        return self.ring.bore_mm - (TIGHTER_SPARE_MM if ring == 3 else 0.0)

    @property
    def drill_mm(self) -> float:
        """The smallest drill that lets the boring bar in with room to spare."""
        return drill_for(self.boring, self.lathe.drill_unit)

    @property
    def turned_length_mm(self) -> float:
        """How far from the faced end the outside is turned: all rings of the set-up, and a little more."""
        return self.stock.used_mm - FIRST_FACING_MM + BEYOND_MM

    @property
    def bore_depth_mm(self) -> float:
        """How deep the bore is made for one ring."""
        return bore_depth(self.ring, self.parting)

    def frame(self, surface: str) -> CrossFrame:
        """How the cross slide shows the outside or the bore."""
        tool, zero = (
            (self.turning, self.bar.diameter_mm) if surface == OUTSIDE else (self.boring, self.drill_mm)
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """One pass or act at the lathe."""

    n: int
    operation: str
    """A key of cutting_words.OPERATION_NAMES."""
    ring: int
    """1 for the ring, 2 and on for spares."""
    tool: int | None
    """Number in the shop's list; None for the tailstock and by hand."""
    rpm: float | None
    axis: str | None
    """Either "cross", "long" (the carriage), "tailstock" or None."""
    reading_text: str
    """The target as a sentence."""
    shows: str | None
    """Either diameter, radius, dial or length; None where no slide is read."""
    target_mm: float | None
    """The figure shown, in the display's own millimetres; travel from zero where the slide is zeroed."""
    along_mm: float | None = None
    """How far from the face the tool runs along the bar, as the carriage counts; None where it does not."""
    along_text: str = ""
    """The same as a sentence."""
    figure_text: str = ""
    """The bare figure of a cross pass as it is read, for lists; empty elsewhere."""
    zero_diameter_mm: float | None = None
    """Diameter touched where the target counts from zero; None where the figure is the size itself."""
    offset_mm: float = 0.0
    """The tool's known offset, on the diameter; already allowed for."""
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
    set_up_words: tuple[str, ...]
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

    def of(self, operation: str, ring: int = 1) -> tuple[Pass, ...]:
        """The passes of one operation on one ring."""
        return tuple(one for one in self.passes if one.operation == operation and one.ring == ring)
