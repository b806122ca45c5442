"""What is asked of the room of a gasket and of what presses it, as data.

Invariant: nothing here depends on a job but the place the gasket lies in.
"""

from __future__ import annotations

from bench.job.mask import Mask
from bench.job.steps import Choice, Step
from bench.seals.gasket import own_keys
from bench.seals.gasket.kind import PLACES, READ_AGAIN
from bench.stages.common import plain_choices
from rules.checks import span
from rules.gasket.drive import DRAWN_MPA, NUT_FACTOR, PITCH_MM, USUAL_TORQUE_NM

SOUND = ("clean", "dressed")
"""States of the faces that a gasket can seal on."""
NOT_HERE = {
    "scratched": "A scratch or pit across a face lets water through under any gasket. Dress it flat first.",
    "bent": "A bent lid or rim presses on one side only. True it, or find another lid.",
    "thread": "A worn thread or screw hole cannot press the gasket. Repair it first.",
}
JOINT = Step(
    key=own_keys.JOINT,
    stage="measure",
    kind="choice",
    title="Where does the flat gasket lie?",
    choices=plain_choices(*PLACES.items()),
    why="What closes the joint sets the force, and a lid that turns drags on its gasket.",
)
STATE = Step(
    key=own_keys.STATE,
    stage="measure",
    kind="choice",
    title="Old gasket out, groove, lid and thread clean and dry: what does the loupe show?",
    choices=plain_choices(
        ("clean", "clean and flat"),
        ("dressed", "a burr, now dressed"),
        ("scratched", "a scratch or pit across a sealing face"),
        ("bent", "the lid or the rim is bent"),
        ("thread", "the thread or a screw hole is worn out"),
    ),
    cautions=("bench_glass", "solvents"),
    why="The gasket closes turning marks round the joint, not a scratch across it.",
    how=(
        "Pick the old gasket out with wood or plastic: steel scratches the face.",
        "Its print shows where it pressed, and whether it pressed all round.",
        "Lay the lid on a flat plate: it must not rock.",
    ),
)
OLD_ONE = Step(
    key=own_keys.OLD_ONE,
    stage="measure",
    kind="text",
    title="The old gasket, if there is one: outside, inside, thickness, what it is made of",
    optional=True,
    why="A clue beside the proposal, no more: an old one has set, swollen or shrunk. It is not used again.",
)
MEETS = Step(
    key=own_keys.MEETS,
    stage="measure",
    kind="choice",
    title="Lid closed without a gasket: do the parts meet metal to metal?",
    choices=plain_choices(
        ("stop", "yes, they meet before the room is closed up"),
        ("all", "no: the gasket takes all the force"),
    ),
    rests_on=READ_AGAIN,
    why="Where they meet, the stop sets the squeeze. Where they do not, the force does.",
    how=(
        "Close it by hand without a gasket: where it comes up hard, the parts meet.",
        "A trace of marking colour on one face shows where.",
        "A shoulder that shines all round is one that meets.",
    ),
)
SHAPE = Step(
    key=own_keys.SHAPE,
    stage="measure",
    kind="choice",
    title="What does the gasket lie in?",
    choices=plain_choices(
        ("groove", "a groove, with a wall on either side"), ("ledge", "a ledge, open inwards")
    ),
    rests_on=READ_AGAIN,
    why="Water presses it inwards: in a groove it rests on the inner wall.",
)
OUTSIDE = Step(
    key=own_keys.OUTSIDE,
    stage="measure",
    kind="number",
    title="Outer wall of the room, inside, at {place} o'clock",
    rests_on=READ_AGAIN,
    why="The gasket must go in without being forced, and needs room to flow.",
    how=("Inside jaws square in the groove, rock to the largest reading.",),
)
INSIDE = Step(
    key=own_keys.INSIDE,
    stage="measure",
    kind="number",
    title="Inner wall of the room, or edge of the ledge, at {place} o'clock",
    rests_on=READ_AGAIN,
    why="The gasket rests on it, or must not stand over it.",
    how=("Outside jaws on the inner wall; on a ledge inside jaws on its edge.",),
)
DEPTH = Step(
    key=own_keys.DEPTH,
    stage="measure",
    kind="number",
    title="Depth of the room, from the face that meets, at {place}",
    rests_on=READ_AGAIN,
    why="Less what of the lid goes into it, it is the height that the gasket is squeezed to.",
    how=(
        "Depth rod across the face that meets, down to where the gasket lies.",
        "A depth micrometer raises the chance: this figure decides the squeeze.",
    ),
)
DEPTH_PLACES = ("place 1", "place 2, a third on", "place 3, two thirds on")
FLAT, RIB = "flat", "rib"
"""What of the lid may stand over the gasket."""
STANDS_OVER = Step(
    key=own_keys.STANDS_OVER,
    stage="measure",
    kind="choice",
    title="What of the lid stands over the gasket?",
    choices=plain_choices(
        (FLAT, "its flat face, level with where it meets"),
        (RIB, "a rib that goes into the room"),
        ("hollow", "a hollow that adds to the room"),
    ),
    rests_on=READ_AGAIN,
    why="A rib takes from the height that is left for the gasket, a hollow adds to it.",
)
CLOSED = Step(
    key=own_keys.CLOSED,
    stage="measure",
    kind="number",
    title="Height between the faces, as the lid is to stand",
    mask=Mask(1, 2, "mm", 0.1, 5.0),
    rests_on=READ_AGAIN,
    why="Nothing stops the lid but the gasket: how thick it is when squeezed sets where the lid stands.",
    how=(
        "From the old gasket as it came out, where the lid stood right.",
        "Or close the lid on modelling clay, and measure that.",
    ),
)
SCREWS = Step(
    key=own_keys.SCREWS,
    stage="measure",
    kind="number",
    title="How many screws hold it?",
    mask=Mask(2, 0, "", 2, 16),
    rests_on=(own_keys.JOINT,),
    why="What they can give together is what presses the gasket.",
)
SCREW = Step(
    key=own_keys.SCREW,
    stage="measure",
    kind="choice",
    title="Size of those screws",
    choices=tuple(Choice(f"{size:.1f}", f"{size:.1f} mm over the thread") for size in PITCH_MM),
    usual="1.2",
    optional=True,
    rests_on=(own_keys.JOINT,),
    why=f"A small screw is drawn home to {span(*DRAWN_MPA)} MPa by hand (own judgement).",
)
TORQUE = Step(
    key=own_keys.TORQUE,
    stage="measure",
    kind="number",
    title="How hard the lid is turned home",
    mask=Mask(2, 1, "N m", 0.2, 15.0),
    usual=f"{USUAL_TORQUE_NM:.1f} N m",
    optional=True,
    why="Force along the thread is torque over nut factor and diameter; "
    f"{NUT_FACTOR[0]:g} greased, {NUT_FACTOR[1]:g} dry.",
    how=(f"A firm turn of a key by hand is about {USUAL_TORQUE_NM:g} N m (own judgement).",),
)


