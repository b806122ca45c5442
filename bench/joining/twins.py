"""Session files of one folder that are copies of one job: found by their id, and how each stands to another.

Invariant: names and times say nothing here; a copy is only read.
"""

from __future__ import annotations

import hashlib
import os
import re
import sys
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from bench.clean import clean
from bench.file.entry import FILE_LIMIT
from bench.file.listing import Row
from bench.file.load import FoundEntry, load
from bench.file.ordinary import read_regular
from bench.file.pieces import BY_HAND, EDITED
from bench.file.slug import ENDING, JOBS, number_of
from bench.job import keys

PARTED, BEHIND, WITHIN = "parted", "behind", "within"
"""How a copy stands to another: each went on otherwise; it is an earlier state; it was joined into it."""
MOST_COPIES = 12
"""Copies of one job that are held against each other; a folder with more of them was made by hand."""
HEAD_LIMIT = 2000
"""Bytes in which the id of a session file stands."""
ID = "id"
"""Name under which a row is kept with the id of its file."""
_ID = re.compile(rb'^id[ \t]*=[ \t]*"([0-9a-f]{8})"', re.MULTILINE)
_SAID = {
    PARTED: "went on otherwise than {other}",
    BEHIND: "an earlier state of {other}",
    WITHIN: "joined into {other}",
}


@dataclass(frozen=True, slots=True)
class Twin:
    """How one copy stands to another."""

    state: str
    other: str
    """Name of the other file."""

    @property
    def words(self) -> str:
        """The same for the list of jobs."""
        return clean(_SAID[self.state].format(other=self.other))


def digest_of(data: bytes) -> str:
    """What a copy was when it was joined: 16 hexadecimal digits."""
    return hashlib.sha256(data).hexdigest()[:16]


class Heads:
    """Ids of the session files in a folder, as far as they were looked into; kept while the program runs."""

    def __init__(self, folder: Path) -> None:
        self._jobs = folder / JOBS
        self._ids: dict[str, tuple[int, str]] = {}
        self._known: tuple[tuple[tuple[str, ...], ...], dict[str, Twin]] = ((), {})
        self._complete = False

    def look(self, most: int) -> bool:
        """Look into so many more files, those that share a number first; whether none is left."""
        try:
            with os.scandir(self._jobs) as found:
                present = {item.name: item.inode() for item in found if item.name.endswith(ENDING)}
        except OSError:
            present = {}
        self._ids = {name: one for name, one in self._ids.items() if present.get(name) == one[0]}
        fresh = [name for name in present if name not in self._ids]
        if len(fresh) > most:
            numbers = Counter(map(number_of, present))
            fresh.sort(key=lambda name: numbers[number_of(name)] == 1)
        for name in fresh[:most]:
            self._ids[name] = present[name], id_of(self._jobs / name)
        self._complete = len(fresh) <= most
        return self._complete

    def families(self) -> tuple[tuple[str, ...], ...]:
        """Names of the files that share an id, those of one job together."""
        found: dict[str, list[str]] = {}
        for name, (_, known) in self._ids.items():
            if known:
                found.setdefault(known, []).append(name)
        return tuple(tuple(sorted(names)) for names in found.values() if len(names) > 1)

    def twins(self) -> dict[str, Twin]:
        """How every copy stands to another, by name; read again once all files were looked into."""
        families = self.families()
        if self._complete or families != self._known[0]:
            found = {name: twin for names in families for name, twin in twins_of(self._jobs, names).items()}
            self._known = families, found
        return self._known[1]


def twins_in(folder: Path) -> dict[str, Twin]:
    """How the copies among all session files of a folder stand to each other, by name."""
    heads = Heads(folder)
    heads.look(sys.maxsize)
    return heads.twins()


def id_of(path: Path) -> str:
    """The id in the first lines of a session file; empty where none can be read."""
    try:
        return id_in(read_regular(path, HEAD_LIMIT))
    except OSError:
        return ""


