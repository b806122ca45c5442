"""A year of a shop, counted from what its session files say, and what waits in it now.

Invariant: a year is the sum of its months; every figure follows from the facts of the files alone.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from datetime import date, timedelta

from bench.job.kept import HOME
from bench.year.facts import BAR, BENCH, MADE, SITTING, SPARE, TESTED, TRIED, Happened, JobFacts

SOON_DAYS = 31
"""A test due within so many days is told of."""
LONG_DUE_DAYS = 366
"""A watch due for longer is counted, not named: it did not come back."""


@dataclass(frozen=True, slots=True)
class Counted:
    """What happened in some time."""

    made: int = 0
    """Seals made here, spares of their set-ups not counted."""
    spares: int = 0
    first_tries: int = 0
    """Watches in which one was put in for the first time."""
    first_home: int = 0
    """Of these, where it went home."""
    passed: int = 0
    failed: int = 0
    not_judged: int = 0
    """Tests by their result; one that was corrected counts as it then held."""
    minutes: float = 0.0
    """At the bench, parked time left out."""
    sittings: int = 0
    """How often work at a job was begun."""
    bar_mm: float = 0.0
    """Length of bar that was taken."""


@dataclass(frozen=True, slots=True)
class Year:
    """A year, month by month."""

    year: int
    whole: Counted
    months: tuple[Counted, ...]
    made: tuple[tuple[str, int], ...]
    """Seals made, by kind, spares left out."""
    bars: tuple[tuple[str, float], ...]
    """Length taken of each bar, mm."""
    jobs: int
    """Jobs in which something happened in it."""
    others: tuple[tuple[int, int], ...]
    """Other years and their jobs."""


@dataclass(frozen=True, slots=True)
class NextTest:
    """A watch that is due for its next test."""

    job: str
    watch: str
    day: str


def year_of(facts: Sequence[JobFacts], year: int) -> Year:
    """One year out of all."""
    named = f"{year:04d}-"
    happened = [one for job in facts for one in job.happened if one.month.startswith(named)]
    months = tuple(
        counted([one for one in happened if one.month == f"{named}{month:02d}"]) for month in range(1, 13)
    )
    years = Counter(int(one) for job in facts for one in {each.month[:4] for each in job.happened})
    return Year(
        year=year,
        whole=added(months),
        months=months,
        made=tuple((kind, round(count)) for kind, count in summed(happened, MADE)),
        bars=tuple((bar, round(length, 2)) for bar, length in summed(happened, BAR)),
        jobs=years.pop(year, 0),
        others=tuple(sorted(years.items())),
    )


def summed(happened: Iterable[Happened], what: str) -> list[tuple[str, float]]:
    """How much there is of each kind of one thing, by name."""
    found: Counter[str] = Counter()
    for one in happened:
        if one.what == what:
            found[one.how] += one.much  # type: ignore[assignment]
    return sorted(found.items())


def counted(happened: Sequence[Happened]) -> Counted:
    """What happened, added up."""

    def much(what: str, how: str | None = None) -> float:
        return sum(one.much for one in happened if one.what == what and how in (None, one.how))

    return Counted(
        made=round(much(MADE)),
        spares=round(much(SPARE)),
        first_tries=round(much(TRIED)),
        first_home=round(much(TRIED, HOME)),
        passed=round(much(TESTED, "pass")),
        failed=round(much(TESTED, "fail")),
        not_judged=round(much(TESTED, "not_judged")),
        minutes=round(much(BENCH), 1),
        sittings=round(much(SITTING)),
        bar_mm=round(much(BAR), 2),
    )


def added(months: Sequence[Counted]) -> Counted:
    """The sum of some times."""
    return Counted(
        **{one.name: round(sum(getattr(month, one.name) for month in months), 2) for one in fields(Counted)}
    )


def due(facts: Iterable[JobFacts], today: str) -> tuple[tuple[NextTest, ...], int]:
    """Watches due for their next test until soon, the longest due first; how many are due for longer than is
    told. Nothing where today is no day.
    """
    try:
        now = date.fromisoformat(today[:10])
    except ValueError:
        return (), 0
    until, since = ((now + timedelta(days)).isoformat() for days in (SOON_DAYS, -LONG_DUE_DAYS))
    found = sorted((one.retest, one.job, one.watch) for one in facts if one.retest and one.retest <= until)
    told = tuple(NextTest(job, watch, day) for day, job, watch in found if day >= since)
    return told, len(found) - len(told)
