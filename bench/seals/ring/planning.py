"""The turning plan of an accepted ring:
as it was begun, else on this shop's lathe with the equipment that was named.

Invariant: the same answers and shop give the same plan; the plan of a ring begun does not follow the shop.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.job import Job
from bench.job.steps import Words
from bench.job.values import named, named_text
from bench.seals.lathe.left_on_bar import still_on_the_bar
from bench.seals.lathe.turning_facts import INSTEAD, NO_ORDER, UNUSABLE, from_text
from bench.seals.ring.aim import aim_words, aimed_at
from bench.seals.ring.bar_steps import FIGURES, as_it_is
from bench.seals.ring.cut_steps import BASE
from bench.seals.ring.decided import Decided
from bench.seals.ring.known import plan, plan_of
from bench.seals.ring.size_steps import bar_name
from rules.checks import OutOfRange
from rules.lengths import bare, length
from rules.ring import Ring
from rules.tables import plastics
from rules.turning import operations
from rules.turning.correction import LARGEST_KEPT_MM
from rules.turning.opening import usual_opening
from rules.turning.order import Order, SetUp, with_room_for_chamfers
from rules.turning.passes import Plan
from rules.turning.readout import BORE, OUTSIDE

if TYPE_CHECKING:
    from bench.shop.shop import Shop

OFF_A_STEP_MM = 0.006
"""So much beside its size a diameter is written otherwise."""


def planned(job: Job, shop: Shop, decided: Decided, measured: Words = FIGURES) -> tuple[Plan | None, str]:
    """The turning plan for this ring, by these figures of its bar, or None and the reason why there is none.

    A ring that is begun keeps the plan it was begun with;
    where that cannot be read, a warning of the plan says so.
    """
    warnings: Words = ()
    left = still_on_the_bar(job, BASE)
    why = f"bar: no such bar of {decided.plastic} in this shop; say one to the shop, or name another"
    ring = with_room_for_chamfers(aimed_at(decided))
    try:
        if kept := kept_order(job):
            order = order_of(kept, accepted_ring(decided), decided)
            made = plan_of(replace(order, ring=ring))
            return aimed(replace(made, warnings=(*made.warnings, *left)), decided), ""
    except OutOfRange as reason:
        warnings = (str(reason),)
    except NO_ORDER:
        warnings = (f"{UNUSABLE}, it is no turning order; {INSTEAD}",)
    for set_up in set_ups(job, shop, decided, measured):
        try:
            made = plan(ring=ring, set_up=set_up)
            if cut_without_order(job):
                opening = usual_opening(made.order.boring, made.order.lathe.drill_unit)
                made = plan_of(replace(made.order, opening=opening))
            warned = (*made.warnings, *warnings, *left)
            return aimed(replace(made, warnings=warned), decided), ""
        except OutOfRange as reason:
            why = str(reason)
    return None, why


def aimed(made: Plan, decided: Decided) -> Plan:
    """The plan with what it says of its aim."""
    said = (*aim_words(decided), *step_words(made))
    return replace(made, stock_words=(*made.stock_words, *said)) if said else made


def step_words(made: Plan) -> Words:
    """The sizes on which whole steps of the cross slide end, where they are others than planned, mm."""
    ring, bored = made.order.ring, made.of(operations.FINISH_BORE)
    bore = (bored[-1].material_diameter_after_mm if bored else None) or ring.bore_mm
    outside = made.outside_made_mm
    if max(abs(outside - ring.outside_diameter_mm), abs(bore - ring.bore_mm)) < OFF_A_STEP_MM:
        return ()
    sizes = f"outside {bare(outside)}, bore {bare(bore)}, wall {length((outside - bore) / 2.0, 3)}"
    return (f"whole steps of the cross slide end on {sizes}; what is measured sets the last passes",)


def accepted_ring(decided: Decided) -> Ring:
    """The ring as its order keeps it: as accepted, whatever the lathe aims at."""
    return with_room_for_chamfers(decided.ring)


def cut_without_order(job: Job) -> bool:
    """Whether the ring was begun and keeps no order: its hole was one drill, just wide enough."""
    return job.fresh(operations.ROUGH_OUTSIDE, BASE) is not None and not kept_order(job)


def kept_order(job: Job) -> str:
    """The order kept with the checks of the lathe, once the ring is begun; empty where there is none.

    Until it was roughed outside, checks of an earlier sitting bind nothing:
    tools and read-out are set up again.
    """
    last_checks = (job.fresh(key, BASE) for key in (keys.LATHE_BAR, keys.LATHE_SPEED))
    keeping = [one for one in last_checks if one is not None and named_text(one.words, "order")]
    if not keeping:
        return ""
    checked = max(keeping, key=lambda one: one.n)
    begun = checked.n > job.newest_n(keys.SITTING) or job.fresh(operations.ROUGH_OUTSIDE, BASE) is not None
    return named_text(checked.words, "order") if begun else ""


def order_of(text: str, ring: Ring, decided: Decided) -> Order:
    """The order that a text keeps; raises OutOfRange when it cannot be read or makes another ring."""
    order = from_text(text)
    wanted = (ring, decided.plastic, decided.plastic, decided.spares)
    if (order.ring, order.bar.plastic, order.data.plastic, order.spares) != wanted:
        raise OutOfRange(f"{UNUSABLE}, it makes another ring; {INSTEAD}")
    return order


def set_ups(job: Job, shop: Shop, decided: Decided, measured: Words) -> Iterator[SetUp]:
    """The equipment that was named, or the usual, with each bar in turn that may do; the thinnest first."""
    named_bar = chosen(job, keys.BAR)
    for bar in shop.bars_of(decided.plastic):
        if named_bar in ("", "as it fits", bar_name(bar)):
            yield SetUp(
                lathe=shop.lathe_named(chosen(job, keys.LATHE)) or shop.lathes[0],
                tools=shop.tools_of(chosen(job, keys.TOOL_SET)) or shop.tools_of(shop.tool_sets[0]),
                bar=as_it_is(job, bar, measured),
                spares=decided.spares,
                offsets_mm=tuple(offsets(job).items()),
                expansion_per_k=expansion(shop, decided.plastic),
            )


def expansion(shop: Shop, plastic: str) -> float | None:
    """Linear expansion of a plastic, None where it is not known."""
    table = plastics(shop.materials.get("plastics"))
    return table[plastic].cte_per_k if plastic in table else None


def chosen(job: Job, key: str) -> str:
    """The piece of equipment that was named, empty where the usual one is used."""
    answer = job.newest(key)
    return answer.word if answer else ""


def offsets(job: Job) -> dict[int, float]:
    """Offsets of the tools found on earlier rings of this job:
    number of the tool to offset on the diameter, mm.
    """
    known: dict[int, float] = {}
    sitting = job.newest_n(keys.SITTING)  # in a new sitting read-out and tools are set up again
    for key in map(keys.last, (OUTSIDE, BORE)):
        answer = job.before_attempt(key)
        offset = named(answer.words, "offset") if answer else None
        tool = named(answer.words, "tool") if answer else None
        fresh = answer is not None and answer.n > sitting
        if fresh and offset is not None and tool is not None and abs(offset) <= LARGEST_KEPT_MM:
            known[int(tool)] = offset
    return known
