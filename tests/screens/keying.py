"""A job keyed into the desk without a screen, its clock moved by hand;
`pages` gathers what is worth looking at.

Invariant: the same answers, clock and seed give the same desks to the last figure.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, MutableSequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from bench.desk.desk import Desk
from bench.desk.keys import meaning
from bench.desk.token import Token
from bench.desk.update import update
from screens.full import opening
from tests.whole.hands import Clock, bench_in, let_pass
from tests.whole.make_samples import BEGUN, SECONDS_A_KEY
from tests.whole.script import MOVES, Typist, each_line
from tests.whole.stated import stated


class Dealer(random.Random):
    """Deals each step its own order, whatever was dealt before."""

    def __init__(self, asked: Callable[[], str]) -> None:
        super().__init__()
        self._asked = asked

    def shuffle(self, x: MutableSequence[Any]) -> None:
        """A new order, the same each time for a step."""
        self.seed(self._asked())
        super().shuffle(x)


class Keying:
    """One folder, one desk, one pair of hands."""

    def __init__(
        self, folder: Path, *, step_s: float = SECONDS_A_KEY, file: str = "", stated_shop: bool = True
    ) -> None:
        self.clock = Clock(step_s, BEGUN)
        self.bench = bench_in(
            stated(folder) if stated_shop else folder, clock=self.clock, chance=Dealer(self.asked)
        )
        self.at = 100.0
        self.desk = opening(self.bench, file)
        self.painted()

    def asked(self) -> str:
        """The step at hand."""
        return self.desk.step.key if self.desk.step is not None else ""

    def feed(self, *tokens: Any) -> None:
        """Tokens and all that comes of them."""
        waiting = list(tokens)
        while waiting:
            self.desk, effects = update(self.desk, waiting.pop(0))
            waiting += self.bench.carry_out(effects)

    def painted(self) -> None:
        """The page stands, and is looked at: two seconds, or as long as the clock goes on by."""
        self.feed(Token("painted", at=self.at, wall=self.clock()))
        self.at += max(2, self.clock.step_s)

    def keys(self, text: str) -> None:
        """Keys that are typed and not accepted."""
        for letter in text:
            self.at += 0.2
            raw = letter if letter.isprintable() else ""
            key = meaning(letter, letter)
            self.feed(Token("key", key, at=self.at, boot=self.at, wall=self.desk.wall, raw=raw))
            if self.desk.bounce.held is not None:
                self.at += 0.2
                self.feed(Token("settle", at=self.at, boot=self.at, wall=self.desk.wall))

    def answer(self, text: str) -> None:
        """One line of a script: an answer and Enter, a key that moves, or minutes that go by."""
        if text.startswith("@"):
            before = self.clock.steady()
            let_pass(self.clock, int(text[1:]))
            self.at += self.clock.steady() - before
            self.feed(Token("tick", at=self.at, wall=self.clock()))
            return
        self.keys(text if text in MOVES else f"{text}\r")
        self.painted()

    def answers(self, *typing: Typist | str) -> Iterator[tuple[str, Desk]]:
        """Each line that is typed and the desk before it; the desk after the last with an empty line."""
        for text in each_line(typing, lambda: self.desk):
            yield text, self.desk
            self.answer(text)
        yield "", self.desk

    def run(self, *typing: Typist | str) -> Desk:
        """Type lines and scripts; the desk as it then stands."""
        for text in each_line(typing, lambda: self.desk):
            self.answer(text)
        return self.desk


def at_size(desk: Desk, columns: int, rows: int) -> Desk:
    """The same desk in another window, its list fitted to it."""
    return update(replace(desk, columns=columns, rows=rows), Token("resized", columns=columns, rows=rows))[0]
