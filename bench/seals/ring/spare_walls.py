"""The walls of the spares, off the lathe: measured where the person wants them offered to later watches.

Invariant: nobody has to; a spare that was not measured is never offered from the drawer.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.read_by import read_with
from bench.job.steps import Step
from bench.seals.ring.spares import spares_cut
from rules.limits import LEAST_WALL_MM
from rules.measuring.instruments import walls_by
from rules.sizing.decision import FREE_DIAMETER
from rules.turning import operations

if TYPE_CHECKING:
    from bench.shop.shop import Shop

NOT_MEASURED = "not measured"
TITLES = ("Wall of the spare, mean of four places", "Wall of the tighter spare, mean of four places")
WALL = Step(
    key=keys.SPARE_WALL,
    stage="verify",
    kind="number",
    title="",
    usual=NOT_MEASURED,
    optional=True,
    rests_on=(operations.PART, operations.DRESS, keys.ATTEMPT),
    why=FREE_DIAMETER,
    how=("{held}, light touch, at four places a quarter of a turn apart; key their mean.",),
)


def spare_walls(job: Job, shop: Shop) -> Stage[None]:
    """The wall of each spare of this attempt."""
    tools = walls_by(shop.instruments)
    step = read_with(WALL, tools[0], tools, before=1, low_mm=LEAST_WALL_MM, high_mm=3.0)
    for place, _ in enumerate(spares_cut(job.attempt_spans()[-1])):
        yield from word(replace(step, key=keys.nth(keys.SPARE_WALL, place + 1), title=TITLES[place]))
