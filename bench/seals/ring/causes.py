"""The commoner causes: asked before a shaved ring, a chipped glass or a leak counts as evidence of the gap.

Invariant: the first choice, the usual one, is a cause that says nothing of the gap; only `NONE` makes the
ring count.
"""

from __future__ import annotations

from bench.job import keys
from bench.job.steps import Step
from bench.stages.again import SEARCHED
from bench.stages.common import plain_choices

NONE = "none"
"""No other cause was found: the squeeze itself is suspected."""

_SHAVED = (
    ("chamfer", "a burr, or the entry chamfer was short"),
    ("tilt", "it went in tilted"),
    (NONE, "none of these: it was tight all round"),
)
_CHIPPED = (
    ("tilt", "it went in tilted"),
    ("die", "the die bore on the edge or on one side"),
    ("edge", "the edge had a flaw before"),
    (NONE, "none of these: it was tight all round"),
)
_LEAKED = (
    ("dirt", "dirt, a hair or a chip of plastic"),
    ("scratch", "a scratch across the ring or the glass edge"),
    ("pit", "a pit in the seat"),
    (NONE, "none of these: everything is clean and whole"),
)
_WHY = (
    "What is named here has nothing to do with the gap: then the ring says nothing of it, and the next one "
    "is not made looser or tighter for it."
)


def fit_cause(outcome: str) -> Step | None:
    """What else may have been behind an outcome of fitting; None where the hand said it outright."""
    asked = {
        "shaved": ("The ring was shaved: by what, most likely?", _SHAVED),
        "chipped": ("The glass chipped: by what, most likely?", _CHIPPED),
    }
    if outcome not in asked:
        return None
    title, causes = asked[outcome]
    return Step(
        key=keys.FIT_CAUSE,
        stage="verify",
        kind="choice",
        title=title,
        choices=plain_choices(*causes),
        rests_on=(keys.FIT_OUTCOME,),
        waits_for="another ring",
        why=_WHY,
        how=("Ring, glass edge, chamfer and seat under the loupe, all round.",),
    )


LEAKED = Step(
    key=keys.LEAK_CAUSE,
    stage="verify",
    kind="choice",
    title="The glass joint leaked: what does the loupe show on ring, glass edge and seat?",
    choices=plain_choices(*_LEAKED),
    rests_on=SEARCHED,
    waits_for="another ring",
    why=_WHY,
    how=("Lift the glass out, look at ring, glass edge and seat all round before anything is wiped.",),
)
