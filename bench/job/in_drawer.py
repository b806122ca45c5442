"""What a job leaves in the drawer of the shop, and what it took out of it, as plain data.

Invariant: it is read from the session file alone and says nothing that does not stand there; as JSON and back
it is the same. Lengths in mm.
"""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any

from bench.moments import seconds_between

if TYPE_CHECKING:
    from rules.tables import Plastic

SPARE, TIGHTER, RING = "spare", "tighter", "ring"
"""Kinds of pieces, each kept with the number of the ring of its job: spare-1, ring-2."""
A_MONTH_S = 30 * 86_400.0
SWELLS = 0.01
"""Growth in water, as a fraction, from which a plastic does not keep its size in a drawer (own judgement)."""
_NAMES = {SPARE: "spare", TIGHTER: "tighter spare"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Lying:
    """A ring that was never pressed and that no job has used."""

    job: str
    """Number of the job it comes from, as its file says it."""
    piece: str
    """Which piece of that job."""
    at: str
    """When its walls were measured, or, where they were not, when it came off the lathe."""
    plastic: str
    outside_mm: float
    wall_mm: float
    """Mean of its walls; as planned where they were not measured."""
    height_mm: float
    chamfer_mm: float
    lower_chamfer_mm: float
    walls_mm: tuple[float, ...] = ()
    """As measured; none where they were not."""
    high_as_measured: bool = False
    """Whether its height was measured, too."""
    free: bool = True
    """Whether its own job is over, so that it needs it no more."""
    again: bool = False
    """Whether its walls have to be measured again before it is used."""

    @property
    def ref(self) -> str:
        """By what another job names it."""
        return f"{self.job} {self.piece}"

    @property
    def name(self) -> str:
        """How a person calls it."""
        return name_of(self.ref)

    @property
    def kind(self) -> str:
        """The same without its job."""
        return self.name.partition(" of job ")[0]


def name_of(ref: str) -> str:
    """How a person calls a ring of the drawer, by its job and piece.

    >>> name_of("208 spare-1"), name_of("208 ring-2")
    ('spare of job 208', 'ring 2 of job 208')
    """
    job, _, piece = ref.rpartition(" ")
    kind, _, number = piece.partition("-")
    return f"{_NAMES.get(kind, f'ring {number}')} of job {job}"


def swells(plastic: Plastic) -> bool:
    """Whether a plastic does not keep its size: every nylon, and what grows as much in water."""
    return "nylon" in plastic.name.lower() or (plastic.water_growth or 0.0) >= SWELLS


def due_again(ring: Lying, now: str) -> bool:
    """Whether a ring of a plastic that swells lay for over a month, or nobody knows for how long."""
    lay = seconds_between(ring.at, now)
    return lay is None or not 0.0 <= lay <= A_MONTH_S


@dataclass(frozen=True, slots=True, kw_only=True)
class BarLeft:
    """What is left of a bar after a job cut from it."""

    job: str
    at: str
    plastic: str
    colour: str
    diameter_mm: float
    left_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class InDrawer:
    """What one job has to do with the drawer."""

    lying: tuple[Lying, ...] = ()
    taken: tuple[str, ...] = ()
    """What it took out, each by its job and piece."""
    bar: BarLeft | None = None


@dataclass(frozen=True, slots=True)
class Drawer:
    """What lies there."""

    rings: tuple[Lying, ...]
    """Those that no job has used, of the newest jobs first."""
    bars: tuple[BarLeft, ...]
    """Of each bar what the newest job left of it, the newest first."""


NOTHING = InDrawer()


def nothing_lies(_job: object) -> InDrawer:
    """Where no piece of that kind is kept."""
    return NOTHING


def to_json(found: InDrawer) -> str:
    """As one line of text."""
    return json.dumps(asdict(found), separators=(",", ":"))


def from_json(text: str) -> InDrawer:
    """What such a text says; raises ValueError, TypeError or KeyError where it is none."""
    raw = json.loads(text)
    bar = raw["bar"]
    return InDrawer(
        lying=tuple(lying_from(one) for one in raw["lying"]),
        taken=tuple(map(str, raw["taken"])),
        bar=None if bar is None else BarLeft(**bar),
    )


def lying_text(piece: Lying) -> str:
    """One ring as a line of text."""
    return json.dumps(asdict(piece), separators=(",", ":"))


def lying_from(raw: dict[str, Any]) -> Lying:
    """A ring of such a line; raises ValueError, TypeError or KeyError where it is none."""
    return Lying(**{**raw, "walls_mm": tuple(map(float, raw["walls_mm"]))})
