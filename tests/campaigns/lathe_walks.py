"""Random walks over the desk: nothing says how to turn, or how to raise pressure, without this sitting's checks.

Run `python -m tests.campaigns.lathe_walks --long`; the short form runs with the tests. Nothing is written to a
disk: entries are kept in memory, answers are right with probability 0.9, and in between everything a hand can do
is done on every page: going back, forward, picking from the lists, taking back, leaving, coming back, standing
idle, letting the computer sleep, changing the window, opening a second one. Every page is read.
"""

from __future__ import annotations

import argparse
import random
import sys
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from functools import lru_cache
from importlib import import_module
from typing import Any
from unittest.mock import patch

from bench.file.entry import Entry
from tests.campaigns.lathe_walker import Tally, Walker
from tests.whole.repairer import fresh

STEPS = 30
"""Acts in one walk."""
SHORT = 500
"""Walks with the tests: enough to reach turning a thousand times."""


def prepared() -> list[Entry]:
    """The entries of a whole job with two spare rings, of which walks start with a part."""
    repairer = fresh().on_to("ring")
    repairer.pick("usual")
    repairer.pick_key("spares")
    repairer.give("2")
    return repairer.on_to("").bench.entries


def walks(
    count: int, *, seed: int = 1, entries: Sequence[Entry] | None = None, stop_at_fault: bool = False
) -> Tally:
    """Walk so many times from a random place of a whole job."""
    dice, tally = random.Random(seed), Tally()
    whole = entries if entries is not None else prepared()
    accepted = next(place for place, one in enumerate(whole) if one.key == "ring")
    dressed = next(place for place, one in enumerate(whole) if one.key == "dress")
    for _ in range(count):
        last = dice.choices((accepted + 1, dressed, len(whole)), (4, 5, 3))[0]
        walker = Walker(whole[: dice.randint(accepted + 1, last)], dice, tally)
        for _ in range(STEPS):
            walker.act()
        tally.walks += 1
        if tally.faults and stop_at_fault:
            break
    return tally


PURE = (
    ("bench.seals.ring.size", "sized"),
    ("bench.seals.ring.size_words", "figures"),
    ("bench.seals.ring.planning", "plan"),
    ("bench.seals.ring.cut", "replan"),
)
"""Pure functions of figures that the same walk asks for again and again."""


@contextmanager
def remembered() -> Iterator[None]:
    """While walking, sizing and planning are worked out once for the same figures; the route never is."""
    with ExitStack() as stack:
        for module, name in PURE:
            home = import_module(module)
            stack.enter_context(patch.object(home, name, once(getattr(home, name))))
        yield


def once(work: Any) -> Any:
    """A pure function that remembers what it gave for the same arguments."""
    known: dict[Any, Any] = {}

    def remembering(*given: Any, **named: Any) -> Any:
        told: Any = (given, tuple(sorted(named.items())))
        try:
            hash(told)
        except TypeError:
            told = repr(told)
        if told not in known:
            known[told] = work(*given, **named)
        return known[told]

    return remembering


@lru_cache(maxsize=1)
def whole_job() -> tuple[Entry, ...]:
    """The prepared job, made once."""
    return tuple(prepared())


def main() -> int:
    """Run the campaign and print what it came to."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--long", action="store_true", help="10,000 walks instead of a few hundred")
    long: bool = parser.parse_args().long
    with remembered():
        tally = walks(10_000 if long else SHORT, entries=whole_job())
    print(
        f"{tally.walks} walks, turning reached {tally.reached} times ({tally.through_checks} right after the checks), "
        f"raising {tally.raised} times; {tally.read} pages read ({', '.join(sorted(tally.pages))}); {tally.resumed} "
        f"resumed, {tally.taken_back} taken back, {tally.away} times away, {tally.unseen} keys in a window too small, "
        f"{tally.second} second windows; steps {', '.join(sorted(tally.steps))}"
    )
    for text in tally.faults[:10]:
        print(f"FAULT {text}")
    return 1 if tally.faults else 0


if __name__ == "__main__":
    sys.exit(main())
