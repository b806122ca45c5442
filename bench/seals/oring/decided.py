"""The O-ring as it was decided upon, written into the answer and read back from it.

Invariant: everything that later stages and the sheet need of the ring stands in the words of its answer.
"""

from __future__ import annotations

from dataclasses import dataclass

from bench.job.steps import Words
from bench.job.values import named, named_text
from bench.seals.oring.measure import GrooveMeasured
from bench.version import MADE_BY
from rules.checks import fixed, size_text
from rules.oring.housing import Length, Oring
from rules.oring.judging import OringQuestion, OringSizing


@dataclass(frozen=True, slots=True)
class OringDecided:
    """An accepted ring, with what was asked for it."""

    ring: Oring
    question: OringQuestion
    place: str
    words: Words
    """As they were written."""


def decided_words(measured: GrooveMeasured, sizing: OringSizing) -> Words:
    """Everything that is decided with a ring, as it is written."""
    ring, housing, state, worst = sizing.ring, measured.housing, sizing.state, sizing.worst
    return (
        f"inside {fixed(ring.inside.mm)} mm",
        f"cord {size_text(ring.cord.mm)} mm",
        f"inside_limit {fixed(ring.inside.limit_mm, 3)} mm",
        f"cord_limit {fixed(ring.cord.limit_mm, 3)} mm",
        f"inside_by {ring.inside_by}",
        f"cord_by {ring.cord_by}",
        f"material {sizing.question.rubber}",
        f"stretch {100.0 * state.stretch:.1f} %",
        f"squeeze {100.0 * state.squeeze:.1f} %",
        f"squeeze_low {100.0 * worst.least_squeeze:.1f} %",
        f"squeeze_high {100.0 * worst.most_squeeze:.1f} %",
        f"fill {100.0 * state.fill:.0f} %",
        f"most_fill {100.0 * worst.most_fill:.0f} %",
        f"later {100.0 * state.later_cold:.1f} %",
        f"likely {100.0 * sizing.chance:.0f} %",
        f"place {measured.place}",
        f"lies {housing.lies}",
        f"moves {'moves' if housing.moving else 'still'}",
        f"groove_inner {fixed(housing.inner.mm, 3)} mm",
        f"groove_outer {fixed(housing.outer.mm, 3)} mm",
        f"groove_other {fixed(housing.other.mm, 3)} mm",
        *(() if measured.wear_mm is None else (f"wear {fixed(measured.wear_mm, 3)} mm",)),
        f"by {MADE_BY}",
    )


def ring_from(words: Words) -> Oring:
    """The ring from the words of its answer; raises ValueError where one is missing."""
    found = [named(words, name) for name in ("inside", "cord", "inside_limit", "cord_limit")]
    inside, cord, inside_limit, cord_limit = found
    if inside is None or cord is None or inside_limit is None or cord_limit is None:
        raise ValueError("the accepted ring lacks one of its sizes")
    return Oring(
        inside=Length(mm=inside, limit_mm=inside_limit),
        cord=Length(mm=cord, limit_mm=cord_limit),
        inside_by=named_text(words, "inside_by"),
        cord_by=named_text(words, "cord_by"),
    )
