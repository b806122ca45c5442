"""The job on the desk made again from its entries, and the beginning of a sitting.

Invariant: nothing here changes an entry; until the mark of this sitting is in the file no check counts.
"""

from __future__ import annotations

from dataclasses import replace

from bench.desk.desk import Desk
from bench.desk.effects import Append
from bench.desk.foreseen import walked
from bench.desk.pages import Outcome
from bench.job import keys


def replayed(desk: Desk) -> Desk:
    """The desk with job and walk made again from its entries.

    Until the mark of this sitting is in the file, checks of an earlier one count for no page at all.
    """
    from bench.job.job import replay  # the route comes with the first job, not with the list of jobs
    from bench.stages.whole import walk

    assert desk.head is not None and desk.shop is not None
    job = replay(desk.head, desk.entries)
    found = walked(desk, job) if desk.sitting else walk(job.unchecked(), desk.shop)
    return replace(desk, job=job, walk=found, foreseen=None)


def begin_sitting(desk: Desk) -> Outcome:
    """Work begins: everything that has to be checked again rests on this mark."""
    mark = Append(keys.SITTING, "work", kind="mark")
    return replace(desk, pending=mark, then=(), page="step", trail=(), picks=(), at=""), (mark,)
