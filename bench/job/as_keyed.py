"""What was read for a seal, as it was keyed, and whether that was changed since.

Invariant: nothing is left out: of a reading keyed again every value is given, in the order of the file.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Any

from bench.job import keys
from bench.job.job import Answer, Job


def as_keyed(n: int, span: Sequence[Answer], read: Iterable[str]) -> list[dict[str, Any]]:
    """What was read for one seal; `read`: the keys of what is read."""
    found: dict[str, list[str]] = {}
    for answer in span:
        what = next((key for key in read if keys.readings_of(key).fullmatch(answer.key)), None)
        if what is not None and answer.word[:1].isdigit():
            found.setdefault(what, []).append(answer.word)
    return [{"attempt": n, "what": what, "as_keyed": words} for what, words in found.items()]


def read_since(job: Job, since: Answer, of: re.Pattern[str]) -> bool:
    """Whether an answer with such a key was given, or changed by hand, after another answer."""
    return any((one.n > since.n or one.accepted > since.n) and of.fullmatch(one.key) for one in job.answers)
