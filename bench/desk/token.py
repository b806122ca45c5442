"""What reaches the desk: one small immutable value for every key, tick, answer of the disk, new size.

Invariant: a token carries everything the desk may know about the moment it came (monotonic and wall time
included), so that the desk itself never reads a clock. Effects for the terminal itself stand here too: they
are data, and only the shell carries them out.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Token:
    """One thing that happened."""

    kind: str
    """key, undo, settle, tick, painted, resized, saved, refused, deal, opened ..."""

    text: str = ""
    """For a key its meaning (see `bench.desk.keys.meaning`); for a refusal the reason in words."""

    at: float = 0.0
    """Monotonic time in seconds at which it arrived; only differences mean anything."""

    wall: str = ""
    """Wall time, ISO 8601 with offset."""

    boot: float | None = None
    """Seconds since the computer was started, those asleep counted; None where the system does not tell."""

    numbers: tuple[int, ...] = ()
    """Numbers that came with it: the order of entry saved, or numbers dealt by chance."""

    columns: int = 0
    """Width of the window in character cells (kind resized)."""

    rows: int = 0
    """Height of the window in character cells (kind resized)."""

    raw: str = ""
    """The printable character itself, for free text; empty for keys that print nothing."""


@dataclass(frozen=True, slots=True)
class Bell:
    """Sound the terminal's bell once."""


@dataclass(frozen=True, slots=True)
class Leave:
    """Close the screen, print `words` on standard output if there are any, and exit with `status`."""

    status: int = 0
    words: str = ""
