"""Every state of the desk on the way through a whole job, keyed without a screen."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

from bench.desk.bounce import settle_ms
from bench.desk.desk import Desk
from bench.desk.keys import meaning
from bench.desk.token import Token
from bench.desk.update import update
from screens.full import opening
from tests.whole.hands import Clock, bench_in
from tests.whole.script import each_line
from tests.whole.scripts import straight
from tests.whole.stated import stated

HOLD_S = 700.0
"""Between two answers: every hold of a straight job is over, and nobody was away for a quarter of an hour."""


def desks(folder: Path) -> Iterator[Desk]:
    """The desk before each key and after each answer of the straight job."""
    bench, clock, at = bench_in(stated(folder)), Clock(), 100.0
    desk = opening(bench, "")

    def feed(token: Token) -> None:
        nonlocal desk
        waiting: list[Any] = [token]
        while waiting:
            desk, effects = update(desk, waiting.pop(0))
            waiting += bench.carry_out(effects)

    for answer in each_line([straight()], lambda: desk):
        feed(Token("painted", at=at, wall=clock()))
        yield desk
        at += HOLD_S
        for letter in (*answer, "\r"):
            at += 0.2
            feed(Token("key", meaning(letter, letter), at=at, boot=at, wall=desk.wall, raw=letter))
            if settle_ms(desk.bounce):
                at += 0.2
                feed(Token("settle", at=at, boot=at, wall=desk.wall))
            yield desk
    yield desk
    bench.close()


def at_size(desk: Desk, columns: int, rows: int) -> Desk:
    """The same desk in another window."""
    return replace(desk, columns=columns, rows=rows)
