"""The turning plan as data: what is made, with what, and the numbered passes.

Invariant: passes are numbered 1, 2, 3 ... in the order in which they are cut;
the same order gives the same plan. Lengths in mm, speeds in rpm, times in minutes.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules.turning import operations
from rules.turning.order import Order
from rules.turning.readout import BORE, OUTSIDE

SURFACE_OF = {
    operations.FINISH_OUTSIDE: OUTSIDE,
    operations.ROUGH_OUTSIDE: OUTSIDE,
    operations.FINISH_BORE: BORE,
    operations.ROUGH_FOOT: BORE,
    operations.ROUGH_BORE: BORE,
    operations.FLOOR: BORE,
}
HEIGHT_UNDER_MM = 0.05
"""The height may be this much too small, never too large: the ring must not stand proud. Own judgement."""
WALL_LIMIT_MM = 0.01
"""The wall may be this much too thick or too thin. Own judgement."""
OUTSIDE_LIMIT_MM = 0.02
"""So may the outside, on the diameter. Own judgement."""


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

    def __hash__(self) -> int:
        """Of little of it: what a pass or a plan leads to is remembered, and asked at every answer."""
        return hash((self.n, self.operation, self.ring, self.steps))


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

    def __hash__(self) -> int:
        """Of little of it, as of a pass."""
        return hash((len(self.passes), self.order.ring.bore_mm, self.measured_mm))

    @property
    def minutes(self) -> float:
        """Time of all passes, rests and dressing, without changing tools and measuring."""
        return round(sum(one.minutes for one in self.passes), 2)

    def new_speed(self, one: Pass) -> bool:
        """Whether the spindle runs at another speed than before; the first speed is set with the checks."""
        before = next((last.rpm for last in reversed(self.passes) if last.n < one.n and last.rpm), None)
        return before is not None and one.rpm is not None and one.rpm != before

    @property
    def read_after(self) -> tuple[int, ...]:
        """Numbers of the passes after which a reading was already used."""
        return tuple(n for n, _ in self.measured_mm)

    @property
    def outside_made_mm(self) -> float:
        """The outside as the cross slide leaves it, which its steps may miss by half a one; as measured where
        nothing more was cut.
        """
        last = self.of(operations.FINISH_OUTSIDE)[-1:]
        made = last[0].material_diameter_after_mm if last else None
        measured = dict(self.measured_mm).get(last[0].n) if last else None
        return measured or made or self.order.ring.outside_diameter_mm

    @property
    def cutting_minutes(self) -> float:
        """Time in which a tool cuts."""
        return round(sum(one.minutes for one in self.passes if one.rpm), 2)

    def of(self, operation: str, ring: int = 1) -> tuple[Pass, ...]:
        """The passes of one operation on one ring."""
        return tuple(one for one in self.passes if one.operation == operation and one.ring == ring)
