"""Pure functions that know their last answers.

A job is walked again at every answer, and asks most of its figures again. Invariant: what is remembered is
what would be worked out again, since nothing is read but the arguments and the unit in which lengths are
said, and nothing that is given back changes.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, wraps
from typing import ParamSpec, TypeVar

from rules.lengths import spoken

P = ParamSpec("P")
T = TypeVar("T")
SO_MANY = 64
"""Answers that a function knows: more than a walk asks for."""
FORGETTING: list[Callable[[], None]] = []
"""What makes each of them forget: needed after a table or a function under it was exchanged."""


def remembered(work: Callable[P, T]) -> Callable[P, T]:
    """The function with its last answers known. Its arguments can be hashed; what it raises is not kept."""

    @lru_cache(maxsize=SO_MANY)
    def known(said_in: str, *given: P.args, **named: P.kwargs) -> T:
        return work(*given, **named)

    @wraps(work)
    def recalled(*given: P.args, **named: P.kwargs) -> T:
        return known(spoken(), *given, **named)  # type: ignore[arg-type]

    FORGETTING.append(known.cache_clear)
    return recalled
