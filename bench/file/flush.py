"""The one call on which every promise of the session file rests.

Invariant: it ends, with the content on the disk itself or with an error.
"""

from __future__ import annotations

import errno
import os

from bench.file.elsewhere import POSIX

INTERRUPTIONS = 1000
"""How often a flush may be interrupted before it counts as failed."""


def flushed(fd: int) -> None:
    """Flush a descriptor. The system's own call, since `os.fsync` begins again for ever when interrupted.

    Raises OSError, also when it was interrupted too often.
    """
    if not POSIX:
        os.fsync(fd)
        return
    from ctypes import CDLL, get_errno  # only a flush needs it, and the first page does without one

    fsync = CDLL(None, use_errno=True).fsync
    for _ in range(INTERRUPTIONS):
        if fsync(fd) == 0:
            return
        if (number := get_errno()) != errno.EINTR:
            raise OSError(number, os.strerror(number))
    raise OSError(errno.EINTR, "interrupted again and again")
