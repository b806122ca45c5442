"""Random walks over the desk: nothing says how to turn, or how to raise pressure,
without this sitting's checks.

Run `python -m tests.campaigns.lathe_walks --long`; the short form runs with the tests. Nothing is written to
a disk: entries are kept in memory, answers are right with probability 0.9, and in between everything a hand
can do is done on every page: going back, forward, picking from the lists, taking back, leaving, coming back,
standing idle, letting the computer sleep, changing the window, opening a second one, plain lines, a hand in
the file, export and import, a full disk. Every page is read, and judged by its text alone.

`--faults` walks with every guard taken away in turn, and says after how many walks it showed.
"""

from __future__ import annotations

import argparse
import random
import sys
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any

from bench.shop.shop import built_in
from tests.campaigns.lathe_happenings import act
from tests.campaigns.lathe_tally import Tally
from tests.campaigns.lathe_walker import Walker
from tests.whole.lathe_judge import RIGHT
from tests.whole.repairer import Repairer, fresh

STEPS = 30
"""Acts in one walk."""
OTHER_LATHES = 0.3
"""Share of the walks at a lathe drawn from all of them, not at the built-in one."""
SECOND_RINGS = 0.1
"""Share of the walks at the built-in one that begin with a second ring."""
SHORT, LONG = 1500, 10_000
"""Walks at most, with the tests and in the long form; with the tests they end once enough was reached."""


SHOPS: dict[str, tuple[dict[str, Any], dict[str, str]]] = {
    "lever": ({}, RIGHT),
    "belt": (
        {"speed_names": ("a", "b", "c", "d", "e", "f", "g"), "numbered_tools": False},
        {**RIGHT, "lathe_speed": "?"},
    ),
    "stepless": ({"speeds_rpm": (100.0, 2000.0), "stepless": True}, RIGHT),
    "nothing shown": (
        {"shows_speed": False},
        {key: how for key, how in RIGHT.items() if key != "lathe_speed"},
    ),
}
"""Lathes that ask differently: what is changed in the built-in one, and the right answers to its checks."""


@lru_cache(maxsize=len(SHOPS))
def standing(lathe: str = "lever") -> tuple[Repairer, ...]:
    """A repairer before every step of a job with two spare rings, from the accepted ring to the end."""
    own = built_in()
    changed: Any = SHOPS[lathe][0]
    repairer = fresh(shop=replace(own, lathes=(replace(own.lathes[0], **changed),))).on_to("ring")
    repairer.pick("usual")
    repairer.pick_key("spares")
    repairer.give("2")
    repairer.on_to("lathe_hands")
    stands = [repairer.copy()]
    while repairer.asked:
        repairer.answer()
        stands.append(repairer.copy())
    return tuple(stands)


@lru_cache(maxsize=1)
def standing_again() -> tuple[Repairer, ...]:
    """A repairer before every step of a second ring up to its last bore: the first was spoiled so far on."""
    repairer = next(hand for hand in standing() if hand.asked == "tool_chamfer").copy()
    repairer.pick("spoiled")
    stands = []
    while repairer.asked != "last_bore":
        repairer.answer()
        stands.append(repairer.copy())
    return tuple(stands)


PLACES = {"lathe_hands": 4, "dress": 5, "": 3}
"""Up to which step a walk begins, and how often;
the first is the beginning of turning, "" the end of the job.
"""


def start(dice: random.Random, tally: Tally, places: Mapping[str, float]) -> Walker:
    """A repairer at a random place of a whole job, most of them come back to it in another sitting."""
    lathe = dice.choice(list(SHOPS)) if dice.random() < OTHER_LATHES else "lever"
    stands = standing(lathe)
    keys = [hand.asked for hand in stands]
    last = keys.index(dice.choices(list(places), list(places.values()))[0])
    begun = stands[dice.randint(0, last)]
    if lathe == "lever" and dice.random() < SECOND_RINGS:
        begun = dice.choice(standing_again())
    walker = Walker(begun.copy(), dice, tally, SHOPS[lathe][1])
    walker.hand.tells_boot = dice.random() < 0.6
    if dice.random() < 0.7:
        walker.come_back()
    else:
        walker.look()
    return walker


def walks(
    most: int,
    *,
    seed: int = 1,
    first: int = 0,
    places: Mapping[str, float] = PLACES,
    until: Callable[[Tally], bool] = lambda tally: False,
) -> Tally:
    """Walk from random places of a whole job until it is enough, at most so many times.

    Every walk has its own chance, so that one which goes another way changes no other.
    """
    tally = Tally()
    for number in range(first, first + most):
        walker = start(random.Random(f"{seed} {number}"), tally, places)
        for _ in range(STEPS):
            act(walker)
        tally.walks += 1
        if until(tally):
            break
    return tally


def main() -> int:
    """Run the campaign and print what it came to."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--long", action="store_true", help=f"{LONG:,} walks instead of a few hundred")
    parser.add_argument("--first", type=int, default=0, help="number of the first walk")
    parser.add_argument("--walks", type=int, default=0, help="so many walks")
    parser.add_argument("--faults", action="store_true", help="take every guard away in turn")
    given = parser.parse_args()
    if given.faults:
        from tests.campaigns.lathe_fault_list import caught

        return caught(LONG)
    tally = (
        walks(given.walks or LONG, first=given.first)
        if given.long or given.walks
        else walks(SHORT, until=Tally.enough)
    )
    print(tally)
    for text in tally.faults[:10]:
        print(f"FAULT {text}")
    return 1 if tally.faults else 0


if __name__ == "__main__":
    sys.exit(main())
