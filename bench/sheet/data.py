"""The sheet as data: what was measured, made and proved, read from the answers alone.

Invariant: nothing is computed here that an answer does not hold; a figure that was not written, or that rests
on an answer changed later, is None; no test is claimed above the pressure that was raised.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from bench.job import keys
from bench.job.corrections import corrections_of
from bench.job.endings import because, ending_of, ending_word
from bench.job.job import Answer, Job, newest_of
from bench.job.of_each_seal import as_data, known_seals
from bench.job.other_jobs import like_number, linked_number
from bench.job.renewed import renewed_in_search
from bench.job.values import number
from bench.moments import at_the_bench
from bench.seals.several import OneSeal, first_of, in_place_of
from bench.sheet.by_hand import changes_of
from bench.sheet.keyed_anew import readings_changed_of
from bench.sheet.one_seal import further_data, present_tests, seal_data
from bench.sheet.proofs import covers, limits_of, not_tested, retest_of
from bench.sheet.searches import searches_of
from rules.testing.pressure import UNFIGURED_MARKING_BAR

NOT_ORIGINAL = "not_original"
CAUTIONS = {
    NOT_ORIGINAL: "Gasket made in this workshop, not an original part.",
    "test_again": "Water resistance does not last for ever: "
    "have it tested again {when}, and whenever the watch was opened.",
    "hot_water": "Keep it out of hot water and steam; do not move the crown or a pusher in water.",
}
"""What a watch with a seal of this workshop is handed back with (common practice, no source)."""
SOON, BEFORE_WATER, IN_A_YEAR = (
    "soon, before it meets water (it was tested while the seal was settling)",
    "before it meets water (no test of the finished watch stands)",
    "in a year",
)
"""When a watch is tested again."""
OLD_PAINT = "Luminous paint old, or of unknown age: it may hold radium; do not open."
WORDS_ONLY = "words_only"
"""The case says water-resistant, and no figure."""
UNMARKED_BAR = {"nothing": None, WORDS_ONLY: UNFIGURED_MARKING_BAR}
"""Markings without a figure, as a pressure."""


def sheet_data(job: Job, *, finished: bool, shop_name: str = "", tester_number: str = "") -> dict[str, Any]:
    """The sheet of a job; every key is always there, None or empty where nothing is known."""
    first = first_of(job)
    own, spans, seal = seal_data(first), first.job.attempt_spans(), first.seal
    proofs = proofs_of(job, seal.short)
    ended = ending_of(job, seal.endings) if finished else None
    made = in_place_of(job)
    return {
        "job": job.head.job,
        "finished": finished,
        "attempt": own["attempt"],
        "watch": text_of(job, keys.WATCH),
        "remark": text_of(job, keys.REMARK),
        "papers_in": text_of(job, keys.PAPERS_IN),
        "like": like_number(job),
        "linked": linked_number(job),
        **own,
        "further_seals": further_data(job),
        **seals_beside(spans[-1], tuple(one.closes for one in made)),
        "searches": searches_of(spans[-1], seal.short, seal.joint(first.job)),
        **proofs,
        **cautions_of(job, proofs, made),
        "old_paint": old_paint(job),
        "corrections": corrections_of(spans, seal.fitting),
        "readings_changed": readings_changed_of(spans),
        "changed_by_hand": changes_of(job),
        **beside_of(job),
        "ended": ending_word(ended) if ended else None,
        "ended_because": because(job, ended, seal.reasons) if ended else None,
        "as_of": as_of(job),
        "shop_name": shop_name,
        "tester_number": tester_number,
    }


def seals_beside(now: Sequence[Answer], own: Sequence[str]) -> dict[str, Any]:
    """Which other seals are new, and what is known of every seal of the watch."""
    renewed = newest_of(now, keys.RENEWED)
    return {
        "renewed": renewed.word if renewed else None,
        "renewed_in_search": [one for one in renewed_in_search(now) if one not in own],
        "seals_of_watch": as_data(known_seals(now, own)),
    }


def beside_of(job: Job) -> dict[str, list[Any]]:
    """What stands beside the answers: from which copies it was joined, notes for all and for the shop."""
    return {
        "joined_from": [list(mark.words[::2]) for mark in job.marks if mark.key == keys.JOINED],
        "notes": [note.word for note in job.notes if note.key != keys.SHOP_NOTE],
        "shop_notes": [note.word for note in job.notes if note.key == keys.SHOP_NOTE],
    }


def proofs_of(job: Job, seal: str) -> dict[str, Any]:
    """The tests of the seal in the case, what they reach of the marking, and what they leave unproved."""
    tests = present_tests(job)
    marking, word = marking_bar(job), marking_word(job)
    covered = any(covers(test, marking) for test in tests)
    limits = limits_of(tests, marking, worded=word == WORDS_ONLY, covered=covered)
    return {
        "tests": tests,
        "marking": word,
        "marking_bar": marking,
        "marking_tested": covered,
        "not_tested": not_tested(limits, seal),
        "limits": limits,
        "retest": retest_of(tests),
        "retest_soon": "early_only" in limits,
    }


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


def marking_word(job: Job) -> str | None:
    """What the case says, as chosen, or `figure` where one was keyed; None where it was not asked."""
    keyed = job.fresh(keys.MARKING_KEYED, (keys.MARKING,))
    if keyed is not None and keyed.word != "as chosen":
        return "figure"
    return text_of(job, keys.MARKING)


def old_paint(job: Job) -> bool:
    """Whether the luminous paint is old, or of an age not known."""
    paint = job.newest(keys.PAINT)
    return paint is not None and paint.word != "none"


def cautions_of(job: Job, proofs: dict[str, Any], made: Sequence[OneSeal]) -> dict[str, list[str]]:
    """What the watch is handed back with, in words and by name; a bought seal was not made here."""
    when = SOON if proofs["retest_soon"] else IN_A_YEAR if proofs["retest"] else BEFORE_WATER
    put_in = [one for one in made if one.in_place]
    told = {**(CAUTIONS if put_in else {}), **({"old_paint": OLD_PAINT} if old_paint(job) else {})}
    if all(one.seal.bought(one.job) for one in put_in):
        told.pop(NOT_ORIGINAL, None)
    return {"cautions": [text.format(when=when) for text in told.values()], "caution_names": list(told)}


def as_of(job: Job) -> str | None:
    """When it was handed back, or the last answer was given, on the clock of the bench."""
    about_it = (one for one in reversed(job.answers) if one.key != keys.PAPERS_IN)
    answer = job.newest(keys.HAND_BACK) or next(about_it, None)
    return at_the_bench(answer.at, answer.at) if answer else None
