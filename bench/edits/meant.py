"""One changed entry read as the person means it.

Invariant: raises Misfit with what is expected wherever that is not certain.
"""

from __future__ import annotations

from collections.abc import Sequence, Set
from dataclasses import replace
from typing import TYPE_CHECKING

from bench.edits.asked import NO_WAY, step_asked
from bench.file.entry import Entry, Head
from bench.job import further, keys
from bench.job.begun import is_spoiled
from bench.job.job import Job, replay, words_of
from bench.job.kept import Misfit, one_of
from bench.job.learned import learned_from
from bench.job.reading_back import read_back
from bench.job.steps import Words
from bench.seals import SEALS
from bench.stages.whole import walk

if TYPE_CHECKING:
    from bench.shop.shop import Shop

WRONG = "wrong"
"""First word of a check answered wrong."""
ATTEMPTS = tuple(seal.again.begin.attempt for seal in SEALS.values())
MARKS = (keys.SITTING, *ATTEMPTS, keys.LEARNED, keys.JOINED)


def marks_of(number: int) -> Words:
    """The marks that a file may hold, those of a further seal without its number in front."""
    return MARKS if number == further.FIRST else ATTEMPTS if number in further.NUMBERS else ()


def as_meant(head: Head, before: Sequence[Entry], entry: Entry, shop: Shop, changed: Set[int]) -> Entry:
    """An entry as it is meant, by the entries before it in the file, of which some were changed as well;
    raises Misfit.
    """
    if entry.kind == "mark":
        of = further.number_of(entry.key)
        mark = replace(entry, key=further.own(of, one_of(further.theirs(of, entry.key), marks_of(of))))
        if mark.key == keys.LEARNED and learned_from(words_of(mark)) is None:
            raise Misfit("the figures that were looked up, each with its name and unit")
        return mark
    if entry.kind != "answer":
        return entry
    if further.theirs(of := further.number_of(entry.key), entry.key) in marks_of(of):
        raise Misfit(f'kind = "mark" beside the key {entry.key}')
    given = words_of(entry)
    if keys.is_slip(entry.key):
        return with_words(entry, (one_of(given[0] if given else "", (WRONG,)), *given[1:]))
    if is_spoiled(entry.key):
        return entry
    job = replay(head, before)
    key = entry.key.strip().casefold()
    step = step_asked(job, shop, key, changed)
    if step is None:
        raise Misfit(_asked_instead(job, shop))
    read = read_back(step, given, inch=shop.works_in == "inch")
    return with_words(replace(entry, key=key), read)


def not_as_offered(head: Head, before: Sequence[Entry], entry: Entry, shop: Shop, changed: Set[int]) -> Words:
    """The named words of a changed answer that its choice offers otherwise; none where that is not known."""
    word, *rest = words_of(entry) or ("",)
    step = step_asked(replay(head, before), shop, entry.key, changed) if rest else None
    kept = [choice.with_it for choice in step.choices if choice.word == word] if step else []
    if not any(kept):
        return ()
    known = {one for words in kept for one in words}
    names = {one.partition(" ")[0] for one in known}
    return tuple(one for one in rest if one not in known and one.partition(" ")[0] in names)


def with_words(entry: Entry, words: tuple[str, ...]) -> Entry:
    """The entry with other words; itself where they are the same."""
    if words == words_of(entry):
        return entry
    return replace(entry, value=words if isinstance(entry.value, tuple) else words[0])


def _asked_instead(job: Job, shop: Shop) -> str:
    """What is asked at that place, for a key that is not."""
    try:
        step = walk(job, shop).open
    except NO_WAY:
        step = None
    return f"the key {step.key}" if step is not None else "the key of a question that is asked there"
