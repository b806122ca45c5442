"""Times as text, ISO 8601 with offset, read and written.

Invariant: a text that is no time is None or refused; nothing is guessed.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

EARLY_HOURS = 12.0
"""A test sooner after fitting counts as early: the seal still settles (our judgement, no source)."""


def moment_of(text: str) -> datetime | None:
    """A time with its offset; None where it is none."""
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        return None
    return moment if moment.tzinfo is not None else None


def utc_text(text: str) -> str:
    """The same moment as UTC text to the second; raises ValueError where it is no time."""
    return datetime.fromisoformat(text).astimezone(UTC).isoformat(timespec="seconds")


def at_the_bench(text: str, kept: str) -> str | None:
    """A moment on the clock of the bench, by the offset of when an answer was kept; None where it is no time.

    >>> at_the_bench("2026-03-02T09:09:00+00:00", "2026-03-02T10:09:20+01:00")
    '2026-03-02T10:09:00+01:00'
    """
    moment, beside = moment_of(text), moment_of(kept)
    if moment is None:
        return None
    return moment.astimezone(beside.tzinfo if beside else moment.tzinfo).isoformat(timespec="seconds")


def seconds_between(start: str, end: str) -> float | None:
    """Seconds from one time to another; None where either is no time."""
    try:
        return (datetime.fromisoformat(end) - datetime.fromisoformat(start)).total_seconds()
    except (ValueError, TypeError):
        return None


def is_early(fitted: str, tested: str) -> bool:
    """Whether a test was made while the seal still settled; False where either is no time."""
    seconds = seconds_between(fitted, tested)
    return seconds is not None and seconds < EARLY_HOURS * 3600


def due_after(tested: str, *, early: bool) -> str | None:
    """The day of the next test after one that was passed: a year on, the next day after an `early` one; None
    where it is no time.

    >>> due_after("2028-02-28T10:00:00+00:00", early=True)
    '2028-02-29'
    """
    moment = moment_of(tested)
    if moment is not None and early:
        return (moment.date() + timedelta(days=1)).isoformat()
    return year_after(tested)


def year_after(text: str) -> str | None:
    """The same day a year later, the 28th for a 29th of February; None where it is no time.

    >>> year_after("2028-02-29T09:00:00+00:00")
    '2029-02-28'
    """
    moment = moment_of(text)
    if moment is None:
        return None
    day = moment.date()
    leap = (day.month, day.day) == (2, 29)
    return day.replace(year=day.year + 1, day=28 if leap else day.day).isoformat()


def to_the_minute(text: str) -> str:
    """Day and time of day for people, without the offset."""
    return text[:16].replace("T", " ")
