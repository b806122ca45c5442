"""A clock that is moved, for whole jobs; it loads nothing of the program."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import UTC, datetime, timedelta

START = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
AT_THE_BENCH_MIN = 15
STEADY_S = 175.0
"""Longest step of a clock that nobody sets:
no key of a script comes a quarter of an hour after the one before.
"""


class Clock:
    """Wall time that goes on by a fixed step each time it is read, and beside it a clock that nobody sets."""

    def __init__(self, step_s: float = 700.0, start: datetime = START) -> None:
        self.now = start
        self.step_s = step_s
        self.steady_s = 100.0

    def steady(self) -> float:
        """Seconds on the clock that nobody sets."""
        return self.steady_s

    def wait(self, seconds: float) -> None:
        """Let time pass on both."""
        self.now += timedelta(seconds=seconds)
        self.steady_s += seconds

    def __call__(self) -> str:
        self.now += timedelta(seconds=self.step_s)
        self.steady_s += min(self.step_s, STEADY_S)
        return self.now.isoformat(timespec="seconds")

    def passing(self, lines: Iterable[str]) -> Iterator[str]:
        """The lines that are typed; for a line such as @11 so many minutes go by instead."""
        for line in lines:
            if line.startswith("@"):
                let_pass(self, int(line[1:]))
            else:
                yield line


def let_pass(clock: Clock, minutes: int) -> None:
    """A hold is waited for at the bench; over a night the computer sleeps, and its steady clock stands."""
    if minutes < AT_THE_BENCH_MIN:
        clock.wait(minutes * 60)
    else:
        clock.now += timedelta(minutes=minutes)
