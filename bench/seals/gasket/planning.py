"""The turning plan of an accepted gasket: a ring without chamfers, as high as the gasket is thick.

Invariant: the same answers and shop give the same plan; a gasket that is begun keeps the plan it began with.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.job import Job
from bench.job.remembered import remembered
from bench.job.steps import Words
from bench.job.values import named_text, number
from bench.seals.gasket import own_keys
from bench.seals.gasket.decided import sizes_from, way_of
from bench.seals.gasket.kind import BASE, WORD
from bench.seals.lathe.bar_outside import as_measured
from bench.seals.lathe.left_on_bar import still_on_the_bar
from bench.seals.lathe.turning_facts import INSTEAD, UNUSABLE, from_text
from bench.seals.seal import Drawing, Leader
from rules.checks import OutOfRange
from rules.gasket.materials import TURNED
from rules.gasket.room import GasketSizes
from rules.lengths import bare
from rules.ring import Ring
from rules.tables import plastics
from rules.turning import operations, planning
from rules.turning.order import SetUp
from rules.turning.passes import Plan

if TYPE_CHECKING:
    from bench.shop.shop import Shop

NOT_TURNED = "this gasket is cut from sheet or taken from stock; nothing is turned"
WIDTH_LIMIT_MM = 0.05
"""The width of what is turned may be so much off (own judgement)."""
AT_THE_LATHE = (*BASE, own_keys.BAR_IS)
"""What everything at the lathe rests on."""
plan_of = remembered(planning.plan_of)
plan = remembered(planning.plan)


def as_ring(sizes: GasketSizes) -> Ring:
    """What is turned: no chamfers, as both faces seal to their edges."""
    return Ring(
        outside_diameter_mm=sizes.outside_mm,
        bore_mm=sizes.inside_mm,
        height_mm=sizes.thick_mm,
        chamfer_mm=0.0,
        lower_chamfer_mm=0.0,
    )


def planned(job: Job, shop: Shop, sizes: GasketSizes, plastic: str) -> tuple[Plan | None, str]:
    """The plan for a gasket of these sizes, or None and the reason why there is none."""
    ring, warned = as_ring(sizes), still_on_the_bar(job, AT_THE_LATHE, own_keys.turned)
    why = f"bar: no such bar of {plastic} in this shop; say one to the shop, or cut it from sheet"
    if kept := kept_order(job):
        try:
            order = from_text(kept)
            if (order.ring, order.bar.plastic) == (ring, plastic):
                return warning(said_of_gasket(plan_of(order)), warned), ""
            warned += (f"{UNUSABLE}, it makes another piece; {INSTEAD}",)
        except OutOfRange as reason:
            warned += (str(reason),)
    for set_up in set_ups(job, shop, plastic):
        try:
            made = said_of_gasket(plan(ring=ring, set_up=set_up))
        except OutOfRange as reason:
            why = str(reason)
            continue
        return warning(made, warned), ""
    return None, why


def warning(made: Plan, warned: Words) -> Plan:
    """The plan with what else it warns of."""
    return replace(made, warnings=(*made.warnings, *warned))


def kept_order(job: Job) -> str:
    """The order kept with the last check of the lathe, once it is begun; empty where there is none."""
    checked = max(
        (one for key in (keys.LATHE_BAR, keys.LATHE_SPEED) if (one := job.fresh(key, AT_THE_LATHE))),
        key=lambda one: one.n,
        default=None,
    )
    if checked is None:
        return ""
    begun = job.fresh(own_keys.turned(operations.ROUGH_OUTSIDE), AT_THE_LATHE) is not None
    now = checked.n > job.newest_n(keys.SITTING)
    return named_text(checked.words, "order") if begun or now else ""


def set_ups(job: Job, shop: Shop, plastic: str) -> Iterator[SetUp]:
    """The usual equipment with each bar in turn that may do, as it was measured."""
    table = plastics(shop.materials.get("plastics"))
    said = job.fresh(own_keys.BAR_IS, BASE)
    for bar in shop.bars_of(plastic):
        yield SetUp(
            lathe=shop.lathes[0],
            tools=shop.tools_of(shop.tool_sets[0]),
            bar=bar if said is None else as_measured(bar, number(said.word)),
            expansion_per_k=table[plastic].cte_per_k if plastic in table else None,
        )


def said_of_gasket(made: Plan) -> Plan:
    """The same plan with the piece called what it is."""

    def named(text: str) -> str:
        return re.sub(r"\bring\b", WORD, text)

    passes = (
        replace(one, reading_text=named(one.reading_text), before=tuple(map(named, one.before)))
        for one in made.passes
    )
    return replace(made, passes=tuple(passes), stock_words=tuple(map(named, made.stock_words)))


def plan_for(job: Job, shop: Shop) -> tuple[tuple[Plan, Drawing] | None, str]:
    """Plan and section of the gasket accepted, or why there is none."""
    accepted = job.newest(own_keys.ACCEPTED)
    if accepted is None:
        return None, "no gasket was accepted yet; size it first"
    if way_of(accepted.words) != TURNED:
        return None, NOT_TURNED
    sizes = sizes_from(accepted.words)
    made, why = planned(job, shop, sizes, named_text(accepted.words, "material"))
    return ((made, plan_drawing(sizes)), "") if made else (None, why)


def plan_drawing(one: GasketSizes) -> Drawing:
    """The gasket to be turned, with its limits."""
    wide, thick = one.width_mm, one.thick_mm
    return Drawing(
        of="section of the gasket",
        outline=((0.0, 0.0), (wide, 0.0), (wide, thick), (0.0, thick)),
        across=f"width {bare(wide)} \u00b1 {bare(WIDTH_LIMIT_MM)}",
        upright=f"thickness {bare(thick)}, alike at four places",
        leaders=(
            Leader((wide, 0.7 * thick), (3.0, 0.3), f"outside \u2300 {bare(one.outside_mm)}"),
            Leader((0.0, 0.6 * thick), (-2.0, 0.0), f"inside \u2300 {bare(one.inside_mm)}"),
        ),
        above="lid",
    )