def id_in(data: bytes) -> str:
    """The id of a session file, empty where there is none."""
    found = _ID.search(data[:HEAD_LIMIT].partition(b"[[entry]]")[0])
    return found[1].decode() if found else ""


def uncounted(found: Iterable[Row]) -> dict[str, Twin]:
    """The files from which nothing is counted, by name, of rows that are kept with their ids: what another
    file of the job has too, and copies that went apart, until they are joined.
    """
    by_id: dict[str, list[Path]] = {}
    for row in found:
        if known := row.summary.get(ID):
            by_id.setdefault(known, []).append(row.path)
    apart: dict[str, Twin] = {}
    for paths in (paths for paths in by_id.values() if len(paths) > 1):
        jobs, of_one = paths[0].parent, sorted(path.name for path in paths)
        twins = twins_of(jobs, of_one)
        apart |= twins | _repeats(jobs, [name for name in of_one if name not in twins])
    return apart


def _repeats(jobs: Path, names: Sequence[str]) -> dict[str, Twin]:
    """Those of some files that are the same as one before them, to the byte."""
    first: dict[bytes, str] = {}
    with suppress(OSError):
        for name in names:
            first.setdefault(read_regular(jobs / name, FILE_LIMIT), name)
    return {name: Twin(BEHIND, names[0]) for name in names if first and name not in first.values()}


def twins_of(jobs: Path, names: Sequence[str]) -> dict[str, Twin]:
    """How each of some files of one id stands to another; a file that stands alone is not named."""
    copies: dict[str, bytes] = {}
    for name in names[:MOST_COPIES]:
        try:
            copies[name] = read_regular(jobs / name, FILE_LIMIT)
        except OSError:
            continue
    return related(copies)


def related(copies: Mapping[str, bytes]) -> dict[str, Twin]:
    """How each copy stands to another, from the bytes of all."""
    loaded = {name: load(copies[name]) for name in _different(copies)}
    heads = Counter(one.head for one in loaded.values() if one.head is not None)
    read = {name: one.entries for name, one in loaded.items() if one.head is not None and heads[one.head] > 1}
    digests = {digest_of(copies[name]): name for name in read}
    found: dict[str, Twin] = {}
    for name, entries in read.items():
        for old in _joined_from(entries):
            if (of := digests.get(old)) is not None and of != name:
                found[of] = Twin(WITHIN, name)
    for name in sorted(read.keys() - found.keys()):
        ahead = [other for other in read if other not in found and other != name]
        ahead = [other for other in ahead if _begins(read[name], read[other])]
        if ahead:
            found[name] = Twin(BEHIND, max(ahead, key=lambda other: (len(read[other]), other)))
    left = sorted(read.keys() - found.keys())
    if len(left) > 1:
        found |= {name: Twin(PARTED, left[i - 1] if i else left[1]) for i, name in enumerate(left)}
    return found


def _different(copies: Mapping[str, bytes]) -> list[str]:
    """Names of the copies but for those that are the same as one of another number."""
    first: dict[bytes, str] = {}
    for name, data in copies.items():
        first.setdefault(data, name)
    return [name for name in copies if number_of(name) == number_of(first[copies[name]])]


def _joined_from(entries: Sequence[FoundEntry]) -> list[str]:
    """Digests of the copies that a file was joined from."""
    values = [one.entry.value for one in entries if (one.entry.kind, one.entry.key) == ("mark", keys.JOINED)]
    return [str(word) for value in values if isinstance(value, tuple) for word in value[1::2]]


def _begins(short: Sequence[FoundEntry], long: Sequence[FoundEntry]) -> bool:
    """Whether a copy is an earlier state of another, which has all of it, or has corrected it by hand."""
    return len(short) <= len(long) and all(map(_same, short, long))


def _same(one: FoundEntry, other: FoundEntry) -> bool:
    same = (one.entry.n, one.entry.at, one.entry.kind, one.entry.key) == (
        other.entry.n, other.entry.at, other.entry.kind, other.entry.key,
    )  # fmt: skip
    return same and (one.entry.value == other.entry.value or other.found in (EDITED, BY_HAND))
