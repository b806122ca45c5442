"""How long turning takes in this shop, from the newest of its jobs that hold a finished ring.

Invariant: only what a file says itself counts: when its entries were made, and what was planned for the ring.
A file that cannot be used is passed over.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from bench.file.entry import FILE_LIMIT, Entry
from bench.file.listing import names
from bench.file.load import load
from bench.file.ordinary import read_regular
from bench.job import keys
from bench.job.values import named
from bench.sheet.bench_time import bench_minutes
from rules.turning import operations
from rules.turning.duration import ShopPace, pace_of

LOOKED_AT = 12
"""So many of the newest jobs are looked at."""
RINGS = 6
"""So many rings are enough."""
PLANNED = "planned"
"""The name under which the minutes assumed for a ring are kept, when it is dressed."""


def pace_in(folder: Path) -> ShopPace:
    """The pace of the jobs in a folder; as assumed where none holds a finished ring."""
    found: list[tuple[float, float]] = []
    for path in names(folder)[:LOOKED_AT]:
        found += rings_in(path)
        if len(found) >= RINGS:
            break
    return pace_of(found[:RINGS])


def rings_in(path: Path) -> Iterator[tuple[float, float]]:
    """Minutes taken and minutes assumed of every ring that a job finished at the lathe."""
    try:
        data = read_regular(path, FILE_LIMIT)
    except OSError:
        return
    if PLANNED.encode() not in data:
        return
    entries = load(data).usable
    for at, one in enumerate(entries):
        words = one.value if isinstance(one.value, tuple) else ()
        assumed = named(tuple(map(str, words)), PLANNED) if one.key == operations.DRESS else None
        if assumed is not None:
            yield bench_minutes(_of_this_ring(entries[: at + 1]))[0], assumed


def _of_this_ring(entries: Sequence[Entry]) -> Sequence[Entry]:
    """The entries since the ring was accepted."""
    accepted = [at for at, one in enumerate(entries) if one.key == keys.RING]
    return entries[accepted[-1] :] if accepted else ()
