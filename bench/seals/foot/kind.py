"""What the ring with a foot is called, how another is begun, how it is put in, how its job may end early.

Invariant: what it has in common with the straight ring is that one's, under keys of its own.
"""

from __future__ import annotations

from dataclasses import replace

from bench.job import keys
from bench.job.begun import of_kind
from bench.job.corrections import fitting
from bench.job.endings import Endings, Reasons
from bench.job.steps import Words
from bench.seals.foot import own_keys
from bench.seals.foot.within import own, own_step
from bench.seals.ring import kind as ring
from bench.stages.again import Again
from rules.turning import operations

WORD = "foot"
"""What the file keeps."""
SHORT = ring.WORD
"""What a person calls it in one word."""
BEGIN = of_kind(WORD)
READ_AGAIN: Words = (BEGIN.measured,)
"""What every reading of seat, ledge and glass rests on."""
BASE: Words = (own_keys.ACCEPTED, BEGIN.attempt)
"""What everything that is made rests on."""
FITTING = fitting(
    result=own_keys.LAID,
    begins=own(operations.PART),
    asks=own(keys.FIT_CORRECTION),
    again=ring.FITTING.again,
)
_another = own_step(ring.AGAIN.another)
_measured = own_step(ring.AGAIN.measured)
AGAIN = Again(
    measured=replace(
        _measured,
        title="Seat, ledge and glass are measured again: begin at the first reading",
        rests_on=(*_measured.rests_on, own_keys.OFF),
    ),
    another=replace(_another, rests_on=(*_another.rests_on, own_keys.OFF)),
    places="seat, ledge and glass",
    begin=BEGIN,
)


def ours(endings: Endings) -> Endings:
    """Endings of the straight ring by the keys of this one."""
    return {(own(key), word): said for (key, word), said in endings.items()}


SHARED_ENDS = (keys.PAINT_GO,)
ENDINGS: Endings = {
    **{at: said for at, said in ring.ENDINGS.items() if at[0] in SHARED_ENDS},
    **ours({at: said for at, said in ring.ENDINGS.items() if at[0] not in SHARED_ENDS}),
    (own_keys.NONE_FITS, "closed"): "Closed: no foot fits this seat and this glass.",
}
REASONS: Reasons = {
    keys.PAINT_GO: ring.REASONS[keys.PAINT_GO],
    own(keys.NOT_THIS_RING): ours(
        {at: said for at, said in ring.REASONS[keys.NOT_THIS_RING].items() if at[0] == keys.BENCH}
    ),
}
