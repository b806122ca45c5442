"""A ring whose measured walls lie outside its band: another one first, or this one all the same.

Invariant: nothing is asked of a ring whose interval reaches into the band.
"""

from __future__ import annotations

from bench.job import keys
from bench.job.job import Job
from bench.job.steps import Choice, Step, Words
from rules.sizing.decision import RingDecision

OFF_WORDS = {
    "loose": "Pressed in, it would hold the glass by too little, and may leak. Another ring costs less.",
    "tight": "Pressed in, it may be shaved, or crack glass or bezel. Another ring costs less.",
}


def off_band(job: Job, decision: RingDecision, walls: Words) -> bool:
    """Whether it is asked what next with a ring outside its band; not of one that was pressed without it,
    nor of one without readings here, of which it was asked before.
    """
    live = (keys.ATTEMPT, keys.RING, keys.RING_HEIGHT, *walls)
    pressed = job.fresh(keys.FIT_OUTCOME, live) is not None
    return bool(decision.off and walls) and (not pressed or job.fresh(keys.OFF_BAND, live) is not None)


def off_band_step(decision: RingDecision, walls: Words) -> Step:
    """Another ring before the glass is risked, or this one all the same."""
    return Step(
        key=keys.OFF_BAND,
        stage="verify",
        kind="result",
        title="This ring lies outside its band: what next?",
        say=(decision.words, OFF_WORDS[decision.off]),
        choices=(
            Choice("another", "make another ring first"),
            Choice("press", "press this one all the same"),
            Choice("keep", "leave it for now", goto="jobs"),
        ),
        rests_on=(keys.ATTEMPT, keys.RING, keys.RING_HEIGHT, *walls),
        waits_for="another ring",
        why="The wall's whole interval lies on one side of the band. A ring once pressed is not used again.",
        how=("A reading in doubt is keyed again from the list before anything is decided.",),
    )
