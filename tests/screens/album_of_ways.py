"""Pages off the straight path: no glass to measure, a ring that is there, an answer about to be replaced,
a hold on the clock.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from bench.desk.desk import Desk
from tests.screens.keying import Keying
from tests.whole.script import Back, Hand
from tests.whole.scripts import STRAIGHT, straight

TO_THE_RING = STRAIGHT[:5]


def ways(folder: Path) -> Iterator[tuple[str, Desk]]:
    """Heading and desk of each."""
    yield from no_glass(folder / "no glass")
    yield from at_hand(folder / "at hand")
    yield from holds(folder / "holds")
    keying = Keying(folder / "replacing")
    keying.run(straight(until="wall_3"), Back("seat_depth"), "1.30")
    yield "replacing: what stops counting", keying.desk
    yield "replacing: further down", keying.run("+")
    keying.run("1")
    yield "a ring dressed lower", keying.desk
    keying.bench.close()


def no_glass(folder: Path) -> Iterator[tuple[str, Desk]]:
    """Ordered, waited for, come in another size."""
    keying = Keying(folder)
    keying.run(Hand(TO_THE_RING[:2], until="glass_1"), "1", "1.45")
    yield "no glass: which one is ordered", keying.desk
    yield "no glass: the wall of an old ring", keying.run("4")
    keying.run("0.705")
    yield "no glass: by an old ring", keying.desk
    yield "no glass: waiting", keying.run("1")
    keying.run("1", "3530", "3531")
    yield "no glass: another size came", keying.desk
    yield "no glass: an old ring beside the proposal", keying.run("1")
    keying.bench.close()


def at_hand(folder: Path) -> Iterator[tuple[str, Desk]]:
    """A new one that may fit and one that is too high and slack; a used one."""
    keying = Keying(folder)
    keying.run(Hand(TO_THE_RING, until="ring"), "6")
    yield "at hand: which", keying.desk
    yield "at hand: wall", keying.run("2")
    keying.run(*["0612"] * 4, "140", "2")
    yield "at hand: slack and too high", keying.desk
    keying.run("2", "4", *["0612"] * 4)
    yield "at hand: height", keying.desk
    keying.run("120")
    yield "at hand: how it lies", keying.desk
    yield "at hand: a used one", keying.run("1")
    keying.bench.close()


def holds(folder: Path) -> Iterator[tuple[str, Desk]]:
    """A hold on the clock: before it, while it runs, at its end, stopped early; one made shorter."""
    keying = Keying(folder)
    keying.run(Hand((*STRAIGHT, ("cased_method", "underpressure")), until="cased_hold"))
    yield "hold: before it", keying.desk
    yield "hold: just begun", keying.run("1")
    yield "hold: two minutes on", keying.run("@2")
    yield "hold: over", keying.run("@4")
    yield "hold: failed", keying.run("2")
    keying.bench.close()
    keying = Keying(folder / "early")
    keying.run(Hand((*STRAIGHT, ("cased_method", "underpressure")), until="cased_hold"), "1")
    yield "hold: failed early", keying.run("2")
    keying.bench.close()
