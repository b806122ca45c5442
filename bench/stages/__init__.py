"""The four stages as generators of steps, and the whole job made of them.

Invariant: a stage asks in the order in which the repairer works and knows nothing of screens or files.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bench.job.asking import Stage
from bench.job.job import Job
from bench.job.route import Walk
from bench.job.route import walk as walked
from bench.stages.cut import cut
from bench.stages.made import made_and_fitted
from bench.stages.measure import measure
from bench.stages.proving import proved
from bench.stages.size import size

if TYPE_CHECKING:
    from bench.shop.shop import Shop


def whole_job(job: Job, shop: Shop) -> Stage[None]:
    """One job from the first question to handing back."""
    measured = yield from measure(job, shop)
    if measured is None:
        return
    decided = yield from size(job, shop, measured)
    if decided is None:
        return
    turned = yield from cut(job, shop, decided)
    if turned is None:
        return
    fitted = yield from made_and_fitted(job, shop, turned)
    if fitted is None:
        return
    yield from proved(job, shop, fitted, old_paint=measured.old_paint)


def walk(job: Job, shop: Shop) -> Walk:
    """How far a job has come on its route in this shop."""
    return walked(job, whole_job(job, shop))
