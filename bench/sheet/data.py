"""The sheet as data: what was measured, made and proved, read from the answers alone.

Invariant: nothing is computed here that an answer does not hold; a figure that was not written, or that rests
on an answer changed later, is None; no test is claimed above the pressure that was raised.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from bench.job import keys
from bench.job.corrections import HOME, corrections_of, outcome
from bench.job.endings import ending_of, ending_word
from bench.job.job import Answer, Job, newest_of, replay
from bench.job.values import number
from bench.seals import SEALS, seal_of
from bench.sheet.by_hand import changes_of
from bench.sheet.keyed_anew import readings_changed_of
from bench.sheet.proofs import covers, not_tested, retest_of, tests_of
from rules.testing.pressure import UNFIGURED_MARKING_BAR

CAUTIONS = (
    "Gasket made in this workshop, not an original part.",
    (
        "Water resistance does not last for ever: "
        "have it tested again in a year, and whenever the watch was opened."
    ),
    "Keep it out of hot water and steam; do not move the crown or a pusher in water.",
)
"""What the customer is told (common practice, no source)."""
UNMARKED_BAR = {"nothing": None, "words_only": UNFIGURED_MARKING_BAR}
"""Markings without a figure, as a pressure."""


def sheet_data(job: Job, *, finished: bool, shop_name: str = "", tester_number: str = "") -> dict[str, Any]:
    """The sheet of a job; every key is always there, None or empty where nothing is known."""
    seal = seal_of(job)
    own, blank = seal.data(job), promised(job)
    spans = job.attempt_spans()
    now = spans[-1]
    tests = tests_of(now)
    marking = marking_bar(job)
    covered = any(covers(test, marking) for test in tests)
    return {
        "job": job.head.job,
        "finished": finished,
        "attempt": job.attempt,
        "watch": text_of(job, keys.WATCH),
        "remark": text_of(job, keys.REMARK),
        "seal": seal.word,
        **blank,
        **own,
        "attempts": [
            attempt_of({**blank["attempts"][0], **one}, span)
            for one, span in zip(own["attempts"], spans, strict=True)
        ],
        "renewed": renewed.word if (renewed := newest_of(now, keys.RENEWED)) else None,
        "tests": tests,
        "marking_bar": marking,
        "marking_tested": covered,
        "not_tested": not_tested(tests, marking, seal.short, covered=covered),
        "retest": retest_of(tests),
        "cautions": cautions_of(job, outcome(now, seal.fitting)),
        "corrections": corrections_of(spans, seal.fitting),
        "readings_changed": readings_changed_of(spans),
        "changed_by_hand": changes_of(job),
        "notes": [note.word for note in job.notes if note.key != keys.SHOP_NOTE],
        "shop_notes": [note.word for note in job.notes if note.key == keys.SHOP_NOTE],
        "ended": ending_word(ended) if finished and (ended := ending_of(job, seal.endings)) else None,
        "shop_name": shop_name,
        "tester_number": tester_number,
    }


def promised(job: Job) -> dict[str, Any]:
    """The keys that every sheet has, whatever was made: those of the usual seal, None or empty."""
    usual = next(iter(SEALS.values()))
    return usual.data(replay(job.head, ()))


def text_of(job: Job, key: str) -> str | None:
    """The word of the newest answer, None where it was not asked or left as usual."""
    answer = job.newest(key)
    return answer.word if answer else None


def marking_bar(job: Job) -> float | None:
    """What the case says, bar over the atmosphere; None when nothing is marked or it was not asked."""
    answer = job.newest(keys.MARKING)
    keyed = job.fresh(keys.MARKING_KEYED, (keys.MARKING,))
    if keyed is not None and keyed.word != "as chosen":
        return number(keyed.word)
    if answer is None:
        return None
    if answer.word in UNMARKED_BAR:
        return UNMARKED_BAR[answer.word]
    return number(answer.words[1]) if len(answer.words) > 1 else None


def cautions_of(job: Job, fitted: Answer | None) -> list[str]:
    """What the customer has to know."""
    paint = job.newest(keys.PAINT)
    old = (
        ["Old or unknown luminous paint: not opened or tested in water."]
        if paint and paint.word != "none"
        else []
    )
    made = CAUTIONS if fitted is not None and fitted.word == HOME else ()
    return [*made, *old]


def attempt_of(own: dict[str, Any], span: Sequence[Answer]) -> dict[str, Any]:
    """One seal of the job: what its kind says of it, and how it was tested."""
    failed = newest_of(span, keys.EMPTY.found) or newest_of(span, keys.CASED.found)
    return {
        **own,
        "leak_found": failed.word if failed else None,
        "tests": [
            {key: test[key] for key in ("sitting", "method", "overpressure_bar", "result")}
            for test in tests_of(span)
            if test["counts"]
        ],
    }
