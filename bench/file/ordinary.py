"""Reading what has to be an ordinary file, whatever stands under its name.

Invariant: a pipe is never waited for, a device never read, and no more is read than was asked for.
"""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path

from bench.file.disk import REAL, read_all
from bench.file.elsewhere import flags


def open_regular(path: Path) -> int:
    """A descriptor to read an ordinary file; raises OSError for anything else, without waiting for a pipe."""
    fd = os.open(path, os.O_RDONLY | flags("O_NONBLOCK"))
    found = os.fstat(fd).st_mode
    if stat.S_ISREG(found):
        return fd
    os.close(fd)
    raise OSError(errno.EISDIR if stat.S_ISDIR(found) else errno.ENXIO, "not an ordinary file", str(path))


def read_regular(path: Path, limit: int) -> bytes:
    """The content of an ordinary file, also by way of a link, at most `limit` + 1 bytes. Raises OSError."""
    fd = open_regular(path)
    try:
        return read_all(REAL, fd, limit)
    finally:
        os.close(fd)
