"""The seals of a watch and what is known of each, where that is said of each at casing: the keys of these
answers, every one written here and nowhere else, and what they say.

Invariant: what is said of each counts only behind an answer to `RENEWED` that says so; what that answer keeps
first names the seals that are new, so that a program that knows none of these keys tells them truly.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import asdict, dataclass

from bench.job import keys
from bench.job.job import Answer, newest_of
from bench.job.kept import UNKNOWN
from bench.job.renewed import NONE, SEALS, in_order, renewed_in_search, seals_of
from bench.job.values import named_text

SAID_OF_EACH = "said each"
"""What is kept with the seals that are new where it was said of each."""
MADE_HERE, NEW, LEFT, NOT_LOOKED_AT, HAS_NONE = "made_here", "new", "left", "not_looked_at", "has_none"
THIS_JOB = "this_job"
"""What may be known of a seal; nothing where it is not said."""


def known_of(seal: str) -> str:
    """Key of what is known of a seal of the watch."""
    return f"besides_{seal}"


def job_of(seal: str) -> str:
    """Key of the number of the job in which it was made."""
    return f"{known_of(seal)}_job"


def size_of(seal: str) -> str:
    """Key of its size."""
    return f"{known_of(seal)}_size"


def others_of(own: Collection[str]) -> tuple[str, ...]:
    """The seals of a watch besides those that a job is about, in the order in which they are named.

    >>> others_of(("back",))
    ('glass', 'crown', 'tube', 'pushers')
    """
    return tuple(seal for seal in SEALS if seal not in own)


@dataclass(frozen=True, slots=True)
class KnownSeal:
    """One seal of the watch."""

    seal: str
    known: str | None = None
    """None where nothing is said of it."""
    job: str | None = None
    """Number of the job in which it was made, where it is known."""
    size: str | None = None
    """As it was written; None where it was not."""

    @property
    def is_new(self) -> bool:
        """Whether it was renewed, and not by this job."""
        return self.known in (MADE_HERE, NEW)


def known_seals(now: Sequence[Answer], own: Collection[str]) -> tuple[KnownSeal, ...]:
    """What the answers since the seal was begun say of every seal of the watch; `own` are made by this job.

    Where it was not said of each, those that were named are new and nothing is said of the others; so too
    where what was said of each, changed by hand, does not go with what was named.
    """
    renewed = newest_of(now, keys.RENEWED)
    each: tuple[Answer, ...] = ()
    if renewed is not None and SAID_OF_EACH in renewed.words:
        before = tuple(one for one in now if one.n < renewed.n)
        named = seals_of(renewed.word)
        each = before if new_ones(before, renewed_in_search(before)) == named else ()
    new = (*seals_of(renewed.word if renewed else NONE), *renewed_in_search(now))
    return tuple(
        KnownSeal(seal, THIS_JOB) if seal in own else _known(seal, each, new=seal in new) for seal in SEALS
    )


def new_ones(said: Sequence[Answer], found: Sequence[str]) -> tuple[str, ...]:
    """The seals that are new by what is said of each, and those that a search `found` and renewed."""
    known = (_known(seal, said, new=seal in found) for seal in SEALS)
    return in_order(one.seal for one in known if one.is_new)


def _known(seal: str, said: Sequence[Answer], *, new: bool) -> KnownSeal:
    """What is said of one; what is `new` by another answer is so whatever was said of it before."""
    answer = newest_of(said, known_of(seal))
    if answer is None or (new and answer.word not in (MADE_HERE, NEW)):
        return KnownSeal(seal, NEW if new else None)
    job, size = (_behind(said, answer, key(seal)) for key in (job_of, size_of))
    number = named_text(answer.words, "job") or job
    if answer.word == MADE_HERE:
        return KnownSeal(seal, MADE_HERE, job=number if number != UNKNOWN else None)
    return KnownSeal(seal, answer.word, size=size if answer.word == NEW else None)


def _behind(said: Sequence[Answer], answer: Answer, key: str) -> str | None:
    """What was given to a further question after an answer; None where it was not, or is empty."""
    further = newest_of(said, key)
    return further.word or None if further is not None and further.n > answer.n else None


def as_data(known: Sequence[KnownSeal]) -> list[dict[str, str | None]]:
    """The same for the sheet."""
    return [asdict(one) for one in known]
