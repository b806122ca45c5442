"""The finished rings of a folder, read from the newest of its jobs.

Invariant: what is known of earlier looks is a convenience beside the jobs. It may be deleted, stale or
rubbish at any moment; the rings of a file come from it only while the file is as it was, and it rebuilds
itself. A file that cannot be used is passed over.
"""

from __future__ import annotations

import re
from datetime import datetime
from itertools import chain
from pathlib import Path

from bench.file.listing import Index, names, rows
from bench.file.load import load
from bench.found_by import OF_A_FURTHER
from bench.job import keys
from bench.job.job import replay
from bench.job.past import PastRing, from_json, to_json
from bench.joining.twins import ID, uncounted
from bench.seals.several import seals_of
from bench.version import VERSION

LOOKED_AT = 150
"""So many of the newest jobs are looked at: in older ones a ring counts for a thirtieth and less."""
KNOWN_FORMAT = 2
"""Of what is kept of a ring; another makes every file read again."""
KNOWN_NAME = ".jobs-learned.json"
RINGS = "rings"
ACCEPTED = re.compile(rf'key = "(?:{OF_A_FURTHER})?{keys.RING}"'.encode())
WRONG = (ValueError, LookupError, TypeError, ArithmeticError, AssertionError)


def rings_in(folder: Path, *, besides: Path | None = None) -> tuple[PastRing, ...]:
    """The rings of the newest jobs of a folder, the newest first; besides: a file that is left out."""
    paths = names(folder)[:LOOKED_AT]
    if not paths:
        return ()
    index = Index(folder / KNOWN_NAME, version=f"{VERSION} {KNOWN_FORMAT}")
    index.keep_only(paths)
    found = rows(paths, summarise=finished, index=index)
    index.save()
    apart = {*uncounted(found), besides.name if besides is not None else ""}
    rings = chain.from_iterable(
        _read(row.summary.get(RINGS, "")) for row in found if row.path.name not in apart
    )
    return tuple(sorted(rings, key=lambda ring: moment(ring.at), reverse=True))


def finished(data: bytes) -> tuple[str, str, dict[str, str]]:
    """What is kept of a file: its rings."""
    if ACCEPTED.search(data) is None:
        return "", "", {}
    loaded = load(data)
    if loaded.head is None or loaded.gated:
        return "", "", {}
    try:
        job = replay(loaded.head, loaded.usable)
        rings = tuple(ring for one in seals_of(job) for ring in one.seal.past(one.job))
    except WRONG:  # well formed, and no job that can be read
        return "", "", {}
    return "", "", {RINGS: to_json(rings), ID: job.head.id} if rings else {}


def _read(text: str) -> tuple[PastRing, ...]:
    """The rings of one file as they are kept; none where they cannot be read."""
    try:
        return from_json(text) if text else ()
    except WRONG:
        return ()


def moment(at: str) -> float:
    """Seconds of a time as it is kept, 0 where it is none."""
    try:
        return datetime.fromisoformat(at).timestamp()
    except (ValueError, OverflowError, OSError):
        return 0.0
