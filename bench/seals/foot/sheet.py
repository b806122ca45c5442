"""What the sheet's data hold of the ring with a foot: what they hold of a straight ring, and of its foot.

Invariant: nothing is computed here that an answer does not hold; a figure that was not written is None.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from bench.job import keys
from bench.job.as_keyed import as_keyed
from bench.job.job import Answer, Job, newest_of
from bench.job.steps import Words
from bench.job.values import named, named_text, number
from bench.seals.foot import own_keys
from bench.seals.foot.within import seen
from bench.seals.ring.sheet import ring_data

THICKNESS = keys.readings_of(own_keys.THICKNESS)
READ = {
    own_keys.LEDGE: "inside of the ledge",
    own_keys.EDGE: "height of the glass at its edge",
    own_keys.BEVEL: "lower bevel of the glass",
    own_keys.STANDS_BY: "edge of the glass over or under the rim",
    own_keys.THROUGH: "what stands or turns within the foot",
    own_keys.THICKNESS: "thickness of the foot",
}
"""What is read for the foot besides, by the key of the reading."""


def foot_data(job: Job) -> dict[str, Any]:
    """Its own keys of the sheet's data."""
    spans = job.attempt_spans()
    return {
        **ring_data(seen(job)),
        "foot": foot_of(spans[-1], newest_of(spans[-1], own_keys.ACCEPTED)),
        "foot_readings": [one for n, span in enumerate(spans, 1) for one in as_keyed(n, span, READ)],
    }


def foot_of(now: Sequence[Answer], one: Answer | None) -> dict[str, Any]:
    """The foot as it was accepted, and as it was measured."""
    words: Words = one.words if one else ()
    made = made_of(now, one)
    return {
        "thickness_mm": named(words, "foot"),
        "inside_mm": named(words, "foot_bore"),
        "ledge_mm": named(words, "ledge"),
        "corner_mm": named(words, "corner"),
        "carries": named_text(words, "carries") or None,
        "stands_over_mm": named(words, "stands_over"),
        "load_n": named(words, "load"),
        "bears_mpa": named(words, "bears"),
        "sinks_mm": named(words, "sinks"),
        "sinks_years_mm": named(words, "sinks_years"),
        "clamp_presses_mpa": named(words, "clamp_presses"),
        "measured_mm": made,
        "mean_mm": round(math.fsum(made) / len(made), 4) if made else None,
    }


def made_of(now: Sequence[Answer], one: Answer | None) -> list[float]:
    """The thickness of the foot as it was measured, place by place."""
    since = one.n if one else 0
    newest = {a.key: a for a in now if one and a.n > since and THICKNESS.fullmatch(a.key)}
    return [round(number(a.word), 4) for a in sorted(newest.values(), key=lambda a: a.key)]
