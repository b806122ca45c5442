"""The units of a shop: every page of the route is said in that of the shop, every length keyed in that of the
instrument it is read with.

Invariant: stages work in mm and know nothing of it; in a shop where all is mm they pass unchanged.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from bench.job import further, keys
from bench.job.asking import Stage, T
from bench.job.read_by import read_with
from bench.job.steps import Gauge, Step
from bench.job.values import number
from rules.lengths import INCH, MM, SHORT, bare, in_unit, speaking
from rules.measuring.instruments import HEIGHT, OUTSIDE, that_measure

if TYPE_CHECKING:
    from bench.job.mask import Mask
    from bench.shop.shop import Shop

WANTED = frozenset(
    (
        *(keys.BORE_WANTED, keys.OUTSIDE_WANTED, keys.HEIGHT_WANTED, keys.GLASS_WANTED, keys.RING_OFFSET),
        keys.late(keys.HEIGHT_WANTED),
    )
)
"""Lengths that are chosen, not read with an instrument: keyed in the unit of the shop."""
OUTSIDES = frozenset(
    (
        *(keys.PLUG_ENTERS, keys.PLUG_STAYS_OUT, keys.PLUG_STAYS_OUT_AGAIN),
        *(keys.BAR_MEASURED, keys.nth(keys.BAR_MEASURED, 2)),
    )
)
"""Outsides of a plug and of a bar, measured like the outside of a ring."""


def said_and_keyed(stage: Stage[T], shop: Shop) -> Stage[T]:
    """The stage with its steps said and keyed in the units of the shop."""
    answer: Any = None  # a stage begins with none
    while True:
        try:
            with speaking(shop.works_in):
                step = stage.send(answer)
        except StopIteration as end:
            found: T = end.value
            return found
        answer = yield keyed(step, shop)


def keyed(step: Step, shop: Shop) -> Step:
    """The step with its mask, target and usual value in the unit in which it is keyed."""
    mask = step.mask
    if mask is not None and mask.unit == SHORT[MM] and not step.by:
        step = with_tools(step, mask, shop)
    unit = step.mask.unit if step.mask is not None else SHORT[shop.works_in]
    if unit != SHORT[INCH]:
        return step
    if step.usual.endswith(f" {SHORT[MM]}"):
        step = replace(step, usual=f"{bare(number(step.usual), unit=INCH)} {unit}")
    return step if step.gauge is None else replace(step, gauge=gauge_in_inch(step.gauge))


def with_tools(step: Step, mask: Mask, shop: Shop) -> Step:
    """A length without an instrument of its own: as chosen, in the unit of the shop; else as the instrument
    shows it that such lengths are read with, where not all is mm.
    """
    key = further.theirs(further.number_of(step.key), step.key)
    if step.chosen or key in WANTED:
        return replace(step, mask=mask.in_inch()) if shop.works_in == INCH else step
    tools = that_measure(OUTSIDE if key in OUTSIDES else HEIGHT, shop.instruments)
    if shop.works_in == MM == tools[0].unit:
        return step
    return read_with(step, tools[0], tools, before=mask.before, low_mm=mask.low, high_mm=mask.high)


def gauge_in_inch(gauge: Gauge) -> Gauge:
    """The same band and target in inch."""
    return replace(
        gauge,
        low=in_unit(gauge.low, INCH),
        high=in_unit(gauge.high, INCH),
        target=None if gauge.target is None else in_unit(gauge.target, INCH),
        half_width=in_unit(gauge.half_width, INCH),
    )
