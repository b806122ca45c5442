"""The choices of the sizing of a foot, each with a usual value, and where there can be none.

Invariant: every step here is optional but the last.
"""

from __future__ import annotations

from bench.job.mask import Mask
from bench.job.steps import Choice, Step, Words
from bench.seals.foot import own_keys
from bench.seals.foot.kind import BEGIN
from rules.lengths import translated
from rules.limits import LEAST_FOOT_MM, MOST_FOOT_MM

AS_PROPOSED = "as proposed"
THICK = Step(
    key=own_keys.THICK_WANTED,
    stage="size",
    kind="number",
    title="Another thickness for the foot",
    mask=Mask(1, 2, "mm", LEAST_FOOT_MM, MOST_FOOT_MM),
    chosen=True,
    usual=AS_PROPOSED,
    optional=True,
    rests_on=(BEGIN.attempt,),
    why="Key a thickness and see where the glass then stands, before it is accepted.",
)
INSIDE = Step(
    key=own_keys.INSIDE_WANTED,
    stage="size",
    kind="number",
    title="Another inside diameter for the foot",
    mask=Mask(2, 2, "mm", 2.0, 80.0),
    chosen=True,
    usual=AS_PROPOSED,
    optional=True,
    rests_on=(BEGIN.attempt,),
    why="It must clear dial and hands, and leave enough of the foot under the glass.",
)


def none_fits(reason: str, rests: Words) -> Step:
    """Why none can be proposed."""
    return Step(
        key=own_keys.NONE_FITS,
        stage="size",
        kind="result",
        title="No foot can be proposed for this seat and this glass.",
        say=(translated(reason), "Go back with / and measure again, or key another thickness or inside."),
        choices=(
            Choice("keep", "keep the job as it is", goto="jobs"),
            Choice("thick", "another thickness", goto=own_keys.THICK_WANTED),
            Choice("inside", "another inside diameter", goto=own_keys.INSIDE_WANTED),
            Choice("closed", "close the job, with this reason"),
        ),
        rests_on=rests,
        waits_for="other measurements",
        why="A foot that is too thin breaks, and one that misses the ledge carries nothing.",
    )
