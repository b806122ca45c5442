"""Wording that changed since the kept session files were written:
`changed_words.md`, old and new side by side.

Invariant: only sentences stand there; words stored as values, keys of JSON and options never change.
"""

from __future__ import annotations

import re
from pathlib import Path

ROW = re.compile(r"^\| (.+) \| (.+) \|$")
PART = re.compile(r"\.\.\.|^\(|\)$")
"""In the old side of a row that is for reading only."""


def table() -> dict[str, list[tuple[str, str]]]:
    """The rows (old, new) by the page they are about."""
    found: dict[str, list[tuple[str, str]]] = {}
    page = ""
    for line in Path(__file__).with_name("changed_words.md").read_text(encoding="utf-8").splitlines():
        if line.startswith("## "):
            page = line.removeprefix("## ")
            found[page] = []
        elif (row := ROW.match(line)) and row[1] != "old":
            found[page].append((row[1], row[2]))
    return found


def whole_phrases() -> list[tuple[str, str]]:
    """The rows whose old side is given whole."""
    return [(old, new) for rows in table().values() for old, new in rows if not PART.search(old)]


PLANNED = re.compile(r"^( *)(Outside|Wall)(?= \d)")
"""Begins a line with sizes that were said as if they were measured."""


def now_said(line: str) -> str:
    """An old line of the sheet in the words of now."""
    line = PLANNED.sub(lambda found: f"{found[1]}Planned: {found[2].lower()}", line)
    for old, new in table()["The sheet"]:
        if not PART.search(old):
            line = line.replace(old, new)
    return line
