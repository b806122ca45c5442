"""What the sheet's data hold of the straight ring:
measured, decided, turned, made, fitted, and the rings before it.

Invariant: nothing is computed here that an answer does not hold;
a figure that was not written, or whose readings were changed later, is None.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from typing import Any

from bench.job import keys
from bench.job.corrections import outcome
from bench.job.job import Answer, Job, newest_of
from bench.job.kept import HOME
from bench.job.steps import Words
from bench.job.values import named, named_text, number, several
from bench.seals.ring.hand_steps import NEW
from bench.seals.ring.kind import FITTING
from bench.seals.ring.record import record
from bench.seals.ring.spares import spares_data
from rules.measuring.reading import RING_HEIGHTS_AGREE_MM
from rules.turning import operations

MEASURED_BY = keys.readings_of(
    *(keys.CASE_BORE, keys.GLASS, keys.SEAT_WAY, keys.GLASS_WAY, keys.TEMPERATURE, keys.MEASURE_AGAIN),
    *(keys.PLUG_ENTERS, keys.PLUG_STAYS_OUT, keys.PLUG_STAYS_OUT_AGAIN),
)
"""Keys of the answers that the measured diameters rest on."""
WALL = keys.readings_of(keys.WALL)
HEIGHT = keys.readings_of(keys.RING_HEIGHT)


def ring_data(job: Job) -> dict[str, Any]:
    """The ring's own keys of the sheet's data."""
    spans = job.attempt_spans()
    now = spans[-1]
    decided, ring = newest_of(job.answers, keys.RING), newest_of(now, keys.RING)
    pressed = outcome(now, FITTING)
    measured = decided if decided and not changed(job, decided, MEASURED_BY) else None
    return {
        "measured": {
            "case_bore": measured_of(measured, "seat"),
            "glass": measured_of(measured, "glass"),
        },
        "ring": ring_of(ring, now),
        "expected": expected_of(ring),
        "at_hand": at_hand_of(ring),
        "turned": {**turned_of(spans if not bought(ring) else ()), **spares_data(job)},
        "made": (made := made_of(job, now, ring, pressed)),
        "on_the_ring": on_the_ring(now, ring, made),
        "fitting": fitting_of(pressed),
        "gap_believed_mm": named(measured.words, "gap") if measured else None,
        "attempts": [attempt_of(n, span, over=n < len(spans)) for n, span in enumerate(spans, 1)],
        "made_by": named_text(decided.words, "by") if decided else None,
        **record(spans),
    }


def changed(job: Job, since: Answer, keys: re.Pattern[str]) -> bool:
    """Whether an answer that something rests on was given, or changed by hand, after it."""
    return any(
        (answer.n > since.n or (answer.accepted > since.n and job.newest(answer.key) is answer))
        and keys.fullmatch(answer.key)
        for answer in job.answers
    )


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
    """The ring of this attempt as it was accepted, or with the smaller bore that kept its wall; of a bought
    one wall and height alone, as nothing else was planned or measured.
    """
    words: Words = ring.words if ring else ()
    outside, bore = named(words, "outside"), named(words, "bore")
    past = newest_of(now, keys.PAST_OUTSIDE)
    if ring and past and past.n > ring.n and past.word == "smaller_bore":
        outside, bore = outside_read(now, past.n), named(past.words, "bore")
    wall = round((outside - bore) / 2, 4) if outside is not None and bore is not None else None
    planned = {
        "outside_diameter_mm": outside,
        "bore_mm": bore,
        "chamfer_mm": named(words, "chamfer"),
        "lower_chamfer_mm": named(words, "lower_chamfer"),
    }
    return {
        **(dict.fromkeys(planned) if bought(ring) else planned),
        "height_mm": planned_height(ring, now),
        "wall_mm": wall,
        "plastic": named_text(words, "plastic") or None,
    }


def expected_of(ring: Answer | None) -> dict[str, str | float | None]:
    """What the ring was accepted to do to the bezel and to press with after ten years: where the bezel stays
    stretched, the figures with it stretched; least and most where that is open.
    """
    words: Words = ring.words if ring else ()
    return {
        "bezel": named_text(words, "bezel") or None,
        "stays_wider_mm": named(words, "stays_wider"),
        "ten_years_low_mpa": named(words, "ten_years_low"),
        "ten_years_high_mpa": named(words, "ten_years_high"),
    }


def bought(ring: Answer | None) -> bool:
    """Whether a ring was there already and was not turned for this job."""
    return ring is not None and named_text(ring.words, "at_hand") == NEW


def bought_in(job: Job) -> bool:
    """Whether the ring of this attempt is such a one."""
    return bought(newest_of(job.attempt_spans()[-1], keys.RING))


def at_hand_of(ring: Answer | None) -> dict[str, str | float | bool | None]:
    """A ring that was there: used as it is, or a used one that was measured, and whether the ring is made
    after it.
    """
    words: Words = ring.words if ring else ()
    return {
        "what": named_text(words, "at_hand") or None,
        "from": named_text(words, "from") or None,
        "used_wall_mm": named(words, "used_wall"),
        "used_height_mm": named(words, "used_height"),
        "made_after_it": named_text(words, "after") == "used",
    }


def planned_height(ring: Answer | None, now: Sequence[Answer]) -> float | None:
    """The height the ring was accepted with, or dressed to after a late correction."""
    lower = newest_of(now, keys.DRESS_LOWER)
    later = lower if lower is not None and ring is not None and lower.n > ring.n else ring
    return named(later.words, "height") if later is not None else None


def outside_read(now: Sequence[Answer], before: int) -> float | None:
    """The last reading of the outside on the bar before a place in the file."""
    read = [answer for answer in now if keys.OUTSIDE_READING in answer.key and answer.n < before]
    return number(read[-1].word) if read else None


def turned_of(spans: Sequence[Sequence[Answer]]) -> dict[str, str | float | None]:
    """Lathe, bar and what is left of it: of the set-up before where this ring is a spare of that; nothing
    without spans.
    """
    spares = (
        len(spans) > 1 and (remake := newest_of(spans[-2], keys.REMAKE)) and remake.word.startswith("spare")
    )
    begun = next(
        (
            found
            for span in reversed(spans if spares else spans[-1:])
            if (found := newest_of(span, operations.ROUGH_OUTSIDE))
        ),
        None,
    )
    words: Words = begun.words if begun else ()
    return {
        "lathe": named_text(words, "lathe") or None,
        "bar_mm": named(words, "bar"),
        "colour": named_text(words, "colour") or None,
        "left_mm": named(words, "left"),
    }


def made_of(job: Job, now: Sequence[Answer], ring: Answer | None, pressed: Answer | None) -> dict[str, Any]:
    """The ring as it was measured before pressing;
    what was decided is None once its readings were changed.
    """
    kept = pressed if pressed and ring and pressed.n > ring.n else None
    if kept and (changed(job, kept, WALL) or changed(job, kept, MEASURED_BY)):
        kept = None
    words: Words = kept.words if kept else ()
    return {
        "wall_mm": list(several(words, "walls")),
        "height_mm": height_of(now, ring),
        "squeeze_pct": named(words, "squeeze"),
        "squeeze_u_pct": named(words, "squeeze_u"),
        "decision": named_text(words, "decision") or None,
        "shut": (named_text(ring.words, "shut") or None) if kept and ring else None,
    }


def on_the_ring(now: Sequence[Answer], ring: Answer | None, made: dict[str, Any]) -> dict[str, Any]:
    """What was measured on the ring and on the bar it came from: everything else of it is as planned."""
    walls = made["wall_mm"]
    kept = newest_of(now, keys.PAST_OUTSIDE)
    final = bool(ring and kept and kept.n > ring.n and kept.word == "smaller_bore")
    read = outside_read([one for one in now if ring and one.n > ring.n], now[-1].n + 1) if now else None
    return {
        "wall_mean_mm": round(math.fsum(walls) / len(walls), 4) if walls else None,
        "outside_on_bar_mm": read,
        "outside_final": final,
    }


def height_of(now: Sequence[Answer], ring: Answer | None) -> float | None:
    """The last height keyed of this ring, None while neither the ring's own
    height nor another agrees with it.
    """
    newest: dict[str, Answer] = {}
    for answer in now:
        if HEIGHT.fullmatch(answer.key) and ring and answer.n > ring.n:
            newest[answer.key] = answer
    if ring and named_text(ring.words, "at_hand") and newest_of(now, keys.DRESS_LOWER) is None:
        return named(ring.words, "height")
    keyed = [number(answer.word) for answer in sorted(newest.values(), key=lambda one: one.n)]
    planned = planned_height(ring, now)
    others = [*keyed[:-1], *([planned] if planned is not None else [])]
    if not keyed or not any(abs(keyed[-1] - other) <= RING_HEIGHTS_AGREE_MM + 1e-9 for other in others):
        return None
    return keyed[-1]


def fitting_of(pressed: Answer | None) -> dict[str, str | None]:
    """What happened under the press, and when it was home."""
    if pressed is None:
        return {"outcome": None, "at": None}
    at = pressed.words[1] if pressed.word == HOME and len(pressed.words) > 1 else None
    return {"outcome": pressed.word, "at": at}


def attempt_of(n: int, span: Sequence[Answer], *, over: bool) -> dict[str, Any]:
    """One ring of the job: its sizes and what happened to it; `over`: another was begun after it."""
    ring, pressed = newest_of(span, keys.RING), outcome(span, FITTING)
    spoiled = over and (newest_of(span, keys.SPOILED) or newest_of(span, keys.FRESH_RING))
    sizes = ring_of(ring, span)
    return {
        "attempt": n,
        "bore_mm": sizes["bore_mm"],
        "outside_diameter_mm": sizes["outside_diameter_mm"],
        "wall_mm": sizes["wall_mm"],
        "outcome": pressed.word if pressed else "spoiled" if spoiled else None,
    }
