"""The blocks of a file put together by their numbers, and what is the matter with each number.

Invariant: a block whose checksum is right keeps its number whatever stands around it; a block whose checksum
is not right never takes a number from one that is. A confirm settles exactly what it was given for.
"""

from __future__ import annotations

import zlib
from collections.abc import Container, Iterable, Mapping
from dataclasses import dataclass, field, replace

from bench.clean import clean
from bench.file.entry import N_LIMIT, STANDS, Entry
from bench.file.pieces import BY_HAND, DAMAGED, EDITED, NEWER, OK, Piece
from bench.file.scan import Scan, Stray

_HOLE = 1000
"""Most entries that may be missing before a number is taken for damaged itself."""
MISSING = "missing "
"""How the mark of a gap begins; its first and last number follow."""
SHOWN = 60
"""Most characters of a value shown in a finding."""


@dataclass(slots=True, kw_only=True)
class Group:
    """All that the file has for one number; without pieces it is a gap up to `last`."""

    n: int
    last: int
    pieces: list[Piece] = field(default_factory=list)
    """Different contents with this number; more than one is a conflict."""
    repeats: list[Piece] = field(default_factory=list)
    """The same content again."""
    extras: list[tuple[int, str, str]] = field(default_factory=list)
    """Line, mark and words of what stands after this number and belongs to none."""
    gap_line: int = 0
    """For a gap, the line of the entry after it."""

    @property
    def conflict(self) -> bool:
        """True if two different entries carry this number."""
        return len(self.pieces) > 1

    @property
    def mark(self) -> str:
        """Identifies what is found here; changes whenever anything of it changes."""
        if not self.pieces and not self.extras:
            return f"{MISSING}{self.n}-{self.last}"
        marks = [piece.mark for piece in self.pieces] + [mark for _, mark, _ in self.extras]
        if len(marks) == 1 and self.pieces:
            return marks[0]
        return f"{zlib.crc32('/'.join(sorted(marks)).encode()):08x}"

    def trouble(self) -> tuple[str, int, str] | None:
        """State, line and words of what needs a look; None if all is well."""
        if not self.pieces and not self.extras:
            return "gap", self.gap_line, _gap_words(self)
        if self.conflict:
            lines = " and ".join(str(piece.line) for piece in self.pieces[:4])
            what = f"lines {lines}: different entries carry the number {self.n}; none of them will count"
            return "damaged", self.pieces[1].line, what
        for piece in self.pieces:
            if piece.found != OK:
                return _piece_trouble(self.n, piece)
        if self.extras:
            line, _, words = self.extras[0]
            return "damaged", line, f"line {line}: {words}"
        return None


def _gap_words(group: Group) -> str:
    which = f"entry {group.n} is" if group.n == group.last else f"entries {group.n} to {group.last} are"
    return f"before line {group.gap_line}: {which} missing"


def _piece_trouble(n: int, piece: Piece) -> tuple[str, int, str]:
    name = f"entry {n}" if n else "the first block"
    if piece.found == NEWER:
        return "newer", piece.line, f"line {piece.line}: {name} was written by a newer version: {piece.why}"
    if piece.found == DAMAGED:
        return "damaged", piece.line, f"line {piece.line}: {name} is damaged: {piece.why}"
    says = ""
    if isinstance(piece.content, Entry):
        entry = piece.content
        does = "says" if entry.kind != "undo" else f"takes back entry {entry.of},"
        named = f"{clean(entry.key)} = " if entry.key else ""
        says = f"; it now {does} {named}{shown(entry)}"
    if piece.found == BY_HAND:
        return "by_hand", piece.line, f"line {piece.line}: {name} was corrected by hand{says}"
    return "changed", piece.line, f"line {piece.line}: {name} was changed outside the program{says}"


