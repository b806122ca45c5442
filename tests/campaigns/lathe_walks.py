"""Random walks over the desk: no turning step without every check of the lathe answered rightly in this sitting.

Run `python -m tests.campaigns.lathe_walks --long`; the short form runs with the tests. Nothing is written to a
disk: entries are kept in memory, answers are right with probability 0.9, and in between everything a hand can do
is done: going back, forward, picking from the lists, taking back, leaving, coming back, standing idle.
"""

from __future__ import annotations

import argparse
import random
import sys
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from functools import lru_cache
from importlib import import_module
from typing import Any
from unittest.mock import patch

from bench.file.entry import Entry
from bench.job.job import words_of
from tests.whole.lathe_judge import Recorded, fault, turns
from tests.whole.repairer import Pretended, Repairer, fresh

RIGHTLY = 0.9
STEPS = 30
"""Acts in one walk."""
SHORT = 360
"""Walks with the tests: enough to reach turning a thousand times."""


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


def prepared() -> list[Entry]:
    """The entries of a whole job with two spare rings, of which walks start with a part."""
    repairer = fresh().on_to("ring")
    repairer.pick("usual")
    repairer.pick_key("spares")
    repairer.give("2")
    return repairer.on_to("renewed").bench.entries


def recorded(entries: Sequence[Entry]) -> list[Recorded]:
    """Entries as the judge takes them."""
    return [Recorded(one.n, one.kind, one.key, words_of(one), one.of) for one in entries]


class Walker:
    """One walk: a repairer who mostly does right and sometimes anything."""

    def __init__(self, entries: Sequence[Entry], dice: random.Random, tally: Tally) -> None:
        self.bench = Pretended(seed=dice.randrange(10**6))
        self.bench.entries = list(entries)
        self.hand = Repairer(self.bench)
        self.dice = dice
        self.tally = tally
        self.shown = ""
        self.come_back()

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


def walks(
    count: int, *, seed: int = 1, entries: Sequence[Entry] | None = None, stop_at_fault: bool = False
) -> Tally:
    """Walk so many times from a random place of a whole job."""
    dice, tally = random.Random(seed), Tally()
    whole = entries if entries is not None else prepared()
    accepted = next(place for place, one in enumerate(whole) if one.key == "ring")
    dressed = next(place for place, one in enumerate(whole) if one.key == "dress")
    for _ in range(count):
        last = dice.choices((accepted + 1, dressed, len(whole)), (4, 5, 1))[0]
        walker = Walker(whole[: dice.randint(accepted + 1, last)], dice, tally)
        for _ in range(STEPS):
            walker.act()
        tally.walks += 1
        if tally.faults and stop_at_fault:
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
    parser.add_argument("--long", action="store_true", help="5,000 walks instead of a few hundred")
    long: bool = parser.parse_args().long
    with remembered():
        tally = walks(5000 if long else SHORT, entries=whole_job())
    print(
        f"{tally.walks} walks, turning reached {tally.reached} times ({tally.through_checks} right after the checks), "
        f"{tally.resumed} resumed, {tally.taken_back} taken back; steps {', '.join(sorted(tally.steps))}"
    )
    for text in tally.faults[:10]:
        print(f"FAULT {text}")
    return 1 if tally.faults else 0


if __name__ == "__main__":
    sys.exit(main())
