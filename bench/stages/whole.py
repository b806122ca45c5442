"""The whole job made of its stages, and where it stands.

Invariant: a stage asks in the order in which the repairer works and knows nothing of screens or files.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job.asking import Stage
from bench.job.job import Job
from bench.job.other_jobs import LIKE
from bench.job.route import Walk, walk_route
from bench.seals import SEALS, kind_of
from bench.seals.several import first_of, in_hand
from bench.stages.keyed_in import said_and_keyed
from bench.stages.opening import opened
from bench.stages.seal_route import further_seals, one_seal

if TYPE_CHECKING:
    from bench.shop.shop import Shop


def whole_job(job: Job, shop: Shop) -> Stage[None]:
    """One job from the first question to handing back, said and keyed in the units of the shop."""
    stage = _whole_job(job, shop)
    if job.newest(LIKE) is not None:
        from bench.stages.like import begun_after  # few jobs are begun after another one

        stage = begun_after(job, shop, stage)
    yield from said_and_keyed(stage, shop)


def _whole_job(job: Job, shop: Shop) -> Stage[None]:
    paint = yield from opened()
    if paint == "stopped":
        return
    first = replace(first_of(job), seal=SEALS[(yield from kind_of())])
    fitted = yield from one_seal(first.job, shop, first.seal)
    if fitted is not None:
        from bench.stages.proving import proved  # comes when a seal is in its place, not before

        last = yield from further_seals(job, shop, first, fitted)
        yield from proved(job, shop, last, old_paint=paint != "none")


def walk(job: Job, shop: Shop) -> Walk:
    """How far a job has come on its route in this shop; one changed by hand after its end stays ended."""
    found = walk_route(job, whole_job(job, shop))
    one = in_hand(job, found)
    found = replace(found, seal=one.seal.short, number=one.number, piece=one.job.attempt)
    return replace(found, open=None, stale=None) if job.closed else found
