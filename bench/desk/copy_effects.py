"""What the list of jobs wants to be done about copies of one job, and what was found.

Invariant: an effect and an arrival are values; nothing is done here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bench.joining.twins import Twin


@dataclass(frozen=True, slots=True)
class FindCopies:
    """Effect: look into some more files for copies of one job."""


@dataclass(frozen=True, slots=True)
class CopiesFound:
    """Arrival: how copies of one job stand to each other, as far as was looked."""

    twins: Mapping[str, Twin]
    complete: bool


@dataclass(frozen=True, slots=True)
class Compare:
    """Effect: two copies of a job side by side, or joined as far as it is decided."""

    names: tuple[str, ...]
    decided: tuple[tuple[str, int], ...] = ()
    """Key and choice of each question answered."""
    going: bool = False
    """They are to be joined."""


@dataclass(frozen=True, slots=True)
class Asks:
    """Arrival: a page that asks before something is done."""

    heading: str
    said: tuple[str, ...]
    ways: tuple[tuple[str, str, object], ...]
    """What can be chosen: its word, its text, and the effect of it."""
