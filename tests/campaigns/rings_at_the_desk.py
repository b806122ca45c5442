"""Whole jobs in plain lines whose gap is hidden: the rings come off a virtual lathe, their real walls
are keyed, and a hand that tells softly says how they went in. What is checked is what the page says.

    python -m tests.campaigns.rings_at_the_desk [--long]

The short form, twelve jobs of two or three rings, is part of the tests; the long form takes 260.
"""

from __future__ import annotations

import argparse
import random
import re
import sys
import tempfile
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

from bench.desk.desk import Desk
from bench.file.slug import SHOP
from bench.job.job import Job
from bench.seals.ring.seal import plan
from bench.shop.shop import Shop
from tests.campaigns.virtual_lathe import Corrector, Tally, as_data
from tests.independent.hidden_watch import RINGS, HiddenWatch, Spreads
from tests.independent.virtual_lathe import VirtualLathe, drawn_truth
from tests.whole.hands import lines
from tests.whole.script import Hand, numbered

SEAT_MM, GLASS_MM = 36.43, 35.305
"""Of the invented watch, as its ordinary readings have it."""
SPREADS = Spreads(0.018, 0.006)
"""As far off as the shop's instruments and lathe let expect."""
INSTRUMENTS = """
turning_spread_mm = 0.012
[[instrument]]
name = "calliper"
kind = "calliper"
resolution_mm = 0.01
limit_of_error_mm = 0.044
[[instrument]]
name = "ball micrometer"
kind = "ball_micrometer"
resolution_mm = 0.001
limit_of_error_mm = 0.004
"""
FOUND = re.compile(r"squeeze (-?\d+\.\d) % of the wall \((\d+(?:\.\d+)?) to (\d+(?:\.\d+)?) works\)")
TWELVE = (1, 2, 5, 11, 12, 14, 17, 20, 23, 24, 25, 29)
"""The first jobs that took two rings or three."""
WALLS = re.compile(r"wall (\d+\.\d+), entry chamfer")
LEARNED = re.compile(r"after rings? .* the gap is (rather|as measured).*this bore: \d+ %")


@dataclass(slots=True)
class Ring:
    """A ring as its page said it and as it was made."""

    wall_mm: float
    squeeze_pct: float
    high_pct: float
    page: str
    made_mm: float = 0.0
    said: str = ""


@dataclass(slots=True)
class Bench:
    """A repairer with a watch and a virtual lathe: types what is ordinary, but the walls as they are and what
    the hand says.
    """

    watch: HiddenWatch
    draw: random.Random
    rings: list[Ring] = field(default_factory=list)
    stopped: str = ""
    """What ended it without a ring that went home."""
    _hand: Hand = field(default_factory=Hand)

    def line(self, desk: Desk) -> str | None:
        """The next line."""
        key = desk.step.key if desk.page == "step" and desk.step is not None else ""
        if self.stopped or (self.rings and self.rings[-1].said == "home" and key != "fit_outcome"):
            return None
        if key == "ring" and (desk.job is not None and desk.job.attempt > len(self.rings)):
            self.rings.append(read(desk))
        if re.fullmatch(r"wall_\d", key):
            return f"{self.measured(desk):.3f}"
        if key == "fit_outcome":
            self.rings[-1].said = self.watch.said(self.rings[-1].made_mm, self.draw.random())
            return chosen(desk, self.rings[-1].said)
        if key == "remake":
            words = [choice.word for choice in desk.step.choices] if desk.step else []
            if len(self.rings) == RINGS:
                self.stopped = f"{RINGS} rings and none home"
            elif "ring" not in words:
                self.stopped = f"no ring is offered: {' '.join(desk.step.say if desk.step else ())}"
            return None if self.stopped else chosen(desk, "ring")
        return self._hand.line(desk)

    def measured(self, desk: Desk) -> float:
        """One wall of the ring, which is turned when it is first asked for."""
        ring = self.rings[-1]
        if not ring.made_mm:
            assert desk.job is not None and desk.shop is not None
            ring.made_mm = turned(desk.job, desk.shop, self.draw)
        return ring.made_mm + self.draw.gauss(0.0, SPREADS.read_mm)


