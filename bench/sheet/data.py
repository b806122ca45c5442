"""The sheet as data: what was measured, made and proved, read from the answers alone.

Invariant: nothing is computed here that an answer does not hold; a figure that was not written, or that later answers
took the ground from, is None; no test is claimed above the pressure that was raised.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from bench.job import keys
from bench.job.corrections import corrections_of, outcome
from bench.job.job import Answer, Job
from bench.job.steps import Words
from bench.sheet.keyed_anew import readings_changed_of
from bench.sheet.proofs import covers, last, not_tested, retest_of, tests_of
from bench.stages.common import named, number, said

CAUTIONS = (
    "Gasket made in this workshop, not an original part.",
    "Water resistance does not last for ever: have it tested again in a year, and whenever the watch was opened.",
    "Keep it out of hot water and steam; do not move the crown or a pusher in water.",
)
"""What the customer is told (common practice, no source)."""
UNMARKED_BAR = {"nothing": None, "words_only": 2.0}
MEASURED_BY = keys.readings_of(
    *(keys.CASE_BORE, keys.GLASS, keys.SEAT_WAY, keys.GLASS_WAY, keys.TEMPERATURE, keys.MEASURE_AGAIN),
    *(keys.PLUG_ENTERS, keys.PLUG_STAYS_OUT, keys.PLUG_STAYS_OUT_AGAIN),
)
"""Keys of the answers that the measured diameters rest on."""
WALL = keys.readings_of(keys.WALL)
HEIGHT = keys.readings_of(keys.RING_HEIGHT)
HEIGHT_AGREES_MM = 0.10
ENDS = {
    keys.PAINT_GO: "stop",
    keys.NOT_THIS_RING: "closed",
    keys.ACRYLIC_ANYWAY: "no",
    keys.NO_RING: "closed",
    keys.CANNOT_TURN: "closed",
    keys.REMAKE: "hand_back",
    keys.EMPTY.found: "hand_back",
    keys.CASED.found: "hand_back",
}
"""Answers that end a job without a tested watch."""


def sheet_data(job: Job, *, finished: bool, shop_name: str = "", tester_number: str = "") -> dict[str, Any]:
    """The sheet of a job; every key is always there, None or empty where nothing is known."""
    spans = job.attempt_spans()
    now = spans[-1]
    decided, ring = last(job.answers, keys.RING), last(now, keys.RING)
    pressed = outcome(now)
    tests = tests_of(now)
    marking = marking_bar(job)
    covered = any(covers(test, marking) for test in tests)
    measured = decided if decided and not changed(job, decided, MEASURED_BY) else None
    return {
        "job": job.head.job,
        "finished": finished,
        "attempt": job.attempt,
        "watch": text_of(job, keys.WATCH),
        "remark": text_of(job, keys.REMARK),
        "measured": {
            "case_bore": measured_of(measured, "seat"),
            "glass": measured_of(measured, "glass"),
        },
        "ring": ring_of(ring, now),
        "turned": turned_of(spans),
        "made": made_of(job, now, ring, pressed),
        "fitting": fitting_of(pressed),
        "renewed": renewed.word if (renewed := last(now, keys.RENEWED)) else None,
        "tests": tests,
        "marking_bar": marking,
        "marking_tested": covered,
        "not_tested": not_tested(tests, marking, covered=covered),
        "retest": retest_of(tests),
        "cautions": cautions_of(job, pressed),
        "attempts": [attempt_of(n, span) for n, span in enumerate(spans, 1)],
        "corrections": corrections_of(spans),
        "readings_changed": readings_changed_of(spans),
        "notes": [note.word for note in job.notes],
        "ended": ended_of(job) if finished else None,
        "made_by": said(decided.words, "by") if decided else None,
        "shop_name": shop_name,
        "tester_number": tester_number,
    }


def text_of(job: Job, key: str) -> str | None:
    """The word of the newest answer, None where it was not asked or left as usual."""
    answer = job.newest(key)
    return answer.word if answer else None


def changed(job: Job, since: Answer, keys: re.Pattern[str]) -> bool:
    """Whether an answer that something rests on was given after it."""
    return any(answer.n > since.n and keys.fullmatch(answer.key) for answer in job.answers)


def measured_of(ring: Answer | None, name: str) -> dict[str, float | int | None]:
    """What a diameter was when the ring was decided; None once a reading was changed after it."""
    words: Words = ring.words if ring else ()
    readings = named(words, f"{name}_n")
    return {
        "mean_mm": named(words, name),
        "u_mm": named(words, f"{name}_u"),
        "ovality_mm": named(words, f"{name}_oval"),
        "n": int(readings) if readings is not None else None,
    }


def ring_of(ring: Answer | None, now: Sequence[Answer]) -> dict[str, float | str | None]:
    """The ring of this attempt as it was accepted, or with the smaller bore that kept its wall."""
    words: Words = ring.words if ring else ()
    outside, bore = named(words, "outside"), named(words, "bore")
    past = last(now, keys.PAST_OUTSIDE)
    if ring and past and past.n > ring.n and past.word == "smaller_bore":
        outside, bore = outside_read(now, past.n), named(past.words, "bore")
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


def outside_read(now: Sequence[Answer], before: int) -> float | None:
    """The last reading of the outside on the bar before a place in the file."""
    read = [answer for answer in now if keys.OUTSIDE_READING in answer.key and answer.n < before]
    return number(read[-1].word) if read else None


def turned_of(spans: Sequence[Sequence[Answer]]) -> dict[str, str | float | None]:
    """Lathe and bar of this ring: of the set-up before it where it is a spare of that."""
    spares = len(spans) > 1 and (remake := last(spans[-2], keys.REMAKE)) and remake.word.startswith("spare")
    begun = next(
        (
            found
            for span in reversed(spans if spares else spans[-1:])
            if (found := last(span, "rough_outside"))
        ),
        None,
    )
    words: Words = begun.words if begun else ()
    return {
        "lathe": said(words, "lathe") or None,
        "bar_mm": named(words, "bar"),
        "colour": said(words, "colour") or None,
    }


def made_of(job: Job, now: Sequence[Answer], ring: Answer | None, pressed: Answer | None) -> dict[str, Any]:
    """The ring as it was measured before pressing; what was decided is None once its readings were changed."""
    kept = pressed if pressed and ring and pressed.n > ring.n else None
    if kept and (changed(job, kept, WALL) or changed(job, kept, MEASURED_BY)):
        kept = None
    words: Words = kept.words if kept else ()
    walls = said(words, "walls").removesuffix(" mm").split()
    return {
        "wall_mm": [float(wall) for wall in walls],
        "height_mm": height_of(now, ring),
        "squeeze_pct": named(words, "squeeze"),
        "squeeze_u_pct": named(words, "squeeze_u"),
        "decision": said(words, "decision") or None,
    }


def height_of(now: Sequence[Answer], ring: Answer | None) -> float | None:
    """The last height keyed of this ring, None while neither the ring's own height nor another agrees with it."""
    newest: dict[str, Answer] = {}
    for answer in now:
        if HEIGHT.fullmatch(answer.key) and ring and answer.n > ring.n:
            newest[answer.key] = answer
    keyed = [number(answer.word) for answer in sorted(newest.values(), key=lambda one: one.n)]
    planned = named(ring.words, "height") if ring else None
    others = [*keyed[:-1], *([planned] if planned is not None else [])]
    if not keyed or not any(abs(keyed[-1] - other) <= HEIGHT_AGREES_MM + 1e-9 for other in others):
        return None
    return keyed[-1]


