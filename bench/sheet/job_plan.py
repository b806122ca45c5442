"""The turning plan of a job, for paper: as the seal was begun, else from what was accepted and the shop.

Invariant: the same job and shop give the same plan; a job without an accepted seal has none.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from bench.edits.stored import read
from bench.folder import shop_in
from bench.refusal import Refused
from bench.seals import seal_of
from bench.seals.seal import Drawing
from bench.shop.groups import AT_THE_LATHE, SAY_IT, assumed_words
from bench.which_job import find_job
from rules.turning.passes import Plan


def plan_of(folder: Path, job: str) -> tuple[Plan, Drawing]:
    """Plan and section of a job given by number or path;
    raises Refused when nothing was accepted or can be turned.
    """
    shop = shop_in(folder)
    replayed, _ = read(find_job(folder, job), shop)
    seal = seal_of(replayed)
    found, why = seal.plan(replayed, shop)
    if found is None:
        raise Refused(f"job {job}: {why}")
    plan, drawing = found
    assumed = assumed_words(AT_THE_LATHE, shop.said)
    return (replace(plan, warnings=(*plan.warnings, f"{assumed}: {SAY_IT}")) if assumed else plan), drawing
