"""Where two copies of a job part: what they have in common, and how each went on.

Invariant: every entry of either copy is in exactly one of the three, and nothing is decided by time or order.
A value changed by hand on one copy parts nothing: it stands behind what it was, and counts where it was
accepted.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from bench.file.entry import Entry
from bench.job.begun import is_attempt
from bench.joining.side import Side

Place = tuple[int, int]
"""Which copy, 0 or 1 in the order of their content, and the number of an entry there."""


@dataclass(slots=True)
class Placed:
    """One entry of the joined file, before it has its number."""

    entry: Entry
    places: tuple[Place, ...] = ()
    """Where it stands in the copies; none for what joining adds."""
    by_hand: bool = False
    takes_back: Placed | None = None
    """Of an undo that joining adds: what it takes back."""


@dataclass(slots=True)
class Parted:
    """The items of two copies."""

    common: list[Placed] = field(default_factory=list)
    tails: tuple[list[Placed], list[Placed]] = field(default_factory=lambda: ([], []))
    edits: tuple[list[Placed], list[Placed]] = field(default_factory=lambda: ([], []))
    """What of the common beginning was changed by hand on one copy alone."""

    @property
    def diverged(self) -> bool:
        """Whether both copies went on."""
        return all(self.tails)

    def own(self, which: int) -> list[Placed]:
        """What a copy alone has."""
        return [*self.edits[which], *self.tails[which]]


def parted(sides: tuple[Side, Side]) -> Parted:
    """Common beginning and tails of two copies in the order of their content."""
    found = Parted()
    one, two = (side.entries for side in sides)
    at = 0
    for first, second in zip(one, two, strict=False):
        if same(first, second):
            both = ((0, first.n), (1, second.n))
            found.common.append(Placed(first, both, by_hand=is_by_hand(first)))
        elif first.n == second.n and (is_by_hand(first) or is_by_hand(second)):
            _edited(found, first, second)
        else:
            break
        at += 1
    for which, entries in enumerate((one, two)):
        tail = (Placed(entry, ((which, entry.n),), by_hand=is_by_hand(entry)) for entry in entries[at:])
        found.tails[which].extend(tail)
    return found


def _edited(found: Parted, first: Entry, second: Entry) -> None:
    """An entry changed by hand on one copy, or on both otherwise: as it was, then as it was changed."""
    pair = sorted(enumerate((first, second)), key=lambda one: is_by_hand(one[1]))
    for which, entry in pair:
        item = Placed(entry, ((which, entry.n),), by_hand=is_by_hand(entry))
        found.common.append(item)
        if entry.accepted is not None and item.by_hand:
            found.edits[which].append(item)


def is_by_hand(entry: Entry) -> bool:
    """Whether an entry was changed outside the program and accepted."""
    return entry.accepted is not None and entry.kind != "confirm"


def same(one: Entry, other: Entry) -> bool:
    """Whether two entries are one: number, time and all that they say."""
    return content(one) == content(other)


def content(entry: Entry) -> tuple[object, ...]:
    """All that an entry says."""
    return entry.n, entry.at, entry.kind, entry.key, entry.value, entry.of


def split(tail: list[Placed]) -> tuple[list[Placed], list[Placed]]:
    """A tail before its first mark of another piece, and from it on."""
    at = next((i for i, item in enumerate(tail) if is_begun(item)), len(tail))
    return tail[:at], tail[at:]


def is_begun(item: Placed) -> bool:
    """Whether an item marks that another piece is begun."""
    return item.entry.kind == "mark" and is_attempt(item.entry.key)
