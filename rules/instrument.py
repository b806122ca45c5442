"""A measuring instrument as plain data.

Invariant: every instrument that exists is usable; a wrong value is refused with OutOfRange when it is made.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules.bars import ADVICE
from rules.checks import numbers, one_of
from rules.lengths import LENGTH_UNITS

INSTRUMENT_KINDS = (
    *("calliper", "micrometer", "ball_micrometer", "bore_gauge", "inside_micrometer", "depth_gauge"),
    "plug",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Instrument:
    """A measuring instrument."""

    name: str
    kind: str
    resolution_mm: float
    limit_of_error_mm: float
    """Largest error the maker or the last calibration allows, either way."""
    unit: str = "mm"

    def __post_init__(self) -> None:
        one_of("kind of instrument", self.kind, INSTRUMENT_KINDS)
        one_of("unit of the instrument", self.unit, LENGTH_UNITS)
        numbers(
            ("resolution", self.resolution_mm, 0.0001, 0.1, "mm"),
            ("limit of error", self.limit_of_error_mm, 0.0001, 0.5, "mm"),
            advice=ADVICE,
        )
