"""What the sheet's data hold of the flat gasket: its room, the gasket as accepted and as made, how it was
closed, and those before it.

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
from bench.seals.gasket import own_keys
from bench.seals.gasket.kind import BEGIN, FITTING
from bench.seals.seal import how_it_went
from rules.gasket.materials import READY

THICKNESS = keys.readings_of(own_keys.THICKNESS)
READ = {
    own_keys.OUTSIDE: "outer wall of the room",
    own_keys.INSIDE: "inner wall of the room",
    own_keys.DEPTH: "depth of the room",
    own_keys.STANDS_BY: "rib or hollow of the lid",
    own_keys.CLOSED: "height between the faces, as wanted",
    own_keys.THREAD: "thread",
    own_keys.SHEET: "sheet",
    own_keys.THICKNESS: "thickness of the gasket",
    own_keys.WIDTH: "width of the gasket",
}
"""What is read, by the key of the reading."""
ROOM_KEYS = keys.readings_of(
    *(own_keys.OUTSIDE, own_keys.INSIDE, own_keys.DEPTH, own_keys.STANDS_OVER, own_keys.STANDS_BY),
    *(own_keys.CLOSED, own_keys.MEETS, own_keys.SHAPE, own_keys.JOINT, BEGIN.measured),
)
"""Keys of the answers that the room rests on."""


def gasket_data(job: Job) -> dict[str, Any]:
    """The gasket's own keys of the sheet's data."""
    spans = job.attempt_spans()
    now = spans[-1]
    last, one = newest_of(job.answers, own_keys.ACCEPTED), newest_of(now, own_keys.ACCEPTED)
    laid = outcome(now, FITTING)
    return {
        "room": room_of(last if last and not read_since(job, last, ROOM_KEYS) else None),
        "gasket": gasket_of(one),
        "made_gasket": made_of(now, one, laid),
        "laid": laid_of(now, laid),
        "attempts": [attempt_of(n, span, over=n < len(spans)) for n, span in enumerate(spans, 1)],
        "made_by": named_text(last.words, "by") or None if last else None,
        "gasket_readings": [one for n, span in enumerate(spans, 1) for one in as_keyed(n, span, READ)],
    }


def from_stock(job: Job) -> bool:
    """Whether the gasket of this attempt was not made here."""
    one = newest_of(job.attempt_spans()[-1], own_keys.ACCEPTED)
    return one is not None and named_text(one.words, "way") == READY


def room_of(one: Answer | None) -> dict[str, float | str | None]:
    """The room when the gasket was decided."""
    words: Words = one.words if one else ()
    return {
        "joint": named_text(words, "joint") or None,
        "closes": named_text(words, "closes") or None,
        "outside_mm": named(words, "room_outside"),
        "inside_mm": named(words, "room_inside"),
        "height_mm": named(words, "room_height"),
    }


def gasket_of(one: Answer | None) -> dict[str, float | str | None]:
    """The gasket as it was accepted."""
    words: Words = one.words if one else ()
    return {
        "outside_mm": named(words, "outside"),
        "inside_mm": named(words, "inside"),
        "thickness_mm": named(words, "thickness"),
        "material": named_text(words, "material") or None,
        "way": named_text(words, "way") or None,
        "squeeze_pct": named(words, "squeeze"),
        "fill_pct": named(words, "fill"),
        "takes_low_n": named(words, "takes_low"),
        "takes_high_n": named(words, "takes_high"),
        "given_low_n": named(words, "given_low"),
        "given_high_n": named(words, "given_high"),
        "chance_pct": named(words, "likely"),
    }


def made_of(now: Sequence[Answer], one: Answer | None, laid: Answer | None) -> dict[str, Any]:
    """The gasket as it was measured, and what its thickness meant when the lid was closed."""
    since = one.n if one else 0
    newest = {
        a.key: a for a in now if a.n > since and (THICKNESS.fullmatch(a.key) or a.key == own_keys.WIDTH)
    }
    width = newest.pop(own_keys.WIDTH, None)
    kept = laid.words if one and laid and laid.n > max([since, *(a.n for a in newest.values())]) else ()
    return {
        "thickness_mm": [round(number(a.word), 4) for a in sorted(newest.values(), key=lambda a: a.key)],
        "width_mm": round(number(width.word), 4) if width else None,
        "mean_mm": named(kept, "thickness"),
        "squeeze_pct": named(kept, "squeeze"),
        "fill_pct": named(kept, "fill"),
        "off_its_band": bool(named_text(kept, "off")) if kept else None,
    }


def laid_of(now: Sequence[Answer], laid: Answer | None) -> dict[str, str | None]:
    """How closing the lid went, and what kept it from dragging the gasket."""
    drags = newest_of(now, own_keys.LID_DRAGS)
    at = laid.words[1] if laid and laid.word == HOME and len(laid.words) > 1 else None
    return {"outcome": laid.word if laid else None, "at": at, "lid": drags.word if drags else None}


def attempt_of(n: int, span: Sequence[Answer], *, over: bool) -> dict[str, Any]:
    """One gasket of the job: its sizes and how it went; `over`: another was begun after it."""
    one = newest_of(span, own_keys.ACCEPTED)
    return {
        "attempt": n,
        **{f"gasket_{name}": value for name, value in gasket_of(one).items() if name.endswith("_mm")},
        "outcome": how_it_went(span, FITTING, spoiled=BEGIN.spoiled, off=own_keys.OFF_ITS_BAND, over=over),
    }
