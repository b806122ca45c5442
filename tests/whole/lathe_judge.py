"""Judges whether a turning step may stand on the screen, from the recorded entries and its key alone.

It imports nothing of the program: the rule is written down here a second time, on purpose.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fnmatch import fnmatchcase

TURNING = (
    "rough_outside",
    "drill",
    "rough_bore",
    "finish_*",
    "last_*",
    "more_*",
    "chamfer",
    "part",
    "spare_*",
)
"""Steps during which the spindle turns."""
RIGHT = {
    "lathe_hands": "read 0",
    "lathe_eyes": "on",
    "lathe_key": "holder",
    "lathe_bar": "read *",
    "lathe_speed": "read *",
}
"""The checks before anything turns, and how a right answer to each is recorded."""
UNSETTLING = ("sitting", "attempt", "ring", "lathe_slip")
"""What makes earlier answers to the checks worthless."""


@dataclass(frozen=True)
class Recorded:
    """One entry as it stands in the file."""

    n: int
    kind: str
    key: str
    words: tuple[str, ...]
    of: int | None = None


def turns(key: str) -> bool:
    """Whether the spindle turns in that step."""
    return any(fnmatchcase(key, pattern) for pattern in TURNING)


def live(entries: Sequence[Recorded]) -> list[Recorded]:
    """The entries that no undo has taken back."""
    gone: set[int] = set()
    for entry in reversed(entries):
        if entry.kind == "undo" and entry.n not in gone and entry.of is not None:
            gone.add(entry.of)
    return [entry for entry in entries if entry.n not in gone and entry.kind in ("answer", "mark")]


def missing(entries: Sequence[Recorded], opened_at: int) -> list[str]:
    """The checks that were not answered rightly since the last thing that made them worthless."""
    standing = live(entries)
    if not any(entry.key == "sitting" for entry in standing):
        return ["sitting"]
    since = max(opened_at, *(entry.n for entry in standing if entry.key in UNSETTLING))
    return [key for key in RIGHT if not answered(standing, key, since)]


def answered(standing: Sequence[Recorded], key: str, since: int) -> bool:
    """Whether the newest answer to a check is newer than `since` and right."""
    newest = next((entry for entry in reversed(standing) if entry.key == key), None)
    if newest is None or newest.n <= since or newest.words[:1] != ("right",):
        return False
    return len(newest.words) > 1 and fnmatchcase(newest.words[1], RIGHT[key])


def fault(entries: Sequence[Recorded], on_screen: str, *, opened_at: int = 0) -> str:
    """What is wrong with a step being on the screen; empty where nothing is.

    `opened_at` is the number of the last entry that stood in the file when the program opened it.
    """
    if not turns(on_screen):
        return ""
    lacking = missing(entries, opened_at)
    return f"{on_screen} stands on the screen without {', '.join(lacking)}" if lacking else ""
