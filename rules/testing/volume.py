"""Free volumes inside cases: estimated by size, or measured.

Invariant: a volume always comes with its expanded uncertainty, 95 %.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

BY_SIZE_CM3: Mapping[str, Mapping[str, float]] = {
    "empty": {"small": 1.5, "middle": 3.0, "large": 6.0, "chronograph": 4.0},
    "cased": {"small": 0.5, "middle": 1.0, "large": 2.0, "chronograph": 1.2},
}
"""Free volume by sitting and size of the watch (own judgement, no source)."""
SIZES = {
    "small": "small, a lady's watch",
    "middle": "middle",
    "large": "large, a divers' case",
    "chronograph": "chronograph",
}
U_BY_SIZE, U_MEASURED = 0.5, 0.1
"""Expanded uncertainty, 95 %, as a share of a volume by size and
of a measured one (own judgement, no source).
"""


@dataclass(frozen=True, slots=True)
class Volume:
    """Free inner volume."""

    cm3: float
    u_cm3: float
    """Its expanded uncertainty, 95 %."""


def by_size(sitting: str, size: str) -> Volume:
    """The volume of an empty case or a cased watch of that size;
    raises KeyError for one that is not known.
    """
    cm3 = BY_SIZE_CM3[sitting][size]
    return Volume(cm3, U_BY_SIZE * cm3)


def measured(cm3: float) -> Volume:
    """A volume measured by weighing water, or from a drawing."""
    return Volume(cm3, U_MEASURED * cm3)
