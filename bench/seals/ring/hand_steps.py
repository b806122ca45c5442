"""The steps at which a ring that is there is measured, as data.

Invariant: none is asked unless the person says that there is such a ring.
"""

from __future__ import annotations

from bench.job import keys
from bench.job.steps import Step
from bench.job.values import mask_for
from bench.stages.common import plain_choices
from rules.sizing.decision import FREE_DIAMETER, USED_RING

NONE, NEW, MADE, USED, PRESSED, DRAWER = "none", "new", "made", "used", "pressed", "drawer"
"""Pressed only where one is in its place; the last is kept with a ring of the drawer, which is chosen by its
job and piece.
"""
LIES, SLACK, BUCKLES = "lies", "slack", "buckles"

AT_HAND = Step(
    key=keys.AT_HAND,
    stage="size",
    kind="choice",
    title="A ring that is there: measure it and judge it like one of ours?",
    choices=plain_choices(
        (NONE, "no: a ring is made"),
        (NEW, "yes: bought or left over, never pressed"),
        (MADE, "yes: turned for this job, not pressed yet"),
        (USED, "yes: a used one; it is a pattern to measure, not one to fit again"),
    ),
    usual=NONE,
    optional=True,
    rests_on=(keys.ATTEMPT,),
    why="A ring that fits saves the turning; one that does not is found before the glass is pressed. "
    + USED_RING,
)


WALL_STEP = Step(
    key=keys.HAND_WALL,
    stage="size",
    kind="number",
    title="The ring you have: wall at place {place}",
    rests_on=(keys.ATTEMPT, keys.AT_HAND),
    why=FREE_DIAMETER,
    how=(
        "{held}, light touch, at four places a quarter of a turn apart.",
        "Off the chamfers; on a used ring beside the groove that the glass has left.",
    ),
)
"""One reading of its wall."""
HAND_HEIGHT = Step(
    key=keys.HAND_HEIGHT,
    stage="size",
    kind="number",
    title="The ring you have: height, at four places; key the largest",
    mask=mask_for("height", 1, 2),
    rests_on=(keys.ATTEMPT, keys.AT_HAND),
    why="It must not stand proud of the seat. One that is too high is dressed.",
    how=("Between flat anvils, without squeezing.",),
)
HAND_SEAT = Step(
    key=keys.HAND_SEAT,
    stage="size",
    kind="choice",
    title="Offer it to the empty seat, without the glass: how does it lie?",
    choices=plain_choices(
        (LIES, "slides in under the thumb and lies all round"),
        (SLACK, "falls about: slack in the seat"),
        (BUCKLES, "will not go in, or buckles"),
    ),
    rests_on=(keys.ATTEMPT, keys.AT_HAND),
    why="Its outside cannot be measured free: it bends. The seat itself is the gauge.",
    how=("Clean and dry. Never press it home for this: a ring once pressed is not used again.",),
)
