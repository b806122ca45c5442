"""Which jobs are found by what is typed or picked: number, watch, size of seat or glass, result, stage.

Invariant: needs no rules; a job of which only the number is known is found by its number alone.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Sequence

from bench.desk.desk import Desk
from bench.desk.effects import JobRow
from bench.desk.sought import SIZE_DIGITS, all_forms, forms
from bench.file.slug import NUMBER_LIMIT, number_of, own_number

MONTH = re.compile(r"[0-9]{4}\.[0-9]{2}")
"""A date so far as its second point."""
DUE = "due"
"""Picked for watches that are due for their next test."""
DUE_WORDS = "due for the next test"
OTHER = "other"
"""Picked for watches without a word that begins with a letter from A to Z."""
UNTESTED = "not tested"


def finds(row: JobRow, words: str) -> bool:
    """Whether every word finds the job: its number, a size, a result or a stage begun, a part of its watch.

    >>> row = JobRow(number="208", file="", watch="Ferry captain", seat="34.18 mm", result="pass")
    >>> [finds(row, words) for words in ("20", "34.1", "3418", "ferry pass", "fail", "ferry fail")]
    [True, True, True, True, False, False]
    """
    return has(row, tuple(forms(word) for word in words.casefold().split()))


def has(row: JobRow, wanted: Sequence[Sequence[str]]) -> bool:
    """Whether a row has one of the forms of every word."""
    text = row.sought
    for each in wanted:
        for form in each:  # a loop, as this is asked of every job at every key
            if form in text:
                break
        else:
            return False
    return True


def stage_of(row: JobRow) -> str:
    """The stage of a job for the filter."""
    return "finished" if row.finished else row.stage


def is_due(row: JobRow, now: str) -> bool:
    """Whether the watch is due for its next test; where the time is not known, none is."""
    return bool(row.retest) and row.retest <= now[:10]


def searches(text: str) -> bool:
    """Whether what is typed is looked for in the files, and not in their names alone."""
    return bool(text) and (not text.isdecimal() or (len(text) >= SIZE_DIGITS and not text.startswith("0")))


def narrowed(desk: Desk) -> bool:
    """Whether the list depends on what stands in the files."""
    return bool(desk.stage_only or desk.result_only or desk.watch_only) or searches(desk.line.text)


def is_picked(desk: Desk, name: str) -> bool:
    """Whether a job has the stage, the result and the letter of a word of its watch that are picked."""
    row = desk.known.get(name)
    if not (desk.stage_only or desk.result_only or desk.watch_only):
        return True
    if row is None:
        return False
    letters = {word[0].upper() for word in row.watch.split()} & set(LETTERS)
    return (
        desk.stage_only in ("", stage_of(row))
        and (
            is_due(row, desk.wall)
            if desk.result_only == DUE
            else desk.result_only in ("", row.result or UNTESTED)
        )
        and (not desk.watch_only or desk.watch_only in (letters or {OTHER}))
    )


LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def begins_with(name: str, digits: str) -> bool:
    """Whether the number of a job, or that which one named with letters has of its own, begins so."""
    return name.lstrip("0").startswith(digits) or str(own_number(name) or "").startswith(digits)


def by_number(names: Sequence[str], digits: str) -> tuple[str, ...]:
    """Names of the jobs whose number begins with some digits; of names in their order, the highest number
    first, a run for each count of digits: looked up, not gone through.

    >>> by_number(("00120-otter.toml", "00013.toml", "00012.toml", "00002.toml", "lantern.toml"), "12")
    ('00120-otter.toml', '00012.toml')
    """
    if digits[0] in "09":  # no number begins with 0; those of names in letters begin with 9
        return tuple(name for name in names if begins_with(name, digits))
    found: list[str] = []
    for further in range(len(str(NUMBER_LIMIT - 1)) - len(digits), -1, -1):
        low, high = (number * 10**further for number in (int(digits), int(digits) + 1))
        found += names[place_of(names, high) : place_of(names, low)]
    return tuple(found)


def place_of(names: Sequence[str], number: int) -> int:
    """How many of the names have that number or a higher one."""
    return bisect_right(names, -number, key=lambda name: -(number_of(name) or 0))


def typed(desk: Desk, names: Sequence[str], text: str) -> tuple[str, ...]:
    """The names of the jobs that are found by what is typed, in their order."""
    numbered = frozenset(by_number(names, text)) if text.isdecimal() else frozenset()
    if not searches(text):
        return tuple(name for name in names if name in numbered)
    known, wanted = desk.known, all_forms(text)
    return tuple(
        name
        for name in names
        if name in numbered or ((row := known.get(name)) is not None and has(row, wanted))
    )


def picked_words(desk: Desk) -> str:
    """What is picked, for the heading."""
    watch = f"watches in {desk.watch_only}" if desk.watch_only else ""
    return ", ".join(
        word
        for word in (desk.stage_only, DUE_WORDS if desk.result_only == DUE else desk.result_only, watch)
        if word
    )
