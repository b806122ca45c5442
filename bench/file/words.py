"""What `check` and the program say about a file, for a repairer.

Invariant: one or two plain sentences, what is the matter first and what to do after it.
"""

from __future__ import annotations

from collections.abc import Sequence

EMPTY = "This is not a session file: it is empty."
FOREIGN = "This is not a session file."
TOO_LARGE = "This is not a session file: it is larger than a session file can be (8 MiB)."
TOO_MANY = "This is not a session file: it has more entries than a session file can hold."
ZIP = "This is not a session file: it is a zip archive. A backup is read with ringwright import ZIP."
UTF_16 = (
    "Another program saved this session file in another character code (UTF-16). It is opened to read only. "
    "Save it as UTF-8 there, then open it again."
)
LONE_CR = (
    "Another program saved this session file with line ends that are not understood (lone carriage returns). "
    "It is opened to read only. Save it with ordinary line ends there, then open it again."
)
HEAD_BAD = (
    "The first lines of this session file are damaged or were changed. It is opened to read only. "
    'Correct them in an editor and write  crc = "hand"  there; it will be asked about.'
)
MANY_TORN = (
    "more than one entry is unfinished at the end of the file, which one interrupted answer cannot leave"
)
MANY_TORN_DO = (
    "It is opened to read only and nothing in it is used. "
    "Keep a copy, then finish or take out the last lines "
    "in an editor."
)
CHANGED_AGAIN = "was changed again after it had been accepted"
UNFINISHED = (
    "The last lines are unfinished: "
    "an answer was interrupted while it was written, or the end of the file was "
    "changed. They are not used; their {count} bytes are set aside beside the file when the job is opened. "
    "Every complete answer before them is there; look at the last one."
)
CORRECT_IT = "No value of the job is used until it is corrected in an editor."
FINE = "The file is fine."


def newer_format(number: int, sure: bool) -> str:
    """For a file of a format above ours."""
    doubt = "" if sure else " (or its first lines are damaged: their checksum does not fit)"
    return (
        f"A newer version of ringwright wrote this file: format {number}{doubt}. "
        "It is opened to read only and nothing in it is used; open it with that version."
    )


def message(
    state: str, findings: Sequence[str], *, torn: int, accepted: int, many_torn: bool, refused: bool = False
) -> str:
    """The state of a file in one or two sentences; `findings` are the words of each unsettled thing.

    `refused`: one of them cannot be accepted as it stands.
    """
    if state == "fine":
        done = f" {accepted} change{'s' if accepted != 1 else ''} outside the program had been accepted."
        return FINE + (done if accepted else "")
    if state == "unfinished":
        return UNFINISHED.format(count=torn)
    listed = "; ".join(findings[:3]) + (f"; and {len(findings) - 3} more" if len(findings) > 3 else "")
    listed = listed[:1].upper() + listed[1:]
    if state == "newer":
        return f"{listed}. It is opened to read only; open it with the newer version."
    if many_torn:
        return f"{listed}. {MANY_TORN_DO}"
    if refused:
        return f"{listed}. {CORRECT_IT}"
    each = "each" if len(findings) > 1 else "this"
    return f"{listed}. No value of the job is used until {each} is looked at and accepted in the program."
