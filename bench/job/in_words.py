"""Words that sheet, slip and every kind of seal use: results and moments."""

from __future__ import annotations

from bench.moments import to_the_minute

RESULTS = {"pass": "PASS", "fail": "FAIL", "not_judged": "NOT JUDGED"}


def moment(utc: str) -> str:
    """A UTC text as a date and time for people."""
    return f"{to_the_minute(utc)} UTC"
