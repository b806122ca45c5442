"""A file for people to read, written beside its place and put there whole.

Invariant: under its name stands the old file or the new one, never half of one. Who may read the folder may
read the file.
"""

from __future__ import annotations

import os
import stat
from contextlib import suppress
from pathlib import Path

from bench.file.disk import REAL, REPLACE, publish, write_all
from bench.file.elsewhere import with_rights

OTHERS_READ, GROUP_TOO = 0o044, 0o064


def write_aside(path: Path, data: bytes, *, over: bool = True) -> None:
    """The file under its name, flushed; where a link stands, the file it leads to.

    `over`: one that is there is replaced. Raises OSError, FileExistsError among them.
    """
    place = Path(os.path.realpath(path))
    spare = place.parent / f".ringwright-{os.getpid()}.new"
    try:
        fd = REAL.open(spare, REPLACE)
        try:
            with_rights(fd, rights_in(place.parent))
            write_all(REAL, fd, data)
            REAL.flush(fd)
        finally:
            REAL.close(fd)
        if over:
            spare.replace(place)
            REAL.flush_folder(place.parent)
        else:
            publish(REAL, spare, place, data)
    finally:
        with suppress(OSError):
            spare.unlink()


def rights_in(folder: Path) -> int:
    """The rights of a file in a folder: those of the folder, except that strangers never write to it,
    and in a place where everybody may put things nor does the group.
    """
    rights = folder.stat().st_mode
    return 0o600 | rights & (OTHERS_READ if rights & stat.S_ISVTX else GROUP_TOO)
