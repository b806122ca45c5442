"""The steps of measuring the foot as it was made, as data."""

from __future__ import annotations

from bench.job import keys
from bench.job.steps import Choice, Gauge, Step, Words
from bench.seals.foot import own_keys
from bench.seals.foot.drawing import FOOT_LIMIT_MM
from bench.seals.foot.kind import BASE, BEGIN
from bench.seals.foot.within import own
from bench.stages.common import plain_choices
from rules.lengths import bare, length
from rules.turning import operations

PLACES = ("1, at the pencil dot", "2, a quarter on", "3, opposite the dot", "4, three quarters on")
"""Where a foot is measured."""
LIVE: Words = (*BASE, BEGIN.measured, *map(own, (operations.PART, operations.DRESS)))
"""What everything measured of it rests on."""


def thickness_step(thick_mm: float) -> Step:
    """The foot at one place."""
    words = ("too thin", "works", "too thick")
    return Step(
        key=own_keys.THICKNESS,
        stage="verify",
        kind="number",
        title="Foot as made: thickness at place {place}",
        gauge=Gauge(thick_mm - FOOT_LIMIT_MM, thick_mm + FOOT_LIMIT_MM, thick_mm, words),
        rests_on=LIVE,
        waits_for="the foot to be measured",
        why="It sets how high the glass stands, and comes from parting and dressing alone.",
        how=(
            "A ball anvil on the floor of the bore, clear of its corner; the flat one under the foot.",
            "Dress the parted face on fine paper until all four are alike.",
        ),
    )


def off_step(mean_mm: float, thick_mm: float, over: str, read: Words) -> Step:
    """A foot that is not as thick as planned: dressed further, used, or another."""
    off = mean_mm - thick_mm
    side = "thick" if off > 0.0 else "thin"
    lower = Choice(
        "lower", f"dress off {length(off)}, then key it again", goto=keys.nth(own_keys.THICKNESS, 1)
    )
    return Step(
        key=own_keys.OFF,
        stage="verify",
        kind="result",
        title=f"The foot is too {side} by {length(abs(off), 3)}: what next?",
        say=(
            f"It is {bare(mean_mm, 3)} thick, planned {length(thick_mm)}.",
            f"{over[:1].upper()}{over[1:]}.",
        ),
        choices=(
            *((lower,) if off > 0.0 else ()),
            *plain_choices(
                ("use", "use it all the same"),
                ("another", "another ring"),
                ("measure", "measure ledge and glass again, then another ring"),
            ),
        ),
        rests_on=(*LIVE, *read),
        waits_for="a word on the foot",
        why="What is too thick is dressed; what is too thin lets the glass stand lower, and bears no less.",
    )
