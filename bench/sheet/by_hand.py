"""What was changed outside the program and accepted, as data and in words for the workshop's sheet.

Invariant: one line for each thing accepted, whatever became of it; the customer's sheet says none of it.
"""

from __future__ import annotations

from typing import Any

from bench.file.gather import MISSING, shown
from bench.job.in_words import moment
from bench.job.job import AcceptedChange, Job
from bench.moments import moment_of, utc_text

CHANGED, TAKEN_BACK, MISSED = "changed", "taken_back", "missing"
LEFT_OUT, BESIDE, HEAD = "left_out", "beside", "head"
"""What can be accepted: an entry's value, that another one is taken back, a gap in the numbers,
a damaged entry, text that belongs to none, the first lines of the file.
"""
SAID = {
    CHANGED: "Changed by hand{after}: entry {entry}, {key} is now {value}",
    TAKEN_BACK: "Changed by hand{after}: entry {entry} takes back entry {takes_back}, {key} = {value}",
    MISSED: "Missing in the file{after}: entry {entry}",
    LEFT_OUT: "Damaged in the file{after} and left out: entry {entry}",
    BESIDE: "Something was written into the file{after} beside entry {entry} and is not used",
    HEAD: "Changed by hand{after}: the first lines of the file",
}


def changes_of(job: Job) -> list[dict[str, Any]]:
    """Everything that was accepted, in the order in which it was."""
    return [
        {
            "entry": change.of,
            "last": last_of(change),
            "what": what_of(change),
            "after_end": change.after_end,
            "key": change.entry.key if change.entry else None,
            "takes_back": change.entry.of if change.entry and change.entry.kind == "undo" else None,
            "value": shown(change.entry) if change.entry else None,
            "accepted_at": utc_text(change.at) if moment_of(change.at) else None,
        }
        for change in job.changes
    ]


def last_of(change: AcceptedChange) -> int:
    """The last of several entries that are missing; the entry itself otherwise."""
    gap = change.mark.removeprefix(MISSING)
    return int(gap.partition("-")[2]) if gap != change.mark and gap.partition("-")[2].isdigit() else change.of


def what_of(change: AcceptedChange) -> str:
    """What was accepted."""
    if change.of == 0:
        return HEAD
    if change.entry is None:
        return MISSED if change.mark.startswith(MISSING) else LEFT_OUT
    if change.entry.accepted is None:
        return BESIDE
    return TAKEN_BACK if change.entry.kind == "undo" else CHANGED


def change_text(one: dict[str, Any]) -> str:
    """One thing that was accepted, as a sentence."""
    number = one["entry"] if one["last"] == one["entry"] else f"{one['entry']} to {one['last']}"
    after = " after the end" if one["after_end"] else ""
    said = SAID[one["what"]].format_map({**one, "entry": number, "after": after})
    at = moment(one["accepted_at"]) if one["accepted_at"] else "time not known"
    return f"{said}; accepted {at}."
