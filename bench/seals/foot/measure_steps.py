"""What is asked of ledge and glass for a foot, as data.

Invariant: nothing here depends on a job.
"""

from __future__ import annotations

from bench.job.mask import Mask
from bench.job.steps import Step
from bench.seals.foot import own_keys
from bench.seals.foot.kind import READ_AGAIN
from bench.stages.common import plain_choices
from rules.foot.sizing import CLEAR_OF_DIAL_MM
from rules.lengths import plainly

LEDGE = Step(
    key=own_keys.LEDGE,
    stage="measure",
    kind="number",
    title="Ledge under the foot: its inside diameter, at {place} o'clock",
    rests_on=READ_AGAIN,
    why="The foot lies on the ledge: what stands out over it carries nothing.",
    how=("Inside jaws on the edge of the ledge, rock to the largest reading.",),
)
EDGE = Step(
    key=own_keys.EDGE,
    stage="measure",
    kind="number",
    title="Glass: height of its edge, flat underside to the end of the edge above, at {place}",
    rests_on=READ_AGAIN,
    why="Foot and edge together set how high the glass stands over the rim.",
    how=(
        "Flat underside on one jaw; of a domed glass only the edge counts, not the dome.",
        "A bevel above counts where it is to stand over the rim.",
    ),
)
EDGE_PLACES = ("place 1", "place 2, opposite")
BEVEL = Step(
    key=own_keys.BEVEL,
    stage="measure",
    kind="number",
    title="Glass: lower bevel, how wide it is seen from below",
    mask=Mask(1, 2, "mm", 0.05, 1.5),
    rests_on=READ_AGAIN,
    why="The corner between wall and foot is round as the nose of the boring bar: the bevel has to clear it.",
    how=(
        "With the scale of the loupe, or outside less the flat underneath, halved.",
        "The smallest round it.",
    ),
)
LEVEL, OVER, UNDER = "level", "over", "under"
"""How the end of the edge is to stand beside the rim."""
STANDS = Step(
    key=own_keys.STANDS,
    stage="measure",
    kind="choice",
    title="Where is the edge of the glass to stand?",
    choices=plain_choices((LEVEL, "level with the rim"), (OVER, "over the rim"), (UNDER, "under the rim")),
    rests_on=READ_AGAIN,
    why="The foot is made as thick as that asks: the glass stands on it.",
    how=("As the old glass stood, where that is known: its shadow on the rim, or the old ring.",),
)
HOLDS, HANGS = "foot", "wall"
"""What carries the glass."""
HOME = Step(
    key=own_keys.HOME,
    stage="measure",
    kind="choice",
    title="Pressed home, does the glass stand on the foot?",
    choices=plain_choices(
        (HOLDS, "yes: home on the foot, which carries it"),
        (HANGS, "no: the wall alone holds it"),
    ),
    rests_on=READ_AGAIN,
    why="At depth the water pushes with hundreds of newtons: the foot takes that, or friction on the wall.",
)
NOT_CLAMPED, THREAD, SCREWS = "no", "glass_thread", "glass_screws"
"""What presses on the glass from above; where something does, the word by which the gasket knows it."""
CLAMPED = Step(
    key=own_keys.CLAMPED,
    stage="measure",
    kind="choice",
    title="Does a bezel clamp the glass from above?",
    choices=plain_choices(
        (NOT_CLAMPED, "no, it is pressed in and stays"),
        (THREAD, "yes, a bezel or ring that screws in"),
        (SCREWS, "yes, a bezel held by screws"),
    ),
    rests_on=READ_AGAIN,
    why="Clamped between glass and ledge the foot is a flat gasket as well, and is judged as one.",
)
NOTHING = "nothing"
THROUGH = Step(
    key=own_keys.THROUGH,
    stage="measure",
    kind="number",
    title="What stands or turns within the foot (dial ring, hands): its largest diameter",
    mask=Mask(2, 2, "mm", 1.0, 80.0),
    usual=NOTHING,
    usual_said="1 Enter: nothing does",
    optional=True,
    rests_on=READ_AGAIN,
    why=f"The foot keeps {plainly(CLEAR_OF_DIAL_MM)} clear of it all round.",
)
PRESSURE = Step(
    key=own_keys.PRESSURE,
    stage="measure",
    kind="number",
    title="Overpressure that the foot is to bear",
    mask=Mask(3, 1, "bar", 0.5, 100.0),
    usual="10.0 bar",
    optional=True,
    why="10 bar on a glass of 32 mm is 800 N. What is marked on the case; the tests ask for it again.",
)


def stands_by_step(stands: str) -> Step:
    """By how much over or under the rim."""
    return Step(
        key=own_keys.STANDS_BY,
        stage="measure",
        kind="number",
        title=f"Edge of the glass {stands} the rim: by how much?",
        mask=Mask(1, 2, "mm", 0.01, 3.0),
        rests_on=(own_keys.STANDS,),
        why="It goes into the thickness of the foot.",
    )
