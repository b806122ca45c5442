"""A repairer who sees nothing but the text of the pages turns rings in drawn shops, with hidden errors.

    python -m tests.campaigns.page_repairer [--long]

The real program runs on a workbench in memory; from the first page at the lathe on the person reads the
painted text alone (`tests/independent/page_*.py`), moves a virtual lathe and keys what its instruments show.
Of the walls as they really are at least 98 % must lie in the band that the page names, where a ball
micrometer stands on the bench. The short form is part of the tests; the long form takes 500 shops.
"""

from __future__ import annotations

import argparse
import random
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace

from bench.job import keys
from bench.shop.shop import Shop, shop_of
from screens.layout import text_of
from screens.look import Look
from screens.view import view
from tests.independent.page_judge import faults, in_band, spares_off
from tests.independent.page_lathe import drawn_truth
from tests.independent.page_person import Person
from tests.independent.page_shop_file import shop_text
from tests.independent.page_shops import IN, PageShop, drawn
from tests.whole.repairer import Pretended, Repairer

LOOK = Look("half")
LEAST_IN_BAND = 0.98
SHORT = (3, 5, 6, 8, 13, 26, 37, 54)
"""Shops that differ in everything."""
SPARE_NEAR_MM = 0.02
Spoil = Callable[[list[str]], list[str]]


def as_it_is(lines: list[str]) -> list[str]:
    """The page as it is painted."""
    return lines


class Screen:
    """The program as a person has it: what is painted, and the keys."""

    def __init__(self, repairer: Repairer, spoil: Spoil) -> None:
        self.repairer, self.spoil = repairer, spoil
        self.presses = 0

    def painted(self) -> list[str]:
        """The lines of the page."""
        return self.spoil([text_of(line) for line in view(self.repairer.desk, LOOK)])

    def type(self, text: str) -> None:
        """An answer and Enter."""
        self.presses += len(text) + 1
        self.repairer.type(text)

    def key(self, name: str) -> None:
        """A key that moves."""
        self.presses += 1
        self.repairer.key(name)
        self.repairer.look()


@dataclass
class Tally:
    """What came of the shops."""

    jobs: int = 0
    not_begun: Counter[str] = field(default_factory=Counter)
    """Shops whose ring the program does not size or plan, with its reason."""
    walls: Counter[bool] = field(default_factory=Counter)
    """By a ball micrometer or without: rings measured."""
    good: Counter[bool] = field(default_factory=Counter)
    spares: list[float] = field(default_factory=list)
    """How far their walls are from the planned one, mm."""
    off: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)
    seen: Counter[str] = field(default_factory=Counter)

    def share(self, ball: bool) -> float:
        """Share of the walls in their band."""
        return self.good[ball] / self.walls[ball] if self.walls[ball] else 1.0

    def lines(self) -> Iterable[str]:
        """The figures."""
        yield f"{self.jobs} jobs from {self.jobs + sum(self.not_begun.values())} shops drawn"
        for ball in (True, False):
            by = "with a ball micrometer" if ball else "without one"
            yield f"walls in the band {by}: {self.good[ball]} of {self.walls[ball]}, {self.share(ball):.1%}"
        if self.spares:
            worst, near = max(self.spares), sum(one <= SPARE_NEAR_MM for one in self.spares)
            yield f"spares: {near} of {len(self.spares)} within {SPARE_NEAR_MM}, the worst {worst:.3f} off"
        yield from (f"not begun, {many}: {why}" for why, many in self.not_begun.most_common())
        yield "reached: " + ", ".join(f"{what} {many}" for what, many in sorted(self.seen.items()))
        yield from self.off
        yield from self.faults or ["nothing wrong"]

    @property
    def clean(self) -> bool:
        """Whether the promise is kept."""
        return not self.faults and self.share(True) >= LEAST_IN_BAND


def to_the_lathe(shop: PageShop, real: Shop) -> tuple[Repairer, str]:
    """A job of this shop at the first page at the lathe, and why it cannot come there."""
    repairer = Repairer(Pretended(seed=shop.seed, shop=real))
    repairer.desk = replace(repairer.desk, columns=shop.size[0], rows=shop.size[1])
    repairer.open()
    draw = random.Random(f"watch {shop.seed}")
    sizes = {"case_bore": shop.seat, "glass": shop.seat - 2.0 * shop.gap, "seat_depth": shop.depth}
    for _ in range(60):
        asked = repairer.asked
        if asked == keys.RING and shop.spares and keys.SPARES not in repairer.keyed:
            repairer.pick("usual")
            repairer.pick_key(keys.SPARES)
            repairer.type("2")
        elif asked == keys.BAR_MEASURED or repairer.step.stage == "cut":
            return repairer, "" if asked == keys.BAR_MEASURED else " ".join(repairer.step.say)
        elif size := next((mm for name, mm in sizes.items() if asked.startswith(name)), 0.0):
            mask = repairer.step.mask
            assert mask is not None
            shown = (size + draw.uniform(-0.006, 0.006)) / (IN if mask.unit == "in" else 1.0)
            repairer.type(f"{shown:.{mask.decimals}f}")
        elif repairer.step.kind == "result":
            return repairer, " ".join(repairer.step.say)
        else:
            repairer.answer()
    return repairer, f"the lathe is not reached from {repairer.asked}"


def one_job(
    seed: int,
    tally: Tally,
    *,
    change: Callable[[PageShop], PageShop] = lambda shop: shop,
    spoil: Spoil = as_it_is,
) -> Person | None:
    """The job of one seed, judged into the tally; None where no ring is begun."""
    shop = change(drawn(seed))
    repairer, why = to_the_lathe(shop, shop_of(shop_text(shop).encode(), "shop.toml"))
    if why:
        tally.not_begun[why.partition(":")[0]] += 1
        return None
    draw = random.Random(f"lathe {seed}")
    truth = drawn_truth(draw, shop.cross, shop.numbered, {one.name: one.limit for one in shop.gauges})
    person = Person(Screen(repairer, spoil), shop, truth, draw)
    person.hands.wanted_outside = shop.seat
    person.run()
    tally.jobs += 1
    tally.seen.update({*shop.kinds, *(what for what, many in person.hands.seen.items() if many)})
    tally.faults += [f"shop {seed}: {fault}" for fault in faults(person)]
    if person.band is not None:
        good = in_band(person)
        tally.spares += spares_off(person)
        tally.walls[shop.ball] += 1
        tally.good[shop.ball] += good
        if not good:
            low, wanted, high = person.band
            made = person.hands.rings[0].wall_mm
            tally.off.append(f"shop {seed}: wall {made:.4f}, band {low:.3f} {wanted:.3f} {high:.3f}")
    return person


def run(seeds: Sequence[int], *, spoil: Spoil = as_it_is) -> Tally:
    """One job for each seed."""
    tally = Tally()
    for seed in seeds:
        one_job(seed, tally, spoil=spoil)
    return tally


def main() -> int:
    """Print the figures; status 1 where the promise is not kept."""
    parser = argparse.ArgumentParser(description="a repairer who reads only the page")
    parser.add_argument("--long", action="store_true", help="500 shops")
    begun = time.process_time()
    tally = run(range(500) if parser.parse_args().long else SHORT)
    print("\n".join(tally.lines()))
    print(f"{time.process_time() - begun:.0f} s of one processor")
    return 0 if tally.clean else 1


if __name__ == "__main__":
    sys.exit(main())
