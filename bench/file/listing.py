"""The list of jobs: newest first from names alone, rows parsed only where they are shown.

Invariant: the index is a convenience. It may be deleted, stale or rubbish at any moment; a row comes from it
only while size and time of the session file are those it was made from, and it rebuilds itself.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from bench.clean import clean
from bench.file.disk import REAL, REPLACE, read_file, write_all
from bench.file.entry import FILE_LIMIT
from bench.file.load import Loaded, load
from bench.file.plain import cause
from bench.file.slug import ENDING, number_of
from bench.file.store import JOBS

Summarise = Callable[[Loaded], dict[str, str]]
UNREADABLE = "unreadable"
"""State of a row whose file cannot be read."""

_INDEX_FORMAT = 1


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
    jobs = folder / JOBS
    try:
        with os.scandir(jobs) as found:
            listed = [item.name for item in found if item.name.endswith(ENDING)]
    except OSError:
        return []
    listed.sort(key=lambda name: (number_of(name) or 0, name), reverse=True)
    return [jobs / name for name in listed]


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
            stored = json.loads(path.read_bytes())
            if stored["format"] == _INDEX_FORMAT and stored["version"] == version:
                self._known = dict(stored["rows"])
        except (OSError, ValueError, KeyError, TypeError, RecursionError):
            self._changed = True

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
        except OSError:
            spare.unlink(missing_ok=True)
            return
        self._changed = False


def rows(paths: Iterable[Path], *, summarise: Summarise, index: Index | None = None) -> list[Row]:
    """A row for each path; only files that the index does not know as they are now are parsed."""
    return [_one(path, summarise, index) for path in paths]


def _one(path: Path, summarise: Summarise, index: Index | None) -> Row:
    try:
        found = REAL.look(path)
        if not found.regular or found.size > FILE_LIMIT:
            return _row(path, "foreign", "This is not a session file.", {})
        if index is not None:
            known = index.get(path, size=found.size, mtime_ns=found.mtime_ns)
            if known is not None:
                return known
        data = read_file(REAL, path, FILE_LIMIT)
    except OSError as error:
        return _row(path, UNREADABLE, f"It cannot be read: {cause(error)}.", {})
    loaded = load(data)
    row = _row(path, loaded.state, loaded.message, {k: clean(v) for k, v in summarise(loaded).items()})
    if index is not None and len(data) == found.size:
        index.put(row, size=found.size, mtime_ns=found.mtime_ns)
    return row


def _row(path: Path, state: str, message: str, summary: Mapping[str, str]) -> Row:
    return Row(path=path, number=number_of(path.name), state=state, message=message, summary=summary)
