"""A lathe whose errors nobody sees: slides with lost motion, read-outs and dials, tools that cut beside
where they touched. Imports nothing of the program.

The hidden errors, each drawn once for a shop unless said, on the radius unless said:

- lost motion of the cross slide: 0.3 to 0.95 of what the shop said of it, 0 to 0.02 mm for a dial of which
  it said nothing. A read-out counts the screw too, the worse case, so that a figure reached from the wrong
  side is off by it. A figure is run past at one of four settings. The carriage only ever goes to the chuck;
- a slide stands 0.3 of its smallest step beside its figure at most, drawn at every setting;
- a touch is off by up to 0.010 mm, drawn at every touch;
- a tool cuts up to 0.025 mm beside where it touched;
- tool and work give way by up to 0.03 mm on the diameter at a cut 0.1 mm deep, and in proportion; each cut
  scatters by 0.004 mm on the diameter (standard deviation);
- the work is 5 to 15 degrees warm when roughed, up to 1 after its rest, and up to 2 warmer with a finishing
  pass; it grows by 1.1e-4 a degree;
- a drill cuts up to 0.10 mm over its size; the carriage stops within 0.03 mm of its figure;
- a tool put in again stands within 0.003 mm where holders have numbers, else within 0.2 mm.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field

from tests.independent.page_work import Work

BACK_MM = 1.0
"""A tool is drawn back so far after a pass."""
PAST = 0.25
"""How often a figure is run past."""


@dataclass(frozen=True)
class SlideFacts:
    """What everybody can see of a slide; steps in mm."""

    unit: str
    """mm or in."""
    shows: str
    """diameter, radius or length."""
    step: float
    grows: int
    """+1 where its figures grow inwards, or to the chuck."""
    stated_lost: float
    division: float = 0.0
    """0 with a read-out."""
    per_turn: int = 0

    @property
    def factor(self) -> float:
        """What it shows for one millimetre moved."""
        return 2.0 if self.shows == "diameter" else 1.0


class Slide:
    """A screw, and the slide that it pushes."""

    def __init__(self, facts: SlideFacts, lost: float, draw: random.Random) -> None:
        self.facts, self.lost, self.draw = facts, lost, draw
        self.screw = self.place = 0.0
        self.zero: dict[str, float] = {}
        """For each tool what the display adds, or the dial's count."""
        self.marked: dict[str, float] = {}
        self.set_at = 0.0
        """Where the screw stood when the dial was set."""

    def turn(self, by: float) -> None:
        """The screw turns; the slide follows when the slack is taken up."""
        self.screw += by
        self.place = min(max(self.place, self.screw - self.lost), self.screw)

    def touch(self, place: float, way: int) -> None:
        """Brought to a place moving one way."""
        self.turn(-way * (abs(place - self.screw) + BACK_MM + 2.0 * self.lost))
        self.turn((place + (self.lost if way > 0 else 0.0)) - self.screw)

    def shows_now(self, at: str, figure_mm: float) -> None:
        """The read-out is set to a figure, `at`: a name under which it keeps that."""
        self.zero[at] = figure_mm - self.facts.grows * self.facts.factor * self.screw

    def screw_at(self, at: str, figure_mm: float) -> float:
        """Where the screw stands when the read-out shows a figure."""
        return (figure_mm - self.zero[at]) / (self.facts.grows * self.facts.factor)

    def counts(self, at: str, mark: float, count: float, way: int) -> None:
        """The dial is set, and counted from there."""
        self.zero[at], self.marked[at] = self.screw - way * count * self.travel, mark
        self.set_at = self.screw

    @property
    def travel(self) -> float:
        """Of one division."""
        return self.facts.division / self.facts.factor

    def mark_of(self, at: str, screw: float) -> float:
        """What stands at the mark of the dial."""
        run = self.facts.grows * (screw - self.set_at) / self.travel
        return (self.marked[at] + run) % self.facts.per_turn if self.facts.per_turn else self.marked[at] + run

    def go(self, screw: float, way: int, over: float | None) -> None:
        """To a place of the screw, coming one way; run past now and then. `over`: how far back one goes then
        before one comes again, None where nobody said that one must.
        """
        target = screw + self.draw.uniform(-0.3, 0.3) * self.facts.step / self.facts.factor
        if self.draw.random() < PAST:
            self.turn(target + way * self.draw.uniform(0.02, 0.10) - self.screw)
            if over is not None:
                self.turn(target - way * over - self.screw)
        self.turn(target - self.screw)


