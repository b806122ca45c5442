"""Shops and rings as they are drawn for a repairer who reads only the page: what everybody can see of them,
and the same as the text of a shop file. Imports nothing of the program. Lengths in mm.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

from tests.independent.page_lathe import SlideFacts

IN = 25.4
RAW_OVER_MM = (0.2, 1.2)
"""Bar stock runs thicker than it is called: EN 15860, from memory."""


@dataclass(frozen=True)
class Piece:
    """A bar, blank, tube or left-over."""

    colour: str
    kind: str
    called: float
    outside: float
    """As it truly measures."""
    length: float
    bore: float = 0.0
    bore_deep: float = 0.0
    said: bool = False
    """Whether the file says what it measures."""


@dataclass(frozen=True)
class Gauge:
    """A measuring tool; lengths in mm."""

    name: str
    kind: str
    unit: str
    step: float
    limit: float

    @property
    def decimals(self) -> int:
        """Digits that it shows behind the point."""
        return 4 if self.unit == "in" else 3 if self.step < 0.005 else 2


@dataclass(frozen=True)
class PageShop:
    """A drawn shop and what is made in it."""

    seed: int
    speaks: str
    """mm or in: in what its pages speak."""
    cross: SlideFacts
    carriage: SlideFacts
    speeds: tuple[float, ...]
    step_names: tuple[str, ...]
    stepless: bool
    shows_speed: bool
    tools: dict[int, str]
    """Number to kind."""
    numbered: bool
    blade: float
    groover: tuple[float, float, float, float] | None
    """Blade, smallest and largest groove, depth."""
    drills: tuple[float, ...]
    spindle_hole: float
    grips: tuple[tuple[str, str, float, float], ...]
    """Name, kind, largest diameter, length held."""
    pieces: tuple[Piece, ...]
    gauges: tuple[Gauge, ...]
    remembers: bool
    one_by_one: bool
    """This person records every pass by itself."""
    size: tuple[int, int]
    seat: float
    gap: float
    depth: float
    spares: int

    @property
    def ball(self) -> bool:
        """Whether there is a ball micrometer."""
        return any(one.kind == "ball_micrometer" for one in self.gauges)

    @property
    def kinds(self) -> tuple[str, ...]:
        """What kind of shop it is, for counting."""
        first = self.pieces[0]
        speeds = "stepless" if self.stepless else "belt" if self.step_names else "lever"
        return (
            f"cross {'dial' if self.cross.division else 'read-out'} {self.cross.shows} {self.cross.unit}",
            f"cross grows {'in' if self.cross.grows > 0 else 'out'}",
            f"carriage {'dial' if self.carriage.division else 'read-out'} {self.carriage.unit}",
            f"{speeds}{'' if self.shows_speed else ', nothing shown'}",
            f"speaks {self.speaks}",
            "tools with numbers" if self.numbered else "tools without numbers",
            f"first bar {first.kind}",
            "ball micrometer" if self.ball else "no ball micrometer",
            *(
                ["mixed units"]
                if len({self.speaks, self.cross.unit, *(g.unit for g in self.gauges)}) > 1
                else []
            ),
            *(["face-grooving tool"] if self.groover else []),
            *(["drills over 13"] if max(self.drills) > 13.0 else []),
            *(["spares"] if self.spares else []),
            f"{self.size[0]}x{self.size[1]}",
        )


def slide(draw: random.Random, unit: str, *, cross: bool) -> SlideFacts:
    """A slide of either kind, growing either way."""
    shows = draw.choice(("diameter", "radius")) if cross else "length"
    grows, lost = draw.choice((1, -1)), draw.choice((0.0, 0.04, 0.08, 0.15))
    if draw.random() < 0.5:
        steps = (0.0005, 0.001) if unit == "in" else (0.005, 0.01)
        step = draw.choice(steps[: 1 if shows == "radius" else 2]) * (IN if unit == "in" else 1.0)
        return SlideFacts(unit, shows, step, grows, lost)
    division, per_turn = draw.choice(
        ((0.001, 100), (0.001, 250)) if unit == "in" else ((0.02, 50), (0.025, 40), (0.05, 60))
    )
    division *= IN if unit == "in" else 1.0
    step = division / (2 if cross else 1)
    return SlideFacts(
        unit, shows, step, grows, lost, division, draw.choice((per_turn, per_turn, per_turn, 0))
    )


def pieces(draw: random.Random, seat: float, gap: float) -> tuple[Piece, ...]:
    """One piece that the program should take, and a thicker bar behind it."""
    kind = draw.choice(("bar", "bar", "blank", "tube", "left_over"))
    called = seat + draw.uniform(1.6, 6.0)
    over = draw.uniform(*RAW_OVER_MM) if kind in ("bar", "tube") else draw.uniform(-0.05, 0.05)
    bore = draw.uniform(0.35, 0.95) * (seat - 2.5 * gap - 2.5) if kind in ("tube", "left_over") else 0.0
    first = Piece(
        "white",
        kind,
        round(called, 1),
        round(called, 1) + over,
        draw.uniform(28.0, 60.0) if kind in ("blank", "left_over") else draw.uniform(60.0, 200.0),
        round(bore, 1),
        draw.choice((0.0, 12.0)) if kind == "left_over" else 0.0,
        kind in ("blank", "left_over") and draw.random() < 0.5,
    )
    thick = round(called + 6.0)
    return first, Piece("black", "bar", thick, thick + draw.uniform(*RAW_OVER_MM), 150.0)


def gauges(draw: random.Random, *, ball: bool, unit: str) -> tuple[Gauge, ...]:
    """A calliper, most often a micrometer, and a ball micrometer where there is one; in either unit."""

    def fine() -> tuple[str, float]:
        own = draw.choice((unit, unit, "mm"))
        return own, 0.0001 * IN if own == "in" else 0.001

    calliper = Gauge("calliper", "calliper", unit, 0.0005 * IN if unit == "in" else 0.01, 0.03)
    found = [calliper]
    if draw.random() < 0.8:
        found.append(Gauge("micrometer", "micrometer", *fine(), 0.004))
    if ball:
        found.append(Gauge("ball micrometer", "ball_micrometer", *fine(), 0.004))
    return tuple(found)


def drawn(seed: int) -> PageShop:
    """The shop of a seed."""
    draw = random.Random(f"page shop {seed}")
    speaks = draw.choice(("mm", "mm", "in"))
    lathe_unit = draw.choice((speaks, speaks, "mm", "in"))
    belt = draw.choice(("belt", "lever", "stepless"))
    speeds = (
        (100.0, 2500.0)
        if belt == "stepless"
        else tuple(round(150 * 1.5**n) for n in range(draw.randint(3, 7)))
    )
    seat, gap = draw.uniform(24.0, 40.0), draw.uniform(0.3, 1.0)
    numbered = draw.random() < 0.6
    numbers = draw.sample(range(1, 30), 5)
    groover = (draw.choice((2.0, 3.0)), 15.0, 60.0, 10.0) if draw.random() < 0.3 else None
    tools = dict(zip(numbers, ("turning", "boring", "chamfer", "parting"), strict=False))
    return PageShop(
        seed=seed,
        speaks=speaks,
        cross=slide(draw, lathe_unit, cross=True),
        carriage=slide(draw, draw.choice((lathe_unit, lathe_unit, "mm")), cross=False),
        speeds=speeds,
        step_names=tuple(f"step {'ABCDEFG'[n]}" for n in range(len(speeds))) if belt == "belt" else (),
        stepless=belt == "stepless",
        shows_speed=draw.random() < 0.75,
        tools={**tools, numbers[4]: "face_grooving"} if groover else tools,
        numbered=numbered,
        blade=draw.choice((0.8, 1.0, 1.5, 2.0)),
        groover=groover,
        drills=draw.choice(((6.0, 8.5, 10.0, 13.0), (9.0, 13.0), (9.0, 12.0, 16.0, 20.0, 25.0))),
        spindle_hole=draw.choice((0.0, 0.0, 20.0, 60.0)),
        grips=(
            ("three-jaw chuck", "three_jaw", 80.0, draw.uniform(8.0, 20.0)),
            *((("soft jaws", "soft_jaws", 80.0, 8.0),) if draw.random() < 0.3 else ()),
            *((("step collet", "step_collet", 70.0, 5.0),) if draw.random() < 0.3 else ()),
        ),
        pieces=pieces(draw, seat, gap),
        gauges=gauges(draw, ball=draw.random() < 0.7, unit=speaks),
        remembers=draw.random() < 0.5,
        one_by_one=draw.random() < 0.15,
        size=(40, 12) if draw.random() < 0.1 else (80, 24),
        seat=seat,
        gap=gap,
        depth=draw.uniform(1.0, 3.0),
        spares=draw.choice((0, 0, 1)),
    )
