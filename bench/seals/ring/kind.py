"""What the ring is called, how another is begun, how it is pressed in, how its job may end early, and why."""

from __future__ import annotations

from bench.job import keys
from bench.job.begun import Beginnings
from bench.job.corrections import fitting
from bench.job.endings import PAINT_REASONS, Reasons, endings
from bench.stages.again import again
from rules.turning import operations

WORD = "ring"
"""What the file keeps and a person reads."""
WALL_PLACES = ("1, at a pencil dot", "2, a quarter on", "3, opposite the dot", "4, three quarters on")
"""Where a wall is measured."""
FITTING = fitting(
    result=keys.FIT_OUTCOME,
    begins=operations.PART,
    asks=keys.FIT_CORRECTION,
    again="another ring was pressed",
)
AGAIN = again(
    seal=WORD,
    places="seat and glass",
    measured_title="Seat and glass are measured again",
    why="A bezel that moved or another glass makes the old readings worthless.",
    measured_after=(keys.REMAKE, keys.PAST_BORE),
    another_after=(keys.REMAKE, keys.FRESH_RING, keys.OFF_BAND, FITTING.asks),
    begin=Beginnings(),
)
MEASURE_AGAIN, NEXT_RING = AGAIN.measured, AGAIN.another
ENDINGS = endings(
    {
        (keys.NOT_THIS_RING, "closed"): "Closed: a plastic ring is not the answer here.",
        (keys.ACRYLIC_ANYWAY, "no"): "Closed: no plastic ring was made for an acrylic glass.",
        (keys.NO_RING, "closed"): "Closed: no ring can be proposed from these figures.",
        (keys.CANNOT_TURN, "closed"): "Closed: the ring cannot be turned in this shop.",
        (keys.REMAKE, "hand_back"): "Handed back without a new ring.",
    },
    stopped="Stopped because of the luminous paint: no ring was made.",
)
REASONS: Reasons = {
    keys.PAINT_GO: PAINT_REASONS,
    keys.NOT_THIS_RING: {
        (keys.HOLD, "foot"): "the glass stands on the foot of its ring",
        (keys.HOLD, "clamped"): "a bezel or a screwed ring clamps the glass on a flat gasket",
        (keys.HOLD, "spring"): "the glass holds by its own spring, or by a tension ring",
        (keys.HOLD, "glued"): "the glass was glued",
        (keys.HOLD, "unknown"): "how the glass is held is not known",
        (keys.BENCH, "pit"): "a pit or scratch crosses the wall that the ring would seal on",
        (keys.BENCH, "dented"): "the seat of the glass is dented",
    },
}
"""What was found that a job was closed for."""
