"""The steps of the first stage as data: what is asked, why, and how it is measured.

Invariant: nothing here depends on a job.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.mask import Mask
from bench.job.steps import Choice, Step
from bench.job.values import mask_for
from bench.stages.common import INDOORS, plain_choices

if TYPE_CHECKING:
    pass

NOT_THIS_RING = {
    "foot": (
        "A ring with a foot carries the glass on its foot: a straight ring leaves the glass without a seat."
    ),
    "clamped": (
        "A bezel or screwed ring clamps a flat gasket: it seals along the axis, not by squeeze on the wall."
    ),
    "spring": (
        "An acrylic glass or a tension ring holds by its own spring: "
        "a plastic ring would have nothing to seal."
    ),
    "glued": "The glass was glued: there is no room for a ring, and the old glue hides the true seat.",
    "unknown": (
        "How the glass is held decides everything that follows: find out first, then start again here."
    ),
    "pit": (
        "A pit or scratch crosses the sealing wall: a plastic ring will not close this. "
        "Dress or fill it first."
    ),
    "dented": "The seat is dented: true the seat first, then measure again.",
}


def not_this_ring(reason: str, about: str) -> Step:
    """The one screen that says why this ring is not the answer."""
    choices = [
        Choice("keep", "keep the job as it is", goto="jobs"),
        Choice("closed", "close the job, with this reason"),
    ]
    if reason == "clamped":
        choices.insert(0, Choice("gasket", "make that flat gasket: choose it as the seal", goto=keys.SEAL))
    if reason == "foot":
        choices.insert(0, Choice("foot", "make that ring with a foot: choose it as the seal", goto=keys.SEAL))
    if reason == "spring":
        choices = [
            Choice("keep", "leave it: fit a glass of the right kind", goto="jobs"),
            Choice("anyway", "make a plastic ring all the same"),
            Choice("closed", "close the job, with this reason"),
        ]
    return Step(
        key=keys.NOT_THIS_RING,
        stage="measure",
        kind="result",
        title="A straight plastic ring is not the answer here.",
        say=(NOT_THIS_RING[reason],),
        choices=tuple(choices),
        rests_on=(about,),
        waits_for="a decision: this ring is not the answer",
        why="A ring that only looks right is pressed in, holds for a week and lets the water in.",
    )


BENCH = Step(
    key=keys.BENCH,
    stage="measure",
    kind="choice",
    title="Movement out, old ring out, seat clean and dry: what does the loupe show?",
    choices=(
        *plain_choices(
            ("clean", "clean"),
            ("dressed", "a burr, now dressed"),
            ("pit", "a pit or scratch across the sealing wall"),
            ("dented", "dented"),
        ),
        Choice("other", "another seal is made, not this ring", goto=keys.SEAL),
    ),
    cautions=("bench_glass", "solvents"),
    why=(
        "What is left of the old ring is measured as metal, and a scratch across the wall lets water through."
    ),
    how=(
        "Take movement, dial and hands out.",
        "Lift the old glass and ring out.",
        "Clean the seat to bare metal.",
    ),
)
HOLD = Step(
    key=keys.HOLD,
    stage="measure",
    kind="choice",
    title="How is the glass held?",
    choices=plain_choices(
        ("front", "pressed in from the front, straight ring"),
        ("behind", "pressed into a bezel from behind, straight ring"),
        ("foot", "ring with a foot under the glass"),
        ("clamped", "a bezel or screwed ring clamps a flat gasket"),
        ("spring", "sprung acrylic glass, or a tension ring"),
        ("glued", "glued"),
        ("unknown", "not known"),
    ),
    why=(
        "This ring seals by being squeezed between two upright walls. "
        "A glass held in another way needs another seal. "
        "The entry chamfer faces the side the glass comes from."
    ),
)
SEAT = Step(
    key=keys.CASE_BORE,
    stage="measure",
    kind="number",
    title="Glass seat, inside, at {place} o'clock",
    rests_on=(keys.MEASURE_AGAIN,),
    why="The ring's outside is made to this: {} is the whole squeeze.",
    how=(
        "Inside jaws square in the seat, rock to the largest reading.",
        "Inside jaws read short on a small bore: compare with a micrometer when it matters.",
        "Near the rim and near the ledge when the seat may be tapered.",
    ),
)
PLUG_ENTERS = Step(
    key=keys.PLUG_ENTERS,
    stage="measure",
    kind="number",
    title="Stepped plug: diameter of the largest step that enters",
    mask=mask_for("case bore", 2, 3),
    rests_on=(keys.SEAT_WAY, keys.MEASURE_AGAIN),
    why="The seat lies between the last step that enters and the first that does not.",
    how=(
        "ringwright plug plans it. Measure the steps with a micrometer.",
        "Push by thumb only, dry, square.",
    ),
)
PLUG_STAYS_OUT = Step(
    key=keys.PLUG_STAYS_OUT,
    stage="measure",
    kind="number",
    title="Stepped plug: diameter of the smallest step that does not enter",
    mask=Mask(2, 3, "mm", 5.0, 80.5),
    rests_on=(keys.SEAT_WAY, keys.PLUG_ENTERS),
    why="The seat lies between the last step that enters and the first that does not.",
)
OLD_RING = Step(
    key=keys.OLD_RING,
    stage="measure",
    kind="text",
    title="The old ring, if there is one: height, wall, colour, foot",
    optional=True,
    why="A clue beside the proposal: the old ring was made for this case, even if it is worn.",
)
DIAL_RING = Step(
    key=keys.DIAL_RING,
    stage="measure",
    kind="choice",
    title="A loose dial ring or spacer under the glass?",
    choices=plain_choices(("no", "no"), ("yes", "yes")),
    usual="no",
    optional=True,
    why="Forgotten, it means that the glass comes out again, and a ring once pressed is not used again.",
)
GLASS = Step(
    key=keys.GLASS,
    stage="measure",
    kind="number",
    title="Glass, outside, at {place} o'clock",
    rests_on=(keys.MEASURE_AGAIN,),
    cautions=("bench_glass",),
    why="The ring's bore is made to this.",
    how=(
        "On the straight part of the edge only, not on a facet or bevel.",
        "A stepped glass: measure the wide step.",
        "Mark the glass at 12 so that the positions stay the same.",
    ),
)
ACRYLIC = "acrylic"
"""The glass that is turned or moulded, not ground."""
GROUND = (
    "A mineral or sapphire glass is ground round: a slip, or a chipped edge; look with the loupe.",
    "Acrylic is not: name the glass in the list.",
)
LIGHT_TOUCH = "Acrylic gives to the jaws: a light touch, at two crossing places."


SEAT_DEPTH = Step(
    key=keys.SEAT_DEPTH,
    stage="measure",
    kind="number",
    title="Height of the seat, ledge to rim, at three places: key the smallest",
    mask=mask_for("seat depth", 1, 2),
    rests_on=(keys.MEASURE_AGAIN,),
    why="The ring grows taller when it is squeezed; it must not stand proud or lift the glass.",
    how=("Depth rod of the calliper on the ledge, at three places; key the smallest.",),
)
DEPTH_AGAIN = Step(
    key=keys.SEAT_DEPTH_AGAIN,
    stage="measure",
    kind="number",
    title="Height of the seat, ledge to rim, measured again",
    mask=mask_for("seat depth", 1, 2),
    blind=True,
    consequence=("That is out of the ordinary for a watch: measure it again and key it again.",),
    rests_on=(keys.SEAT_DEPTH,),
    why="One misread figure here makes a ring that stands proud.",
)


GLASS_EDGE = Step(
    key=keys.GLASS_EDGE,
    stage="measure",
    kind="number",
    title="Straight part of the glass's edge",
    mask=mask_for("glass edge", 1, 2),
    usual="not measured",
    optional=True,
    rests_on=(keys.MEASURE_AGAIN,),
    why="The ring may be no taller than what it seals on.",
)
TEMPERATURE = Step(
    key=keys.TEMPERATURE,
    stage="measure",
    kind="number",
    title="Temperature at the bench",
    mask=INDOORS,
    usual="20 C",
    optional=True,
    why="Diameters are corrected to 20 C, the reference temperature (ISO 1), where the materials are known.",
)
