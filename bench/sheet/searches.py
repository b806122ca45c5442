"""The searches for a leak as data: where each ended, and how it went on.

Invariant: where a search ended follows from its answers, as it did when they were given.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from bench.job import keys
from bench.job.job import Answer
from rules.checks import OutOfRange
from rules.testing.hunt import SearchQuestion, next_step

SearchMade = dict[str, Any]
"""One search: "sitting", "ended" (in words, None where they are not known) and "led_to" (its answer)."""
OF_FOUND = {sitting.found: sitting for sitting in keys.SITTINGS}
RESULTS = tuple(sitting.result for sitting in keys.SITTINGS)


def searches_of(answers: Sequence[Answer], seal: str, joint: str) -> list[SearchMade]:
    """Every search since the seal was begun, in order; a new result begins a new one."""
    asked = keys.asked_in_search("")
    given: dict[str, str] = {}
    made: list[SearchMade] = []
    for answer in answers:
        if answer.key in RESULTS:
            given = {}
        elif answer.key.startswith(asked):
            given[answer.key.removeprefix(asked)] = answer.word
        elif answer.key in OF_FOUND:
            ended = ended_as(given, seal, joint)
            sitting = OF_FOUND[answer.key].name
            made.append({"sitting": sitting, "ended": ended, "led_to": answer.word})
    return made


def ended_as(given: Mapping[str, str], seal: str, joint: str) -> str | None:
    """The words with which a search ended; None where its answers lead to no end.

    A question that a tester without a reading is not asked was answered for it.
    """
    known = dict(given)
    try:
        found = next_step(known, seal, joint)
        while isinstance(found, SearchQuestion) and found.unread:
            known[found.key] = found.unread
            found = next_step(known, seal, joint)
    except OutOfRange:
        return None
    return None if isinstance(found, SearchQuestion) else found.words
