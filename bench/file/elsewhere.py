"""What the system gives to keep files, where it is POSIX and where it is not.

Invariant: where flock is there it is the lock, the same as ever, and nothing else is used; elsewhere the
lock is a file beside the job, by the library filelock, and flags that the system does not know are left
out. Of durability elsewhere nothing is promised.
"""

from __future__ import annotations

import os
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from filelock import BaseFileLock

POSIX = find_spec("fcntl") is not None
LOCK_ENDING = ".lock"

_paths: dict[int, Path] = {}
_locks: dict[int, BaseFileLock] = {}


def flags(*names: str) -> int:
    """Flags for opening, those that this system knows; bytes are always kept as they are."""
    found = 0
    for name in (*names, "O_CLOEXEC", "O_NOINHERIT", "O_BINARY"):
        found |= getattr(os, name, 0)
    return found


def opened(fd: int, path: Path) -> int:
    """Remember which file a descriptor is, where its lock will need that; the descriptor."""
    if not POSIX:
        _paths[fd] = path
    return fd


def closed(fd: int) -> None:
    """Give the lock of a descriptor back."""
    _paths.pop(fd, None)
    if (lock := _locks.pop(fd, None)) is not None:
        lock.release()


def locked(fd: int) -> bool:
    """Take the one writer's lock without waiting; False if another has it. Raises OSError."""
    if POSIX:
        import fcntl

        try:
            fcntl.flock(fd, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True
    from filelock import FileLock, Timeout

    path = _paths[fd]
    lock = FileLock(path.with_name(path.name + LOCK_ENDING), timeout=0, thread_local=False)
    try:
        lock.acquire()
    except Timeout:
        return False
    _locks[fd] = lock
    return True


def read_at(fd: int, count: int, offset: int) -> bytes:
    """At most `count` bytes from `offset`."""
    if hasattr(os, "pread"):
        return os.pread(fd, count, offset)
    os.lseek(fd, offset, os.SEEK_SET)
    return os.read(fd, count)


def linked(old: Path, new: Path) -> None:
    """A second name for a file, no link followed where the system can be told that. Raises OSError."""
    if os.link in os.supports_follow_symlinks:
        os.link(old, new, follow_symlinks=False)
    else:
        os.link(old, new)


def with_rights(fd: int, rights: int) -> None:
    """Give an open file its rights, where the system keeps them with the file."""
    if hasattr(os, "fchmod"):
        os.fchmod(fd, rights)


def window() -> str:
    """The terminal that this program is in."""
    try:
        return os.ttyname(0)
    except (OSError, AttributeError):
        return "no terminal"
