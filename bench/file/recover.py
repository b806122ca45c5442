"""Opening a session file: lock, read, set unfinished bytes aside.

Invariant: opening changes the file in one way only, by cutting an unfinished tail, and only after a flushed
copy of that tail stands beside it. A file that is not understood is left as it is, byte for byte.
"""

from __future__ import annotations

import re
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from bench.clean import clean
from bench.file import plain
from bench.file.disk import (
    NEW,
    READ_ONLY,
    READ_WRITE,
    REPLACE,
    Disk,
    FileFacts,
    read_all,
    read_file,
    write_all,
)
from bench.file.entry import FILE_LIMIT
from bench.file.load import Loaded, load
from bench.file.plain import CannotOpen

_TORN_LIMIT = 10_000
_COMPUTER = re.compile(r"on the computer (.+), since ")


@dataclass(frozen=True, slots=True, kw_only=True)
class Recovered:
    """What opening found."""

    fd: int
    """Open, locked descriptor; -1 if the file is opened to read only."""
    data: bytes
    """The content as it now is in the file."""
    loaded: Loaded
    look: FileFacts | None
    why_read_only: str
    set_aside: bytes = b""
    set_aside_in: Path | None = None
    warning: str = ""


def open_file(path: Path, disk: Disk) -> Recovered:
    """Open, lock, read and recover one session file. Raises CannotOpen in plain words."""
    try:
        found = disk.look(path)
    except OSError as error:
        raise CannotOpen(plain.cannot_open(path, error)) from error
    if not found.regular:
        raise CannotOpen(plain.not_regular(path, found.link))
    if found.size > FILE_LIMIT:
        raise CannotOpen(plain.too_large(path))
    fd, why = _open(path, disk)
    try:
        elsewhere, warning = ("", "") if why else _lock(path, fd, disk)
        opened = _recover(path, _read(fd, disk, why or elsewhere), disk)
    except OSError as error:
        with suppress(OSError):
            disk.close(fd)
        raise CannotOpen(plain.cannot_open(path, error)) from error
    opened = replace(opened, warning=plain.SECOND_NAME if found.names > 1 else warning)
    if not opened.why_read_only:
        _say_where(path, disk)
        return opened
    with suppress(OSError):
        disk.close(fd)
    return replace(opened, fd=-1)


def _open(path: Path, disk: Disk) -> tuple[int, str]:
    try:
        return disk.open(path, READ_WRITE), ""
    except OSError as error:
        try:
            return disk.open(path, READ_ONLY), plain.cannot_write(error)
        except OSError as second:
            raise CannotOpen(plain.cannot_open(path, second)) from second


def _lock(path: Path, fd: int, disk: Disk) -> tuple[str, str]:
    """Why the file is not ours to write, and what is to be said though it is; each empty where nothing is."""
    try:
        if not disk.lock(fd):
            return plain.open_elsewhere(_where(path, disk)), ""
        locks = _keeps_out(path, disk)
    except OSError:
        locks = False
    where = _where(path, disk)
    if where and (not locks or _is_elsewhere(where, disk.whereabouts())):
        return "", plain.left_open(where, locks=locks)
    return "", "" if locks else plain.NO_LOCK


def _keeps_out(path: Path, disk: Disk) -> bool:
    """Whether a lock that was taken refuses another one of the same file: tried, not assumed."""
    try:
        second = disk.open(path, READ_ONLY)
    except OSError:
        return True  # nothing is known, and nothing is said
    try:
        return not disk.lock(second)
    except OSError:
        return True
    finally:
        disk.close(second)


def _is_elsewhere(noted: str, here: str) -> bool:
    """Whether a note was left by another computer than this one."""
    computers = [_COMPUTER.match(text) for text in (noted, here)]
    return all(computers) and len({found[1] for found in computers if found}) > 1


def _read(fd: int, disk: Disk, why: str) -> Recovered:
    data = read_all(disk, fd, FILE_LIMIT)
    loaded = load(data)
    if loaded.read_only:
        why = why or loaded.message
    return Recovered(fd=fd, data=data, loaded=loaded, look=disk.look_at(fd), why_read_only=why)


def _recover(path: Path, opened: Recovered, disk: Disk) -> Recovered:
    """Make what was read certain; set an unfinished tail aside. Any failure makes the job read-only."""
    if opened.why_read_only:
        return opened
    torn, end = opened.loaded.torn, opened.loaded.trusted_end
    try:
        if not torn:
            disk.flush(opened.fd)
            return opened
        kept = _keep(path, torn, disk)
        disk.truncate(opened.fd, end)
        disk.flush(opened.fd)
        data = opened.data[:end]
        look = disk.look_at(opened.fd)
    except OSError as error:
        return replace(opened, why_read_only=plain.not_recovered(error))
    return replace(opened, data=data, loaded=load(data), look=look, set_aside=torn, set_aside_in=kept)


def _keep(path: Path, torn: bytes, disk: Disk) -> Path:
    """A flushed copy of the unfinished bytes beside the file; an identical one is used again."""
    for k in range(1, _TORN_LIMIT):
        kept = path.with_name(f"{path.name}.torn-{k}")
        try:
            fd = disk.open(kept, NEW)
        except FileExistsError:
            if _content(kept, disk) != torn:
                continue
            fd = disk.open(kept, READ_ONLY)
            try:
                disk.flush(fd)
            finally:
                disk.close(fd)
        else:
            try:
                write_all(disk, fd, torn)
                disk.flush(fd)
            finally:
                disk.close(fd)
        disk.flush_folder(path.parent)
        return kept
    raise FileExistsError(f"too many files {path.name}.torn-1, -2 ...")


def _content(path: Path, disk: Disk) -> bytes | None:
    try:
        return read_file(disk, path, FILE_LIMIT)
    except OSError:
        return None


def _beside(path: Path) -> Path:
    return path.with_name(path.name + ".open")


def _say_where(path: Path, disk: Disk) -> None:
    """Note beside the file where it is open; only told to a second window, so a failure does not matter."""
    with suppress(OSError):
        fd = disk.open(_beside(path), REPLACE)
        try:
            write_all(disk, fd, disk.whereabouts().encode("utf-8", "replace"))
        finally:
            disk.close(fd)


def _where(path: Path, disk: Disk) -> str:
    found = _content(_beside(path), disk)
    return clean((found or b"").decode("utf-8", "replace"))[:200]


def leave(path: Path, fd: int, disk: Disk) -> None:
    """Take the note away and close the descriptor, which gives the lock back."""
    with suppress(OSError):
        disk.unlink(_beside(path))
    with suppress(OSError):
        disk.close(fd)
