"""How long large things take: opening 10,000 entries, listing 10,000 jobs,
appending to a short and a long file.

Printed by `python -m tests.campaigns.sizes --long`; the short form measures fewer times.
"""

from __future__ import annotations

import argparse
import statistics
import tempfile
import timeit
from collections.abc import Callable
from dataclasses import dataclass, fields
from pathlib import Path

from bench.file.codec import render_entry, render_head
from bench.file.entry import Entry, Head
from bench.file.listing import Index, names, rows
from bench.file.load import Loaded
from bench.file.store import Session, open_session

MANY = 10_000
AT = "2026-01-01T10:01:51+01:00"
HEAD = Head(format=1, id="2265b1f5", job="A-1042", made_by="ringwright")


@dataclass(frozen=True)
class Times:
    """Seconds, the best of a few tries unless said otherwise."""

    open_many: float
    """Opening a file of 10,000 entries."""
    list_first: float
    """All rows of 10,000 jobs without an index, once."""
    list_again: float
    """All rows with the index."""
    list_names: float
    """Names and the newest twenty rows, without an index."""
    append_short: float
    """Appending to an empty job, median."""
    append_long: float
    """Appending to a file of 10,000 entries, median."""

    def __str__(self) -> str:
        return "\n".join(f"{field.name}: {1000 * getattr(self, field.name):.2f} ms" for field in fields(self))


def file_of(count: int) -> bytes:
    """A job of `count` entries."""
    entries = (
        Entry(n=n, at=AT, kind="answer", key=f"case_bore_{n % 40}", value="29.46 mm")
        for n in range(1, count + 1)
    )
    return render_head(HEAD) + b"".join(render_entry(entry, salt=HEAD.id) for entry in entries)


def measure(*, long: bool = False) -> Times:
    """Make the files in a temporary folder and measure."""
    tries = 7 if long else 3
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        big = folder / "00001.toml"
        big.write_bytes(file_of(MANY))
        small = folder / "00002.toml"
        small.write_bytes(file_of(0))
        open_many = _best(tries, lambda: open_session(big).close())
        with open_session(big) as long_job, open_session(small) as short_job:
            appends = _appends([short_job, long_job], 300 if long else 60)
        first, again, by_name = _list(folder, tries)
    return Times(open_many, first, again, by_name, appends[0], appends[1])


def _best(tries: int, action: Callable[[], object]) -> float:
    """The quickest of a few tries, in seconds; objects of other tests are not collected meanwhile."""
    return min(timeit.repeat(action, number=1, repeat=tries))


def _appends(jobs: list[Session], count: int) -> list[float]:
    """Median of each job, appended to in turn so that a slow moment hits both."""
    times: list[list[float]] = [[] for _ in jobs]
    for _ in range(count):
        for kept, job in zip(times, jobs, strict=True):
            kept.append(_best(1, lambda job=job: job.append(kind="note", value="x", at=AT)))  # type: ignore[misc]
    return [statistics.median(kept) for kept in times]


def _list(folder: Path, tries: int) -> tuple[float, float, float]:
    jobs = folder / "jobs"
    jobs.mkdir()
    data = file_of(3)
    for number in range(1, MANY + 1):
        (jobs / f"{number:05d}-diver.toml").write_bytes(data)
    path = folder / "index.json"

    def with_index() -> None:
        index = Index(path)
        found = rows(names(folder), summarise=_summary, index=index)
        assert len(found) == MANY and found[0].number == MANY
        index.save()

    first = _best(1, with_index)
    again = _best(tries, with_index)
    by_name = _best(tries, lambda: rows(names(folder)[:20], summarise=_summary))
    return first, again, by_name


def _summary(loaded: Loaded) -> dict[str, str]:
    return {"job": loaded.head.job if loaded.head else "", "entries": str(len(loaded.usable))}


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--long", action="store_true")
    print(measure(long=parser.parse_args().long))
