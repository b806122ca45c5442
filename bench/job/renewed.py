"""Which other seals are new: what was said at casing, and what a search for a leak found and renewed.

Invariant: a search of this seal's tests counts whether or not a later answer names what it renewed.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from bench.job import keys
from bench.job.job import Answer
from rules.testing.hunt import renewed

OTHERS = ("back", "crown", "tube", "pushers")
"""The seals besides that of the glass, in the order in which they are named."""
SEALS = ("glass", *OTHERS)
"""Every seal of a watch."""
ALL, NONE = "all", "none"
RESULTS = tuple(sitting.result for sitting in keys.SITTINGS)


def renewed_in_search(answers: Sequence[Answer]) -> tuple[str, ...]:
    """What every search since the seal was begun found leaking and renewed; a new result begins a new one."""
    searches: list[dict[str, str]] = [{}]
    asked = keys.asked_in_search("")
    for answer in answers:
        if answer.key in RESULTS:
            searches.append({})
        elif answer.key.startswith(asked):
            searches[-1][answer.key.removeprefix(asked)] = answer.word
    return in_order(seal for given in searches for seal in renewed(given))


def in_order(seals: Iterable[str]) -> tuple[str, ...]:
    """Seals, each once, as they are named."""
    found = set(seals)
    return tuple(seal for seal in SEALS if seal in found)


def seals_of(word: str) -> tuple[str, ...]:
    """The seals that a kept word means: none, all, or their names with a line between.

    >>> seals_of("back_crown"), seals_of("none")
    (('back', 'crown'), ())
    """
    return OTHERS if word == ALL else in_order(word.split("_"))


def word_of(seals: Sequence[str]) -> str:
    """The word kept for these seals."""
    return ALL if tuple(seals) == OTHERS else "_".join(seals) or NONE


def named(seals: Sequence[str]) -> str:
    """Seals as a person reads them.

    >>> named(("back", "crown", "tube"))
    'back, crown and tube'
    """
    *first, last = seals or (NONE,)
    return f"{', '.join(first)} and {last}" if first else last


def listed(seals: Sequence[str]) -> tuple[str, tuple[str, ...]]:
    """Seals as a person reads them, and the word of each; the word for none where there is none."""
    return named(seals), tuple(seals) or (NONE,)
