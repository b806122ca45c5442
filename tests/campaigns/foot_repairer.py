"""A repairer who sees nothing but the text of the pages turns rings with a foot in drawn shops.

    python -m tests.campaigns.foot_repairer [--long]

As `page_repairer`, with the person of `tests/independent/page_foot.py`: the foot has to come off the lathe
thick enough to be dressed to what the page says, its floor flat, its bore as planned, the wall in its band.
The short form is part of the tests; the long form takes 200 shops. A page whose floor is said too deep, and
one that leaves the floor out, are caught.
"""

from __future__ import annotations

import random
import re
import sys
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from unittest.mock import patch

from bench.shop.shop import shop_of
from rules.turning.order import Order
from tests.campaigns.page_repairer import LEAST_IN_BAND, Screen, Spoil, as_it_is
from tests.independent.page_foot import FootPerson, faults
from tests.independent.page_judge import in_band
from tests.independent.page_lathe import drawn_truth
from tests.independent.page_shop_file import shop_text
from tests.independent.page_shops import IN, PageShop, drawn
from tests.whole.repairer import Pretended, Repairer

SHORT = (0, 1, 4)
FOOT_MM, BEVEL_MM, BEARS_MM = 0.40, 0.28, 0.45
DEEPER_MM = 0.3


@dataclass
class Tally:
    """What came of the shops."""

    jobs: int = 0
    not_begun: Counter[str] = field(default_factory=Counter)
    walls: int = 0
    good: int = 0
    faults: list[str] = field(default_factory=list)

    @property
    def clean(self) -> bool:
        """Whether the promise is kept: as of straight rings, but counted over shops with any instrument."""
        return not self.faults and self.good >= LEAST_IN_BAND * self.walls


def sizes_of(shop: PageShop) -> dict[str, float]:
    """What is measured of a watch for this shop, by how the key begins."""
    glass = shop.seat - 2.0 * shop.gap
    return {
        "foot_case_bore": shop.seat,
        "foot_glass_edge": max(0.4, shop.depth - FOOT_MM - 2.0 * BEVEL_MM),
        "foot_glass": glass,
        "foot_seat_depth": shop.depth,
        "foot_ledge": glass - 2.0 * (BEVEL_MM + BEARS_MM),
        "foot_edge": shop.depth - FOOT_MM,
        "foot_bevel": BEVEL_MM,
    }


def to_the_lathe(shop: PageShop) -> tuple[Repairer, str]:
    """A job of this shop at the first page at the lathe, and why it cannot come there."""
    real = shop_of(shop_text(shop).encode(), "shop.toml")
    repairer = Repairer(Pretended(seed=shop.seed, shop=real))
    repairer.desk = replace(repairer.desk, columns=shop.size[0], rows=shop.size[1])
    repairer.open()
    repairer.answer()
    repairer.pick("usual")
    repairer.pick_key("seal")
    repairer.give("foot")
    sizes = sizes_of(shop)
    for _ in range(60):
        asked = repairer.asked
        if asked.startswith("foot_bar_measured"):
            return repairer, ""
        size = next((mm for name, mm in sizes.items() if asked.startswith(name)), 0.0)
        mask = repairer.step.mask
        if size and mask is not None:
            repairer.type(f"{size / (IN if mask.unit == 'in' else 1.0):.{mask.decimals}f}")
        elif repairer.step.kind == "result" or repairer.step.stage == "cut":
            return repairer, " ".join(repairer.step.say) or asked
        else:
            repairer.answer()
    return repairer, f"the lathe is not reached from {repairer.asked}"


def run(seeds: Sequence[int], *, spoil: Spoil = as_it_is) -> Tally:
    """One job for each seed, judged."""
    tally = Tally()
    for seed in seeds:
        shop = replace(drawn(seed), spares=0)
        repairer, why = to_the_lathe(shop)
        if why:
            tally.not_begun[why.partition(":")[0]] += 1
            continue
        draw = random.Random(f"foot lathe {seed}")
        truth = drawn_truth(draw, shop.cross, shop.numbered, {one.name: one.limit for one in shop.gauges})
        person = FootPerson(Screen(repairer, spoil), shop, truth, draw)
        person.hands.wanted_outside = shop.seat
        person.run()
        tally.jobs += 1
        tally.faults += [f"shop {seed}: {fault}" for fault in faults(person)]
        if person.band is not None and shop.ball:
            tally.walls += 1
            tally.good += in_band(person)
    return tally


@contextmanager
def too_deep() -> Iterator[None]:
    """The floor is said deeper than it is to lie."""
    own = Order.pocket_mm
    assert isinstance(own, property) and own.fget is not None
    said = own.fget
    with patch.object(Order, "pocket_mm", property(lambda order: said(order) + DEEPER_MM)):
        yield


def without_floor(lines: list[str]) -> list[str]:
    """No page speaks of the floor."""
    return [re.sub(r"floor(?: along)?: go to [\w.]+,?", "", line) for line in lines]


def caught(name: str, seed: int) -> list[str]:
    """What is noticed of a planted fault in one shop."""
    if name == "floor left out":
        return run([seed], spoil=without_floor).faults
    with too_deep():
        return run([seed]).faults


FAULTS = ("floor too deep", "floor left out")


def main() -> int:
    """Print the figures; status 1 where the promise is not kept."""
    begun = time.process_time()
    tally = run(range(200) if "--long" in sys.argv else SHORT)
    print(f"{tally.jobs} jobs; walls by a ball micrometer in the band: {tally.good} of {tally.walls}")
    for why, many in tally.not_begun.most_common():
        print(f"not begun, {many}: {why}")
    print("\n".join(tally.faults or ["nothing wrong"]))
    print(f"{time.process_time() - begun:.0f} s of one processor")
    return 0 if tally.clean else 1


if __name__ == "__main__":
    sys.exit(main())
