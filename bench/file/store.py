"""One session file open for work: created, opened, recovered, appended to.

Invariant: an entry is returned only after its bytes were flushed; nothing is written after a failed flush;
cut-off bytes are copied beside the file before the file is cut; the file of a job is never rewritten.
"""

from __future__ import annotations

import zlib
from collections.abc import Callable
from pathlib import Path

from bench.file import plain, recover
from bench.file.codec import BadShape, render_entry, writable_text
from bench.file.disk import (
    REAL,
    Disk,
    FileFacts,
    read_all,
    write_all,
    write_new,
)
from bench.file.entry import FILE_LIMIT, Entry, Head, Value
from bench.file.load import Loaded, load
from bench.file.plain import NotSaved

_WHILE_GATED = frozenset({"confirm", "note", "mark"})
Judge = Callable[[Loaded], Loaded]
"""What may be used of a file by what its answers are answers to; the store knows only entries."""


def as_it_is(loaded: Loaded) -> Loaded:
    """Nothing more is known of a file than what it says itself."""
    return loaded


class Session:
    """An open session file. Use as a context manager or call `close`."""

    def __init__(self, path: Path, *, disk: Disk, opened: recover.Recovered, judge: Judge) -> None:
        self.path = path
        self.loaded: Loaded = judge(opened.loaded)
        """As read at opening or after the last confirm."""
        self.set_aside: bytes = opened.set_aside
        """Unfinished bytes that were moved beside the file at opening."""
        self.set_aside_in: Path | None = opened.set_aside_in
        """Where they are kept."""
        self.warning: str = opened.warning
        """Something unusual about the file itself, in plain words; empty if nothing is."""
        self._disk = disk
        self._fd = opened.fd
        self._why = opened.why_read_only
        self._bytes = bytearray(opened.data)
        self._crc = zlib.crc32(opened.data)
        self._look = opened.look
        self._next_n = opened.loaded.next_n
        self._judge = judge
        self._usable = list(self.loaded.usable)

    @property
    def head(self) -> Head | None:
        """The head, None if it cannot be read."""
        return self.loaded.head

    @property
    def entries(self) -> tuple[Entry, ...]:
        """The entries that may be used, those appended since opening included."""
        return tuple(self._usable)

    @property
    def writable(self) -> bool:
        """True while an answer can be appended."""
        return not self._why

    @property
    def why_read_only(self) -> str:
        """Why nothing can be appended, in plain words; empty while writable."""
        return self._why

    def append(self, *, kind: str, key: str = "", value: Value = "", of: int | None = None, at: str) -> Entry:
        """Write one entry and flush it; only then return it.

        For a confirm, `of` names the finding and the store writes the finding's mark as value.
        Raises NotSaved in plain words; its `certain` is False if the entry may turn up all the same.
        """
        entry = self._made(kind=kind, key=key, value=value, of=of, at=at)
        try:
            assert self.head is not None
            block = render_entry(entry, salt=self.head.id)
        except BadShape as bad:
            raise NotSaved(f"The answer cannot be kept in the file: {bad}.", certain=True) from bad
        if self._bytes and not self._bytes.endswith(b"\n"):
            block = b"\n" + block
        if len(self._bytes) + len(block) > FILE_LIMIT:
            raise NotSaved(plain.FULL_FILE, certain=True)
        self._check_unchanged()
        self._write(block)
        self._took(entry, block)
        return entry

    def _made(self, *, kind: str, key: str, value: Value, of: int | None, at: str) -> Entry:
        if not self.writable:
            raise NotSaved(self._why, certain=True)
        if self.loaded.gated and kind not in _WHILE_GATED:
            raise NotSaved(plain.GATED, certain=True)
        if kind == "confirm":
            marks = {finding.of: finding.mark for finding in self.loaded.findings}
            if of not in marks:
                raise NotSaved(plain.NOTHING_TO_SETTLE, certain=True)
            refused = [finding.words for finding in self.loaded.findings if finding.refused]
            if refused:
                raise NotSaved(plain.not_accepted(refused[0]), certain=True)
            value = marks[of]
        if isinstance(value, list | tuple):
            value = tuple(writable_text(item) if isinstance(item, str) else item for item in value)
        elif isinstance(value, str):
            value = writable_text(value)
        return Entry(
            n=self._next_n, at=writable_text(at), kind=kind, key=writable_text(key), value=value, of=of
        )

    def _check_unchanged(self) -> None:
        """Stop unless the name still leads to our file and the file is as we left it."""
        held, astray = self._whereabouts()
        if held is None or astray:
            self._stop(astray)
        elif held.size != len(self._bytes) or not self._same_content(held):
            self._stop(plain.CHANGED_MEANWHILE)
        if self._why:
            raise NotSaved(self._why, certain=True)

    def _whereabouts(self) -> tuple[FileFacts | None, str]:
        """The file we hold, and why its name does not lead to it, in plain words."""
        try:
            named, held = self._disk.look(self.path), self._disk.look_at(self._fd)
        except OSError as error:
            return None, plain.vanished(error)
        return held, "" if named.identity == held.identity and named.regular else plain.REPLACED

    @property
    def why_unsaved(self) -> str:
        """Why the answers are not all in the file under its name; empty if they are, or nothing was to be."""
        if self._fd < 0:
            return ""
        return self._why or self._whereabouts()[1]

    def _same_content(self, held: FileFacts) -> bool:
        if self._look is not None and held.mtime_ns == self._look.mtime_ns:
            return True
        try:
            same = zlib.crc32(read_all(self._disk, self._fd, FILE_LIMIT)) == self._crc
        except OSError:
            return False
        return same

    def _write(self, block: bytes) -> None:
        before = len(self._bytes)
        try:
            write_all(self._disk, self._fd, block)
        except OSError as error:
            self._take_back(before, error)
            raise NotSaved(plain.not_written(error), certain=True) from error
        try:
            self._disk.flush(self._fd)
        except OSError as error:
            self._stop(plain.FLUSH_FAILED)
            raise NotSaved(self._why, certain=False) from error

    def _take_back(self, before: int, error: OSError) -> None:
        """After a failed write: the file as it was before, or stop."""
        try:
            self._disk.truncate(self._fd, before)
            self._disk.flush(self._fd)
            self._look = self._disk.look_at(self._fd)
        except OSError as second:
            self._stop(plain.half_written(error))
            raise NotSaved(self._why, certain=False) from second

    def _took(self, entry: Entry, block: bytes) -> None:
        self._bytes += block
        self._crc = zlib.crc32(block, self._crc)
        self._next_n = entry.n + 1
        try:
            self._look = self._disk.look_at(self._fd)
        except OSError:
            self._look = None
        if entry.kind == "confirm":
            self.loaded = self._judge(load(bytes(self._bytes)))
            self._usable = list(self.loaded.usable)
        elif not self.loaded.gated:
            self._usable.append(entry)

    def _stop(self, why: str) -> None:
        self._why = why

    def save_copy(self, path: Path) -> Path:
        """A complete copy of all that is known to be saved, in a new file. Raises NotSaved."""
        try:
            write_new(self._disk, path, bytes(self._bytes))
        except OSError as error:
            raise NotSaved(plain.no_copy(error), certain=True) from error
        return path

    def close(self) -> None:
        """Give file and lock back; may be called twice."""
        fd, self._fd = self._fd, -1
        if fd >= 0:
            recover.leave(self.path, fd, self._disk)
        self._why = self._why or plain.CLOSED

    def __enter__(self) -> Session:
        return self

    def __exit__(self, *error: object) -> None:
        self.close()


def open_session(path: Path, *, disk: Disk = REAL, judge: Judge = as_it_is) -> Session:
    """Open a session file for work, or to read only with the reason. Raises CannotOpen."""
    return Session(path, disk=disk, opened=recover.open_file(path, disk), judge=judge)
