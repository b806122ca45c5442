"""The steps of measuring a gasket as made and closing the lid on it, as data."""

from __future__ import annotations

from dataclasses import dataclass, replace

from bench.job import keys
from bench.job.kept import HOME
from bench.job.mask import Mask
from bench.job.steps import Choice, Gauge, Step, Words
from bench.seals.gasket import own_keys
from bench.seals.gasket.decided import GasketDecided
from bench.seals.gasket.kind import BACK_THREAD, BASE, BEGIN
from bench.stages.again import SEARCHED
from bench.stages.common import plain_choices
from rules.gasket.materials import TURNED
from rules.gasket.needs import Squeezed
from rules.gasket.room import GasketSizes
from rules.gasket.sizing import ThicknessWindow
from rules.lengths import bare, length
from rules.turning import operations

THICKNESS_PLACES = ("1, at a mark", "2, a quarter on", "3, opposite the mark", "4, three quarters on")
"""Where its thickness is measured."""
LIVE: Words = (
    *(*BASE, BEGIN.measured, own_keys.CUT_OUT, own_keys.TAKEN),
    *map(own_keys.turned, (operations.PART, operations.DRESS)),
)
"""What everything measured of it rests on."""
OUTCOMES = (
    Choice(HOME, "closed as it should, level all round", stamp=True),
    Choice("proud", "it does not close: the lid stands proud"),
    Choice("loose", "it closed without any resistance"),
    Choice("dragged", "the gasket was dragged, creased or squeezed out"),
    Choice("torn", "the gasket tore or was cut"),
)
WIDTH_OFF_MM = 0.1
"""A gasket may be so much wider or narrower than what was worked out (own judgement)."""
SAYS = {
    "proud": "Thinner or narrower, or the room is not as deep as it was read: look for dirt under it.",
    "loose": "It is thinner than its room is high: a thicker one, after the depth was read again.",
    "dragged": "A lid that turns took it along: grease both faces, or hold it on one side.",
    "torn": "A burr or a sharp edge cut it: find and break that edge before another goes in.",
}
"""What an outcome says."""
CAUSES = (
    ("dirt", "dirt, a hair or a chip on a face"),
    ("dragged", "the gasket is creased or dragged"),
    ("scratch", "a scratch across a face"),
    ("print", "its print is not the same all round"),
    ("none", "none of these: clean, whole and evenly pressed"),
)


@dataclass(frozen=True, slots=True)
class MadeGasket:
    """A gasket as it was measured, how it will be squeezed, and what it breaks."""

    sizes: GasketSizes
    state: Squeezed
    broken: Words
    works: ThicknessWindow | None
    """The thicknesses that work at the width that was accepted."""


def thickness_step(decided: GasketDecided) -> Step:
    """Its thickness at one place."""
    return Step(
        key=own_keys.THICKNESS,
        stage="verify",
        kind="number",
        title="Gasket as made: thickness at place {place}",
        rests_on=LIVE,
        waits_for="a gasket to be measured",
        why="Its thickness decides the squeeze; four places show whether it is flat.",
        how=(
            ("Hold it flat with the tip of a peg wood; dress the parted face until all four are alike.",)
            if decided.question.way == TURNED
            else ("Rubber gives: the reading where the anvil just begins to drag.",)
        ),
    )


def width_step(width_mm: float) -> Step:
    """Its width, once."""
    return Step(
        key=own_keys.WIDTH,
        stage="verify",
        kind="number",
        title="Gasket as made: width from inside to outside, at its widest",
        mask=Mask(2, 2, "mm", 0.2, max(3.0, 2.0 * width_mm)),
        gauge=Gauge(
            width_mm - WIDTH_OFF_MM, width_mm + WIDTH_OFF_MM, width_mm, ("narrow", "as planned", "wide")
        ),
        rests_on=LIVE,
        why="What is wider leaves rubber less room to flow, and spreads the force of a lid on more plastic.",
        how=("Across the band with the calliper, without squeezing it.",),
    )


def off_band_step(found: MadeGasket, read: Words, *, dressed: bool) -> Step:
    """A gasket that breaks a need as it was measured."""
    one, state = found.sizes, found.state
    too_thick = found.works is not None and one.thick_mm > found.works.high_mm
    lower = Choice("lower", "dress it further, then key it again", goto=keys.nth(own_keys.THICKNESS, 1))
    return Step(
        key=own_keys.OFF_ITS_BAND,
        stage="verify",
        kind="result",
        title="As measured it does not meet its needs: what next?",
        say=(
            f"{length(one.thick_mm, 3)} thick, {bare(one.width_mm)} wide: {'; '.join(found.broken)}.",
            f"Squeezed by {100 * state.squeeze:.1f} %; fills {100 * state.fill:.0f} % of its room.",
        ),
        choices=(
            *((lower,) if dressed and too_thick else ()),
            *plain_choices(
                ("another", "another gasket"),
                ("use", "lay it in all the same"),
                ("measure", "measure the room again, then another gasket"),
            ),
        ),
        rests_on=(*LIVE, *read),
        waits_for="another gasket",
        why="Only a test shows whether it seals; most often it does not.",
    )


