"""How a job ends without a watch handed back as tested:
the answer that ends it, and what the sheet says of it.

Invariant: an ending stands once, here or with the kind of seal that asks for it;
a job handed back as tested is none.
"""

from __future__ import annotations

from collections.abc import Mapping

from bench.job import keys
from bench.job.job import Answer, Job

Endings = Mapping[tuple[str, str], str]
"""What the sheet says, by key and word of the answer that ends the job."""


def endings(own: Endings, *, stopped: str) -> Endings:
    """The endings of every job and those of one kind of seal; `stopped` says it of the paint."""
    return {
        (keys.PAINT_GO, "stop"): stopped,
        **own,
        (keys.EMPTY.found, "hand_back"): "Handed back as not water-resistant.",
        (keys.CASED.found, "hand_back"): "Handed back as not water-resistant.",
    }


def ending_of(job: Job, known: Endings) -> Answer | None:
    """The answer that ended a finished job; None for one that was handed back as tested."""
    ends = [answer for key, word in known if (answer := job.newest(key)) and answer.word == word]
    final = max(ends, key=lambda answer: answer.n, default=None)
    return None if final is None or final.n < job.newest_n(keys.HAND_BACK) else final


def ending_word(answer: Answer) -> str:
    """The name of an ending for programs, such as `remake: hand_back`."""
    return f"{answer.key}: {answer.word}"


def ending_said(name: str, known: Endings) -> str:
    """What the sheet says, by the name for programs."""
    return next(said for (key, word), said in known.items() if name == f"{key}: {word}")


Reasons = Mapping[str, Endings]
"""What a job may be closed for: by key of the answer that ends it, what was found, by key and word."""
PAINT_REASONS: Endings = {
    (keys.PAINT, "old"): "old luminous paint may hold radium",
    (keys.PAINT, "unknown"): "the age of the luminous paint is not known, and it may hold radium",
}


def because(job: Job, ended: Answer, known: Reasons) -> str | None:
    """The name for programs of what was found that a job was closed for; None where the ending says all."""
    found = [
        answer
        for key, word in known.get(ended.key, {})
        if (answer := job.newest(key)) and answer.word == word
    ]
    newest = max(found, key=lambda answer: answer.n, default=None)
    return ending_word(newest) if newest else None


def reason_said(ended: str, because: str, known: Reasons) -> str:
    """What papers say of the reason, by the names for programs of ending and reason."""
    of = known[ended.partition(": ")[0]]
    return next(said for (key, word), said in of.items() if because == f"{key}: {word}")
