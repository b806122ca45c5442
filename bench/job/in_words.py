"""Words that sheet, slip and every kind of seal use: results and moments."""

from __future__ import annotations

RESULTS = {"pass": "PASS", "fail": "FAIL", "not_judged": "NOT JUDGED"}


def moment(utc: str) -> str:
    """A UTC text as a date and time for people."""
    return utc[:16].replace("T", " ") + " UTC"