def turned(job: Job, shop: Shop, draw: random.Random) -> float:
    """The wall that a lathe with hidden errors makes of the plan of the ring accepted, mm."""
    made, why = plan(job, shop)
    assert made is not None, why
    order = made[0].order
    machine = VirtualLathe(
        drawn_truth(draw, order.turning.number, order.boring.number),
        draw,
        order.lathe.cross.shows == "radius",
    )
    return machine.turn(as_data(made[0]), Corrector(made[0], Tally(), ""))


def chosen(desk: Desk, word: str) -> str:
    """What is typed for a choice."""
    assert desk.step is not None
    return numbered([choice.word for choice in desk.step.choices], word, desk.offset)


def read(desk: Desk) -> Ring:
    """A proposal as its page says it."""
    assert desk.step is not None
    page = " ".join((*desk.step.say, *desk.step.consequence))
    squeeze, wall = FOUND.search(page), WALLS.search(page)
    assert squeeze and wall, page
    return Ring(float(wall[1]), float(squeeze[1]), float(squeeze[3]), page)


def wrong(bench: Bench) -> list[str]:
    """What a job shows that it must not; empty when all is well."""
    found = [bench.stopped] if bench.stopped else []
    for n, ring in enumerate(bench.rings):
        if ring.squeeze_pct > ring.high_pct + 0.05 or "CHECK" in ring.page:
            found.append(f"ring {n + 1} is proposed at {ring.squeeze_pct} %: {ring.page}")
        before = bench.rings[n - 1] if n else None
        if before is None:
            continue
        if before.said == "too_easy" and ring.wall_mm < before.made_mm - 3 * SPREADS.read_mm:
            found.append(f"ring {n + 1} is looser than the one that went in too easily")
        if before.said == "would_not_start" and ring.wall_mm > before.made_mm + 3 * SPREADS.read_mm:
            found.append(f"ring {n + 1} is tighter than the one that would not start")
        if not LEARNED.search(ring.page):
            found.append(f"ring {n + 1} does not say what was learned: {ring.page}")
    last = bench.rings[-1]
    if (
        last.said == "home"
        and bench.watch.squeeze_pct(last.made_mm) > SPREADS.high_pct + 2 * SPREADS.hand_pct
    ):
        found.append(f"ended over the band: {bench.watch.squeeze_pct(last.made_mm):.1f} %")
    return found


def one_job(seed: int) -> Bench:
    """One job in plain lines, with its own folder."""
    draw = random.Random(seed)
    watch = HiddenWatch(
        SEAT_MM, GLASS_MM, (SEAT_MM - GLASS_MM) / 2 + draw.gauss(0.0, SPREADS.gap_mm), SPREADS, ()
    )
    bench = Bench(watch, draw)
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / SHOP).write_text(INSTRUMENTS, encoding="utf-8")
        lines(Path(folder), [bench])
    return bench


def run(seeds: Iterable[int]) -> list[Bench]:
    """One job for each seed."""
    return [one_job(seed) for seed in seeds]


def main() -> int:
    """Print the figures; status 1 where a page shows what it must not."""
    parser = argparse.ArgumentParser(description="whole jobs in plain lines whose gap is hidden")
    parser.add_argument("--long", action="store_true", help="260 jobs instead of twelve")
    done = run(range(260) if parser.parse_args().long else TWELVE)
    counts = [sum(len(one.rings) == rings for one in done) for rings in range(1, 7)]
    bad = [words for one in done for words in wrong(one)]
    over = sum(one.watch.squeeze_pct(one.rings[-1].made_mm) > SPREADS.high_pct for one in done)
    print(f"{len(done)} jobs by the number of rings: {counts}; {over} ended over the band as it truly is")
    print("\n".join(bad) or "nothing wrong")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
