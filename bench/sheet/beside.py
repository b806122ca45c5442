"""The sheet of an open job as a text file beside it.

Invariant: written aside and renamed, so that no half of it is ever read.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from bench.file.aside import write_aside
from bench.job.job import replay
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from bench.stages.whole import walk

if TYPE_CHECKING:
    from bench.file.store import Session
    from bench.shop.shop import Shop


def write_beside(session: Session, shop: Shop) -> Path:
    """Write it and say where; raises OSError."""
    assert session.head is not None
    job = replay(session.head, session.entries)
    finished = walk(job, shop).open is None
    data = sheet_data(job, finished=finished, shop_name=shop.shop_name, tester_number=shop.tester_number)
    target = session.path.with_suffix(".sheet.txt")
    write_aside(target, ("\n".join(sheet_lines(data)) + "\n").encode())
    return target