@dataclass(frozen=True)
class Truth:
    """What nobody sees, for one shop; see the head of the module."""

    lost: float
    beside: dict[str, float]
    """Kind of tool to how far it cuts beside its touch, on the radius towards the middle."""
    spring: float
    warm_rough: float
    seated: float
    """How far a tool put in again may stand elsewhere."""
    gauges: dict[str, float]
    """Name of an instrument to the error that it always has."""


def drawn_truth(draw: random.Random, cross: SlideFacts, numbered: bool, gauges: dict[str, float]) -> Truth:
    """The errors of a shop; `gauges`: the limits of error of its instruments."""
    unsaid = draw.uniform(0.0, 0.02) if cross.division else 0.0
    return Truth(
        lost=cross.stated_lost * draw.uniform(0.3, 0.95) or unsaid,
        beside={kind: draw.uniform(-0.025, 0.025) for kind in KINDS},
        spring=draw.uniform(0.0, 0.03),
        warm_rough=draw.uniform(5.0, 15.0),
        seated=0.003 if numbered else 0.2,
        gauges={name: draw.uniform(-0.7, 0.7) * limit for name, limit in gauges.items()},
    )


KINDS = ("turning", "boring", "chamfer", "parting", "face_grooving")
SPREAD_MM = 0.004
TOUCH_MM = 0.010
STOP_MM = 0.03
RADIUS_AT_NOUGHT = 100.0
"""Radius at which a tool without length stands when the slide is drawn out fully."""


@dataclass
class Lathe:
    """The lathe with a piece in it."""

    work: Work
    cross: Slide
    truth: Truth
    draw: random.Random
    remembers: bool
    """Whether the read-out keeps a zero for each tool."""
    tool: str = ""
    """The kind that stands in the post."""
    _out: dict[str, float] = field(default_factory=dict)
    _along: dict[str, float] = field(default_factory=dict)
    _zero: dict[str, float] = field(default_factory=dict)

    def mount(self, tool: str) -> None:
        """A tool in the post, nearly where it was before."""
        again = self._out.setdefault(tool, self.draw.uniform(-2.0, 2.0))
        self._out[tool] = again + self.draw.uniform(-1.0, 1.0) * self.truth.seated
        self._along[tool] = self.draw.uniform(-3.0, 3.0)
        self.tool = tool

    @property
    def key(self) -> str:
        """Under which a zero is kept: the tool, or one for all."""
        return self.tool if self.remembers and not self.cross.facts.division else ""

    def tip(self) -> float:
        """Radius at which the tool's edge stands."""
        return RADIUS_AT_NOUGHT + self._out[self.tool] - self.cross.place

    def touch(self, diameter: float, way: int, *, further: float = 0.0) -> None:
        """The tool touches a surface moving in (+1) or out; `further`: how much further out the edge stands
        that counts.
        """
        radius = diameter / 2.0 + further + self.draw.uniform(-TOUCH_MM, TOUCH_MM)
        self.cross.touch(RADIUS_AT_NOUGHT + self._out[self.tool] - radius, way)

    def edge(self) -> float:
        """Diameter at which it really cuts."""
        return 2.0 * (self.tip() - self.truth.beside[self.tool]) + self.draw.gauss(0.0, SPREAD_MM)

    def draw_back(self, way: int) -> None:
        """Away from the work after a pass."""
        self.cross.turn(-way * BACK_MM)

    def zero_along(self, at: float) -> None:
        """The carriage counts from where this tool touched."""
        self._zero[self.key] = at + self.draw.uniform(-TOUCH_MM, TOUCH_MM) - self._along[self.tool]

    def along(self, distance: float) -> float:
        """Where the tool stops that is driven so far from where the carriage counts; raises KeyError."""
        return self._zero[self.key] + self._along[self.tool] + distance + self.draw.uniform(-STOP_MM, STOP_MM)
