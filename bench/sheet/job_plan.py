"""The turning plan of a job, for paper: as the seal was begun, else from what was accepted and the shop.

Invariant: the same job and shop give the same plan; a job without an accepted seal has none.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from bench.edits.stored import read
from bench.folder import shop_in
from bench.job import further
from bench.refusal import Refused
from bench.seals.seal import Drawing
from bench.seals.several import OneSeal, seals_of
from bench.shop.groups import AT_THE_LATHE, SAY_IT, assumed_words
from bench.shop.shop import Shop
from bench.which_job import find_job
from rules.turning.passes import Plan


def plan_for(one: OneSeal, shop: Shop) -> tuple[tuple[Plan, Drawing] | None, str]:
    """Plan and section of one seal of a job, or why there is none."""
    return one.seal.plan(one.job, shop)


def plan_of(folder: Path, job: str, number: int = further.FIRST) -> tuple[Plan, Drawing]:
    """Plan and section of a job given by number or path, of the seal of it with that number;
    raises Refused when nothing was accepted or can be turned.
    """
    shop = shop_in(folder)
    replayed, _ = read(find_job(folder, job), shop)
    seals = {one.number: one for one in seals_of(replayed)}
    if number not in seals:
        several = f"its seals are 1 to {len(seals)}" if len(seals) > 1 else "it has one seal"
        raise Refused(f"--seal {number}: job {job} has none with that number; {several}")
    found, why = plan_for(seals[number], shop)
    if found is None:
        others = [str(n) for n, one in seals.items() if n != number and plan_for(one, shop)[0] is not None]
        turned = f"; another seal of it is turned: --seal {' or '.join(others)}" if others else ""
        raise Refused(f"job {job}: {why}{turned}")
    plan, drawing = found
    assumed = assumed_words(AT_THE_LATHE, shop.said)
    return (replace(plan, warnings=(*plan.warnings, f"{assumed}: {SAY_IT}")) if assumed else plan), drawing
