"""The piece in the chuck as a profile along its length: what every cut really leaves of it, and what breaks.

Imports nothing of the program. Lengths in mm from the end of the bar as it was gripped, growing to the chuck;
diameters as they are when cold.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

Profile = npt.NDArray[np.float64]
CELL_MM = 0.02
SPRING_AT_MM = 0.1
MOST_SPRING = 3.0
DEEPEST_MM = 4.0
"""A deeper cut, on the radius, tears the piece out of the chuck. Common practice, no source."""
MOST_OF_AIR = 3
SLIVER = 6
"""Fewer cells are what a tool finds at its end because it stopped otherwise before."""
POINT_OF_DRILL = 0.3
"""Length of a drill's point in its diameters, 118 degrees."""


@dataclass(frozen=True)
class MadeRing:
    """A ring as it was parted off."""

    wall_mm: float
    outside_mm: float
    height_mm: float
    """As parted, before it is dressed."""
    bore_too_shallow: bool
    outside_too_short: bool


@dataclass
class Work:
    """A bar standing out of the chuck."""

    outside_start: float
    bore_start: float
    bore_deep: float
    chuck_at: float
    """Where the jaws begin."""
    ends_at: float
    """Its length."""
    expansion: float
    face: float = 0.0
    """Where its end is now."""
    warm_by: float = 0.0
    core: float = 0.0
    """Diameter of the core that stands in the hole; 0 where none does."""
    outside: Profile = field(init=False)
    bore: Profile = field(init=False)
    turned_to: float = 0.0
    """Furthest that a finishing tool went along the outside."""
    faults: list[str] = field(default_factory=list)
    _air: int = 0

    def __post_init__(self) -> None:
        cells = int((min(self.ends_at, self.chuck_at + 60.0) + 2.0) / CELL_MM)
        self.outside = np.full(cells, self.outside_start)
        self.bore = np.zeros(cells)
        self.bore[: self._cell(self.bore_deep)] = self.bore_start

    def _cell(self, at: float) -> int:
        return max(0, round(at / CELL_MM))

    def fault(self, what: str) -> None:
        """Something that must not happen."""
        if what not in self.faults:
            self.faults.append(what)

    def reach(self, at: float, what: str) -> float:
        """A tool comes so far along the bar."""
        if at > self.chuck_at - 0.1:
            self.fault(f"{what} into the chuck: at {at:.2f}, jaws at {self.chuck_at:.2f}")
            return self.chuck_at
        return at

    def part_of(self, upto: float) -> slice:
        """The cells from the face to a length."""
        return slice(self._cell(self.face), self._cell(upto))

    def cut(self, edge: float, upto: float, *, outside: bool, give: float) -> None:
        """One pass: the edge stands at a diameter, the tool goes along to a length, warm as the work is."""
        cells = self.part_of(self.reach(upto, "outside" if outside else "bore"))
        surface = self.outside if outside else self.bore
        sense, grown = (-1.0 if outside else 1.0), 1.0 + self.expansion * self.warm_by
        before = surface[cells] * grown
        way = sense * (edge - before) / 2.0
        if before.size == 0:
            self.fault("a pass that goes nowhere along the bar")
            return
        deep = float(np.partition(way, -min(SLIVER, way.size))[-min(SLIVER, way.size)])
        if deep > DEEPEST_MM:
            self.fault(f"a cut {deep:.1f} mm deep")
        self._air = self._air + 1 if deep <= 1e-6 else 0
        if self._air > MOST_OF_AIR:
            self.fault(f"over {MOST_OF_AIR} passes in air")
        spring = give / 2.0
        depth = np.where(
            way > 0.0, np.maximum(way / (1.0 + spring / SPRING_AT_MM), way - MOST_SPRING * spring), 0
        )
        surface[cells] = (before + sense * 2.0 * depth) / grown
        if outside:
            self.turned_to = max(self.turned_to, upto)
        elif float((self.outside[cells] - self.bore[cells]).min()) < 0.0:
            self.fault("the bore comes through the outside")

    def drill(self, size: float, tip: float) -> None:
        """From the tailstock, to where its point is; full width ends above it."""
        if tip > self.ends_at - 0.5:
            self.fault(f"the drill comes out behind: at {tip:.2f} of {self.ends_at:.2f}")
        cells = self.part_of(tip)
        from_tip = tip - np.arange(cells.start, cells.stop) * CELL_MM
        self.bore[cells] = np.maximum(self.bore[cells], np.minimum(size, from_tip / POINT_OF_DRILL))

    def groove(self, outer: float, blade: float, upto: float) -> None:
        """A groove in the face, its outer diameter given; the core is what stands inside the last."""
        cells = self.part_of(self.reach(upto, "groove"))
        self.bore[cells] = np.maximum(self.bore[cells], outer)
        self.core = outer - 2.0 * blade

    def chamfer_behind(self, at: float, edge: float) -> None:
        """A groove of 45 degrees round the outside, its bottom at a diameter."""
        along = np.arange(self.outside.size) * CELL_MM
        cut = edge + 2.0 * np.abs(along - at)
        self.outside = np.minimum(self.outside, cut)

    def outside_at(self, at: float) -> float:
        """Diameter outside at a length, warm as it is."""
        cell = min(self._cell(at), self.outside.size - 1)
        return float(self.outside[cell]) * (1.0 + self.expansion * self.warm_by)

    def bore_at(self, at: float) -> float:
        """Diameter of the bore at a length."""
        return float(self.bore[self._cell(at)]) * (1.0 + self.expansion * self.warm_by)

    def faced(self, off: float) -> None:
        """The end cleaned."""
        self.face += off

    def part(self, chuck_side: float, blade: float, wanted_outside: float) -> MadeRing:
        """Parted off: the ring between the face and the blade."""
        self.reach(chuck_side, "blade")
        side = chuck_side - blade
        middle = slice(
            self._cell(self.face + 0.3 * (side - self.face)), self._cell(self.face + 0.7 * (side - self.face))
        )
        last = self._cell(chuck_side) - 1
        rough = float(self.outside[last]) > wanted_outside + 0.3
        shallow = float(self.bore[last]) < float(self.bore[middle].mean()) - 0.3
        ring = MadeRing(
            wall_mm=float((self.outside[middle] - self.bore[middle]).mean()) / 2.0,
            outside_mm=float(self.outside[middle].mean()),
            height_mm=side - self.face,
            bore_too_shallow=shallow,
            outside_too_short=rough,
        )
        self.face = chuck_side
        return ring
