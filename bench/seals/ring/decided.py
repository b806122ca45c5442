"""The ring as it was decided upon, written into the answer and read back from it.

Invariant: everything later stages and the sheet need of the ring stands in the words of its answer, so that a
finished job is never computed again.
"""

from __future__ import annotations

from dataclasses import dataclass

from bench.job.steps import Words
from bench.stages.common import named, said
from rules import limits


@dataclass(frozen=True, slots=True)
class Ring:
    """An accepted ring with what it was decided from; lengths in mm."""

    outside_mm: float
    bore_mm: float
    height_mm: float
    chamfer_mm: float
    lower_chamfer_mm: float
    seat_mm: float
    seat_u_mm: float
    glass_mm: float
    glass_u_mm: float
    plastic: str
    force_words: str = ""
    """How it has to be pressed, empty when unknown."""
    spares: int = 0
    squeeze_low_pct: float = 100.0 * limits.LEAST_SQUEEZE
    squeeze_high_pct: float = 100.0 * limits.MOST_SQUEEZE
    """Band of the nominal squeeze that works here; the usual one where none was written."""

    @property
    def wall_mm(self) -> float:
        """Wall of the free ring."""
        return (self.outside_mm - self.bore_mm) / 2

    @property
    def gap_mm(self) -> float:
        """Gap between seat and glass, on the radius."""
        return (self.seat_mm - self.glass_mm) / 2

    @property
    def gap_u_mm(self) -> float:
        """Expanded uncertainty of the gap, 95 %."""
        return float((self.seat_u_mm**2 + self.glass_u_mm**2) ** 0.5 / 2)


def ring_from(words: Words) -> Ring:
    """Read a ring back from the words of its answer; raises ValueError where one is missing."""

    def need(name: str) -> float:
        value = named(words, name)
        if value is None:
            raise ValueError(f"the accepted ring lacks its {name}")
        return value

    return Ring(
        outside_mm=need("outside"),
        bore_mm=need("bore"),
        height_mm=need("height"),
        chamfer_mm=need("chamfer"),
        lower_chamfer_mm=need("lower_chamfer"),
        seat_mm=need("seat"),
        seat_u_mm=need("seat_u"),
        glass_mm=need("glass"),
        glass_u_mm=need("glass_u"),
        plastic=said(words, "plastic"),
        force_words=said(words, "press"),
        spares=int(named(words, "spares") or 0),
        squeeze_low_pct=named(words, "squeeze_low") or 100.0 * limits.LEAST_SQUEEZE,
        squeeze_high_pct=named(words, "squeeze_high") or 100.0 * limits.MOST_SQUEEZE,
    )
