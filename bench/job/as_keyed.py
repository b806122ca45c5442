"""What was read for a seal, as it was keyed, and whether that was changed since.

Invariant: nothing is left out: of a reading keyed again every value is given, in the order of the file.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from bench.job import keys
from bench.job.job import Answer, Job


def as_keyed(n: int, span: Sequence[Answer], read: Iterable[str]) -> list[dict[str, Any]]:
    """What was read for one seal, and which of it another reading was keyed in the place of; `read`: the keys
    of what is read.
    """
    found: dict[str, list[str]] = {}
    replaced: dict[str, list[str]] = {}
    newest: dict[str, str] = {}
    for answer in span:
        what = next((key for key in read if keys.readings_of(key).fullmatch(answer.key)), None)
        if what is not None and answer.word[:1].isdigit():
            found.setdefault(what, []).append(answer.word)
            if answer.key in newest:
                replaced.setdefault(what, []).append(newest[answer.key])
            newest[answer.key] = answer.word
    return [
        {"attempt": n, "what": what, "as_keyed": words, "replaced": replaced.get(what, [])}
        for what, words in found.items()
    ]


def which_stand(one: Mapping[str, Any]) -> str:
    """The readings of one thing that stand, then those that were replaced, as they were keyed."""
    stand, gone = list(one["as_keyed"]), one["replaced"]
    for word in gone:
        stand.remove(word)
    return ", ".join(stand) + (f"; keyed first and replaced: {', '.join(gone)}" if gone else "")


def read_since(job: Job, since: Answer, of: re.Pattern[str]) -> bool:
    """Whether an answer with such a key was given, or changed by hand, after another answer."""
    return any((one.n > since.n or one.accepted > since.n) and of.fullmatch(one.key) for one in job.answers)
