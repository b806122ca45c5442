"""What a shop learns from its own rings: simulated shops with a hidden bias and spread, the same luck with
learning and without, the chance that a ring lands integrated by a judge that knows nothing of the program.

    python -m tests.campaigns.shops [--long]

The short form is part of the tests; the long form is 3,000 shops of 1 to 60 rings.
"""

from __future__ import annotations

import argparse
import math
import random
import sys
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from rules.learning.landing import Lands, RingLanded, lands
from rules.sizing.proposal import asked_about
from rules.sizing.question import SizingQuestion
from rules.sizing.resolved import USUAL_TURNING_SPREAD_MM, resolve
from tests.independent.hidden_shop import MOST, HiddenShop

AFTER = (1, 2, 5, 10, 20, 60)
"""After so many jobs learning is held against what is assumed."""
NEVER_WORSE, COMES_TRUE, BACK_AGAIN, WILD_COST = 0.01, 0.03, 0.02, 0.02
"""Required: rings landed less than without, promise against landed, tool changed, two wild rings in 20."""
TENTH, TOOL_RINGS, WILD_AMONG, WILD_BY_MM = 10, 6, 20, 0.06
ASSUMED_SD_MM = USUAL_TURNING_SPREAD_MM / 2.0
ROUGH, ROUGH_MM = 10, 0.008
"""Beside the ten tenths: shops that spread by more, where a wrong spread shows."""
ENOUGH = 200
"""A tenth of the promises with fewer rings says nothing."""
Told = Callable[[Lands], Lands]
"""What of the learned is used; a planted fault uses something else."""


@dataclass(slots=True)
class Mean:
    """A mean with its interval, of independent values."""

    values: list[float] = field(default_factory=list)

    @property
    def mean(self) -> float:
        """0 where there is none."""
        return math.fsum(self.values) / len(self.values) if self.values else 0.0

    @property
    def half(self) -> float:
        """Half of its 95 % interval."""
        count, mean = len(self.values), self.mean
        if count < 2:
            return math.inf
        square = math.fsum((one - mean) ** 2 for one in self.values) / (count - 1)
        return 1.96 * math.sqrt(square / count)

    def __str__(self) -> str:
        low, mean, high = (100.0 * (self.mean + sign * self.half) for sign in (-1.0, 0.0, 1.0))
        return f"{mean:+.2f} ({low:+.2f} to {high:+.2f})"


@dataclass(slots=True)
class ShopsTally:
    """What came of the shops, in parts of one."""

    better: dict[int, Mean] = field(default_factory=lambda: {after: Mean() for after in AFTER})
    """Landed with learning less landed without, by jobs before."""
    same: dict[int, Mean] = field(default_factory=lambda: {after: Mean() for after in AFTER})
    """The same in shops that are just as assumed, so that there is nothing to learn."""
    bins: dict[int, dict[int, list[tuple[float, float]]]] = field(default_factory=dict)
    """Promised and landed from the tenth ring on, by tenths and shops."""
    tool: Mean = field(default_factory=Mean)
    """Lost against a shop that knows, after six rings with another tool."""
    wild: Mean = field(default_factory=Mean)
    """Lost by two wild rings in 20."""
    seen: Counter[str] = field(default_factory=Counter)


@lru_cache(maxsize=4096)
def proposed(question: SizingQuestion) -> tuple[float, float]:
    """The wall that is proposed, mm, and the chance promised for it."""
    ring, window = asked_about(resolve(question))
    return ring.wall_mm, window.ring_chance


def asked(shop: HiddenShop, nth: int, turned_sd_mm: float) -> SizingQuestion:
    """What the program is told of the nth watch, from 0."""
    watch, expanded = shop.watches[nth], 2.0 * 2.0**0.5 * shop.gap_mm
    return SizingQuestion(
        case_bore_mm=watch.seat_mm,
        glass_mm=watch.glass_mm,
        case_bore_u_mm=expanded,
        glass_u_mm=expanded,
        turning_spread_mm=2.0 * turned_sd_mm,
    )


