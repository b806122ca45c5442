"""What is asked of the place of an O-ring and of its groove, as data."""

from __future__ import annotations

from bench.job.mask import Mask
from bench.job.steps import Choice, Step, Words
from bench.seals.oring import own_keys
from bench.seals.oring.kind import BACK, CROWN, LIES_AT, MOVING, PLACES, PUSHER, READ_AGAIN, TUBE
from bench.stages.common import plain_choices
from rules.checks import fixed
from rules.lengths import bare, length
from rules.oring.housing import FACE, FEMALE, MALE, USUAL_CORNER_MM

SOUND = ("clean", "dressed")
"""States of groove and faces that an O-ring can seal on."""
NEW_PART = {BACK: "back or case", CROWN: "crown", TUBE: "tube", PUSHER: "pusher"}
"""What is renewed where the ring alone cannot be."""
NOT_HERE = {
    "washer": "Its seal lies under a washer that has to be broken: not to be renewed. New {part}.",
    "moulded": "Its seal is moulded or cemented in: not to be renewed. New {part}.",
    "scratched": "A scratch or pit across a face lets water through under any ring. Polish it out along the "
    "joint, or new {part}.",
    "worn": "What the ring runs on is worn: a new ring is not squeezed there, and wears at once. "
    "New {run}, then measure again.",
    "eaten": "Rust has eaten the groove: no ring seals on a pitted floor. Repair it, or new {part}.",
}
PLACE = Step(
    key=own_keys.PLACE,
    stage="measure",
    kind="choice",
    title="Where does the O-ring lie?",
    choices=plain_choices(*PLACES.items()),
    why="Where something moves past it, it is squeezed less; water presses it from outside everywhere.",
)
HELD = Step(
    key=own_keys.HELD,
    stage="measure",
    kind="choice",
    title="Can the old O-ring be taken out and a new one laid in?",
    choices=plain_choices(
        ("open", "yes: it lies open in its groove"),
        ("washer", "no: a pressed-in washer holds it"),
        ("moulded", "no: it is moulded or cemented in"),
    ),
    rests_on=(own_keys.PLACE,),
    why="Many crowns and pushers hold their seal under a washer: then the whole part is renewed.",
    how=("Loupe into the open end: bright metal over the rubber is a washer.",),
)
STATE = Step(
    key=own_keys.STATE,
    stage="measure",
    kind="choice",
    title="Old ring out, groove and what it seals on clean and dry: what does the loupe show?",
    choices=plain_choices(
        ("clean", "clean and smooth all round"),
        ("dressed", "a burr, now broken"),
        ("scratched", "a scratch or pit across"),
        ("worn", "worn: a step, a waist or a dull band where the ring runs"),
        ("eaten", "rust in the groove"),
    ),
    cautions=("solvents",),
    why="A ring seals on metal that is smooth across; a waist in a tube takes its squeeze away.",
    how=(
        "Take the old ring out with plastic or wood: a steel point scratches the floor of the groove.",
        "Run a finger nail along the tube: a step that is felt is wear.",
    ),
)
LIES_WORDS = {
    FACE: "flat in a groove of a face: a lid presses on it",
    MALE: "on the inner part, in its groove: it seals outwards in a bore",
    FEMALE: "in a groove of the outer part: it seals inwards on a tube or stem",
}
GOES_BY = Step(
    key=own_keys.GOES_BY,
    stage="measure",
    kind="choice",
    title="What is there to measure?",
    choices=plain_choices(("groove", "the groove"), ("old", "only the old ring: the groove is out of reach")),
    rests_on=READ_AGAIN,
    why="The groove rules. An old ring has set, swollen or shrunk: it is a clue, and never used again.",
)
_ROUND = ("Crossing places: an oval groove squeezes unevenly.",)
TITLES = {
    FACE: (
        ("Inner wall of the groove at {place} o'clock", "Outside jaws on the inner wall."),
        ("Outer wall of the groove at {place} o'clock", "Inside jaws, rocked to the largest reading."),
        ("Depth of the groove, from the face that meets, at {place}", "Depth rod down to the floor."),
    ),
    MALE: (
        ("Floor of the groove, across, at {place} o'clock", "Thin ends of the jaws down on the floor."),
        ("Bore that the ring seals in, at {place} o'clock", "Inside jaws, or the largest pin that goes in."),
        ("Width of the groove at {place}", "The thickest feeler or pin that goes in between the walls."),
    ),
    FEMALE: (
        ("Tube or stem where the ring runs, at {place} o'clock", "Micrometer, on the band where it runs."),
        ("Floor of the groove, inside, at {place} o'clock", "Inside jaws, or a bent pin and its length."),
        ("Width of the groove at {place}", "The thickest feeler or pin that goes in between the walls."),
    ),
}
"""Titles of the three lengths of each kind of groove, inner, outer and other, and how each is read."""
WHY = {
    own_keys.INNER: "The ring is stretched on it, or presses on it.",
    own_keys.OUTER: "With the other diameter it is what is left for the cord.",
    own_keys.OTHER: "Depth decides the squeeze, width the room that the rubber needs: it keeps its volume.",
}
OTHER_PLACES = ("place 1", "place 2, opposite")


