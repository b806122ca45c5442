"""How soon a ring goes home in a watch whose gap is hidden: with what the rings tried teach, and beside it by
the rule of half-way steps, which is kept here alone as the reference.

    python -m tests.campaigns.second_rings [--long]

The short form is part of the tests; the long form tries 4,000 watches at every spread, and 200 at the desk.
"""

from __future__ import annotations

import argparse
import random
import sys
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import lru_cache

from rules.sizing.learned import RingTried
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import Sizing, size
from tests.independent.hidden_watch import RINGS, HiddenWatch, Spreads, Turned

USUAL = Spreads(0.018, 0.006)
SPREADS = {
    "gap 0.018, cut 0.006": USUAL,
    "gap 0.010, cut 0.005": Spreads(0.010, 0.005),
    "gap 0.025, cut 0.010": Spreads(0.025, 0.010),
    "plated, gap 0.018, cut 0.006": Spreads(0.018, 0.006, high_pct=9.0),
    "plated, gap 0.010, cut 0.005": Spreads(0.010, 0.005, high_pct=9.0),
}
WITHIN_TWO, WITHIN_THREE = 0.95, 0.995
"""Required at the usual spreads, and that every watch is done with within six."""
STEP_MM = 0.01


@dataclass(slots=True)
class Tally:
    """What came of the watches."""

    watches: int = 0
    home: list[int] = field(default_factory=lambda: [0] * RINGS)
    """Watches by the number of the ring that went home."""
    looser: int = 0
    """Rings planned looser than the last one as measured, which went in too easily."""
    tighter: int = 0
    """Rings planned tighter than the last one as measured, which would not start."""
    over: int = 0
    """Rings planned over the upper end of the band at the gap then believed."""
    none_left: int = 0
    """Watches for which no ring was proposed before one went home."""
    further: int = 0
    """Rings after the first: how often there was something to learn."""

    def within(self, rings: int) -> float:
        """Share of the watches whose glass is home with that many rings."""
        return sum(self.home[:rings]) / self.watches

    @property
    def never(self) -> float:
        """Share of the watches in which no ring of six went home."""
        return 1.0 - self.within(RINGS)

    @property
    def columns(self) -> tuple[float, float, float, float]:
        """First ring, within two, within three, home within six: the more the better."""
        return self.within(1), self.within(2), self.within(3), self.within(RINGS)

    @property
    def broken(self) -> int:
        """Rings that break a promise."""
        return self.looser + self.tighter + self.over


@lru_cache(maxsize=64)
def first(question: SizingQuestion) -> Sizing:
    """The first ring is the same for many watches."""
    return size(question)


def question_of(watch: HiddenWatch) -> SizingQuestion:
    """What the program is told of a watch: as measured, and how well."""
    of = watch.spreads
    expanded = 2.0 * 2.0**0.5 * of.gap_mm  # of each diameter, so that half of seat less glass has that spread
    return SizingQuestion(
        case_bore_mm=watch.seat_mm,
        glass_mm=watch.glass_mm,
        case_bore_u_mm=expanded,
        glass_u_mm=expanded,
        turning_spread_mm=2.0 * of.cut_mm,
        case_metal="brass_plated" if of.high_pct < 13.0 else None,
        lathe_step_mm=STEP_MM,
        hand_scale_pct=of.hand_pct,
    )


Told = Callable[[str], str]
"""What is told the program of what the hand said; a planted fault tells something else."""


def learning(watch: HiddenWatch, told: Told, tally: Tally) -> None:
    """One watch as the program sizes it."""
    asked = question_of(watch)
    tried: tuple[RingTried, ...] = ()
    last: Turned | None = None
    for nth in range(RINGS):
        answer = size(replace(asked, tried=tried)) if tried else first(asked)
        if answer.window.shut_by_rings:
            tally.none_left += 1
            return
        wall = answer.ring.wall_mm
        _judge(tally, watch, answer, last)
        last = watch.turned(nth, wall)
        if last.said == "home":
            tally.home[nth] += 1
            return
        said = told(last.said)
        one = RingTried(
            number=nth + 1,
            outcome=said or "home",
            wall_mm=last.read_mm,
            wall_u_mm=watch.spreads.read_mm,
            band=answer.window.band,
        )
        tried = (*tried, one) if said else tried


