"""What a job is found by besides its number and watch: readings of seat and glass, the result of its test.

Invariant: needs no rules; of entries alone, those taken back left out; a result keyed over a fail is not
said before it holds.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from bench.file.entry import Entry
from bench.job import keys
from bench.job.begun import is_attempt

SEAT, GLASS = keys.readings_of(keys.CASE_BORE), keys.readings_of(keys.GLASS)
RESULTS = {one.result: one for one in keys.SITTINGS}
SAID = {"pass": "pass", "fail": "fail", "not_judged": "not judged"}
"""The results there are, by their words in a file, as they are said and looked for."""
KEY = re.compile(
    rf'\nkey = "(?:(?:{keys.CASE_BORE}|{keys.GLASS})(?:_\d+)?|(?:\w+_)?{keys.ATTEMPT}'
    rf'|{"|".join(key for one in keys.SITTINGS for key in (one.result, one.hold, one.correction))})"'.encode()
)
"""The line of a block whose entry is needed for it."""


def found_by(entries: Sequence[Entry]) -> dict[str, str]:
    """Readings of seat and of glass as they were keyed, and the result of the newest test of this seal.

    `entries`: oldest first.
    """
    counting = standing_entries(entries)
    newest = {entry.key: word_of(entry) for entry in counting}
    begun = max((entry.n for entry in counting if is_attempt(entry.key)), default=0)
    given = [entry for entry in counting if entry.key in RESULTS and entry.n > begun]
    said = {
        "seat": ", ".join(word for key, word in newest.items() if SEAT.fullmatch(key)),
        "glass": ", ".join(word for key, word in newest.items() if GLASS.fullmatch(key)),
    }
    if not given:
        return {**said, "result": ""}
    last = given[-1]
    hold = RESULTS[last.key].hold
    held = max((entry.n for entry in counting if entry.key == hold and entry.n < last.n), default=0)
    over = any(entry.key == last.key and held < entry.n < last.n for entry in given)
    word = word_of(last)
    if over:
        word = holding([entry for entry in counting if entry.n > begun], RESULTS[last.key])
    return {**said, "result": SAID.get(word, "")}


def holding(entries: Sequence[Entry], sitting: keys.Sitting) -> str:
    """Which of the results keyed over one another in the last hold of a sitting holds."""
    from bench.job.corrections import TESTS, courses  # seldom needed, and the first page does without them
    from bench.job.job import Answer, words_of

    answers = [Answer(entry.n, entry.at, entry.key, words_of(entry)) for entry in entries]
    *_, course = courses(answers, TESTS[sitting.name])
    return course.holds.word if course.holds is not None else ""


def standing_entries(entries: Sequence[Entry]) -> list[Entry]:
    """Answers and marks without those that were taken back; an undone undo brings its entry back."""
    gone: set[int] = set()
    kept: list[Entry] = []
    for entry in reversed(entries):
        if entry.n in gone:
            continue
        if entry.kind == "undo" and entry.of is not None:
            gone.add(entry.of)
        elif entry.kind in ("answer", "mark"):
            kept.append(entry)
    return kept[::-1]


def word_of(entry: Entry | None) -> str:
    """The first word of an answer."""
    if entry is None:
        return ""
    return str(entry.value[0]) if isinstance(entry.value, tuple) and entry.value else str(entry.value)
