"""Wording that changed since the kept session files were written: one table, old and new side by side.

Invariant: only sentences stand here; words stored as values, keys of JSON and options never change.
"""

from __future__ import annotations

CHANGED: tuple[tuple[str, str], ...] = ()
"""(old, new) pieces of sentences of the sheet."""


def now_said(line: str) -> str:
    """An old line of the sheet in the words of now."""
    for old, new in CHANGED:
        line = line.replace(old, new)
    return line