def lies_step(place: str) -> Step:
    """How the ring lies, the usual way of its place first."""
    ordered = sorted(LIES_WORDS, key=lambda lies: lies != LIES_AT[place])
    return Step(
        key=own_keys.LIES,
        stage="measure",
        kind="choice",
        title="How does it lie?",
        choices=tuple(Choice(lies, LIES_WORDS[lies]) for lies in ordered),
        rests_on=(own_keys.PLACE, *READ_AGAIN),
        why="It says what stretches the ring and which way it is squeezed.",
    )


def moves_step(place: str) -> Step:
    """Whether something moves past it."""
    return Step(
        key=own_keys.MOVES,
        stage="measure",
        kind="choice",
        title="Is something turned, pulled or pressed past the ring in use?",
        choices=plain_choices(("still", "no, it lies still"), ("moves", "yes, it is rubbed")),
        usual="moves" if place in MOVING else "still",
        optional=True,
        rests_on=(own_keys.PLACE,),
        why="A ring that is rubbed is squeezed less, or it drags, wears and rolls.",
    )


def length_step(key: str, lies: str, so_far: Words) -> Step:
    """One of the three lengths of the groove."""
    title, how = TITLES[lies][(own_keys.INNER, own_keys.OUTER, own_keys.OTHER).index(key)]
    return Step(
        key=key,
        stage="measure",
        kind="number",
        title=title,
        consequence=so_far,
        rests_on=(own_keys.LIES, *READ_AGAIN),
        why=WHY[key],
        how=(how, *(() if key == own_keys.OTHER else _ROUND)),
    )


BESIDE = Step(
    key=own_keys.BESIDE,
    stage="measure",
    kind="number",
    title="The same part beside the run of the ring, where nothing rubs",
    rests_on=(own_keys.LIES, own_keys.MOVES, *READ_AGAIN),
    why="What it is thinner, or wider, where the ring runs is wear.",
)
CORNER = Step(
    key=own_keys.CORNER,
    stage="measure",
    kind="number",
    title="Radius in the corners of the groove",
    mask=Mask(1, 2, "mm", 0.0, 0.5),
    chosen=True,
    usual=f"{fixed(USUAL_CORNER_MM)} mm",
    optional=True,
    rests_on=(own_keys.LIES, *READ_AGAIN),
    why="A round corner takes room away from the rubber.",
)
OF_OLD = {
    own_keys.OLD_INSIDE: ("Old ring, lying free: inside diameter", Mask(2, 2, "mm", 0.4, 60.0)),
    own_keys.OLD_HIGH: ("Old ring: cord the way it was squeezed, the smaller", Mask(1, 2, "mm", 0.2, 2.0)),
    own_keys.OLD_WIDE: ("Old ring: cord across that, the larger", Mask(1, 2, "mm", 0.2, 2.0)),
}
"""What is read of an old ring, as a clue."""


def old_step(key: str) -> Step:
    """One reading of the old ring."""
    title, mask = OF_OLD[key]
    return Step(
        key=key,
        stage="measure",
        kind="number",
        title=title,
        mask=mask,
        rests_on=(own_keys.GOES_BY, *READ_AGAIN),
        why="It has set, swollen or shrunk: its section says more than its height.",
    )


def clue_step(inside_mm: float, cord_mm: float, near: tuple[float, ...]) -> Step:
    """What an old ring tells, and that the groove has to be measured."""
    return Step(
        key=own_keys.CLUE,
        stage="measure",
        kind="result",
        title="A clue, no size: the groove has to be measured.",
        say=(
            f"Its section was that of a cord of about {length(cord_mm)}; stock cords near it: "
            f"{', '.join(bare(one) for one in near)}.",
            f"It lies {length(inside_mm)} inside now; new it was {bare(0.95 * inside_mm)} to "
            f"{bare(1.02 * inside_mm)}, if oil has not swollen it.",
            "Squeeze and fill follow from the groove alone: pins, a feeler or a cast reach most of them.",
        ),
        choices=(
            Choice("groove", "measure the groove after all", goto=own_keys.GOES_BY),
            Choice("keep", "keep the job as it is", goto="jobs"),
            Choice("closed", "close the job: the groove cannot be measured"),
        ),
        rests_on=(own_keys.OLD_INSIDE, own_keys.OLD_HIGH, own_keys.OLD_WIDE),
        waits_for="the groove to be measured",
        why="A ring bought by an old one is as wrong as that has become.",
    )


def not_here(reason: str, place: str, rests: Words) -> Step:
    """Why a new ring is not the answer."""
    run = {CROWN: "tube", PUSHER: "pusher or its tube"}.get(place, NEW_PART[place])
    return Step(
        key=own_keys.NOT_HERE,
        stage="measure",
        kind="result",
        title="A new O-ring alone does not cure this.",
        say=(NOT_HERE[reason].format(part=NEW_PART[place], run=run),),
        choices=(
            Choice("keep", "keep the job as it is", goto="jobs"),
            Choice("closed", "close the job, with this reason"),
        ),
        rests_on=rests,
        waits_for="a new part",
        why="A ring on bad metal holds for a test and lets the water in later.",
    )
