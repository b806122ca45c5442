"""Cautions as data, shown where the danger is.

Invariant: every caution names its public source, or says that it is common practice or from memory;
the wording is general and leaves the word to local codes and licensed practice.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from rules.checks import known
from rules.tables import raw_table


@dataclass(frozen=True, slots=True)
class Caution:
    """One warning, short enough to stand in a window of 60 columns."""

    key: str
    """Its name in the table."""
    title: str
    """What the danger is, in a few words."""
    lines: tuple[str, ...]
    """What to do or leave, a line each, at most 58 characters."""
    source: str
    """Published source, "common practice, no source", "computed" or "from memory"."""


@lru_cache(maxsize=1)
def _table() -> tuple[dict[str, Caution], dict[str, tuple[Caution, ...]]]:
    raw = raw_table("cautions")
    cautions = {
        key: Caution(key=key, title=entry["title"], lines=tuple(entry["lines"]), source=entry["source"])
        for key, entry in raw["cautions"].items()
    }
    return cautions, {place: tuple(cautions[key] for key in keys) for place, keys in raw["places"].items()}


def caution(key: str) -> Caution:
    """The caution of that name; raises OutOfRange with the list of names."""
    return known("caution", key, _table()[0])


def places() -> tuple[str, ...]:
    """All the places at the bench that carry cautions."""
    return tuple(_table()[1])


def for_places(names: Iterable[str]) -> tuple[Caution, ...]:
    """The cautions of several places, each once, in their order."""
    return tuple(dict.fromkeys(item for name in names for item in for_place(name)))


def for_place(place: str) -> tuple[Caution, ...]:
    """The cautions to show at that place; raises OutOfRange with the list of places."""
    return known("place", place, _table()[1])
