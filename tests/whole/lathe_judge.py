"""Judges what may stand on the screen, from the recorded entries and from what is read there: step and text.

It imports nothing of the program: the rule is written down here a second time, on purpose.
"""

from __future__ import annotations

import re
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
READY = {"empty_check": ("shut", "ready"), "cased_check": ("shut", "ready")}
"""The checks before pressure is raised, and the words of a right answer."""
RAISING = ("empty_hold", "cased_hold", "empty_signal_0", "cased_signal_0")
"""Steps that say how pressure is raised."""
SAYS_TURNING = re.compile(
    r"go to -?\d+\.\d\d|tool \d+, \d+ rpm|\d passes:|rough the (outside|bore)|Centre and drill|Part off"
    r"|Finish the (outside|bore)|Last pass (outside|in the bore)|Another pass|Chamfers: tool|Spare ring \d",
    re.IGNORECASE,
)
"""What a page says when it says how to turn."""
SAYS_RAISING = re.compile(
    r"Raise (it in steps|to the)|Low first, look, then up|start the (hold|clock)|Lower (slowly )?to 0"
    r"|pressurise|At [\d.]+ bar: how far",
    re.IGNORECASE,
)
"""What a page says when it says how to raise, or lower, the pressure."""
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


def seen_whole(columns: int, rows: int) -> bool:
    """Whether a window of that size shows a question and its answer."""
    return columns >= 40 and rows >= 12


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


def ready(entries: Sequence[Recorded], key: str, opened_at: int) -> bool:
    """Whether the check before pressure was answered rightly in this sitting."""
    standing = live(entries)
    since = max(opened_at, *(one.n for one in standing if one.key in ("sitting", "attempt")), 0)
    slip = key.replace("_check", "_slip")
    newest = next((one for one in reversed(standing) if one.key in (key, slip)), None)
    return (
        newest is not None
        and newest.n > since
        and newest.key == key
        and newest.words[1:2] != ()
        and (newest.words[0] == "right" and newest.words[1] in READY[key])
    )


def fault(entries: Sequence[Recorded], on_screen: str, *, opened_at: int = 0, text: str = "") -> str:
    """What is wrong with a step, and the text of a page, being on the screen; empty where nothing is.

    `opened_at` is the number of the last entry that stood in the file when the program opened it, or when the
    person came back to the keys after a quarter of an hour.
    """
    turning = next(iter(SAYS_TURNING.finditer(text)), None)
    if turns(on_screen) or turning:
        lacking = missing(entries, opened_at)
        if lacking:
            said = f', which says "{turning.group()}",' if turning else ""
            return f"{on_screen or 'a page'}{said} stands on the screen without {', '.join(lacking)}"
    raising = next(iter(SAYS_RAISING.finditer(text)), None)
    if on_screen in RAISING or raising:
        name = on_screen.partition("_")[0] if on_screen in RAISING else ""
        checks = [f"{name}_check"] if name else list(READY)
        if not any(ready(entries, key, opened_at) for key in checks):
            said = f', which says "{raising.group()}",' if raising else ""
            return f"{on_screen or 'a page'}{said} stands on the screen without {' or '.join(checks)}"
    return ""
