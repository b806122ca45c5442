"""What the gasket is called, the keys of its answers, how it is begun again and how its job may end."""

from __future__ import annotations

from bench.job import keys
from bench.job.corrections import fitting
from bench.job.endings import endings
from bench.stages.again import again

WORD = "gasket"
OUTSIDE, INSIDE, DEPTH = "gasket_outside", "gasket_inside", "gasket_depth"
WANTED, ACCEPTED, NONE = "gasket_wanted", "gasket_accepted", "gasket_none"
CUT, MADE = "gasket_cut", "gasket_made"
LAID, CORRECTED, AFTER = "gasket_laid", "gasket_corrected", "gasket_after"
MEASURED = (OUTSIDE, INSIDE, DEPTH)
FITTING = fitting(result=LAID, begins=CUT, asks=CORRECTED, again="another gasket was laid in")
AGAIN = again(
    seal=WORD,
    places="the groove",
    measured_title="The groove is measured again",
    why="Another groove wants another gasket.",
    measured_after=(AFTER,),
    another_after=(AFTER, CORRECTED),
)
ENDINGS = endings(
    {
        (NONE, "closed"): "Closed: no gasket fits this groove.",
        (AFTER, "hand_back"): "Handed back without a new gasket.",
    },
    stopped="Stopped because of the luminous paint: no gasket was made.",
)
BASE = (ACCEPTED, keys.ATTEMPT)
