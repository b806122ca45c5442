"""How a job ends without a watch handed back as tested:
the answer that ends it, and what the sheet says of it.

Invariant: an ending stands here once; a job handed back as tested is none of them.
"""

from __future__ import annotations

from bench.job import keys
from bench.job.job import Answer, Job

ENDINGS = {
    (keys.PAINT_GO, "stop"): "Stopped because of the luminous paint: no ring was made.",
    (keys.NOT_THIS_RING, "closed"): "Closed: a plastic ring is not the answer here.",
    (keys.ACRYLIC_ANYWAY, "no"): "Closed: no plastic ring was made for an acrylic glass.",
    (keys.NO_RING, "closed"): "Closed: no ring can be proposed from these figures.",
    (keys.CANNOT_TURN, "closed"): "Closed: the ring cannot be turned in this shop.",
    (keys.REMAKE, "hand_back"): "Handed back without a new ring.",
    (keys.EMPTY.found, "hand_back"): "Handed back as not water-resistant.",
    (keys.CASED.found, "hand_back"): "Handed back as not water-resistant.",
}
"""What the sheet says, by key and word of the answer."""


def ending_of(job: Job) -> Answer | None:
    """The answer that ended a finished job; None for one that was handed back as tested."""
    ends = [answer for key, word in ENDINGS if (answer := job.newest(key)) and answer.word == word]
    final = max(ends, key=lambda answer: answer.n, default=None)
    return None if final is None or final.n < job.newest_n(keys.HAND_BACK) else final


def ending_word(answer: Answer) -> str:
    """The name of an ending for programs, such as `remake: hand_back`."""
    return f"{answer.key}: {answer.word}"


ENDED = {f"{key}: {word}": said for (key, word), said in ENDINGS.items()}
"""What the sheet says, by the name for programs."""
