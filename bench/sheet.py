"""The sheet as data: what was measured, made and proved, read from the answers alone.

Invariant: nothing is computed here that an answer does not hold; a figure that was not written is None, and no
test is claimed above the pressure that was raised.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from bench.job import Answer, Job
from bench.stages.common import named, number, said
from bench.steps import Words

CAUTIONS = (
    "Gasket made in this workshop, not an original part.",
    "Water resistance does not last for ever: have it tested again in a year, and whenever the watch was opened.",
    "Keep it out of hot water and steam; do not move the crown or a pusher in water.",
)
"""What the customer is told (common practice, no source)."""
UNMARKED_BAR = {"nothing": None, "words_only": 2.0}


def sheet_data(job: Job, *, finished: bool) -> dict[str, Any]:
    """The sheet of a job; every key is always there, None or empty where nothing is known."""
    spans = job.attempt_spans()
    now = spans[-1]
    ring = newest(job.answers, "ring")
    outcome = newest(now, "fit_outcome")
    tests = tests_of(now)
    marking = marking_bar(job)
    covered = any(covers(test, marking) for test in tests)
    return {
        "job": job.head.job,
        "finished": finished,
        "attempt": job.attempt,
        "watch": text_of(job, "watch"),
        "remark": text_of(job, "remark"),
        "measured": {
            "case_bore": measured_of(ring, "seat"),
            "glass": measured_of(ring, "glass"),
        },
        "ring": ring_of(ring),
        "made": made_of(now, outcome),
        "fitting": fitting_of(outcome),
        "renewed": text_of(job, "renewed"),
        "tests": tests,
        "marking_bar": marking,
        "marking_tested": covered,
        "not_tested": not_tested(tests, marking, covered=covered),
        "cautions": cautions_of(job),
        "attempts": [attempt_of(n, span) for n, span in enumerate(spans, 1)],
        "notes": [note.word for note in job.notes],
        "ended": ended_of(job),
        "made_by": said(ring.words, "by") if ring else None,
    }


def newest(answers: Sequence[Answer], key: str) -> Answer | None:
    """The newest answer to a key among some answers."""
    return next((answer for answer in reversed(answers) if answer.key == key), None)


def text_of(job: Job, key: str) -> str | None:
    """The word of the newest answer, None where it was not asked or left as usual."""
    answer = job.newest(key)
    return answer.word if answer else None


def measured_of(ring: Answer | None, name: str) -> dict[str, float | int | None]:
    """What a diameter was when the ring was decided."""
    words: Words = ring.words if ring else ()
    count = named(words, f"{name}_n")
    return {
        "mean_mm": named(words, name),
        "u_mm": named(words, f"{name}_u"),
        "ovality_mm": named(words, f"{name}_oval"),
        "n": int(count) if count is not None else None,
    }


def ring_of(ring: Answer | None) -> dict[str, float | str | None]:
    """The ring as it was accepted."""
    words: Words = ring.words if ring else ()
    outside, bore = named(words, "outside"), named(words, "bore")
    wall = round((outside - bore) / 2, 4) if outside is not None and bore is not None else None
    return {
        "outside_diameter_mm": outside,
        "bore_mm": bore,
        "height_mm": named(words, "height"),
        "wall_mm": wall,
        "chamfer_mm": named(words, "chamfer"),
        "lower_chamfer_mm": named(words, "lower_chamfer"),
        "plastic": said(words, "plastic") or None,
    }


def made_of(answers: Sequence[Answer], outcome: Answer | None) -> dict[str, Any]:
    """The ring as it was measured before pressing."""
    heights = [answer for answer in answers if answer.key.startswith("ring_height")]
    words: Words = outcome.words if outcome else ()
    walls = said(words, "walls").removesuffix(" mm").split()
    return {
        "wall_mm": [float(wall) for wall in walls],
        "height_mm": number(heights[-1].word) if heights else None,
        "squeeze_pct": named(words, "squeeze"),
        "squeeze_u_pct": named(words, "squeeze_u"),
        "decision": said(words, "decision") or None,
    }


def fitting_of(outcome: Answer | None) -> dict[str, str | None]:
    """What happened under the press, and when it was home."""
    if outcome is None:
        return {"outcome": None, "at": None}
    at = outcome.words[1] if outcome.word == "home" and len(outcome.words) > 1 else None
    return {"outcome": outcome.word, "at": at}


def tests_of(answers: Sequence[Answer]) -> list[dict[str, Any]]:
    """Every test of this ring in the order in which it was made."""
    fitted = newest(answers, "fit_outcome")
    since = fitted.words[1] if fitted and len(fitted.words) > 1 else ""
    return [
        test_of(answer, since)
        for answer in answers
        if answer.key in ("empty_result", "cased_result") and (fitted is None or answer.n > fitted.n)
    ]


def test_of(answer: Answer, fitted_at: str) -> dict[str, Any]:
    """One test from the words of its result."""
    words = answer.words
    stamp = words[1] if len(words) > 1 else ""
    hours = hours_between(fitted_at, stamp)
    return {
        "sitting": answer.key.partition("_")[0],
        "method": said(words, "method") or None,
        "overpressure_bar": named(words, "pressure"),
        "minutes": named(words, "held"),
        "timed": said(words, "timed") or None,
        "temperature_c": named(words, "temperature"),
        "result": answer.word,
        "leak": leak_of(words),
        "at": stamp or None,
        "early": hours is not None and hours < 12,
    }


def leak_of(words: Words) -> dict[str, float | str | None] | None:
    """The leak rate that was worked out for a test, None where none was."""
    rate = named(words, "leak")
    if rate is None:
        return None
    return {
        "rate_ug_min": rate,
        "low_ug_min": named(words, "leak_low"),
        "high_ug_min": named(words, "leak_high"),
        "decision": said(words, "leak_decision") or None,
        "law": said(words, "leak_law") or None,
    }


def hours_between(start: str, end: str) -> float | None:
    """Hours from one UTC text to another; None where either is missing."""
    from datetime import datetime

    try:
        return (datetime.fromisoformat(end) - datetime.fromisoformat(start)).total_seconds() / 3600
    except ValueError:
        return None


def marking_bar(job: Job) -> float | None:
    """What the case says, bar over the atmosphere; None when nothing is marked or it was not asked."""
    answer = job.newest("marking")
    keyed = job.fresh("marking_keyed", ("marking",))
    if keyed is not None:
        return number(keyed.word)
    if answer is None:
        return None
    if answer.word in UNMARKED_BAR:
        return UNMARKED_BAR[answer.word]
    return number(answer.words[1]) if len(answer.words) > 1 else None


def covers(test: dict[str, Any], marking: float | None) -> bool:
    """Whether a passed test of the cased watch reached the marking."""
    raised = test["overpressure_bar"]
    if marking is None or raised is None or test["sitting"] != "cased" or test["result"] != "pass":
        return False
    return bool(raised >= marking - 1e-9)


def not_tested(tests: Sequence[dict[str, Any]], marking: float | None, *, covered: bool) -> list[str]:
    """What the tests do not prove, each as a sentence."""
    said_so = []
    if marking is not None and not covered:
        said_so.append(f"The marking {marking:g} bar was not tested.")
    cased = [test for test in tests if test["sitting"] == "cased" and test["result"] == "pass"]
    if not cased:
        said_so.append("The cased watch has not passed a test.")
    if not any(test["method"] in ("water_overpressure", "shallow_immersion") for test in cased):
        said_so.append("It was not tested in water.")
    raised = [test["overpressure_bar"] for test in cased if test["overpressure_bar"] is not None]
    if raised:
        said_so.append(f"Nothing is said of pressures above {max(raised):g} bar.")
    return said_so


def cautions_of(job: Job) -> list[str]:
    """What the customer has to know."""
    paint = job.newest("paint")
    old = (
        ["Old or unknown luminous paint: not opened or tested in water."]
        if paint and paint.word != "none"
        else []
    )
    return [*CAUTIONS, *old]


def attempt_of(n: int, span: Sequence[Answer]) -> dict[str, Any]:
    """One ring of the job: its sizes and what became of it."""
    ring = newest(span, "ring")
    outcome = newest(span, "fit_outcome")
    spoiled = newest(span, "spoiled") or newest(span, "fresh_ring")
    result = outcome.word if outcome else "spoiled" if spoiled else None
    failed = newest(span, "empty_found") or newest(span, "cased_found")
    return {
        "attempt": n,
        "bore_mm": named(ring.words, "bore") if ring else None,
        "outside_diameter_mm": named(ring.words, "outside") if ring else None,
        "outcome": result,
        "leak_found": failed.word if failed else None,
    }


def ended_of(job: Job) -> str | None:
    """How a job ended that did not end with a tested watch."""
    for key in ("not_this_ring", "no_ring", "cannot_turn", "remake", "empty_found", "cased_found"):
        answer = job.newest(key)
        if answer and answer.word in ("closed", "hand_back") and answer.n == max(a.n for a in job.answers):
            return f"{key}: {answer.word}"
    return None