def fitting_of(pressed: Answer | None) -> dict[str, str | None]:
    """What happened under the press, and when it was home."""
    if pressed is None:
        return {"outcome": None, "at": None}
    at = pressed.words[1] if pressed.word == "home" and len(pressed.words) > 1 else None
    return {"outcome": pressed.word, "at": at}


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
    made = CAUTIONS if fitted is not None and fitted.word == "home" else ()
    return [*made, *old]


def attempt_of(n: int, span: Sequence[Answer]) -> dict[str, Any]:
    """One ring of the job: its sizes, what became of it and how it was tested."""
    ring, pressed = last(span, keys.RING), outcome(span)
    spoiled = last(span, keys.SPOILED) or last(span, keys.FRESH_RING)
    sizes = ring_of(ring, span)
    failed = last(span, keys.EMPTY.found) or last(span, keys.CASED.found)
    return {
        "attempt": n,
        "bore_mm": sizes["bore_mm"],
        "outside_diameter_mm": sizes["outside_diameter_mm"],
        "outcome": pressed.word if pressed else "spoiled" if spoiled else None,
        "leak_found": failed.word if failed else None,
        "tests": [
            {key: test[key] for key in ("sitting", "method", "overpressure_bar", "result")}
            for test in tests_of(span)
            if test["counts"]
        ],
    }


def ended_of(job: Job) -> str | None:
    """How a finished job ended that did not end with a watch handed back as tested."""
    ends = [answer for key, word in ENDS.items() if (answer := job.newest(key)) and answer.word == word]
    final = max(ends, key=lambda answer: answer.n, default=None)
    if final is None or final.n < job.newest_n(keys.HAND_BACK):
        return None
    return f"{final.key}: {final.word}"
