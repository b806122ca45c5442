"""What follows a ring that did not go home: another ring worked out from it, a spare, or another measurement.

Invariant: a ring once pressed is not used again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.steps import Choice, Step
from bench.seals.ring.kind import MEASURE_AGAIN, NEXT_RING
from bench.seals.ring.lessons import tried_in
from bench.seals.ring.spares import spare_choices
from rules.checks import fixed, size_text
from rules.ring import Ring
from rules.sizing.next_ring import NextRing

if TYPE_CHECKING:
    from bench.shop.shop import Shop

MEASURE_FIRST = ("chipped", "bezel_moved")
"""Outcomes after which something has to be measured again before another ring makes sense."""


MEASURE_FIRST_OF_ALL = Choice("measure", "measure seat and glass again first")


def worked_out(change: NextRing, outside_mm: float) -> tuple[Choice, ...]:
    """The ring worked out from the one tried, as a choice; none where there is no room for a change."""
    if change.bore_mm is None:
        return ()
    bore, wall = f"bore {size_text(change.bore_mm)} mm", f"wall {fixed(change.wall_mm or 0.0, 3)} mm"
    sizes = (bore, wall, f"outside {fixed(outside_mm)} mm")
    return (Choice("ring", f"another ring, {bore}", with_it=sizes),)


def another_ring(job: Job, shop: Shop, ring: Ring) -> Stage[None]:
    """What follows when it did not go home:
    another ring as worked out from this one, or another measurement.
    """
    tried = tried_in(job.attempt_spans()[-1])
    assert tried is not None, "the ring was accepted and its outcome answered in this attempt"
    outcome, outside = tried.outcome, tried.decided.ring.outside_diameter_mm
    change = tried.next(outside_mm=outside, step_mm=shop.lathes[0].cross.step_on_diameter_mm)
    measure_first = outcome in MEASURE_FIRST or change.bore_mm is None
    spares = () if measure_first else spare_choices(job, ring, too_easy=outcome == "too_easy")
    offers = (*((MEASURE_FIRST_OF_ALL,) if measure_first else spares), *worked_out(change, outside))
    decided = yield from word(
        Step(
            key=keys.REMAKE,
            stage="verify",
            kind="result",
            title="Not accepted: what next?",
            say=(change.words, "A ring once pressed is not used again."),
            choices=(
                *offers,
                Choice("keep", "leave it for now", goto="jobs"),
                Choice("hand_back", "hand back without a new ring"),
            ),
            rests_on=(keys.FIT_OUTCOME,),
            waits_for="another ring",
            why=(
                "From the wall as measured half the way to the end of the band, "
                "at least 0.02 mm on the bore: our judgement, no source. "
                "The bore is the outside less twice that wall."
            ),
        )
    )
    if decided == "measure":
        yield from word(MEASURE_AGAIN)
    if decided != "hand_back":
        yield from word(NEXT_RING)
