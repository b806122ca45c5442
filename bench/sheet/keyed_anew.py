"""Readings that a verdict rests on and that were keyed again after its hold had begun.

Invariant: whatever is keyed over stays on record;
what was keyed before the hold, for the first time, is none of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from bench.job import keys
from bench.job.corrections import given_at
from bench.job.job import Answer
from bench.job.keys import Sitting
from bench.job.steps import Words
from bench.job.values import named_text
from rules.testing.methods import methods


def readings_changed_of(spans: Sequence[Sequence[Answer]]) -> list[dict[str, Any]]:
    """What a verdict from readings rests on and was keyed again after its hold had begun, for the sheet."""
    found = [
        (n, sitting, was, now)
        for n, span in enumerate(spans, 1)
        for sitting in keys.SITTINGS
        for was, now in keyed_anew(span, sitting)
    ]
    return [
        {
            "attempt": n,
            "what": sitting.name,
            "reading": sitting.what(now.key),
            "first": was.word if was else None,
            "then": now.word,
            "then_at": given_at(now),
        }
        for n, sitting, was, now in sorted(found, key=lambda one: one[3].n)
    ]


def keyed_anew(span: Sequence[Answer], sitting: Sitting) -> Iterator[tuple[Answer | None, Answer]]:
    """(before, after) of what was keyed again between a hold and its result;
    before is None for a usual value.
    """
    set_up = (sitting.volume, sitting.volume_exact, sitting.gauge_step, sitting.temperature)
    taken = keys.readings_of(sitting.signal, sitting.vented, sitting.vented_by)
    first_key = keys.nth(sitting.signal, 0)  # read before the hold, which follows from it
    before: dict[str, Answer] = {}
    waiting: list[tuple[Answer | None, Answer]] = []
    begun = 0
    for answer in span:
        key = answer.key
        if answer.by_hand:
            before[key] = answer  # said with what was changed by hand
        elif key == sitting.hold:
            begun, waiting = answer.n, []
        elif key == sitting.result and from_readings(answer.words):
            yield from waiting
            waiting = []
        elif key in set_up or (taken.fullmatch(key) and key != first_key):
            was = before.get(key)
            first = was is None or was.n < begun
            if begun and (key in set_up or not first) and (was is None or was.word != answer.word):
                waiting.append((was, answer))
            before[key] = answer


def from_readings(words: Words) -> bool:
    """Whether the words of a result are of a test that reads a gauge."""
    method = methods().get(named_text(words, "method"))
    return method is not None and method.reads_deflection
