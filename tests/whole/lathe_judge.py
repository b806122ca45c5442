"""Judges what may stand on the screen: the text that is read there against the checks that were recorded.

It imports nothing of the program: the rule is written down here a second time, on purpose.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fnmatch import fnmatchcase

TURNING = (
    "rough_*",
    "drill*",
    "core*",
    "finish_*",
    "last_*",
    "more_*",
    "chamfer*",
    "part",
    "spare_[0-9]*",
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
SEARCHED = "hunt_check_"
"""What begins the key of the check before pressure is raised for a question of the search for a leak."""
RAISING = ("empty_hold", "cased_hold", "empty_signal_0", "cased_signal_0")
"""Steps that say how pressure is raised."""
SAYS_TURNING = re.compile(
    r"go to -?\d+\.\d+|go to \d+ turns? |tool \d+, \d+ rpm|rough the (outside|bore)|Centre and drill|Part off"
    r"|Cut out the core|Finish the (outside|bore)|Last pass (outside|in the bore)|Another pass|Chamfers: "
    r"|Spare ring \d",
    re.IGNORECASE,
)
"""What a page says when it says how to turn."""
SAYS_RAISING = re.compile(
    r"Raise (it in steps|to the)|Low first, look, then up|start the (hold|clock)|Lower (slowly )?to 0"
    r"|pressurise|At [\d.]+ bar: how far",
    re.IGNORECASE,
)
"""What a page says when it says how to raise, or lower, the pressure."""
ANOTHER_PLAN = ("attempt", "ring", "lathe", "tool_set", "bar", "bar_measured", "bar_measured_2", "bar_bore")
"""What makes another turning plan of it."""
TOUCHING = re.compile(r"Work interrupted: touch off again|touch off, [^;]*; last cut with")
"""The page, or a further part of it, that says what each surface was last cut to, before the work goes on."""
UNSETTLING = ("sitting", *ANOTHER_PLAN)
"""What makes earlier answers to the checks worthless."""
TOOLS = {
    "tool_core": re.compile(r"Cut out the core: (tool|the)"),
    "tool_boring": re.compile(r"Rough the bore: (tool|the)"),
    "tool_turning": re.compile(r"Finish the outside, all|Last pass outside|Another pass outside"),
    "tool_boring_again": re.compile(r"Finish the bore, all|Last pass in the bore|Another pass in the bore"),
    "tool_chamfer": re.compile(r"Chamfers: (tool|the)"),
    "tool_parting": re.compile(r"Part off: (tool|the)|Spare ring \d"),
}
"""The look at the post that comes before what a page says."""


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


def says(text: str) -> tuple[bool, bool]:
    """Whether a text says how to turn, and whether it says how to raise pressure."""
    return bool(SAYS_TURNING.search(text)), bool(SAYS_RAISING.search(text))


def newest(entries: Sequence[Recorded], *keys: str) -> int:
    """Number of the newest entry with one of these keys, 0 where there is none."""
    return max((entry.n for entry in entries if entry.key in keys), default=0)


def wrong(entries: Sequence[Recorded], asked: str) -> int:
    """Number of the newest wrong answer to a check whose key fits, taken back or not; else 0."""
    given = (one for one in entries if one.kind == "answer" and one.words[:1] == ("wrong",) and one.words[1:])
    return max((one.n for one in given if fnmatchcase(one.words[1], asked)), default=0)


def missing(entries: Sequence[Recorded], opened_at: int, right: Mapping[str, str] = RIGHT) -> list[str]:
    """The checks that were not answered rightly since the last thing that made them worthless;
    a wrong answer stays one though it was taken back.
    """
    standing = live(entries)
    if not newest(standing, "sitting"):
        return ["sitting"]
    since = max(opened_at, newest(standing, *UNSETTLING), wrong(entries, "lathe_*"))
    lacking = [key for key, how in right.items() if not answered(standing, key, since, how)]
    sitting = max(opened_at, newest(standing, "sitting"))
    begun = newest(standing, "rough_outside")
    if newest(standing, "dress") > begun:
        return lacking  # off the lathe: nothing is cut any more, the passes are only looked back at
    if newest(standing, *ANOTHER_PLAN) < begun < sitting and newest(standing, "touch_off") < sitting:
        lacking.append("touch_off")
    return lacking


def answered(standing: Sequence[Recorded], key: str, since: int, how: str) -> bool:
    """Whether the newest answer to a check is newer than `since` and right."""
    found = next((entry for entry in reversed(standing) if entry.key == key), None)
    if found is None or found.n <= since or found.words[:1] != ("right",):
        return False
    return len(found.words) > 1 and fnmatchcase(found.words[1], how)


def wrong_tool(entries: Sequence[Recorded], text: str) -> list[str]:
    """The looks at the post that what a page says would need, and that were not given for this plan."""
    standing = live(entries)
    since = newest(standing, *ANOTHER_PLAN)
    named = [key for key, words in TOOLS.items() if words.search(text)]
    return [key for key in named if not answered(standing, key, max(since, wrong(entries, key)), "*")]


def ready(entries: Sequence[Recorded], key: str, opened_at: int) -> bool:
    """Whether the check before pressure was answered rightly in this sitting."""
    standing = live(entries)
    since = max(opened_at, wrong(entries, key), newest(standing, "sitting", "attempt"))
    return any(answered(standing, key, since, how) for how in READY.get(key, ("shut",)))


def fault(
    entries: Sequence[Recorded],
    on_screen: str,
    *,
    opened_at: int = 0,
    text: str = "",
    right: Mapping[str, str] = RIGHT,
) -> str:
    """What is wrong with a step, and the text of a page, being on the screen; empty where nothing is.

    `opened_at` is the number of the last entry that stood in the file when the program opened it, or when the
    person came back to the keys after a quarter of an hour; `right` the checks of this lathe.
    """
    turning = SAYS_TURNING.search(text)
    if turns(on_screen) or turning:
        lacking = missing(entries, opened_at, right) or wrong_tool(entries, text)
        if lacking == ["touch_off"] and TOUCHING.search(text):
            lacking = []
        if lacking:
            said = f', which says "{turning.group()}",' if turning else ""
            return f"{on_screen or 'a page'}{said} stands on the screen without {', '.join(lacking)}"
    raising = SAYS_RAISING.search(text)
    if on_screen in RAISING or raising:
        name = on_screen.partition("_")[0] if on_screen in RAISING else ""
        searched = {one.key for one in entries if one.key.startswith(SEARCHED)}
        checks = [f"{name}_check"] if name else [*READY, *sorted(searched)]
        if on_screen.startswith("hunt_"):
            checks = [SEARCHED + on_screen.removeprefix("hunt_")]
        if not any(ready(entries, key, opened_at) for key in checks):
            said = f', which says "{raising.group()}",' if raising else ""
            return f"{on_screen or 'a page'}{said} stands on the screen without {' or '.join(checks)}"
    return ""
