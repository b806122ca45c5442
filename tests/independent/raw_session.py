"""A session file read by nothing but the standard library,
for checkers that must not import what they check.
"""

from __future__ import annotations

import re
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
    number: int = 0
    """Its number in the file, where it was changed by hand; n is then its place."""
    accepted: int = 0
    """Where that was accepted; 0 where it was not, or only once the job was over."""

    @property
    def word(self) -> str:
        """The value itself."""
        return self.words[0] if self.words else ""


def kept_entries(path: Path) -> tuple[dict[str, Any], list[Kept]]:
    """The head, and the entries in the order of n without those taken back; an undo may be undone."""
    raw = tomllib.loads(path.read_text(encoding="utf-8"))
    entries = sorted(raw.pop("entry", []), key=lambda one: int(one["n"]))
    moved = places(entries)
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
        n, (place, by) = one["n"], moved.get(one["n"], (0, 0))
        if place:
            words = tuple(re.sub(r"(?<=\d),(?=\d)", ".", word) for word in words)
        found.append(
            Kept(place or n, one["at"], one["kind"], one.get("key", ""), words, n if place else 0, by)
        )
    return raw, sorted(found, key=lambda one: one.n)


def places(entries: list[dict[str, Any]]) -> dict[int, tuple[int, int]]:
    """Place of each answer changed by hand, by number, and where that was accepted: the same, if it was the
    newest of its key then and of this ring; its own place, and 0, once the job was over.
    """
    found: dict[int, tuple[int, int]] = {}
    for confirm in (one for one in entries if one["kind"] == "confirm"):
        before = [one for one in entries if one["n"] < confirm["n"]]
        entry = next((one for one in before if one["n"] == confirm["of"]), None)
        if entry is None:
            continue
        later = [one for one in before if one["n"] > entry["n"]]
        passed = any(one.get("key") in (entry["key"], "attempt") for one in later)
        words = [str(word) for one in before for word in as_list(one.get("value", ""))]
        said = [word for word in words if word.startswith("stands ")]
        over = bool(said) and said[-1] == "stands over"
        own, by = entry["n"], 0 if over else confirm["n"]
        found[own] = (own if passed or over else by, by)
    return found


def has_gaps(path: Path) -> bool:
    """Whether something that is missing or damaged in a file was accepted so."""
    entries = tomllib.loads(path.read_text(encoding="utf-8")).get("entry", [])
    there = {one["n"] for one in entries}
    return any(one["kind"] == "confirm" and one["of"] not in there for one in entries)


def as_list(value: Any) -> list[Any]:
    """A value as a list."""
    return value if isinstance(value, list) else [value]


def figure(text: str) -> float:
    """The number before a unit, inches turned into mm."""
    number, _, unit = text.partition(" ")
    return float(number) * (MM_PER_INCH if unit == "in" else 1.0)


def in_file(one: Kept) -> int:
    """The number of an entry in the file."""
    return one.number or one.n


def newest_before(entries: list[Kept], key: str, result: Kept) -> Kept | None:
    """The newest answer to a key that stood in the file when a result was given."""
    found = [one for one in entries if one.key == key and in_file(one) < in_file(result)]
    return max(found, key=in_file, default=None)


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
