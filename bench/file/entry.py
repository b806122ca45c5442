"""What a session file holds: one head and numbered entries.

Invariant: n alone orders entries; `at` is information for people. Values are flat and finite.
"""

from __future__ import annotations

import os
from dataclasses import dataclass
from decimal import Decimal

Scalar = str | int | bool | Decimal
Value = str | int | bool | Decimal | tuple[Scalar, ...]

FORMAT = 1
"""The format this program writes and the newest it understands."""

KINDS = frozenset({"answer", "undo", "confirm", "note", "mark"})

STANDS = "stands "
"""How the word of an answer begins that says where its job stands."""
LINE_LIMIT = 16 * 1024
"""Longest line, bytes."""
BLOCK_LIMIT = 64 * 1024
"""Longest block, bytes."""
FILE_LIMIT = 8 * 1024 * 1024
"""Largest session file, bytes."""
N_LIMIT = 10**9
"""Highest entry number."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """The first block of a session file."""

    format: int
    """Format number, 1 for this version."""
    id: str
    """Eight random hexadecimal digits; part of every checksum, so that blocks of two jobs cannot mix."""
    job: str
    """Free text that names the job."""
    made_by: str
    """Program and version that made the file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Accepted:
    """What is known of an entry changed outside the program and accepted, and of the confirm itself."""

    by: int
    """Number of the confirm that accepted it."""
    counted: bool
    """The job rested on it then: it is newer than all that rests on it."""
    after_end: bool
    """The job was finished then: it is not computed again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One accepted thing."""

    n: int
    """1, 2, 3 ...; the only order there is."""
    at: str
    """Wall time with offset as text; information only, never computed with."""
    kind: str
    """answer, undo, confirm, note or mark."""
    key: str
    """What was asked; "sitting" or "attempt" for a mark; may be empty for undo, confirm and note."""
    value: Value
    """The text as typed with its unit, a choice, or a flat list; in a confirm the mark of what it accepts."""
    of: int | None = None
    """The entry taken back (undo) or accepted (confirm; 0 is the head); None for the other kinds."""
    accepted: Accepted | None = None
    """None where it stands as the program wrote it. Not in the file: found when the file is read."""


def random_id() -> str:
    """A new id of a session: eight hexadecimal digits."""
    return os.urandom(4).hex()
