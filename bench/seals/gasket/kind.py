"""What the gasket is called, how another is begun, how it is put in, how its job may end early, and why."""

from __future__ import annotations

from bench.job import keys
from bench.job.begun import of_kind
from bench.job.corrections import fitting
from bench.job.endings import PAINT_REASONS, Reasons, endings
from bench.job.job import Job
from bench.job.steps import Words
from bench.seals.gasket import own_keys
from bench.stages.again import again

WORD = "gasket"
"""What the file keeps and a person reads."""
BEGIN = of_kind(WORD)
READ_AGAIN: Words = (BEGIN.measured,)
"""What every reading of the room rests on."""
BASE: Words = (own_keys.ACCEPTED, BEGIN.attempt)
"""What everything that is made rests on."""
FITTING = fitting(
    result=own_keys.LAID,
    begins=own_keys.FACES,
    asks=own_keys.CORRECTED,
    again="another gasket was laid in",
)
AGAIN = again(
    seal=WORD,
    places="its room",
    measured_title="The room of the gasket is measured again",
    why="Another lid, or a face that was dressed, makes the old readings worthless.",
    measured_after=(own_keys.AFTER, own_keys.OFF_ITS_BAND),
    another_after=(own_keys.AFTER, own_keys.OFF_ITS_BAND, own_keys.CORRECTED),
    begin=BEGIN,
)
ENDINGS = endings(
    {
        (own_keys.NOT_HERE, "closed"): "Closed: a new gasket does not cure this joint.",
        (own_keys.NONE_FITS, "closed"): "Closed: no gasket fits this room.",
        (own_keys.CANNOT_TURN, "closed"): "Closed: the gasket cannot be turned in this shop.",
        (own_keys.AFTER, "hand_back"): "Handed back without a new gasket.",
    },
    stopped="Stopped because of the luminous paint: no gasket was made.",
)
REASONS: Reasons = {
    keys.PAINT_GO: PAINT_REASONS,
    own_keys.NOT_HERE: {
        (own_keys.STATE, "scratched"): "a scratch or pit crosses a face that the gasket would seal on",
        (own_keys.STATE, "bent"): "the lid or the rim is bent",
        (own_keys.STATE, "thread"): "the thread or a screw hole is worn out",
    },
}
"""What was found that a job was closed for."""
BACK_THREAD, BACK_SCREWS, GLASS_THREAD, GLASS_SCREWS = (
    "back_thread",
    "back_screws",
    "glass_thread",
    "glass_screws",
)
"""Where the gasket lies, and what closes it."""
PLACES = {
    BACK_THREAD: "under a back that screws in",
    BACK_SCREWS: "under a back held by screws",
    GLASS_THREAD: "under a bezel that screws in, over the glass",
    GLASS_SCREWS: "under a bezel held by screws, over the glass",
}
TURNING_LIDS = (BACK_THREAD, GLASS_THREAD)
"""Lids that turn on the gasket while they close."""


def joint_of(job: Job) -> str:
    """Which joint of the watch the gasket seals: back or glass."""
    said = job.newest(own_keys.JOINT)
    return closing(said.word if said else None)


def closing(place: str | None) -> str:
    """Which joint a gasket there seals."""
    return "glass" if on_the_glass(place) else "back"


def on_the_glass(joint: str | None) -> bool:
    """Whether a gasket there seals the joint of the glass."""
    return joint in (GLASS_THREAD, GLASS_SCREWS)