def without(shop: HiddenShop, nth: int, *, other_tool: bool = False) -> float:
    """The chance that the nth ring lands by what is assumed."""
    wall, _ = proposed(asked(shop, nth, ASSUMED_SD_MM))
    return shop.chance(nth, wall, other_tool=other_tool)


def learned(
    shop: HiddenShop, nth: int, before: Sequence[RingLanded], told: Told, *, other_tool: bool = False
) -> tuple[float, float]:
    """Promised and landed for the nth ring after those before it, newest first."""
    found = lands(before, line="other" if other_tool else "one", assumed_sd_mm=ASSUMED_SD_MM)
    if found is None:
        wall, chance = proposed(asked(shop, nth, ASSUMED_SD_MM))
        return chance, shop.chance(nth, wall, other_tool=other_tool)
    used = told(found)
    wall, chance = proposed(asked(shop, nth, used.sd_mm))
    return chance, shop.chance(nth, wall - round(used.mean_mm, 3), other_tool=other_tool)


def rings_of(shop: HiddenShop, count: int, *, tool_from: int = MOST) -> list[RingLanded]:
    """The first rings of a shop, newest first; with another tool from one on."""
    made = (
        RingLanded(shop.off_mm(at, other_tool=at >= tool_from), "other" if at >= tool_from else "one")
        for at in range(count)
    )
    return [*made][::-1]


def one_shop(shop: HiddenShop, number: int, told: Told, tally: ShopsTally) -> None:
    """One shop through all of its rings."""
    as_assumed = shop.bias_mm == 0.0
    count = len(shop.watches) - 1  # the last watch is the one after its rings
    for nth in range(count + 1):
        if nth not in AFTER and nth < TENTH:
            continue
        promised, landed = learned(shop, nth, rings_of(shop, nth), told)
        if nth in AFTER:
            gained = tally.same if as_assumed else tally.better
            gained[nth].values.append(landed - without(shop, nth))
        if nth >= TENTH:
            at = min(9, int(10 * promised))
            for one in (at, *((ROUGH,) if shop.spread_mm > ROUGH_MM else ())):
                tally.bins.setdefault(one, {}).setdefault(number, []).append((promised, landed))
    tally.seen["bias over 0.004"] += abs(shop.bias_mm) > 0.004
    tally.seen["spread over 0.006"] += shop.spread_mm > 0.006
    tally.seen["spread under 0.003"] += shop.spread_mm < 0.003
    tally.seen["rings"] += count


def another_tool(shop: HiddenShop, told: Told, tally: ShopsTally) -> None:
    """Thirty rings with one tool, six with another, beside a shop that knows what is true of it."""
    change = 30
    nth = change + TOOL_RINGS
    _, landed = learned(shop, nth, rings_of(shop, nth, tool_from=change), told, other_tool=True)
    wall, _ = proposed(asked(shop, nth, shop.spread_mm))
    tally.tool.values.append(shop.chance(nth, wall - shop.true_bias_mm(True), other_tool=True) - landed)
    tally.seen["another tool lands 0.005 elsewhere"] += abs(shop.other_tool_mm) > 0.005


def two_wild(shop: HiddenShop, told: Told, tally: ShopsTally) -> None:
    """Twenty rings of which two are wild, beside the same without them."""
    nth = WILD_AMONG
    _, clean = learned(shop, nth, rings_of(shop, nth), told)
    spoiled = rings_of(shop.with_wild((7, 15), WILD_BY_MM), nth)
    _, landed = learned(shop, nth, spoiled, told)
    tally.wild.values.append(clean - landed)
    found = lands(spoiled, line="one", assumed_sd_mm=ASSUMED_SD_MM)
    tally.seen["wild rings named"] += len(found.odd) if found else 0


FAULTS: dict[str, Told] = {
    "sign of the bias turned round": lambda found: replace(found, mean_mm=-found.mean_mm),
    "spread taken as half": lambda found: replace(found, sd_mm=found.sd_mm / 2.0),
    "bias ignored": lambda found: replace(found, mean_mm=0.0),
}


