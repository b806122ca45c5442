"""The refusals of the session file in plain words: what is the matter, what is safe, what to do.

Invariant: no message shows an error number or a call; every one says what happened to the answer.
"""

from __future__ import annotations

import errno
from pathlib import Path

from bench.clean import clean


class NotSaved(Exception):
    """An entry or copy that was not saved; `certain` is False if it may be in the file all the same."""

    def __init__(self, why: str, certain: bool) -> None:
        super().__init__(why)
        self.why = why
        self.certain = certain


class CannotOpen(Exception):
    """A file that cannot be opened at all."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why


GATED = "Something in this file changed outside the program. Look at it and accept it first; then answer."
NOTHING_TO_SETTLE = "There is nothing to accept there."
FULL_FILE = "Not saved: this session file has reached its largest size (8 MiB). Begin a new job."
REPLACED = (
    "Not saved: another file stands in the place of this job. Nothing more is written. "
    "Save a complete copy elsewhere, then open the job again."
)
CHANGED_MEANWHILE = (
    "Not saved: another program changed this file while it was open. Nothing more is written. "
    "Save a complete copy elsewhere if you need it, then open the job again to look at the change."
)
FLUSH_FAILED = (
    "The disk did not confirm the last answer: it may or may not be saved. Nothing more is written to this "
    "file. Save a complete copy to another disk and go on there."
)
NO_PLACE = "The copy was not saved: there is no home, no folder to work in and none for temporary files."
NO_LOCK = (
    "This folder cannot keep a second computer out of an open job (tried just now). Work goes on; have a job "
    "open on one computer at a time. Copies that went on apart can be joined."
)
CLOSED = "This job was closed."
NO_NUMBER = "No job number could be taken: another program is making jobs in the same folder. Try again."
SECOND_NAME = "This file has a second name (a hard link); what is written here appears there as well."

_CAUSES = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "the space allowed to you on this disk is used up",
    errno.EFBIG: "the system does not let this file grow",
    errno.EROFS: "the disk can be read only",
    errno.EACCES: "your account has no permission there",
    errno.EPERM: "your account has no permission there",
    errno.ENOENT: "there is no such file or folder",
    errno.ENOTDIR: "there is no such folder",
    errno.EISDIR: "it is a folder",
    errno.ELOOP: "it is a link to another place",
    errno.ENAMETOOLONG: "its name is too long",
    errno.EEXIST: "a file of that name is already there",
    errno.ENXIO: "it is not an ordinary file",
    errno.EMFILE: "too many files are open",
    errno.ENFILE: "too many files are open",
    errno.ENODEV: "the disk is gone",
    errno.ESTALE: "the disk is gone",
    errno.EINTR: "the system interrupted it again and again",
    errno.EIO: "the disk reports a fault",
}


def cause(error: OSError) -> str:
    """Why the system refused, in plain words."""
    return _CAUSES.get(error.errno or 0, "the system refused it")


def _name(path: Path) -> str:
    return clean(path.name) or "the file"


def cannot_open(path: Path, error: OSError) -> str:
    """For a file that cannot be opened or read."""
    return f"{_name(path)} cannot be opened: {cause(error)}."


def not_regular(path: Path, link: bool) -> str:
    """For a folder, pipe, device or link under the name of a job."""
    what = "a link to another place; open the file it leads to" if link else "not an ordinary file"
    return f"{_name(path)} is {what}."


def too_large(path: Path) -> str:
    """For a file above the size limit."""
    return f"{_name(path)} is not a session file: it is larger than a session file can be (8 MiB)."


def cannot_write(error: OSError) -> str:
    """For a file that opens to read only."""
    return f"Opened to read only: {cause(error)}. To work on it, make the file writable or copy it elsewhere."


def open_elsewhere(where: str) -> str:
    """For the second window."""
    return f"Opened to read only: this job is already open in another window ({where or 'place unknown'})."


def left_open(where: str, *, locks: bool = True) -> str:
    """For a job that a note says is open elsewhere, though nothing keeps it from being opened here."""
    no_lock = "" if locks else "This folder cannot keep a second computer out (tried just now). "
    return (
        f"{no_lock}A note beside this job says that it is open elsewhere: {where}. If that is so, close it "
        "there first; the note stays behind where a computer was switched off."
    )


def not_recovered(error: OSError) -> str:
    """For a recovery that did not come to its end."""
    return (
        f"Opened to read only: the file could not be made safe ({cause(error)}). "
        "Every answer in it is shown; put the disk right and open it again."
    )


def vanished(error: OSError) -> str:
    """For a file whose name is gone."""
    return (
        f"Not saved: the file of this job is no longer where it was ({cause(error)}). Nothing more is "
        "written. Save a complete copy elsewhere and go on there."
    )


def not_written(error: OSError) -> str:
    """For a write that failed and was taken back."""
    return f"Not saved: {cause(error)}. The file is as it was before; put this right and press Enter again."


def half_written(error: OSError) -> str:
    """For a write that failed and could not be taken back."""
    return (
        f"The last answer may or may not be saved: {cause(error)}. Nothing more is written to this "
        "file. Save a complete copy to another disk and go on there."
    )


def no_copy(error: OSError) -> str:
    """For a copy that could not be made."""
    return f"The copy was not saved: {cause(error)}. Choose another place."


def not_created(error: OSError) -> str:
    """For a job that could not be begun."""
    return f"The new job was not made: {cause(error)}."


def not_accepted(words: str) -> str:
    """For a change that cannot be accepted as it stands."""
    return f"Not accepted: {words}. Correct it in an editor and open the job again."


def number_taken(number: int | None) -> str:
    """A job of that number is there already."""
    return f"There is a job {number} already: open it, or take another number."
