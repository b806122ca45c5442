"""What the O-ring is called, where it lies, how another is begun and put in, how its job may end, and why."""

from __future__ import annotations

from bench.job import keys
from bench.job.begun import of_kind
from bench.job.corrections import fitting
from bench.job.endings import PAINT_REASONS, Reasons, endings
from bench.job.job import Job
from bench.job.steps import Words
from bench.seals.oring import own_keys
from bench.stages.again import again
from rules.oring.housing import FACE, FEMALE, MALE

WORD = "oring"
"""What the file keeps."""
SHORT = "O-ring"
"""What a person reads."""
BEGIN = of_kind(WORD)
READ_AGAIN: Words = (BEGIN.measured,)
"""What every reading of the groove rests on."""
BASE: Words = (own_keys.ACCEPTED, BEGIN.attempt)
"""What everything that is done with a ring rests on."""
FITTING = fitting(
    result=own_keys.FITTED,
    begins=own_keys.CLEANED,
    asks=own_keys.CORRECTED,
    again="another O-ring was put in",
)
AGAIN = again(
    seal=SHORT,
    places="its groove",
    measured_title="The groove of the O-ring is measured again",
    why="Another part, or a groove that was cleaned out, makes the old readings worthless.",
    measured_after=(own_keys.AFTER, own_keys.OFF_ITS_BAND),
    another_after=(own_keys.AFTER, own_keys.OFF_ITS_BAND, own_keys.CORRECTED),
    begin=BEGIN,
)
ENDINGS = endings(
    {
        (own_keys.NOT_HERE, "closed"): "Closed: the O-ring is not to be renewed by itself.",
        (own_keys.CLUE, "closed"): "Closed: the groove cannot be measured.",
        (own_keys.NONE_FITS, "closed"): "Closed: no O-ring in stock sizes fits this groove.",
        (own_keys.AFTER, "hand_back"): "Handed back without a new O-ring.",
    },
    stopped="Stopped because of the luminous paint: no O-ring was renewed.",
)
REASONS: Reasons = {
    keys.PAINT_GO: PAINT_REASONS,
    own_keys.NOT_HERE: {
        (own_keys.HELD, "washer"): "the seal lies under a washer: a new part, its seal in it, is the answer",
        (own_keys.HELD, "moulded"): "the seal is moulded or cemented in: a new part is the answer",
        (own_keys.STATE, "scratched"): "a scratch or pit crosses a face that the O-ring would seal on",
        (own_keys.STATE, "worn"): "the tube, stem or bore that the O-ring runs on is worn",
        (own_keys.STATE, "eaten"): "the groove is eaten by rust",
    },
}
"""What was found that a job was closed for."""
BACK, CROWN, TUBE, PUSHER = "back", "crown", "tube", "pusher"
PLACES = {
    BACK: "under the back",
    CROWN: "between crown and tube",
    TUBE: "between tube and case",
    PUSHER: "at a pusher",
}
"""Where an O-ring lies."""
LIES_AT = {BACK: FACE, CROWN: FEMALE, TUBE: MALE, PUSHER: MALE}
"""How it usually lies there."""
MOVING = (CROWN, PUSHER)
"""Where something is turned, pulled or pressed past it."""


def joint_of(job: Job) -> str:
    """Which joint of the watch the O-ring seals."""
    return {BACK: "oring_back", PUSHER: "oring_pushers"}.get(place_of(job), "oring_crown")


def place_of(job: Job) -> str:
    """Where it lies, a key of `PLACES`."""
    said = job.newest(own_keys.PLACE)
    return said.word if said else BACK


def closes(job: Job) -> str:
    """Which seal of the watch it is."""
    return closing(place_of(job))


def closing(place: str) -> str:
    """Which seal of the watch an O-ring there is."""
    return "pushers" if place == PUSHER else place
