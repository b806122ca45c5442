"""Gloved hands and fast gauges through the bounce filter, simulated: how many numbers come out altered.

Run in full with `python -m tests.campaigns.bounce --long`: 20,000 numbers keyed by gloved hands and 120,000
gauge readings; the short form runs with the tests. The plant (`planted=True`) is a filter that lets go of
what it holds whatever follows, or drops it whatever follows; the campaign must see either.
"""

from __future__ import annotations

import argparse
import random
from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import pairwise

from bench.desk.bounce import Bounce, settle_ms, strain
from bench.desk.token import Token
from bench.job.mask import Mask
from bench.job.number import TypedNumber, read_number

Press = tuple[float, str]
"""When, in s, and which key."""

Filter = Callable[..., tuple[Bounce, tuple[Token, ...]]]

BOUNCING = 0.04
"""Share of gloved presses that come twice."""
LEANING = 0.01
"""Share of gloved presses held down long enough to repeat."""


@dataclass
class Counts:
    """What was tried and what came out altered."""

    numbers: int = 0
    altered: int = 0
    unfiltered: int = 0
    """How many would be altered without the filter."""
    unnoticed: int = 0
    """How many of the altered ones the fixed places would take for a number."""
    bursts: int = 0
    broken: int = 0
    accepted_twice: int = 0
    """Enter held down that accepted more than once."""
    seen: dict[str, int] = field(default_factory=lambda: {"bounced": 0, "held down": 0, "doubled digits": 0})

    def __str__(self) -> str:
        return (
            f"by hand {self.numbers}: altered {self.altered} (unnoticed {self.unnoticed}), "
            f"without the filter {self.unfiltered}; "
            f"gauge {self.bursts}: broken {self.broken}; accepted twice {self.accepted_twice}; {self.seen}"
        )


def gloved(text: str, chance: random.Random, counts: Counts) -> list[Press]:
    """A number keyed with gloves on: 110 to 450 ms a key, some keys bouncing, some held down."""
    at, presses = 10.0, []
    for key in (*text, "enter"):
        at += chance.uniform(0.11, 0.45)
        presses.append((at, key))
        if chance.random() < BOUNCING:
            counts.seen["bounced"] += 1
            presses.append((at + chance.uniform(0.003, 0.060), key))
        elif chance.random() < LEANING:
            counts.seen["held down"] += 1
            at, step = at + chance.uniform(0.25, 0.66), chance.uniform(0.025, 0.050)
            for _ in range(chance.randint(3, 20)):
                presses.append((at, key))
                at += step
    counts.seen["doubled digits"] += any(a == b for a, b in pairwise(text))
    return sorted(presses)


def machine(texts: list[str], chance: random.Random) -> list[Press]:
    """Readings sent by a gauge at one speed, 0 to 75 ms a character, with the jitter of a busy computer."""
    at, presses = 10.0, []
    step = chance.choice((0.0, 0.001, 0.004, 0.012, 0.030, 0.075))
    for text in texts:
        for key in (*text, "enter"):
            at += step + chance.uniform(0, 0.002)
            presses.append((at, key))
        at += chance.uniform(0.0, 0.5)
    return presses


def through(presses: list[Press], sieve: Filter) -> list[str]:
    """The lines accepted when the presses go through a filter, with the settles the shell would send."""
    state, line, before, kept = Bounce(), "", "", []
    tokens = [Token("key", key, at=at) for at, key in presses]
    for number, token in enumerate(tokens):
        following = tokens[number + 1].at if number + 1 < len(tokens) else float("inf")
        state, out = sieve(state, token, typing=bool(line))
        due = token.at + settle_ms(state) / 1000
        if settle_ms(state) and due < following:
            state, late = sieve(state, Token("settle", at=due), typing=bool(line))
            out += late
        for passed in out:
            if passed.kind == "undo":
                line = before
            elif passed.text == "enter":
                kept += [line] if line else []
                line = before = ""
            else:
                before, line = line, line + passed.text
    return kept


def open_sieve(state: Bounce, token: Token, *, typing: bool) -> tuple[Bounce, tuple[Token, ...]]:
    """No filter at all."""
    assert typing in (True, False)
    return state, (token,) if token.kind == "key" else ()


def always_dropping(state: Bounce, token: Token, *, typing: bool) -> tuple[Bounce, tuple[Token, ...]]:
    """Planted: what was held is dropped also when a machine goes on."""
    after, out = strain(state, token, typing=typing)
    return after, out[-1:] if token.kind == "key" and state.held is not None and state.count else out


def always_releasing(state: Bounce, token: Token, *, typing: bool) -> tuple[Bounce, tuple[Token, ...]]:
    """Planted: what was held is let go also when nothing follows."""
    after, out = strain(state, token, typing=typing)
    lost = state.held is not None and after.held is None and state.held not in out
    return after, ((state.held, *out) if lost and state.held is not None else out)


def number(chance: random.Random) -> str:
    """A diameter or a wall as it would be keyed."""
    value = chance.uniform(4, 80)
    return f"{value:05.2f}" if chance.random() < 0.5 else f"{value:05.2f}".replace(".", "")


def reading(chance: random.Random) -> str:
    """A reading as a gauge types it, with leading zeros at times."""
    return f"{chance.uniform(4, 80):0{chance.choice((5, 7))}.2f}"


def run(*, long: bool = False, sieve: Filter = strain, seed: int = 11) -> Counts:
    """Key the numbers, send the readings, count what comes out altered."""
    chance, counts = random.Random(seed), Counts()
    for _ in range(20_000 if long else 1_500):
        text = number(chance)
        presses = gloved(text, chance, counts)
        kept = through(presses, sieve)
        counts.numbers += 1
        counts.altered += kept != [text]
        counts.accepted_twice += len(kept) > 1
        counts.unnoticed += kept != [text] and any(
            isinstance(read_number(line, Mask(2, 2, "mm", 4.0, 80.0)), TypedNumber) for line in kept
        )
        counts.unfiltered += through(presses, open_sieve) != [text]
    for _ in range(40_000 if long else 1_000):
        texts = [reading(chance) for _ in range(3)]
        counts.bursts += 3
        kept = through(machine(texts, chance), sieve)
        counts.broken += len(texts) - sum(a == b for a, b in zip(texts, kept, strict=False))
    return counts


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--long", action="store_true")
    found = run(long=parser.parse_args().long)
    print(found)
    raise SystemExit(1 if found.broken or found.accepted_twice else 0)
