"""The few system calls that the session file relies on.

Invariant: every byte of a session passes through one of these calls, so that a test can make any of them
fail or simulate a power cut between any two of them. Each raises OSError as the system gave it; none retries.
"""

from __future__ import annotations

import errno
import os
import stat
import time
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from bench.file.elsewhere import POSIX, closed, flags, linked, locked, opened, read_at, window
from bench.file.flush import flushed

READ_WRITE = os.O_RDWR | os.O_APPEND | flags("O_NOFOLLOW", "O_NONBLOCK")
READ_ONLY = os.O_RDONLY | flags("O_NOFOLLOW", "O_NONBLOCK")
NEW = os.O_RDWR | os.O_CREAT | os.O_EXCL | flags("O_NOFOLLOW")
REPLACE = os.O_WRONLY | os.O_CREAT | os.O_TRUNC | flags("O_NOFOLLOW", "O_NONBLOCK")

OURS_ALONE = 0o600
"""Session files can be read by their owner only."""


@dataclass(frozen=True, slots=True)
class FileFacts:
    """What the system says about a file without opening its content."""

    identity: tuple[int, int]
    """Device and inode: the same file whatever its name."""
    size: int
    """Bytes."""
    mtime_ns: int
    """Time of the last change, nanoseconds."""
    regular: bool
    """False for folders, pipes, devices and links."""
    link: bool
    """True for a symbolic link."""
    names: int
    """How many hard links it has."""


def _look(found: os.stat_result) -> FileFacts:
    return FileFacts(
        identity=(found.st_dev, found.st_ino),
        size=found.st_size,
        mtime_ns=found.st_mtime_ns,
        regular=stat.S_ISREG(found.st_mode),
        link=stat.S_ISLNK(found.st_mode),
        names=found.st_nlink,
    )


class Disk:
    """The real disk."""

    def look(self, path: Path) -> FileFacts:
        """The file behind a name, links not followed; a name that no system can hold is not there."""
        try:
            return _look(os.lstat(path))
        except ValueError as impossible:
            raise FileNotFoundError(errno.ENOENT, "no such name") from impossible

    def look_at(self, fd: int) -> FileFacts:
        """The file behind an open descriptor."""
        return _look(os.fstat(fd))

    def open(self, path: Path, flags: int) -> int:
        """A descriptor."""
        return opened(os.open(path, flags, OURS_ALONE), path)

    def close(self, fd: int) -> None:
        """Give the descriptor back."""
        closed(fd)
        os.close(fd)

    def lock(self, fd: int) -> bool:
        """Take the one writer's lock without waiting; False if another has it."""
        return locked(fd)

    def read(self, fd: int, count: int, offset: int) -> bytes:
        """At most `count` bytes from `offset`."""
        return read_at(fd, count, offset)

    def write(self, fd: int, data: bytes) -> int:
        """How many bytes were written; may be fewer than given."""
        return os.write(fd, data)

    def truncate(self, fd: int, size: int) -> None:
        """Cut the file to `size` bytes."""
        os.ftruncate(fd, size)

    def flush(self, fd: int) -> None:
        """Return only when the content is on the disk itself."""
        flushed(fd)

    def link(self, old: Path, new: Path) -> None:
        """A second name for a file; fails if the name is taken."""
        linked(old, new)

    def unlink(self, path: Path) -> None:
        """Take a name away."""
        path.unlink()

    def make_folder(self, path: Path) -> None:
        """A folder; fine if it is there."""
        path.mkdir(mode=0o700, exist_ok=True)

    def flush_folder(self, path: Path) -> None:
        """Return only when the names in a folder are on the disk itself."""
        if not POSIX:
            return
        fd = os.open(path, os.O_RDONLY | flags("O_DIRECTORY"))
        try:
            flushed(fd)
        except OSError as error:
            if error.errno not in (errno.EINVAL, errno.ENOTSUP):
                raise
        finally:
            os.close(fd)

    def names(self, folder: Path) -> list[str]:
        """The names in a folder, in no order."""
        with os.scandir(folder) as found:
            return [item.name for item in found]

    def whereabouts(self) -> str:
        """Where this program runs, for the window that finds the job open elsewhere."""
        from socket import gethostname  # only a job that is opened needs it

        since = time.strftime("%Y-%m-%d %H:%M")
        return f"on the computer {gethostname()}, since {since}, window {window()}"


REAL = Disk()


def read_file(disk: Disk, path: Path, limit: int) -> bytes:
    """The content of a file by its name, as `read_all` gives it. Raises OSError."""
    fd = disk.open(path, READ_ONLY)
    try:
        return read_all(disk, fd, limit)
    finally:
        disk.close(fd)


def read_all(disk: Disk, fd: int, limit: int) -> bytes:
    """The whole content, at most `limit` + 1 bytes."""
    pieces: list[bytes] = []
    have = 0
    while have <= limit:
        piece = disk.read(fd, min(limit + 1 - have, 1 << 20), have)
        if not piece:
            break
        pieces.append(piece)
        have += len(piece)
    return b"".join(pieces)


def write_all(disk: Disk, fd: int, data: bytes) -> None:
    """Write everything, however short each write is; raises OSError."""
    rest = memoryview(data)
    while rest:
        count = disk.write(fd, bytes(rest))
        if count <= 0:
            raise OSError(errno.EIO, "nothing was written")
        rest = rest[count:]


NO_LINKS = frozenset({errno.EPERM, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS, errno.EMLINK})
"""How file systems without hard links (FAT) refuse one."""


def write_new(disk: Disk, path: Path, data: bytes) -> None:
    """A new file that is either wholly there under its name or not at all, flushed; never replaces one.

    Raises OSError (FileExistsError if the name, or the name with ".new" behind it, is taken).
    """
    spare = path.with_name(path.name + ".new")
    stage(disk, spare, data)
    publish(disk, spare, path, data)


def stage(disk: Disk, path: Path, data: bytes) -> None:
    """Write and flush a new file; it is taken away again if that fails."""
    fd = disk.open(path, NEW)
    try:
        try:
            write_all(disk, fd, data)
            disk.flush(fd)
        finally:
            disk.close(fd)
    except OSError:
        with suppress(OSError):
            disk.unlink(path)
        raise


def publish(disk: Disk, spare: Path, path: Path, data: bytes) -> None:
    """Give a staged file its real name, flushed;
    without hard links the file is written again under its real name.
    """
    try:
        try:
            disk.link(spare, path)
        except OSError as error:
            if error.errno not in NO_LINKS:
                raise
            stage(disk, path, data)
        disk.flush_folder(path.parent)
    finally:
        with suppress(OSError):
            disk.unlink(spare)


def make_folders(disk: Disk, path: Path) -> None:
    """The folder and its missing parents, each one's name flushed."""
    missing = []
    for folder in (path, *path.parents):
        try:
            disk.look(folder)
            break
        except FileNotFoundError:
            missing.append(folder)
    for folder in reversed(missing):
        disk.make_folder(folder)
        disk.flush_folder(folder.parent)
