"""A session file read: what may be used, what needs a look, and why.

Invariant: `load` is pure and never raises, whatever the bytes. No entry is usable while anything that changed
outside the program is unsettled, because leaving one entry out would bring an older answer back in its place.
"""

from __future__ import annotations

from collections.abc import Container, Iterator
from dataclasses import dataclass

from bench.file import words
from bench.file.codec import FIRST_LINE
from bench.file.entry import FILE_LIMIT, FORMAT, Entry, Head
from bench.file.gather import Group, confirmed_marks, gather
from bench.file.pieces import BY_HAND, DAMAGED, EDITED, OK, REPEATED, Piece, read_block
from bench.file.scan import Scan, scan

_WORST_FIRST = ("newer", "damaged", "gap", "changed", "by_hand")
_BLOCKS_LIMIT = FILE_LIMIT // 60
"""More entries than a file can hold: none is written in fewer bytes."""
_BOM = b"\xef\xbb\xbf"
_ZIP = b"PK\x03\x04"
_BOM_16 = (b"\xff\xfe", b"\xfe\xff")


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundEntry:
    """One well-shaped entry as found in the file."""

    entry: Entry
    found: str
    """ok, edited (checksum differs), hand (crc = "hand"), damaged (its number is taken twice) or repeated."""
    line: int
    """Line of its header or of its changed value, counted from 1."""
    settled: bool
    """True if it needed a look and a later confirm accepted it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One unsettled thing. It is settled by appending a confirm with the same `of`."""

    of: int
    """The entry number it concerns; 0 is the head; for a gap the first missing number."""
    state: str
    """changed, by_hand, damaged, gap, newer or foreign."""
    line: int
    """The line to look at, counted from 1."""
    words: str
    """What is the matter, for a repairer; nothing in it acts on a terminal."""
    mark: str
    """Identifies exactly what was found: a confirm settles this and nothing that comes later."""
    entry: Entry | None
    """The entry as it now stands if accepting makes it count, else None (accepting leaves it out)."""
    refused: bool = False
    """True if it cannot be accepted as it stands: the words say what is expected."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Loaded:
    """Everything one session file says about itself."""

    head: Head | None
    """None if the first block cannot be read."""
    entries: tuple[FoundEntry, ...] = ()
    """All well-shaped entries in the order of n."""
    findings: tuple[Finding, ...] = ()
    """Unsettled things in the order of their lines."""
    state: str
    """fine, unfinished, changed, by_hand, damaged, gap, newer or foreign."""
    message: str
    """The state in plain words."""
    trusted_end: int = 0
    """Offset after the last closed block."""
    torn: bytes = b""
    """Unfinished bytes after the trusted end."""
    read_only: bool
    """True if nothing may be appended: the file is not understood."""
    gated: bool
    """True if no value may be used until each finding is settled."""
    usable: tuple[Entry, ...] = ()
    """The entries that may be used, in the order of n; empty while gated."""
    next_n: int = 1
    """The number of the next entry."""
    accepted: tuple[str, ...] = ()
    """What was accepted before, each in words: changed, damaged or missing."""


def load(data: bytes) -> Loaded:
    """Read the bytes of a session file; never raises, whatever they are."""
    if len(data) > FILE_LIMIT:
        return _refused("foreign", words.TOO_LARGE)
    if data.startswith(_ZIP):
        return _refused("foreign", words.ZIP)
    if data.startswith(_BOM_16) or b"f\0o\0r\0m\0a\0t\0" in data:
        ours = b"c\0r\0c" in data and b"m\0a\0d\0e\0_\0b\0y" in data
        return _refused("damaged", words.UTF_16) if ours else _refused("foreign", words.FOREIGN)
    if data.count(b"[[") > _BLOCKS_LIMIT:
        return _refused("foreign", words.TOO_MANY)
    scanned = scan(data, len(_BOM) if data.startswith(_BOM) else 0)
    first = read_block(data, scanned.head, salt="", is_head=True)
    head = first.content if isinstance(first.content, Head) else None
    if head is None and not _looks_ours(data):
        return _refused("foreign", words.FOREIGN if data.strip() else words.EMPTY)
    if head is None and b"\r" in data and b"\n" not in data:
        return _refused("damaged", words.LONE_CR)
    if head is not None and head.format > FORMAT:
        return _refused("newer", words.newer_format(head.format, first.found == OK), head)
    # Format 1 is the only one so far; a later one gets its own reader here, chosen by head.format.
    salt = head.id if head is not None else ""
    blocks = [read_block(data, block, salt=salt) for block in scanned.blocks]
    return _judge(scanned, head, first.found, gather(data, scanned, first, blocks))


def _looks_ours(data: bytes) -> bool:
    begins = FIRST_LINE.encode()[:20]
    return b"[[entry]]" in data or (b"format" in data and b"made_by" in data) or begins in data


def _refused(state: str, message: str, head: Head | None = None) -> Loaded:
    finding = Finding(of=0, state=state, line=1, words=message, mark="", entry=None)
    return Loaded(head=head, findings=(finding,), state=state, message=message, read_only=True, gated=True)


def _judge(scanned: Scan, head: Head | None, head_found: str, groups: dict[int, Group]) -> Loaded:
    marks = confirmed_marks(groups.values())
    findings = [finding for group in groups.values() if (finding := _finding(group, marks)) is not None]
    many_torn = scanned.torn_headers > 1
    if many_torn:
        line = scanned.torn_line
        text = f"from line {line}: {words.MANY_TORN}"
        findings.append(Finding(of=0, state="damaged", line=line, words=text, mark="", entry=None))
    findings.sort(key=lambda finding: finding.line)
    reads = tuple(sorted(_reads(groups, marks), key=lambda read: read.entry.n))
    found_states = {finding.state for finding in findings}
    worst = [state for state in _WORST_FIRST if state in found_states]
    state = worst[0] if worst else "unfinished" if scanned.torn else "fine"
    head_bad = head is None or head_found not in (OK, BY_HAND)
    texts = [finding.words for finding in findings]
    accepted = tuple(_accepted(groups, marks, {finding.of for finding in findings}))
    said = words.message(state, texts, torn=len(scanned.torn), accepted=len(accepted), many_torn=many_torn)
    return Loaded(
        head=head,
        entries=reads,
        findings=tuple(findings),
        state=state,
        message=words.HEAD_BAD if head_bad else said,
        trusted_end=scanned.trusted_end,
        torn=scanned.torn,
        read_only=head_bad or many_torn or state == "newer",
        gated=bool(findings),
        usable=() if findings else tuple(read.entry for read in reads if counts(read)),
        next_n=max(group.last for group in groups.values()) + 1,
        accepted=accepted,
    )


def _accepted(groups: dict[int, Group], marks: dict[int, str], unsettled: Container[int]) -> Iterator[str]:
    """The words of everything that needed a look and was accepted as it stands, in the order of the file."""
    for n in sorted(groups):
        trouble = groups[n].trouble()
        if trouble is not None and n not in unsettled and marks.get(n) == groups[n].mark:
            yield trouble[2]


def _finding(group: Group, marks: dict[int, str]) -> Finding | None:
    """What is unsettled about one number, or None."""
    trouble = group.trouble()
    accepted = marks.get(group.n)
    if trouble is None and accepted in (None, group.mark):
        return None
    is_final = trouble is not None and (
        trouble[0] == "newer" or (group.n == 0 and group.pieces[0].found not in (OK, BY_HAND))
    )
    if trouble is not None and accepted == group.mark and not is_final:
        return None
    piece = group.pieces[0] if len(group.pieces) == 1 else None
    if trouble is None or (accepted is not None and trouble[0] != "gap" and not is_final):
        line = trouble[1] if trouble is not None else piece.line if piece is not None else 1
        trouble = (
            trouble[0] if trouble else "changed",
            line,
            f"line {line}: entry {group.n} {words.CHANGED_AGAIN}",
        )
    content = piece.content if piece is not None else None
    entry = content if isinstance(content, Entry) else None
    return Finding(
        of=group.n, state=trouble[0], line=trouble[1], words=trouble[2], mark=group.mark, entry=entry
    )


def _reads(groups: dict[int, Group], marks: dict[int, str]) -> Iterator[FoundEntry]:
    for group in groups.values():
        settled = group.trouble() is not None and marks.get(group.n) == group.mark
        for piece in group.pieces:
            if isinstance(piece.content, Entry):
                yield _read(piece, piece.content, DAMAGED if group.conflict else piece.found, settled)
        for piece in group.repeats:
            if isinstance(piece.content, Entry):
                yield _read(piece, piece.content, REPEATED, settled)


def _read(piece: Piece, entry: Entry, found: str, settled: bool) -> FoundEntry:
    return FoundEntry(entry=entry, found=found, line=piece.line, settled=settled)


def counts(read: FoundEntry) -> bool:
    """Whether an entry may be used once nothing in its file is unsettled."""
    return read.found == OK or (read.found in (EDITED, BY_HAND) and read.settled)
