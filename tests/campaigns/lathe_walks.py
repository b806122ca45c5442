"""Random walks over the desk: no turning step without every check of the lathe answered rightly in this sitting.

Run `python -m tests.campaigns.lathe_walks --long`; the short form runs with the tests. Nothing is written to a
disk: entries are kept in memory, answers are right with probability 0.9, and in between everything a hand can do
is done: going back, forward, picking from the lists, taking back, leaving, coming back, standing idle.
"""

from __future__ import annotations

import argparse
import random
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from functools import lru_cache
from importlib import import_module
from typing import Any
from unittest.mock import patch

from bench.file.entry import Entry
from bench.job.job import words_of
from tests.whole.lathe_judge import Recorded, fault, turns
from tests.whole.repairer import Repairer, fresh

RIGHTLY = 0.9
STEPS = 30
"""Acts in one walk."""
SHORT, LONG = 900, 5000
"""Walks at most, with the tests and in the long form; with the tests they end once enough was reached."""
LEAST = {"reached": 1000, "through_checks": 200, "resumed": 200, "taken_back": 200}
"""How often each must have happened with the tests."""


@dataclass
class Tally:
    """What walks have come to."""

    walks: int = 0
    reached: int = 0
    """Times turning came on the screen after something else stood there."""
    through_checks: int = 0
    """Times it did so right after the last of the checks was answered."""
    steps: set[str] = field(default_factory=set)
    """The turning steps that were reached."""
    resumed: int = 0
    taken_back: int = 0
    faults: list[str] = field(default_factory=list)

    def enough(self) -> bool:
        """Whether everything has happened as often as it has to with the tests."""
        return all(getattr(self, name) >= least for name, least in LEAST.items())

    def __str__(self) -> str:
        return (
            f"{self.walks} walks, turning reached {self.reached} times ({self.through_checks} right after the checks), "
            f"{self.resumed} resumed, {self.taken_back} taken back; steps {', '.join(sorted(self.steps))}"
        )


@lru_cache(maxsize=1)
def standing() -> tuple[Repairer, ...]:
    """A repairer before every step of a job with two spare rings, from the accepted ring to the cased watch."""
    repairer = fresh().on_to("ring")
    repairer.pick("usual")
    repairer.pick_key("spares")
    repairer.give("2")
    repairer.on_to("lathe_hands")
    stands = [repairer.copy()]
    with remembered():
        while repairer.asked != "renewed":
            repairer.answer()
            stands.append(repairer.copy())
    return tuple(stands)


def recorded(entries: Sequence[Entry]) -> list[Recorded]:
    """Entries as the judge takes them."""
    return [recorded_entry(one) for one in entries]


@lru_cache(maxsize=10_000)
def recorded_entry(one: Entry) -> Recorded:
    """An entry as the judge takes it."""
    return Recorded(one.n, one.kind, one.key, words_of(one), one.of)


