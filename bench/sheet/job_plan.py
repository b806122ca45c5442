"""The turning plan of a job, for paper: as the ring was begun, else from the ring accepted and the shop.

Invariant: the same job and shop give the same plan; a job without an accepted ring has none.
"""

from __future__ import annotations

from pathlib import Path

from bench.folder import find_job, shop_in
from bench.job import keys
from bench.job.stored import read
from bench.refusal import Refused
from bench.stages.decided import decided_from
from bench.stages.planning import planned
from rules.turning.passes import Plan


def plan_of(folder: Path, job: str) -> Plan:
    """The plan of a job given by number or path; raises Refused when no ring was accepted or none can be turned."""
    replayed, _ = read(find_job(folder, job))
    accepted = replayed.newest(keys.RING)
    if accepted is None:
        raise Refused(f"job {job}: no ring was accepted yet; size it first")
    found, why = planned(replayed, shop_in(folder), decided_from(accepted.words))
    if found is None:
        raise Refused(f"job {job}: {why}")
    return found
