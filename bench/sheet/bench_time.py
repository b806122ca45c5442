"""Time at the bench, from when the entries of a session file were made.

Invariant: only gaps up to the limit count; a longer one is parked time, and a clock set back counts nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from bench.file.entry import Entry
from bench.moments import moment_of

PARKED_OVER_MIN = 30.0
"""A gap longer than this between two entries counts as parked (our judgement, no source)."""


@dataclass(frozen=True, slots=True)
class Between:
    """The time between two entries, on the clock that wrote them."""

    n: int
    """Number of the later."""
    minutes: float
    """0 where the clock went back."""

    @property
    def parked(self) -> bool:
        """Whether the job lay there meanwhile."""
        return self.minutes > PARKED_OVER_MIN


def gaps(entries: Iterable[Entry]) -> Iterator[Between]:
    """The times between the entries. Every entry counts, also one that was taken back; one whose time cannot
    be read is ignored.
    """
    moments = [
        (entry.n, moment)
        for entry in sorted(entries, key=lambda entry: entry.n)
        if (moment := moment_of(entry.at)) is not None
    ]
    for (_, before), (n, after) in pairwise(moments):
        yield Between(n, max(0.0, (after - before).total_seconds() / 60.0))


def bench_minutes(entries: Iterable[Entry]) -> tuple[float, float]:
    """Minutes at the bench and minutes parked, between the first entry and the last."""
    at_bench = parked = 0.0
    for gap in gaps(entries):
        if gap.parked:
            parked += gap.minutes
        else:
            at_bench += gap.minutes
    return at_bench, parked


def hours_words(minutes: float) -> str:
    """Minutes as hours and minutes, for people."""
    whole = round(minutes)
    return f"{whole // 60} h {whole % 60:02d} min"


def shop_lines(minutes: tuple[float, float]) -> tuple[str, ...]:
    """What the shop's own copy says besides the customer's."""
    at_bench, parked = minutes
    return (
        f"Time at the bench: {hours_words(at_bench)}.",
        f"Parked: {hours_words(parked)} (gaps over {PARKED_OVER_MIN:g} min between entries).",
    )
