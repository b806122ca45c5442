"""What follows a ring that did not go home: another ring worked out from it, a spare, or another measurement.

Invariant: a ring once pressed is not used again; the ring offered is the one the sizing then proposes.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.steps import Choice, Step, Words
from bench.seals.ring.causes import fit_cause
from bench.seals.ring.decided import Decided
from bench.seals.ring.from_drawer import OWN, still_there
from bench.seals.ring.kind import MEASURE_AGAIN, NEXT_RING
from bench.seals.ring.lessons import Lessons, Tried, belief_words, tried_in
from bench.seals.ring.spares import spare_choices
from rules.checks import OutOfRange, fixed, size_text
from rules.lengths import bare, length, short, size
from rules.measuring.instruments import wall_u_mm
from rules.sizing.sizing import Sizing, size as sized
from rules.sizing.window import AGAIN

if TYPE_CHECKING:
    from bench.shop.shop import Shop

MEASURE_FIRST = ("chipped", "bezel_moved")
"""Outcomes after which something has to be measured again before another ring makes sense."""
MEASURE_FIRST_OF_ALL = Choice("measure", "measure seat and glass again first")
ADVICE = {
    "too_easy": "It went in too easily. Was it this glass, the ring the right way up, the seat dry?",
    "would_not_start": "It would not start: look at the entry chamfer; start square, moisten.",
    "shaved": "The ring was shaved: dress the burr off, cut a longer entry chamfer.",
    "chipped": "The glass chipped: fit another glass and measure that one first.",
    "bezel_moved": "The bezel moved: measure the seat again and support the bezel all round.",
}


def another_ring(job: Job, shop: Shop, decided: Decided) -> Stage[None]:
    """What follows when it did not go home:
    another ring as the sizing works it out from all that were tried, or another measurement.
    """
    yield from cause_of(job)
    tried = tried_in(job.attempt_spans()[-1], job.attempt)
    assert tried is not None, "the ring was accepted and its outcome answered in this attempt"
    following = next_ring(decided, tried, wall_u_mm(shop.instruments))
    chosen = yield from word(remake_step(job, tried, following))
    if chosen == "measure":
        yield from word(MEASURE_AGAIN)
    if chosen != "hand_back":
        yield from word(NEXT_RING)


def cause_of(job: Job) -> Stage[None]:
    """Ask what else may have been behind it; not where it was decided before this was asked."""
    fitted = job.newest(keys.FIT_OUTCOME)
    step = fit_cause(fitted.word if fitted else "")
    decided = job.fresh(keys.REMAKE, (keys.FIT_OUTCOME,))
    if step and (decided is None or job.fresh(keys.FIT_CAUSE, step.rests_on)):
        yield from word(step)


def next_ring(decided: Decided, tried: Tried, wall_u: float) -> Sizing | None:
    """The sizing of the ring after one that was tried; None where nothing is left to propose."""
    question = decided.question
    assert question is not None, "the ring was sized on this walk"
    before = replace(question, bore_mm=None, height_mm=None)
    now = Lessons((tried,)).asked(before, wall_u)
    try:
        sizing = sized(replace(now, tried=(*question.tried, *now.tried)))
    except OutOfRange:
        return None
    return None if sizing.window.shut_by_rings else sizing


def remake_step(job: Job, tried: Tried, following: Sizing | None) -> Step:
    """The page on which it is decided what comes next."""
    measure_first = tried.outcome in MEASURE_FIRST or following is None
    spares = () if measure_first or following is None else still_there(job, spare_choices(job, following))
    offers = (*((MEASURE_FIRST_OF_ALL,) if measure_first else spares), *worked_out(following))
    return Step(
        key=keys.REMAKE,
        stage="verify",
        kind="result",
        title="Not accepted: what next?",
        say=(
            f"{ADVICE[tried.outcome]} {change_words(tried, following)}",
            "A ring once pressed is not used again.",
        ),
        choices=(
            *offers,
            Choice("keep", "leave it for now", goto="jobs"),
            Choice("hand_back", "hand back without a new ring"),
        ),
        rests_on=(keys.FIT_OUTCOME, keys.FIT_CAUSE),
        looks_for=OWN if spares else (),
        waits_for="another ring",
        why=(
            "Every ring tried in this seat with this glass says something of the gap, softly: "
            "a ring at an end of the band is told wrong every second time, one far inside hardly ever. "
            "How soft is our judgement, hand_scale_pct in shop.toml. "
            "The next bore is the one with the greatest chance, given all of them."
        ),
    )


def worked_out(following: Sizing | None) -> tuple[Choice, ...]:
    """The ring worked out from those tried, as a choice; none where there is none."""
    if following is None:
        return ()
    ring = following.ring
    bore, wall = f"bore {size_text(ring.bore_mm)} mm", f"wall {fixed(ring.wall_mm, 3)} mm"
    said = f"another ring, bore {size(ring.bore_mm)} {short()}"
    sizes = (bore, wall, f"outside {fixed(ring.outside_diameter_mm)} mm")
    return (Choice("ring", said, with_it=sizes),)


def change_words(tried: Tried, following: Sizing | None) -> str:
    """The next ring beside the one tried, and what that one has taught."""
    if following is None:
        return f"No bore is left in the band for what the rings have said: {AGAIN}."
    ring, squeeze = following.ring, following.fit.nominal_squeeze_pct
    taught: Words = belief_words(following, (*_numbers(following), tried.number))
    return (
        f"Next ring: wall {length(ring.wall_mm, 3)} (this one has {bare(tried.wall_mm, 3)}), "
        f"squeeze {squeeze:.1f} %: {taught[0]}."
    )


def _numbers(sizing: Sizing) -> tuple[int, ...]:
    """Which rings count in a sizing."""
    return tuple(one.number for one in sizing.resolved.question.tried)
