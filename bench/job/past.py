"""A finished ring of a job as plain data: what was aimed at, made and read, and what happened to it.

Invariant: it is read from the session file alone and says nothing that does not stand there; as JSON and back
it is the same. Lengths in mm.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass, fields
from typing import Any


@dataclass(frozen=True, slots=True, kw_only=True)
class PastRing:
    """One ring that was accepted in a job."""

    job: str
    """Number of the job, as its file says it."""
    number: int
    """Which ring of the job, from 1."""
    at: str
    """When it was accepted, its walls were read, or it was tried: the last of these, as kept."""
    plastic: str
    outside_mm: float
    bore_mm: float
    height_mm: float
    """These three as decided."""
    aimed_mm: float
    """The wall decided upon."""
    allowed_mm: float = 0.0
    """How much thinner than that the lathe aimed, as walls land so much thicker here."""
    seat_mm: float = 0.0
    glass_mm: float = 0.0
    promised: float | None = None
    """The chance on its page, 0 to 1; None where none was kept, or the ring was there already."""
    walls_mm: tuple[float, ...] = ()
    """As measured off the lathe; none where they were not."""
    turned_by: str = ""
    """Lathe, boring bar and plastic in one line; empty where it was not turned in this attempt."""
    tools: tuple[tuple[str, float], ...] = ()
    """Each tool whose work was measured before its last pass, and how much larger it cut than its figure,
    on the diameter.
    """
    outcome: str = ""
    """What happened under the press, or before it where it never came there; empty where nothing is known."""
    other_cause: str = ""
    """What else was named as the cause of that; empty where nothing was."""
    leaked: bool = False
    """Home, but its joint leaked."""
    repeats: tuple[tuple[str, float], ...] = ()
    """What was read twice for it, and by how much the two readings differ."""

    @property
    def off_mm(self) -> float | None:
        """Wall as made less wall aimed at by the lathe; None where it was not turned or not measured."""
        if not self.turned_by or not self.walls_mm:
            return None
        return sum(self.walls_mm) / len(self.walls_mm) - (self.aimed_mm - self.allowed_mm)

    @property
    def name(self) -> str:
        """How a person calls it."""
        return f"{self.number} of job {self.job}"


def to_json(rings: Iterable[PastRing]) -> str:
    """Rings as one line of text."""
    return json.dumps([asdict(one) for one in rings], separators=(",", ":"))


def from_json(text: str) -> tuple[PastRing, ...]:
    """The rings of such a text; raises ValueError, TypeError or KeyError where it is none."""
    return tuple(_ring(one) for one in json.loads(text))


def _ring(raw: dict[str, Any]) -> PastRing:
    named = {one.name for one in fields(PastRing)}
    facts = {name: _tuples(value) for name, value in raw.items() if name in named}
    return PastRing(**facts)


def _tuples(value: Any) -> Any:
    """Lists as the tuples they were."""
    return tuple(map(_tuples, value)) if isinstance(value, Sequence) and not isinstance(value, str) else value
