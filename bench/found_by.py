"""What a job is found by besides its number and watch: readings of seat and glass, the ring, its plastic, the
remark, the result of its test and when the next is due, the jobs it names.

Invariant: needs no rules; of entries alone, those taken back left out; a result keyed over a fail is not
said before it holds.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from bench.file.entry import Entry
from bench.job import keys
from bench.job.begun import is_attempt
from bench.job.kept import HOME
from bench.job.other_jobs import LIKE, LINKED, NO_LINK
from bench.moments import due_after, is_early

SEAT, GLASS = (re.compile(rf"(?:\w+_)?{key}(?:_\d+)?") for key in (keys.CASE_BORE, keys.GLASS))
"""Readings of seat and glass, for whichever kind of seal."""
OF_A_FURTHER = r"seal_\d_"
"""How the keys of a further seal of the same job begin."""
RESULTS = {one.result: one for one in keys.SITTINGS}
SAID = {"pass": "pass", "fail": "fail", "not_judged": "not judged"}
"""The results there are, by their words in a file, as they are said and looked for."""
KEY = re.compile(
    rf'\nkey = "(?:(?:\w+_)?(?:{keys.CASE_BORE}|{keys.GLASS})(?:_\d+)?|(?:\w+_)?{keys.ATTEMPT}'
    rf"|{'|'.join(key for one in keys.SITTINGS for key in (one.result, one.hold, one.correction))}"
    rf"|{'|'.join(one.pressure for one in keys.SITTINGS)}|(?:\w+_)?{keys.FIT_OUTCOME}|\w+_laid"
    rf'|{keys.RING}|\w+_accepted|{keys.PLASTIC}|{keys.REMARK}|{LIKE}|{LINKED})"'.encode()
)
"""The line of a block whose entry is needed for it."""
LATER = re.compile(rf'\nkey = "{OF_A_FURTHER}\w+"'.encode())
"""The same, needed only behind a test of the cased watch."""
ACCEPTED = re.compile(rf"{keys.RING}|(?!{OF_A_FURTHER})\w+_accepted")
"""The answer by which one of whichever kind is accepted, the first of its job."""
MATERIALS, SIZES = ("plastic", "material"), ("outside", "bore", "inside", "height", "thickness", "cord")
"""Names under which it keeps what it is made of, and how large it is."""
HURRIED = "timed hurried"
"""Kept with the result of a hold that a demo hurried: it proves nothing."""
PUT_IN = re.compile(rf"(?:\w+_)?{keys.FIT_OUTCOME}|\w+_laid")
"""The answer that a seal was put in, with its time."""
SHAKEN = re.compile(rf"{'|'.join(one.pressure for one in keys.SITTINGS)}|{PUT_IN.pattern}|{OF_A_FURTHER}\w+")
"""Answers after which a pass may stand no longer: the route says, not a look at the file."""


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
        "remark": newest.get(keys.REMARK, ""),
        "like": newest.get(LIKE, ""),
        "linked": newest.get(LINKED, "").replace(NO_LINK, ""),
        **made_of(counting, newest.get(keys.PLASTIC, "")),
    }
    if not given:
        return {**said, "result": "", "retest": ""}
    last = given[-1]
    hold = RESULTS[last.key].hold
    held = max((entry.n for entry in counting if entry.key == hold and entry.n < last.n), default=0)
    over = any(entry.key == last.key and held < entry.n < last.n for entry in given)
    word = word_of(last)
    if over:
        word = holding([entry for entry in counting if entry.n > begun], RESULTS[last.key])
    return {**said, "result": SAID.get(word, ""), "retest": "" if over else retest(counting, given)}


def made_of(counting: Sequence[Entry], plastic: str) -> dict[str, str]:
    """What the newest one accepted is made of, and its sizes, a comma between; before one what was chosen."""
    accepted = next((one for one in reversed(counting) if ACCEPTED.fullmatch(one.key)), None)
    value = accepted.value if accepted is not None else ()
    words = [str(one).partition(" ") for one in value] if isinstance(value, tuple) else []
    kept = {name: rest for name, _, rest in reversed(words)}
    return {
        "plastic": next((kept[name] for name in MATERIALS if name in kept), plastic),
        "ring": ", ".join(kept[name] for name in SIZES if kept.get(name, "")[:1].isdigit()),
    }


def retest(counting: Sequence[Entry], given: Sequence[Entry]) -> str:
    """When the cased watch is due for its next test, as its sheet says; empty where it has not passed, and
    where it was fitted, or a pressure keyed, after that.
    """
    fails = [entry.n for entry in given if word_of(entry) == "fail"]
    passed = [
        entry
        for entry in given
        if entry.key == keys.CASED.result and word_of(entry) == "pass" and entry.n > max(fails, default=0)
    ]
    if not passed or any(SHAKEN.fullmatch(one.key) and one.n > passed[-1].n for one in counting):
        return ""
    value = passed[-1].value
    if not isinstance(value, tuple) or len(value) < 2 or HURRIED in value:
        return ""
    put_in = {one.key: one for one in counting if PUT_IN.fullmatch(one.key) and one.n < passed[-1].n}
    home = sorted((one for one in put_in.values() if word_of(one) == HOME), key=lambda one: one.n)
    when = home[-1].value if home else ()
    fitted = str(when[1]) if isinstance(when, tuple) and len(when) > 1 else ""
    return due_after(str(value[1]), early=is_early(fitted, str(value[1]))) or ""


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
