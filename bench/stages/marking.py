"""What the case says about water, asked once for both sittings.

Invariant: a marking keyed as a figure goes before one chosen.
"""

from __future__ import annotations

from bench.job import keys
from bench.job.mask import Mask
from bench.job.steps import Choice, Step
from rules.testing.pressure import UNFIGURED_MARKING_BAR

MARKING_KEYED = Step(
    key=keys.MARKING_KEYED,
    stage="verify",
    kind="number",
    title="Pressure marked on the case, in bar",
    mask=Mask(3, 1, "bar", 0.5, 100.0),
    usual="as chosen",
    optional=True,
    rests_on=(keys.MARKING,),
    why="For a figure that is not on the list. 10 m counts as 1 bar (common practice, no source).",
)


MARKING = Step(
    key=keys.MARKING,
    stage="verify",
    kind="choice",
    title="What does the case say about water?",
    choices=(
        Choice("nothing", "nothing"),
        Choice("words_only", f"water-resistant, without a figure (counts as {UNFIGURED_MARKING_BAR:g} bar)"),
        Choice("bar_3", "3 bar, 3 atm or 30 m", with_it=("3 bar",)),
        Choice("bar_5", "5 bar, 5 atm or 50 m", with_it=("5 bar",)),
        Choice("bar_10", "10 bar, 10 atm or 100 m", with_it=("10 bar",)),
        Choice("bar_20", "20 bar, 20 atm or 200 m", with_it=("20 bar",)),
        Choice("divers_20", "a divers' watch, 200 m", with_it=("20 bar",)),
        Choice("other", "another figure", goto=keys.MARKING_KEYED),
    ),
    why="The test pressure offered is the smaller of what is marked and what the tester reaches.",
    how=("10 m counts as 1 bar (common practice, no source).",),
)