def run(*, shops: int, seed: int, told: Told = lambda found: found) -> ShopsTally:
    """So many shops; every third has 60 rings, the others 1 to 60; every fifth is just as assumed."""
    draw, tally = random.Random(seed), ShopsTally()
    for number in range(shops):
        rings = MOST if number % 3 == 0 else draw.randint(1, MOST)
        shop = HiddenShop.drawn(draw, rings + 1)
        if number % 5 == 0:
            shop = replace(shop, bias_mm=0.0, spread_mm=ASSUMED_SD_MM)
        one_shop(shop, number, told, tally)
        if rings == MOST:
            another_tool(shop, told, tally)
            two_wild(shop, told, tally)
    return tally


def comes_true(shops: dict[int, list[tuple[float, float]]]) -> tuple[int, float, float, float]:
    """Of a tenth of the promises: rings, promised, landed, and half of the interval of landed less promised,
    by shops, as the rings of one shop are not independent.
    """
    pairs = [pair for every in shops.values() for pair in every]
    rings = len(pairs)
    promised, landed = (math.fsum(pair[at] for pair in pairs) / rings for at in (0, 1))
    off = landed - promised
    square = math.fsum(math.fsum(b - a - off for a, b in every) ** 2 for every in shops.values())
    return rings, promised, landed, 1.96 * math.sqrt(square) / rings


def of_tenth(at: int) -> str:
    """A tenth of the promises, or the rough shops."""
    return f"spread over {ROUGH_MM}    " if at == ROUGH else f"promised {10 * at:2} to {10 * at + 10:3} %"


def wrong(tally: ShopsTally) -> list[str]:
    """What is not as it has to be, as far as the intervals let it be said; empty when all is well."""
    found = [
        f"after {after} jobs worse than assumed: {mean}"
        for after, mean in (*tally.better.items(), *tally.same.items())
        if mean.values and mean.mean + mean.half < -NEVER_WORSE
    ]
    found += [
        f"after {after} jobs learning brings nothing: {mean}"
        for after, mean in tally.better.items()
        if after >= TENTH and mean.values and mean.mean <= 0.0
    ]
    for at, shops in sorted(tally.bins.items()):
        rings, promised, landed, half = comes_true(shops)
        if rings >= ENOUGH and abs(landed - promised) - half > COMES_TRUE:
            found.append(f"promised {100 * promised:.1f} %, landed {100 * landed:.1f} % ({of_tenth(at)})")
    if tally.tool.mean - tally.tool.half > BACK_AGAIN:
        found.append(f"after another tool: {tally.tool} lost")
    if tally.wild.mean - tally.wild.half > WILD_COST:
        found.append(f"two wild rings: {tally.wild} lost")
    return found


def said(tally: ShopsTally) -> str:
    """The figures, in points."""
    lines = [f"after {after:2} jobs: {mean} points more rings land" for after, mean in tally.better.items()]
    lines += [
        f"shops just as assumed, after {after:2} jobs: {mean} points more"
        for after, mean in tally.same.items()
    ]
    for at, shops in sorted(tally.bins.items()):
        rings, promised, landed, half = comes_true(shops)
        lines.append(
            f"{of_tenth(at)}: {rings:6} rings, {100 * promised:.1f} % promised, "
            f"{100 * landed:.1f} % landed (+- {100 * half:.1f})"
        )
    lines.append(f"six rings after another tool, behind a shop that knows: {tally.tool}")
    lines.append(f"lost by two wild rings in 20: {tally.wild}")
    return "\n".join([*lines, ", ".join(f"{key} {count}" for key, count in sorted(tally.seen.items()))])


def main() -> int:
    """Print the figures; 1 where something is not as it has to be."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--long", action="store_true")
    shops = 3000 if parser.parse_args().long else 90
    tally = run(shops=shops, seed=17)
    print(said(tally))
    problems = wrong(tally)
    print("\n".join(problems) or "as it has to be")
    for name, fault in FAULTS.items():
        caught = wrong(run(shops=min(shops, 300), seed=17, told=fault))
        print(f"fault planted, {name}: {'; '.join(caught) or 'NOT CAUGHT'}")
        problems += [] if caught else [name]
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main())
