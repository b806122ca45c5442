"""What a person measures at the lathe and keys, with the instrument that the page names.

Imports nothing of the program.
"""

from __future__ import annotations

import random
import re
from dataclasses import dataclass, field
from typing import Protocol

from tests.independent.page_hands import Hands
from tests.independent.page_lathe import Truth
from tests.independent.page_reader import MM_PER_IN
from tests.independent.page_shops import Gauge, PageShop, Piece
from tests.independent.page_text import Seen

BURR_MM = 0.03
WALL_BY_CALLIPER_MM = 0.02
LIMIT = re.compile(r"\s*(?:\w+ under|aim|\w+ over)\s+\S+\s+(\d\.\d+)\s*")
"""A limit of the wall, and what is aimed at, each behind its line."""
BAND = re.compile(r"\s*works: (\d\.\d+) to (\d\.\d+), target (\d\.\d+)")
"""The same in a window too small for lines."""


class Window(Protocol):
    """A window on the program: what is painted, and the keys."""

    def painted(self) -> list[str]:
        """The lines."""

    def type(self, text: str) -> None:
        """An answer and Enter."""

    def key(self, name: str) -> None:
        """One key that moves."""


@dataclass
class Measuring:
    """The person's measuring tools, what they showed, and what is keyed."""

    window: Window
    shop: PageShop
    truth: Truth
    draw: random.Random
    hands: Hands = field(init=False)
    piece: Piece = field(init=False)
    band: tuple[float, float, float] | None = None
    """What the page of the first wall names: lowest, wanted, highest, mm."""
    ended: str = ""

    def end(self, how: str) -> None:
        """Nothing more is done."""
        self.ended = how

    def choose(self, page: Seen, *words: str) -> None:
        """The choice that holds these words."""
        self.window.type(page.choice(*words) or "1")

    def key_mm(self, page: Seen, size: float) -> None:
        """A length as the blanks ask for it."""
        shown = size / MM_PER_IN if page.unit == "in" else size
        self.window.type(f"{shown:.{page.decimals if page.decimals is not None else 2}f}")

    def read(self, gauge: Gauge, truly: float, *, wall: bool = False) -> float:
        """One reading with an instrument, as it shows it, mm."""
        limit = WALL_BY_CALLIPER_MM if wall and gauge.kind == "calliper" else gauge.limit
        error = self.truth.gauges[gauge.name] * limit / gauge.limit + self.draw.uniform(-0.3, 0.3) * limit
        return round((truly + error) / gauge.step) * gauge.step

    def gauge(self, page: Seen, *names: str) -> Gauge:
        """The instrument that the page names, and its unit as the page asks for it."""
        there = [
            one
            for one in self.shop.gauges
            if one.name in names or re.search(rf"with the {one.name}\b", page.text)
        ]
        if not there:
            self.hands.lack(f"no such measuring tool: {page.text[:80]}")
            return self.shop.gauges[0]
        if there[0].unit != page.unit or there[0].decimals != page.decimals:
            self.hands.lack(f"the {there[0].name} does not show what is asked")
        return there[0]

    def bar(self, page: Seen) -> None:
        """Which bar, and what it measures outside."""
        self.piece = next((one for one in self.shop.pieces if f" {one.colour} " in page.text), self.piece)
        able = [one for one in self.shop.gauges if one.kind != "ball_micrometer" and one.unit == page.unit]
        tool = (able or list(self.shop.gauges))[0]
        self.hands.seen[f"bar taken: {self.piece.kind}"] += 1
        self.key_mm(page, self.read(tool, self.piece.outside))

    def outside(self, page: Seen) -> None:
        """The outside on the bar, at two places, the larger."""
        gauge, work = self.gauge(page), self.hands.lathe.work
        truly = work.outside_at(work.face + 0.5)
        self.key_mm(page, max(self.read(gauge, truly), self.read(gauge, truly)))

    def wall(self, page: Seen) -> None:
        """The wall over the open end: the mean of four, or one of them."""
        gauge, work = self.gauge(page), self.hands.lathe.work
        if "urrs off both edges" in page.text:
            self.hands.burrs = False
        truly = (work.outside_at(work.face + 0.4) - work.bore_at(work.face + 0.4)) / 2.0
        truly += BURR_MM if self.hands.burrs else 0.0
        many = 4 if "key the mean" in page.text else 1
        if many == 4 and self.shop.seed % 4 == 0 and "key the four one by one" in page.text:
            self.hands.seen["walls keyed one by one"] += 1
            self.window.type("1")
            return
        self.key_mm(page, sum(self.read(gauge, truly, wall=True) for _ in range(many)) / many)

    def ring_wall(self, page: Seen) -> None:
        """A wall of the ring in the hand; the first page names the band."""
        rings = self.hands.rings
        if not rings:
            self.end("no ring was parted")
            return
        if self.band is None:
            found = [one[1] for line in page.lines if (one := LIMIT.fullmatch(line))]
            found = found or [one[at] for line in page.lines if (one := BAND.match(line)) for at in (1, 3, 2)]
            if len(found) != 3:
                self.end(f"no band: {page.text[:160]}")
                return
            low, wanted, high = (float(one) * (MM_PER_IN if page.unit == "in" else 1.0) for one in found)
            self.band = (low, wanted, high)
        fine = [one for one in self.shop.gauges if one.kind == "ball_micrometer"]
        self.key_mm(page, self.read((fine or list(self.shop.gauges))[0], rings[0].wall_mm, wall=True))
