"""What a shop's finished jobs say of it, as its own page shows it.

Invariant: for reading alone; what a job is sized with stands in that job.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules.learning.landing import Lands
from rules.learning.promised import Kept


@dataclass(frozen=True, slots=True)
class Repeats:
    """How readings of one thing repeat."""

    what: str
    """Seat or glass, and how it is read where that was named."""
    pairs: int
    sd_mm: float
    """Standard deviation of one reading, from all pairs."""


@dataclass(frozen=True, slots=True)
class ToolOff:
    """What a tool cuts before it is corrected, on the diameter."""

    tool: str
    rings: int
    mean_mm: float
    """Larger than its figure; smaller where it is negative."""
    good_to_mm: float


@dataclass(frozen=True, slots=True)
class Lately:
    """All of it."""

    lands: Lands | None = None
    """Of the whole shop; None while no ring was finished."""
    tools: tuple[ToolOff, ...] = ()
    repeats: tuple[Repeats, ...] = ()
    uncorrected_mm: float | None = None
    """What the wall would be good to by its boring bar alone, without the reading before the last pass."""
    kept: Kept | None = None
    """Promised against landed, all rings as one; None while none was promised anything."""
    tenths: tuple[Kept, ...] = ()
    """The same by tenths of the promise."""


NOTHING_YET = Lately()