def _judge(tally: Tally, watch: HiddenWatch, answer: Sizing, last: Turned | None) -> None:
    """Whether a ring that is planned keeps what was promised."""
    wall, gap = answer.ring.wall_mm, answer.resolved.joint.gap_mm
    tally.over += 100.0 * (wall - gap) / wall > watch.spreads.high_pct + 1e-6
    if last is None:
        return
    tally.further += 1
    tally.looser += last.said == "too_easy" and wall < last.read_mm - 1e-9
    tally.tighter += last.said == "would_not_start" and wall > last.read_mm + 1e-9


def half_way(watch: HiddenWatch, tally: Tally) -> None:
    """One watch by the rule of thumb: from the ring as measured half the way to the end of the band, at least
    0.02 on the bore; at the end of the band that end again.
    """
    of, outside = watch.spreads, round(watch.seat_mm, 2)
    gap, wall = (watch.seat_mm - watch.glass_mm) / 2.0, first(question_of(watch)).ring.wall_mm
    low, high = of.low_pct / 100.0, of.high_pct / 100.0
    for nth in range(RINGS):
        made = watch.turned(nth, wall)
        if made.said == "home":
            tally.home[nth] += 1
            return
        start = min(max(1.0 - gap / made.read_mm, low), high)
        least, most = gap / (1.0 - low), gap / (1.0 - high)
        if made.said == "too_easy":
            wanted, least = gap / (1.0 - (start + high) / 2.0), max(least, made.read_mm + 0.01)
        else:
            wanted, most = gap / (1.0 - (start + low) / 2.0), min(most, made.read_mm - 0.01)
        wanted = min(max(wanted, least), gap / (1.0 - high)) if made.said == "too_easy" else wanted
        wanted = max(min(wanted, most), gap / (1.0 - low)) if made.said != "too_easy" else wanted
        wall = (outside - round((outside - 2.0 * wanted) / STEP_MM) * STEP_MM) / 2.0


FAULTS: dict[str, Told] = {
    "sign of the evidence turned round": lambda said: "would_not_start" if said == "too_easy" else "too_easy",
    "evidence ignored": lambda said: "",
}


def run(spreads: Spreads, *, watches: int, seed: int, told: Told | None = None) -> tuple[Tally, Tally]:
    """So many watches, by what the rings teach and by half-way steps, with the same luck."""
    draw, ours, theirs = random.Random(seed), Tally(watches=watches), Tally(watches=watches)
    for _ in range(watches):
        watch = HiddenWatch.drawn(draw, spreads)
        learning(watch, told or (lambda said: said), ours)
        half_way(watch, theirs)
    return ours, theirs


def wrong(spreads: Spreads, ours: Tally, theirs: Tally) -> list[str]:
    """What is not as it has to be; empty when all is well."""
    found = [f"{ours.broken} rings break a promise"] if ours.broken else []
    if any(mine < other - 1e-12 for mine, other in zip(ours.columns, theirs.columns, strict=True)):
        found.append("worse than half-way steps")
    if spreads == USUAL and (
        ours.within(2) < WITHIN_TWO or ours.within(3) < WITHIN_THREE or ours.never > 0.0
    ):
        found.append("less than required")
    return found


def said(name: str, tally: Tally) -> str:
    """One line of figures."""
    columns = " / ".join(f"{100 * tally.within(rings):.1f}" for rings in (1, 2, 3))
    return (
        f"{name}: {columns} % home with the first ring, within two, within three; "
        f"never {100 * tally.never:.2f} %; "
        f"{tally.further} further rings, {tally.looser} looser, {tally.tighter} tighter, {tally.over} over, "
        f"{tally.none_left} without a proposal"
    )


def main() -> int:
    """Print the figures; status 1 when they are not as they have to be."""
    parser = argparse.ArgumentParser(description="second rings in watches whose gap is hidden")
    parser.add_argument("--long", action="store_true", help="4,000 watches instead of 800")
    watches = 4_000 if parser.parse_args().long else 800
    bad = []
    for name, spreads in SPREADS.items():
        ours, theirs = run(spreads, watches=watches, seed=12)
        print(said(name, ours))
        print(said("  half-way steps", theirs))
        bad += [f"{name}: {words}" for words in wrong(spreads, ours, theirs)]
    for fault, told in FAULTS.items():
        ours, theirs = run(USUAL, watches=watches // 4, seed=12, told=told)
        print(said(f"fault, {fault}", ours))
        bad += [] if wrong(USUAL, ours, theirs) else [f"{fault}: not seen"]
    print("\n".join(bad) or "all as required")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