FACES = Step(
    key=own_keys.FACES,
    stage="verify",
    kind="action",
    title="Wipe both faces and the gasket, lay it in its room",
    say=(
        "It lies flat all round, not twisted, and goes in without being stretched.",
        "Loupe round it once more: a hair is a leak.",
    ),
    choices=(Choice("done", "clean, flat, in its place"),),
    rests_on=(*LIVE, own_keys.WIDTH),
    cautions=("solvents",),
    why="What lies under a gasket is pressed into it and stays a channel.",
)


def drags_step(decided: GasketDecided) -> Step:
    """What keeps a lid that turns from taking the gasket along."""
    takes = decided.question.material.silicone_grease
    grease = "a thin film of grease" if takes else "a thin film of grease without silicone"
    return Step(
        key=own_keys.LID_DRAGS,
        stage="verify",
        kind="choice",
        title="The lid turns on the gasket: what keeps it from being dragged?",
        choices=plain_choices(
            ("greased", f"{grease}, on both faces and the thread"),
            ("held", "it is held on one side: the tighter wall, or a trace of cement on the case side"),
            ("washer", "a loose washer turns between them"),
        ),
        rests_on=(*LIVE, own_keys.FACES),
        why="A dry lid creases rubber and scrapes plastic; grease also gives more force for the same turn.",
        how=("Silicone grease for all rubbers but silicone; nothing mineral on EPDM.",),
    )


def laid_step(decided: GasketDecided, found: MadeGasket, rests: Words) -> Step:
    """What happened when the lid was closed."""
    kept = (
        f"thickness {found.sizes.thick_mm:.3f} mm",
        f"squeeze {100 * found.state.squeeze:.1f} %",
        f"fill {100 * found.state.fill:.0f} %",
        *(("off yes",) if found.broken else ()),
    )
    turns = decided.joint.endswith("thread")
    how = (
        "Turn it home with one steady pull"
        if turns
        else "Draw the screws crosswise, a little each, twice round"
    )
    meets = "until the parts meet" if decided.question.room.stopped else "as firmly as was counted with"
    return Step(
        key=own_keys.LAID,
        stage="verify",
        kind="choice",
        title="Close the lid: what happened?",
        say=(f"{how}, {meets}.", "Feeler or loupe all round: the same everywhere."),
        choices=tuple(replace(one, with_it=kept) for one in OUTCOMES),
        rests_on=(*LIVE, own_keys.FACES, own_keys.LID_DRAGS, *rests),
        waits_for="closing the lid",
        why="Unevenly closed it presses on one side and leaks on the other.",
        cautions=("bench_glass",) if decided.joint != BACK_THREAD else (),
    )


def after_step(outcome: str, found: MadeGasket) -> Step:
    """What comes next when it did not close as it should."""
    wide = found.works
    works = "" if wide is None else f" Thicknesses that work: {bare(wide.low_mm)} to {length(wide.high_mm)}."
    return Step(
        key=own_keys.AFTER,
        stage="verify",
        kind="result",
        title="Not accepted: what next?",
        say=(f"{SAYS[outcome]}{works}", "A gasket that was squeezed once is not used again."),
        choices=(
            Choice("gasket", "another gasket"),
            Choice("measure", "measure its room again, then another gasket"),
            Choice("keep", "leave it for now", goto="jobs"),
            Choice("hand_back", "hand back without a new gasket"),
        ),
        rests_on=(own_keys.LAID,),
        waits_for="another gasket",
        why="One that was dragged, torn or squeezed keeps the mark of it.",
    )


LEAKED = Step(
    key=own_keys.LEAK_CAUSE,
    stage="verify",
    kind="choice",
    title="This joint leaked: what does the loupe show on gasket and faces?",
    choices=plain_choices(*CAUSES),
    rests_on=SEARCHED,
    waits_for="another gasket",
    why="Dirt and drags are commoner than a wrong size. Nothing found: read the depth again.",
    how=("Open it, look before anything is wiped: the print of the faces shows where it pressed.",),
)