def shown(entry: Entry) -> str:
    """The value of an entry as short, safe text, without where the job stands; what an act was to do stands
    behind checks.
    """
    value = entry.value
    if isinstance(value, tuple) and value[:1] == ("done",):
        value = ("done", "with what was cut or set")
    items = value if isinstance(value, tuple) else (value,)
    text = ", ".join(str(item) for item in items if not str(item).startswith(STANDS))
    return clean(text if len(text) <= SHOWN else text[: SHOWN - 3] + "...")


def gather(data: bytes, scanned: Scan, first: Piece, blocks: list[Piece]) -> dict[int, Group]:
    """All groups by number, gaps included; number 0 is the head."""
    groups = {0: Group(n=0, last=0, pieces=[first])}
    taken = {piece.n for piece in blocks if piece.found in (OK, NEWER) and piece.n is not None}
    ceilings = _ceilings(blocks)
    strays: dict[int, list[Stray]] = {}
    for stray in scanned.strays:
        strays.setdefault(stray.after, []).append(stray)
    before = 0
    for index, piece in enumerate(blocks):
        for stray in strays.get(index, ()):
            mark = f"raw {zlib.crc32(data[stray.start : stray.end]):08x}"
            groups[before].extras.append((stray.line, mark, "text that belongs to no entry"))
        n = piece.n if _is_repeat(piece, groups) else _number(piece, before, ceilings[index], taken)
        if n is None:
            groups[before].extras.append((piece.line, piece.mark, f"a damaged entry: {piece.why}"))
            continue
        if n != piece.n and piece.found in (EDITED, BY_HAND):
            piece = replace(piece, found=DAMAGED, content=None, why="its number does not fit")
        _put(groups, n, piece)
        taken.add(n)
        before = n
    _add_gaps(groups)
    return groups


def _is_repeat(piece: Piece, groups: Mapping[int, Group]) -> bool:
    """True if the same content stands before under the same number."""
    group = groups.get(piece.n) if piece.n is not None else None
    return group is not None and any(other.mark == piece.mark for other in group.pieces)


def _ceilings(blocks: list[Piece]) -> list[int]:
    """For each block the highest number that an unsure one there may have: below the next sure one."""
    found: list[int] = []
    after: int | None = None
    for piece in reversed(blocks):
        found.append(N_LIMIT if after is None else after - 1)
        if piece.found in (OK, NEWER) and piece.n is not None:
            after = piece.n
    return found[::-1]


def _number(piece: Piece, before: int, ceiling: int, taken: Container[int]) -> int | None:
    """The number under which a block is looked at, or None if it has to hang on to the one before it."""
    n = piece.n if piece.n is not None and 1 <= piece.n <= N_LIMIT else None
    if n is not None and piece.found in (OK, NEWER):
        return n
    if n is not None and before < n <= min(ceiling, before + _HOLE) and n not in taken:
        return n
    if before + 1 not in taken:
        return before + 1
    return n if piece.found in (EDITED, BY_HAND) else None


def _put(groups: dict[int, Group], n: int, piece: Piece) -> None:
    group = groups.get(n)
    if group is None:
        groups[n] = Group(n=n, last=n, pieces=[piece])
        return
    for index, other in enumerate(group.pieces):
        if other.mark == piece.mark:
            if piece.found == OK and other.found != OK:
                group.pieces[index], piece = piece, other
            group.repeats.append(piece)
            return
    group.pieces.append(piece)


def _add_gaps(groups: dict[int, Group]) -> None:
    before = 0
    for n in sorted(groups):
        if n > before + 1:
            line = groups[n].pieces[0].line
            groups[before + 1] = Group(n=before + 1, last=n - 1, gap_line=line)
        before = n


def confirmed_marks(groups: Iterable[Group]) -> dict[int, str]:
    """What the latest good confirm for each number accepted."""
    confirms = [
        piece.content
        for group in groups
        for piece in group.pieces
        if piece.found == OK and not group.conflict and isinstance(piece.content, Entry)
        if piece.content.kind == "confirm"
    ]
    confirms.sort(key=lambda entry: entry.n)
    return {entry.of: str(entry.value) for entry in confirms if entry.of is not None}
