"""What was read for a seal, as it was keyed, and whether that was changed since.

Invariant: nothing is left out: of a reading keyed again every value is given, in the order of the file.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from bench.job import keys
from bench.job.job import Answer, Job


def taken(n: int, span: Sequence[Answer], what_of: Callable[[Answer], str | None]) -> list[dict[str, Any]]:
    """What was read for one seal, and which of it another reading was keyed in the place of; `what_of`: what
    an answer is a reading of, None where it is none.
    """
    found: dict[str, list[str]] = {}
    replaced: dict[str, list[str]] = {}
    newest: dict[str, str] = {}
    for answer in span:
        if (what := what_of(answer)) is not None:
            found.setdefault(what, []).append(answer.word)
            if answer.key in newest:
                replaced.setdefault(what, []).append(newest[answer.key])
            newest[answer.key] = answer.word
    return [
        {"attempt": n, "what": what, "as_keyed": words, "replaced": replaced.get(what, [])}
        for what, words in found.items()
    ]


def as_keyed(n: int, span: Sequence[Answer], read: Iterable[str]) -> list[dict[str, Any]]:
    """The same of figures at whichever place; `read`: the keys of what is read."""
    known = {key: keys.readings_of(key) for key in read}

    def what_of(answer: Answer) -> str | None:
        fits = (key for key, places in known.items() if places.fullmatch(answer.key))
        return next(fits, None) if answer.word[:1].isdigit() else None

    return taken(n, span, what_of)


def which_stand(one: Mapping[str, Any]) -> tuple[list[str], str]:
    """The readings of one thing that stand, as they were keyed, and what is said of those that do not."""
    stand, gone = list(one["as_keyed"]), one["replaced"]
    for word in gone:
        stand.remove(word)
    return stand, f"; keyed first and replaced: {', '.join(gone)}" if gone else ""


def in_a_line(one: Mapping[str, Any]) -> str:
    """The same in one line."""
    stand, gone = which_stand(one)
    return f"{', '.join(stand)}{gone}"


def read_since(job: Job, since: Answer, of: re.Pattern[str]) -> bool:
    """Whether an answer with such a key was given, or changed by hand, after another answer."""
    return any((one.n > since.n or one.accepted > since.n) and of.fullmatch(one.key) for one in job.answers)
