"""A session file read by nothing but the standard library,
for checkers that must not import what they check.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

MM_PER_INCH = 25.4


@dataclass(frozen=True, slots=True)
class Kept:
    """One entry that was not taken back."""

    n: int
    at: str
    kind: str
    key: str
    words: tuple[str, ...]

    @property
    def word(self) -> str:
        """The value itself."""
        return self.words[0] if self.words else ""


def kept_entries(path: Path) -> tuple[dict[str, Any], list[Kept]]:
    """The head, and the entries in the order of n without those taken back; an undo may be undone."""
    raw = tomllib.loads(path.read_text(encoding="utf-8"))
    entries = sorted(raw.pop("entry", []), key=lambda one: int(one["n"]))
    gone: set[int] = set()
    for one in reversed(entries):
        if one["kind"] == "undo" and one["n"] not in gone:
            gone.add(one["of"])
    found = []
    for one in entries:
        if one["n"] in gone or one["kind"] in ("undo", "confirm"):
            continue
        value = one.get("value", "")
        words = tuple(str(item) for item in value) if isinstance(value, list) else (str(value),)
        found.append(Kept(one["n"], one["at"], one["kind"], one.get("key", ""), words))
    return raw, found


def figure(text: str) -> float:
    """The number before a unit, inches turned into mm."""
    number, _, unit = text.partition(" ")
    return float(number) * (MM_PER_INCH if unit == "in" else 1.0)


def newest(entries: list[Kept], key: str, before: float = float("inf"), after: float = 0) -> Kept | None:
    """The newest answer to a key between two places in the file."""
    found = [one for one in entries if one.kind == "answer" and one.key == key and after < one.n < before]
    return found[-1] if found else None


def largest_group(values: list[float], within: float) -> list[int]:
    """Places of the most values that lie within a width of one another; of equals the one keyed first."""
    best: list[int] = []
    for low in values:
        group = [i for i, value in enumerate(values) if -1e-12 <= value - low <= within + 1e-9]
        if len(group) > len(best) or (len(group) == len(best) and min(group) < min(best)):
            best = group
    return best


def is_settled(values: list[float], within: float) -> bool:
    """Two or more agree and no other group is as large."""
    group = largest_group(values, within)
    rest = [value for i, value in enumerate(values) if i not in group]
    return len(group) >= 2 and len(largest_group(rest, within)) < len(group)
