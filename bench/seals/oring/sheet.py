"""What the sheet's data hold of the O-ring: its groove, the ring as accepted and as measured, how it was put
in, and those before it.

Invariant: nothing is computed here that an answer does not hold; what rests on one changed later is None.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from bench.job import keys
from bench.job.as_keyed import as_keyed, read_since
from bench.job.corrections import outcome
from bench.job.job import Answer, Job, newest_of
from bench.job.kept import HOME
from bench.job.steps import Words
from bench.job.values import named, named_text, number
from bench.seals.oring import own_keys
from bench.seals.oring.kind import BEGIN, FITTING
from bench.seals.seal import how_it_went

CORD = keys.readings_of(own_keys.CORD)
READ = {
    own_keys.INNER: "smaller diameter of the groove",
    own_keys.OUTER: "larger diameter of the groove",
    own_keys.OTHER: "depth or width of the groove",
    own_keys.BESIDE: "beside the run of the ring",
    own_keys.OLD_INSIDE: "old ring, inside",
    own_keys.OLD_HIGH: "old ring, cord as squeezed",
    own_keys.OLD_WIDE: "old ring, cord across",
    own_keys.HAND_CORD: "ring that was there, cord",
    own_keys.HAND_INSIDE: "ring that was there, inside",
    own_keys.CORD: "cord of the new ring",
    own_keys.INSIDE: "inside of the new ring",
}
"""What is read, by the key of the reading."""
GROOVE_KEYS = keys.readings_of(
    *(own_keys.INNER, own_keys.OUTER, own_keys.OTHER, own_keys.BESIDE, own_keys.CORNER),
    *(own_keys.LIES, own_keys.MOVES, own_keys.PLACE, BEGIN.measured),
)
"""Keys of the answers that the groove rests on."""


def oring_data(job: Job) -> dict[str, Any]:
    """The ring's own keys of the sheet's data."""
    spans = job.attempt_spans()
    now = spans[-1]
    last, one = newest_of(job.answers, own_keys.ACCEPTED), newest_of(now, own_keys.ACCEPTED)
    went = outcome(now, FITTING)
    return {
        "groove": groove_of(last if last and not read_since(job, last, GROOVE_KEYS) else None),
        "oring": oring_of(one),
        "measured_oring": measured_of(now, one, went),
        "put_in": put_in_of(now, went),
        "attempts": [attempt_of(n, span, over=n < len(spans)) for n, span in enumerate(spans, 1)],
        "made_by": named_text(last.words, "by") or None if last else None,
        "oring_readings": [one for n, span in enumerate(spans, 1) for one in as_keyed(n, span, READ)],
    }


def from_stock(_job: Job) -> bool:
    """An O-ring is never made here."""
    return True


def groove_of(one: Answer | None) -> dict[str, float | str | None]:
    """The groove when the ring was decided."""
    words: Words = one.words if one else ()
    return {
        "place": named_text(words, "place") or None,
        "lies": named_text(words, "lies") or None,
        "moves": named_text(words, "moves") or None,
        "inner_mm": named(words, "groove_inner"),
        "outer_mm": named(words, "groove_outer"),
        "other_mm": named(words, "groove_other"),
        "wear_mm": named(words, "wear"),
    }


def oring_of(one: Answer | None) -> dict[str, float | str | None]:
    """The ring as it was accepted."""
    words: Words = one.words if one else ()
    numbers = {
        "inside_mm": "inside",
        "cord_mm": "cord",
        "inside_limit_mm": "inside_limit",
        "cord_limit_mm": "cord_limit",
        "stretch_pct": "stretch",
        "squeeze_pct": "squeeze",
        "squeeze_low_pct": "squeeze_low",
        "squeeze_high_pct": "squeeze_high",
        "fill_pct": "fill",
        "most_fill_pct": "most_fill",
        "later_pct": "later",
        "chance_pct": "likely",
    }
    return {
        "material": named_text(words, "material") or None,
        "inside_by": named_text(words, "inside_by") or None,
        "cord_by": named_text(words, "cord_by") or None,
        **{key: named(words, name) for key, name in numbers.items()},
    }


def measured_of(now: Sequence[Answer], one: Answer | None, went: Answer | None) -> dict[str, Any]:
    """The ring as it was measured, and what that meant when it was put in."""
    since = one.n if one else 0
    newest = {a.key: a for a in now if a.n > since and (CORD.fullmatch(a.key) or a.key == own_keys.INSIDE)}
    inside = newest.pop(own_keys.INSIDE, None)
    read_at = [a.n for a in (*newest.values(), *([inside] if inside else []))]
    kept = went.words if one and went and went.n > max([since, *read_at]) else ()
    return {
        "cord_mm": [round(number(a.word), 4) for a in sorted(newest.values(), key=lambda a: a.key)],
        "inside_mm": round(number(inside.word), 4) if inside else None,
        "mean_mm": named(kept, "cord"),
        "squeeze_pct": named(kept, "squeeze"),
        "fill_pct": named(kept, "fill"),
        "off_its_band": bool(named_text(kept, "off")) if kept else None,
    }


def put_in_of(now: Sequence[Answer], went: Answer | None) -> dict[str, str | None]:
    """How putting it in went, and with what."""
    grease = newest_of(now, own_keys.GREASED)
    at = went.words[1] if went and went.word == HOME and len(went.words) > 1 else None
    return {"outcome": went.word if went else None, "at": at, "with": grease.word if grease else None}


def attempt_of(n: int, span: Sequence[Answer], *, over: bool) -> dict[str, Any]:
    """One ring of the job: its sizes and how it went; `over`: another was begun after it."""
    one = newest_of(span, own_keys.ACCEPTED)
    words: Words = one.words if one else ()
    return {
        "attempt": n,
        "oring_inside_mm": named(words, "inside"),
        "oring_cord_mm": named(words, "cord"),
        "outcome": how_it_went(span, FITTING, spoiled=BEGIN.spoiled, off=own_keys.OFF_ITS_BAND, over=over),
    }
