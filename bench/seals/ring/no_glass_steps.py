"""The steps around a glass that is not here, as data.

Invariant: none is asked while there is a glass to measure.
"""

from __future__ import annotations

from bench.job import keys
from bench.job.mask import Mask
from bench.job.steps import Choice, Step
from bench.job.values import mask_for, number
from rules.lengths import length
from rules.limits import RANGES

NOT_HERE = "not here"
"""The answer to the first reading of the glass where there is none."""
NOT_HERE_SAID = "1 Enter: the glass is not here"
NOT_MEASURED, AS_PROPOSED = "not measured", "as proposed"

OLD_HEIGHT = Step(
    key=keys.OLD_HEIGHT,
    stage="measure",
    kind="number",
    title="The old ring, or a piece of it: height",
    mask=mask_for("height", 1, 2),
    usual=NOT_MEASURED,
    optional=True,
    rests_on=(keys.MEASURE_AGAIN,),
    why="The edge of the glass has to be as high as the ring it seals on.",
    how=("Between flat anvils, where it is not worn.",),
)
GLASS_WANTED = Step(
    key=keys.GLASS_WANTED,
    stage="measure",
    kind="number",
    title="Another diameter of the glass to order",
    mask=Mask(2, 2, "mm", *RANGES["glass"][:2]),
    usual=AS_PROPOSED,
    optional=True,
    rests_on=(keys.MEASURE_AGAIN,),
    why="As a parts list says, or what the supplier has: the wall that goes with it is shown.",
)


OLD_WALL_STEP = Step(
    key=keys.OLD_WALL,
    stage="measure",
    kind="number",
    title="The old ring, or a piece of it: wall, mean of several places",
    usual=NOT_MEASURED,
    optional=True,
    rests_on=(keys.MEASURE_AGAIN,),
    why="It was made for this case: its wall says which glass sat in it. Used, it reads a little thin.",
    how=("{held}, beside the groove that the glass has left.",),
)


def comes_step(ordered: str) -> Step:
    """The job waits for the glass; `ordered` as it is kept."""
    said = length(number(ordered))
    return Step(
        key=keys.GLASS_COMES,
        stage="measure",
        kind="action",
        title=f"Glass of {said} ordered: has it come?",
        say=("It is measured before anything is sized: the ring is made to the glass as it is.",),
        choices=(
            Choice("come", "it is here: measure it"),
            Choice("keep", "not yet: leave the job", goto="jobs"),
        ),
        rests_on=(keys.GLASS_ORDER, keys.nth(keys.GLASS, 1), keys.GLASS_DIFFERS),
        waits_for=f"the glass, {said} ordered",
        why="Stock glasses differ by a few hundredths from what is written on them.",
    )
