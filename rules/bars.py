"""The bar as it is, and what holds it: plain data.

Invariant: every object that exists is usable; a wrong value is refused with OutOfRange. Lengths in mm.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules.checks import numbers, one_of

RAW, BLANK, TUBE, LEFT_OVER = "bar", "blank", "tube", "left_over"
BAR_KINDS = (RAW, BLANK, TUBE, LEFT_OVER)
"""As it came from the maker; turned before; hollow all along; what a ring left."""
GENERAL, THREE_JAW, SOFT_JAWS, COLLET, STEP_COLLET, ARBOR = (
    "not_said",
    "three_jaw",
    "soft_jaws",
    "collet",
    "step_collet",
    "arbor",
)
GRIP_KINDS = (GENERAL, THREE_JAW, SOFT_JAWS, COLLET, STEP_COLLET, ARBOR)
USUAL_GRIP_MM = 15.0
"""Length held, where a shop does not say it."""
ADVICE = "correct it in the shop's list"


@dataclass(frozen=True, slots=True, kw_only=True)
class Grip:
    """A collet, chuck or step chuck and the bar diameters it holds."""

    name: str
    smallest_mm: float
    largest_mm: float
    length_mm: float = USUAL_GRIP_MM
    """Length of bar it needs to hold; 0 for an arbor, which holds by the face."""
    kind: str = GENERAL
    """One of GRIP_KINDS: what it can hold, and how far out (`rules.turning.holding`)."""

    def __post_init__(self) -> None:
        one_of("kind of grip", self.kind, GRIP_KINDS)
        numbers(
            ("smallest diameter of the grip", self.smallest_mm, 0.5, 300.0, "mm"),
            ("largest diameter of the grip", self.largest_mm, self.smallest_mm, 300.0, "mm"),
            ("length of the grip", self.length_mm, 0.0 if self.kind == ARBOR else 1.0, 200.0, "mm"),
            advice=ADVICE,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A bar in stock, a prepared blank, a tube, or what a ring left of one."""

    plastic: str
    """Key of the plastics table: acetal, pa66, ..."""
    diameter_mm: float
    """The size it goes by."""
    length_mm: float
    colour: str = "not said"
    kind: str = RAW
    """One of BAR_KINDS."""
    outside_mm: float = 0.0
    """What it measures outside; 0 = not measured, the size it goes by."""
    bore_mm: float = 0.0
    """Its own hole; 0 = solid."""
    bore_deep_mm: float = 0.0
    """How deep that is from the end that is cut; 0 = right through."""

    def __post_init__(self) -> None:
        one_of("kind of bar", self.kind, BAR_KINDS)
        numbers(
            ("bar diameter", self.diameter_mm, 3.0, 300.0, "mm"),
            ("bar length", self.length_mm, 1.0, 4000.0, "mm"),
            ("outside of the bar", self.outside_mm or self.diameter_mm, 3.0, 300.0, "mm"),
            ("bore of the bar", self.bore_mm, 0.0, self.start_mm - 0.5, "mm"),
            ("depth of the bar's bore", self.bore_deep_mm, 0.0, self.length_mm, "mm"),
            advice=ADVICE,
        )

    @property
    def start_mm(self) -> float:
        """Diameter from which its outside is turned."""
        return self.outside_mm or self.diameter_mm

    @property
    def was_turned(self) -> bool:
        """Whether its outside is round and clean already."""
        return self.kind != RAW

    def bore_to(self, depth_mm: float) -> float:
        """Its own bore where that reaches at least so deep, else 0."""
        return self.bore_mm if not self.bore_deep_mm or self.bore_deep_mm >= depth_mm else 0.0
