"""What the list of jobs says of a job, from a few of its entries;
where they say too little its route is walked.

Invariant: `glance` needs no rules, so that the list opens at once,
and shows nothing of a block whose checksum does not fit.
"""

from __future__ import annotations

import re
from bisect import bisect
from collections.abc import Callable, Iterator
from functools import cache
from typing import TYPE_CHECKING

from bench.file.codec import FIRST_LINE, HAND
from bench.file.entry import Entry, Head
from bench.file.pieces import OK, Piece, read_block
from bench.file.scan import Block, scan
from bench.found_by import KEY, LATER, OF_A_FURTHER, found_by, word_of
from bench.job import keys
from bench.job.standing import BEGINS, STAGES, Standing, last_said, said_in, standing_of

if TYPE_CHECKING:
    from bench.file.load import Loaded
    from bench.shop.shop import Shop

BY_HAND = re.compile(rb"""^[ \t]*crc[ \t]*=[ \t]*["']%s["']""" % HAND.encode(), re.MULTILINE)
QUOTED = (f'"{HAND}"'.encode(), f"'{HAND}'".encode())
HEADER = re.compile(rb"\n\[\[entry\]\](?=\n)")
INDENTED = re.compile(rb"\n[ \t]+\[\[")
CLOSED = re.compile(rb"^[ \t]*crc[ \t]*=[^\n]*(?:\n|\Z)", re.MULTILINE)
MARKED, TAKEN_BACK = (
    re.compile(rf'kind = "{kind}"\nkey = "(?!{OF_A_FURTHER})(?:\w+_)?{keys.ATTEMPT}"'.encode())
    for kind in ("mark", "undo")
)
"""Another piece of whichever kind is begun, of the first seal of its job, and that is taken back."""
CONFIRMED = b'kind = "confirm"'
GATED = {"stage": "", "waiting_for": "a look at its file"}


def summary(loaded: Loaded, shop: Shop) -> dict[str, str]:
    """Watch, stage, open step, what is waited for and since when, attempt, finished or not:
    by walking the route.
    """
    from bench.edits.judging import judged
    from bench.job.job import replay
    from bench.seals.several import first_of
    from bench.stages.whole import walk

    loaded = judged(loaded, shop)
    if loaded.gated or loaded.head is None:
        return GATED
    newest = list(reversed(loaded.usable))
    job = replay(loaded.head, loaded.usable)
    found = walk(job, shop)
    answer = next((entry for entry in newest if entry.kind == "answer"), None)
    watch = job.newest(keys.WATCH)
    taken = next((entry for entry in newest if watch is not None and entry.n == watch.n), None)
    said = told(standing_of(found), answer, taken, first_of(job).job.attempt - 1)
    said |= found_by(loaded.usable)
    step = found.open
    if step is None:
        return said
    waits = step.waits_for or (said["waiting_for"] if step.guarded_by else step.title)
    return {**said, "step": step.key, "waiting_for": waits}


def glance(data: bytes) -> dict[str, str] | None:
    """The same from the bytes of a file, reading only the blocks that are needed, each with its checksum.

    None where the file does not say where its job stands, where it was changed by hand, and where the last
    sitting was one of a version that does not say it.
    """
    starts, block_at = cut(data)
    head = read_block(data, block_at(0), salt="", is_head=True)
    if not isinstance(head.content, Head) or head.found != OK:
        return GATED
    salt = head.content.id

    @cache
    def piece(n: int) -> Piece:
        return read_block(data, block_at(n), salt=salt)

    def newest(token: bytes) -> Iterator[Entry]:
        """The entries that hold a token and whose checksum fits, the last first."""
        before = len(data)
        while (at := data.rfind(token, 0, before)) >= 0 and (n := bisect(starts, at) - 1) > 0:
            before, found = starts[n], piece(n)
            if found.found == OK and isinstance(found.content, Entry):
                yield found.content

    found = found_by([entry for n in places(data, starts) if (entry := counted(piece(n)))])
    stands = last_said(newest(f'"{BEGINS}'.encode()))
    begun = next(newest(named(keys.SITTING)), None)
    quoted = any(data.find(word, len(FIRST_LINE)) > 0 for word in QUOTED)
    by_hand = CONFIRMED in data or (quoted and BY_HAND.search(data))
    if stands is None or by_hand or (begun is not None and said_in(begun) is None):
        return None
    attempts = len(MARKED.findall(data)) - len(TAKEN_BACK.findall(data))
    watch = next(newest(named(keys.WATCH)), None)
    answer = next(newest(b'kind = "answer"'), None)
    return told(stands, answer, watch, attempts) | found


def places(data: bytes, starts: list[int]) -> list[int]:
    """Which blocks hold what a job is found by, in their order."""
    tested = data.find(named(keys.CASED.result))
    later = LATER.finditer(data, tested) if tested >= 0 else ()
    at = {bisect(starts, match.end()) - 1 for match in (*KEY.finditer(data), *later)}
    return sorted(n for n in at if n > 0)


def counted(piece: Piece) -> Entry | None:
    """The entry of a block whose checksum fits."""
    return piece.content if piece.found == OK and isinstance(piece.content, Entry) else None


def cut(data: bytes) -> tuple[list[int], Callable[[int], Block]]:
    """Where the blocks of a file begin, the head first, and each block by its place among them.

    Where every header stands as it is written here, only the blocks that are asked for are looked through.
    """
    found = [match.start() + 1 for match in HEADER.finditer(data)]
    if len(found) != data.count(b"\n[[") or INDENTED.search(data) or b"\r" in data:
        scanned = scan(data)
        blocks = [scanned.head, *scanned.blocks]
        return [block.start for block in blocks], blocks.__getitem__
    starts = [0, *found, len(data)]

    def block_at(n: int) -> Block:
        start, end = starts[n], CLOSED.search(data, starts[n], starts[n + 1])
        body = start + len(b"[[entry]]\n") if n else 0
        return Block(start=start, body=body, end=end.end() if end else body, line=1, closed=end is not None)

    return starts, block_at


def named(key: str) -> bytes:
    """The line of a block that names its key."""
    return f'key = "{key}"'.encode()


def told(stands: Standing, answer: Entry | None, watch: Entry | None, attempts: int) -> dict[str, str]:
    """The summary from where the job stands, the newest answer, the watch and the number of attempt marks."""
    return {
        "watch": word_of(watch),
        "stage": list(STAGES)[-1] if stands.over else stands.stage,
        "step": "",
        "waiting_for": stands.waits_for,
        "since": answer.at if answer else "",
        "attempt": str(1 + attempts),
        "finished": "yes" if stands.over else "",
    }
