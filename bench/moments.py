"""Times as text, ISO 8601 with offset, read and written.

Invariant: a text that is no time is None or refused; nothing is guessed.
"""

from __future__ import annotations

from datetime import UTC, datetime


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
