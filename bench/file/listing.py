"""The list of jobs: newest first from names alone, rows parsed only where they are shown.

Invariant: the index is a convenience. It may be deleted, stale or rubbish at any moment; a row comes from it
only while size and time of the session file are those it was made from, and it rebuilds itself.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from bench.clean import clean
from bench.file.disk import REAL, REPLACE, read_file, write_all
from bench.file.entry import FILE_LIMIT
from bench.file.ordinary import read_regular
from bench.file.plain import cause
from bench.file.slug import ENDING, JOBS, number_of
from bench.file.words import FOREIGN

Summarise = Callable[[bytes], tuple[str, str, dict[str, str]]]
"""From the bytes of a file its state, that in words, and what else the caller wants to know."""
Apply = Callable[[Callable[[Path], "tuple[Row, int, int]"], Sequence[Path]], Iterable["tuple[Row, int, int]"]]
UNREADABLE = "unreadable"
"""State of a row whose file cannot be read."""

_INDEX_FORMAT = 2
_INDEX_LIMIT = 256 * 1024**2


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of the list of jobs."""

    path: Path
    number: int | None
    """Job number from the name, None if the name carries none."""
    state: str
    """State of the file as `load` found it, or "unreadable"."""
    message: str
    """The state in plain words."""
    summary: Mapping[str, str]
    """What the caller wanted to know, in clean text; empty if the file cannot be read."""


def names(folder: Path) -> list[Path]:
    """The session files in `folder`/jobs, highest job number first, from their names alone; empty if none."""
    return [folder / JOBS / name for name in file_names(folder)]


def file_names(folder: Path) -> list[str]:
    """Their names without the folder."""
    try:
        with os.scandir(folder / JOBS) as found:
            listed = [item.name for item in found if item.name.endswith(ENDING)]
    except OSError:
        return []
    listed.sort(key=lambda name: (number_of(name) or 0, name), reverse=True)
    return listed


class Index:
    """What earlier listings found, by file name; disposable."""

    def __init__(self, path: Path, *, version: str = "") -> None:
        """Read the index at `path`; one that is missing, broken or of another `version` counts as empty."""
        self.path = path
        self._version = version
        self._known: dict[str, list[object]] = {}
        self._changed = False
        import json  # only an index needs it, and the first page does without one

        try:
            stored = json.loads(read_regular(path, _INDEX_LIMIT))
            if stored["format"] == _INDEX_FORMAT and stored["version"] == version:
                self._known = dict(stored["rows"])
        except (OSError, ValueError, KeyError, TypeError, RecursionError):
            self._changed = True

    def has(self, name: str) -> bool:
        """Whether there is a row for this file, of whatever size and time it was."""
        return name in self._known

    def get(self, path: Path, *, size: int, mtime_ns: int) -> Row | None:
        """The row made when the file had this size and time, or None."""
        match self._known.get(path.name):
            case [int(s), int(m), str(state), str(message), dict(summary)] if (s, m) == (size, mtime_ns):
                if all(isinstance(text, str) for text in summary.values()):
                    return _row(path, state, message, summary)
        return None

    def put(self, row: Row, *, size: int, mtime_ns: int) -> None:
        """Remember a row."""
        self._known[row.path.name] = [size, mtime_ns, row.state, row.message, dict(row.summary)]
        self._changed = True

    def keep_only(self, paths: Iterable[Path]) -> None:
        """Forget files that are gone."""
        present = {path.name for path in paths}
        gone = [name for name in self._known if name not in present]
        for name in gone:
            del self._known[name]
        self._changed = self._changed or bool(gone)

    def save(self) -> None:
        """Write the index if it changed; a failure is of no consequence."""
        if not self._changed:
            return
        import json

        text = json.dumps({"format": _INDEX_FORMAT, "version": self._version, "rows": self._known})
        spare = self.path.with_name(f"{self.path.name}.{os.getpid()}")
        try:
            fd = REAL.open(spare, REPLACE)
            try:
                write_all(REAL, fd, text.encode("utf-8", "replace"))
            finally:
                REAL.close(fd)
            spare.replace(self.path)
            self._changed = False
        except OSError:
            with suppress(OSError):
                spare.unlink()


def rows(
    paths: Iterable[Path], *, summarise: Summarise, index: Index | None = None, apply: Apply = map
) -> list[Row]:
    """A row for each path; only files that the index does not know as they are now are read.

    `summarise` gets the bytes of a file; `apply` is how a function is applied to many.
    """
    paths = list(paths)
    known = {path: row for path in paths if (row := _known(path, index)) is not None}
    fresh = [path for path in paths if path not in known]
    for path, (row, size, mtime_ns) in zip(fresh, apply(partial(_read, summarise), fresh), strict=True):
        known[path] = row
        if index is not None and size >= 0:
            index.put(row, size=size, mtime_ns=mtime_ns)
    return [known[path] for path in paths]


def _known(path: Path, index: Index | None) -> Row | None:
    """What can be said of a file without its content."""
    try:
        found = REAL.look(path)
    except OSError as error:
        return _row(path, UNREADABLE, f"It cannot be read: {cause(error)}.", {})
    if not found.regular or found.size > FILE_LIMIT:
        return _row(path, "foreign", FOREIGN, {})
    return index.get(path, size=found.size, mtime_ns=found.mtime_ns) if index is not None else None


def _read(summarise: Summarise, path: Path) -> tuple[Row, int, int]:
    """A row from the content, and the size and time for which it holds; -1 where it is not to be kept."""
    try:
        found = REAL.look(path)
        data = read_file(REAL, path, FILE_LIMIT)
    except OSError as error:
        return _row(path, UNREADABLE, f"It cannot be read: {cause(error)}.", {}), -1, 0
    state, message, said = summarise(data)
    row = _row(path, state, message, {key: clean(value) for key, value in said.items()})
    return row, found.size if len(data) == found.size else -1, found.mtime_ns


def _row(path: Path, state: str, message: str, summary: Mapping[str, str]) -> Row:
    return Row(path=path, number=number_of(path.name), state=state, message=message, summary=summary)