class Walker:
    """One walk: a repairer who mostly does right and sometimes anything."""

    def __init__(self, hand: Repairer, dice: random.Random, tally: Tally) -> None:
        self.hand, self.bench = hand, hand.bench
        self.bench.chance = random.Random(dice.randrange(10**6))
        self.dice = dice
        self.tally = tally
        self.shown = ""

    def come_back(self) -> None:
        """The program was ended and started again."""
        self.hand.feed(self.bench.opened())
        self.look()
        if self.dice.random() < 0.8:
            self.type("1")

    def look(self) -> None:
        """Judge what stands on the screen now."""
        desk = self.hand.desk
        key = desk.step.key if desk.page == "step" and desk.step is not None else ""
        if turns(key) and not turns(self.shown):
            self.tally.reached += 1
            self.tally.through_checks += self.shown.startswith("lathe_")
            self.tally.steps.add(key)
        self.shown = key
        if wrong := fault(recorded(self.bench.entries), key, opened_at=self.bench.opened_at):
            self.tally.faults.append(wrong)

    def press(self, *keys: str) -> None:
        """Keys, one after another, each result looked at."""
        for key in keys:
            self.hand.key(key)
            self.look()
        self.hand.look()

    def type(self, text: str) -> None:
        """An answer and Enter."""
        self.press(*text, "enter")

    def act(self) -> None:
        """One thing a hand does."""
        roll = self.dice.random()
        if roll < 0.05:
            self.press(*["previous"] * self.dice.randint(1, 4))
        elif roll < 0.08:
            self.press("next")
        elif roll < 0.15:
            self.press("list", *["next"] * self.dice.randint(0, 1))
            self.type(str(self.dice.randint(1, 9)))
        elif roll < 0.19:
            self.tally.resumed += 1
            self.come_back()
        elif roll < 0.21:
            self.hand.wait(1000)
            self.press(str(self.dice.randint(1, 3)))
        elif roll < 0.24:
            self.type(str(self.dice.randint(0, 9)))
        elif roll < 0.27:
            self.tally.taken_back += 1
            self.take_back()
        else:
            self.go_on()

    def take_back(self) -> None:
        """Undo, from wherever the list is."""
        self.press(*["back"] * len(self.hand.desk.line.text))
        if self.hand.desk.page in ("step", "account", "sheet"):
            self.hand.pick("undo")
            self.look()

    def go_on(self) -> None:
        """What is asked is answered; a check rightly with the given probability."""
        desk = self.hand.desk
        if desk.page in ("list", "pick"):
            self.type(str(self.dice.randint(1, 9)))
        elif desk.page == "account":
            self.type("1")
        elif desk.page == "jobs":
            self.type(self.dice.choice("01"))
        elif desk.page == "left":
            self.come_back()
        elif desk.page == "step" and desk.step is not None:
            self.press(*["back"] * len(desk.line.text))
            self.answer()
        else:
            self.press("previous")
            if self.hand.desk.page == "text":
                self.press("previous")

    def answer(self) -> None:
        """Answer the step on the screen."""
        step = self.hand.step
        if step.kind == "safety" and self.dice.random() > RIGHTLY:
            self.type(str(self.dice.randint(0, 3)))
        elif step.kind != "safety" or step.readback is not None or self.hand.desk.dealt:
            self.type(self.hand.usual())


PLACES = {"lathe_hands": 4, "dress": 5, "renewed": 1}
"""Up to which step a walk begins, and how often; the first is the beginning of turning."""


def start(dice: random.Random, tally: Tally, places: Mapping[str, float]) -> Walker:
    """A repairer at a random place of a whole job, most of them come back to it in another sitting."""
    keys = [hand.asked for hand in standing()]
    last = keys.index(dice.choices(list(places), list(places.values()))[0])
    walker = Walker(standing()[dice.randint(0, last)].copy(), dice, tally)
    if dice.random() < 0.7:
        walker.come_back()
    else:
        walker.look()
    return walker


def walks(
    most: int,
    *,
    seed: int = 1,
    places: Mapping[str, float] = PLACES,
    until: Callable[[Tally], bool] = lambda tally: False,
) -> Tally:
    """Walk from random places of a whole job until it is enough, at most so many times.

    Every walk has its own chance, so that one which goes another way changes no other.
    """
    tally = Tally()
    for number in range(most):
        walker = start(random.Random(f"{seed} {number}"), tally, places)
        for _ in range(STEPS):
            walker.act()
        tally.walks += 1
        if until(tally):
            break
    return tally


PURE = (
    ("bench.stages.size", "sized"),
    ("bench.stages.size_words", "figures"),
    ("bench.stages.planning", "plan"),
    ("bench.stages.cut", "replan"),
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


def hashable(value: Any) -> Any:
    """The value, or its text where it cannot be a key."""
    try:
        hash(value)
    except TypeError:
        return repr(value)
    return value


def once(work: Any) -> Any:
    """A pure function that remembers what it gave for the same arguments."""
    known: dict[Any, Any] = {}

    def remembering(*given: Any, **named: Any) -> Any:
        told = (*map(hashable, given), *named, *map(hashable, named.values()))
        if told not in known:
            known[told] = work(*given, **named)
        return known[told]

    return remembering


def main() -> int:
    """Run the campaign and print what it came to."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--long", action="store_true", help=f"{LONG:,} walks instead of a few hundred")
    long: bool = parser.parse_args().long
    with remembered():
        tally = walks(LONG) if long else walks(SHORT, until=Tally.enough)
    print(tally)
    for text in tally.faults[:10]:
        print(f"FAULT {text}")
    return 1 if tally.faults else 0


if __name__ == "__main__":
    sys.exit(main())
