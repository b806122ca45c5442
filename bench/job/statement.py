"""What a paper for the customer says, as data: sentences with blanks, and what stands in the blanks.

Invariant: a sentence is put together only where it is shown, so that it can be said in another language; what
a person wrote stands in it as it was written.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, is_dataclass


@dataclass(frozen=True, slots=True)
class Ours:
    """Words of ours within a sentence."""

    words: str


@dataclass(frozen=True, slots=True)
class WordList:
    """Several words of ours: as a list with "and", or in a row behind commas."""

    english: str
    """As programs read it."""
    words: tuple[str, ...]
    joined_by_and: bool = True


@dataclass(frozen=True, slots=True)
class Long:
    """A length, shown with so many places of a millimetre."""

    mm: float
    places: int = 2
    with_unit: bool = True


@dataclass(frozen=True, slots=True)
class DecidedSize:
    """A size that was decided, with as many places as its step needs."""

    mm: float
    with_unit: bool = True


@dataclass(frozen=True, slots=True)
class Pressing:
    """A pressure over that of the room."""

    bar: float


@dataclass(frozen=True, slots=True)
class Lasting:
    """How long something lasted."""

    minutes: float


@dataclass(frozen=True, slots=True)
class AtTime:
    """A time as the clock at the bench showed it, ISO 8601 with its offset."""

    at: str


@dataclass(frozen=True, slots=True)
class OnDay:
    """A day, ISO 8601."""

    day: str


Blank = str | int | Ours | WordList | Long | DecidedSize | Pressing | Lasting | AtTime | OnDay


@dataclass(frozen=True, slots=True)
class Statement:
    """One thing that is said: its name for programs, its English sentence, and what stands in the blanks."""

    name: str
    sentence: str
    values: Mapping[str, Blank] = field(default_factory=dict)
    one: str = ""
    """The sentence where the blank `n` is one; empty where nothing is counted."""

    def data(self) -> dict[str, object]:
        """Name and values for programs, values as plain figures and texts."""
        return {"name": self.name, "values": {key: plain(value) for key, value in self.values.items()}}


Said = str | Statement
"""Words on a drawing: a statement, or words that are in no other language."""


@dataclass(frozen=True, slots=True)
class Headed:
    """One heading with what is said under it."""

    heading: str
    statements: tuple[Statement, ...]


def plain(value: Blank) -> object:
    """A value without its kind: a figure in its unit, or a text."""
    if isinstance(value, WordList):
        return value.english
    if is_dataclass(value):
        return next(iter(asdict(value).values()))
    return value
