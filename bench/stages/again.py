"""Beginning again: another seal, or the same place measured again.

Invariant: both rest on what led to them, so that each is asked once for it.
"""

from __future__ import annotations

from bench.job import keys
from bench.job.corrections import FITTING
from bench.job.steps import Choice, Step

MEASURE_AGAIN = Step(
    key=keys.MEASURE_AGAIN,
    stage="verify",
    kind="action",
    title="Seat and glass are measured again: begin at the first reading",
    choices=(Choice("done", "go to the first reading"),),
    rests_on=(keys.REMAKE, keys.EMPTY.found, keys.CASED.found, keys.PAST_BORE),
    why="A bezel that moved or another glass makes the old readings worthless.",
)
NEXT_RING = Step(
    key=keys.ATTEMPT,
    stage="verify",
    kind="mark",
    title="another ring",
    rests_on=(
        keys.REMAKE,
        keys.EMPTY.found,
        keys.CASED.found,
        keys.FRESH_RING,
        keys.MEASURE_AGAIN,
        FITTING.asks,
    ),
)
