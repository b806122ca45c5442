"""How each kind of seal is begun again, in the file: the usual one under the plain keys, any other under keys
with its name in front.

Invariant: a program that knows the usual seal alone never takes another one's marks for its own.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bench.job import keys

if TYPE_CHECKING:
    from bench.job.job import Answer

ATTEMPT, SPOILED = (re.compile(rf"(?:\w+_)?{key}") for key in (keys.ATTEMPT, keys.SPOILED))
"""The keys of whichever kind."""


@dataclass(frozen=True, slots=True)
class Beginnings:
    """Keys of what begins a piece again, or its readings."""

    attempt: str = keys.ATTEMPT
    """Mark: another piece."""
    spoiled: str = keys.SPOILED
    """The piece is given up."""
    measured: str = keys.MEASURE_AGAIN
    """What it goes by is measured again."""


def of_kind(kind: str) -> Beginnings:
    """Those of a kind that is not the usual one.

    >>> of_kind("lid").attempt
    'lid_attempt'
    """
    named = (f"{kind}_{key}" for key in (keys.ATTEMPT, keys.SPOILED, keys.MEASURE_AGAIN))
    return Beginnings(*named)


def is_attempt(key: str) -> bool:
    """Whether a key is that of the mark of another piece, of whichever kind."""
    return ATTEMPT.fullmatch(key) is not None


def is_spoiled(key: str) -> bool:
    """Whether a key says that a piece is given up."""
    return SPOILED.fullmatch(key) is not None


def another_at(marks: Sequence[Answer]) -> tuple[int, ...]:
    """Places of the marks of another piece, oldest first."""
    return tuple(mark.n for mark in marks if is_attempt(mark.key))
