"""The further seals of a watch in one job: each asks under keys of its own and sees its own answers alone.

Invariant: a key of a further seal is the key that its kind has, with the number of the seal in front; so a
program that knows one seal for a job never takes it for that one's.
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache

from bench.job import keys
from bench.job.job import Answer, Job
from bench.job.renaming import Renaming, of_every_seal

FIRST, MOST = 1, 5
"""Number of the seal that a job begins with, and how many seals one job may have: one for each of a watch."""
NUMBERS = range(FIRST + 1, MOST + 1)
"""Numbers of the further ones."""
OF_FURTHER = re.compile(r"seal_([2-9])_(.+)")
RING, MEASURE = "ring", "measure"
"""Words with which a search for a leak leads to another one of the first seal, and to its readings again."""
_LEADS = tuple(one.found for one in keys.SITTINGS)


def number_of(key: str) -> int:
    """Which seal of its job a key is about; the first where no number stands in front.

    >>> number_of("seal_2_oring_place"), number_of("oring_place")
    (2, 1)
    """
    found = OF_FURTHER.fullmatch(key)
    return int(found[1]) if found else FIRST


@cache
def own(number: int, key: str) -> str:
    """The key under which it is kept for the seal with that number.

    >>> own(2, "oring_attempt"), own(2, "empty_found"), own(1, "oring_attempt")
    ('seal_2_oring_attempt', 'empty_found', 'oring_attempt')
    """
    return key if number == FIRST or of_every_seal(key) else f"seal_{number}_{key}"


@cache
def theirs(number: int, key: str) -> str:
    """The key that the stages of the seal with that number know it by; empty where they may not see it."""
    found = OF_FURTHER.fullmatch(key)
    if number == FIRST or of_every_seal(key):
        return "" if found else key
    return found[2] if found and int(found[1]) == number else ""


def naming(number: int) -> Renaming:
    """The two ways between the keys of a seal's stages and those of the file."""
    return Renaming(lambda key: own(number, key), lambda key: theirs(number, key))


def lead_of(number: int, word: str) -> str:
    """The word with which a search for a leak leads to a seal of the job.

    >>> lead_of(1, RING), lead_of(2, RING), lead_of(2, MEASURE)
    ('ring', 'seal_2_ring', 'seal_2_measure')
    """
    return own(number, word)


def view(job: Job, number: int) -> Job:
    """The job as the stages of the seal with that number see it."""
    if number == FIRST:
        return naming(number).seen(job) if job.holds(lambda key: number_of(key) != FIRST) else job
    return naming(number).seen(job).worded(lambda answer: _led(answer, number))


def _led(answer: Answer, number: int) -> Answer:
    """Where a search ended, as it is about this seal: what leads to another seal leads not to this one."""
    of = number_of(answer.word)
    word = theirs(of, answer.word)
    if answer.key not in _LEADS or word not in (RING, MEASURE):
        return answer
    return replace(answer, words=(word if of == number else f"other_{word}", *answer.words[1:]))