def not_here(state: str) -> Step:
    """Why a new gasket is not the answer."""
    return Step(
        key=own_keys.NOT_HERE,
        stage="measure",
        kind="result",
        title="A new gasket alone does not cure this joint.",
        say=(NOT_HERE[state],),
        choices=(
            Choice("keep", "keep the job as it is", goto="jobs"),
            Choice("closed", "close the job, with this reason"),
        ),
        rests_on=(own_keys.STATE,),
        waits_for="a face or a thread to be repaired",
        why="A gasket on a bad face holds for a test and lets the water in later.",
    )


def thread_step(outside_mm: float) -> Step:
    """How wide the thread is; usually a little wider than the gasket."""
    return Step(
        key=own_keys.THREAD,
        stage="measure",
        kind="number",
        title="Diameter of the thread that closes it",
        mask=Mask(2, 1, "mm", 5.0, 80.0),
        usual=f"{outside_mm:.1f} mm",
        optional=True,
        rests_on=READ_AGAIN,
        why="The wider the thread, the less it presses at the same turn of the key.",
    )


def stands_by_step(over: str, most_mm: float) -> Step:
    """How far a rib goes in, less than there is room for, or how deep a hollow is."""
    what = "Height of that rib" if over == RIB else "Depth of that hollow"
    return Step(
        key=own_keys.STANDS_BY,
        stage="measure",
        kind="number",
        title=f"{what}, from the face that meets",
        mask=Mask(1, 2, "mm", 0.02, most_mm if over == RIB else 3.0),
        rests_on=(own_keys.STANDS_OVER,),
        why="It counts as much as the depth.",
    )
