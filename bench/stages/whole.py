"""The whole job made of its stages, and where it stands.

Invariant: a stage asks in the order in which the repairer works and knows nothing of screens or files.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.other_jobs import LIKE
from bench.job.route import Walk, walk_route
from bench.seals import SEALS, kind_of, seal_of
from bench.stages.keyed_in import said_and_keyed
from bench.stages.opening import opened

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
    seal = SEALS[(yield from kind_of())]
    measured = yield from seal.measured(job, shop)
    if measured is None:
        return
    begin = seal.again.begin
    if max(map(job.newest_n, (begin.measured, begin.spoiled))) > job.newest_n(begin.attempt):
        yield from word(seal.again.another)
    decided = yield from seal.sized(job, shop, measured)
    if decided is None:
        return
    made = yield from seal.made(job, shop, decided)
    if made is None:
        return
    fitted = yield from seal.fitted(job, shop, made)
    if fitted is not None:
        from bench.stages.proving import proved  # comes when a seal is in its place, not before

        yield from proved(job, shop, seal, fitted, old_paint=paint != "none")


def walk(job: Job, shop: Shop) -> Walk:
    """How far a job has come on its route in this shop; one changed by hand after its end stays ended."""
    found = walk_route(job, whole_job(job, shop), seal=seal_of(job).short)
    return replace(found, open=None, stale=None) if job.closed else found
