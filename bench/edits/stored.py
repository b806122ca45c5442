"""A job read from its session file, for whoever only looks at it.

Invariant: nothing is written, and a file that has to be settled first is not used.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from bench.edits.judging import judged
from bench.file.entry import FILE_LIMIT, Entry
from bench.file.load import load
from bench.file.ordinary import read_regular
from bench.file.plain import cause
from bench.job.job import Job, replay
from bench.refusal import Refused

if TYPE_CHECKING:
    from bench.shop.shop import Shop


def read(path: Path, shop: Shop) -> tuple[Job, tuple[Entry, ...]]:
    """The job in a session file and its entries; raises Refused while its values may not be used."""
    try:
        loaded = judged(load(read_regular(path, FILE_LIMIT)), shop)
    except OSError as why:
        raise Refused(f"{path} could not be read: {cause(why)}") from why
    if loaded.head is None or loaded.gated:
        raise Refused(f"{path}: {loaded.message} Open the job and settle it first.")
    return replay(loaded.head, loaded.usable), tuple(loaded.usable)
