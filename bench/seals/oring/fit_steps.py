"""The steps of measuring a new O-ring and putting it in, as data."""

from __future__ import annotations

from dataclasses import replace

from bench.job.kept import HOME
from bench.job.mask import Mask
from bench.job.steps import Choice, Gauge, Step, Words
from bench.seals.oring import own_keys
from bench.seals.oring.decided import OringDecided
from bench.seals.oring.kind import BASE, BEGIN
from bench.seals.oring.size_steps import grease_rules, greased_with
from bench.stages.again import SEARCHED
from bench.stages.common import plain_choices
from rules.lengths import bare, length
from rules.oring.housing import FACE, FEMALE
from rules.oring.judging import CordWindow, OringSizing

CORD_PLACES = ("1, anywhere", "2, opposite")
"""Where its cord is measured."""
LIVE: Words = (*BASE, BEGIN.measured, own_keys.TAKEN)
"""What everything measured of it rests on."""
OUTCOMES = (
    Choice(HOME, "in its place, not twisted; the parts close and move as they should", stamp=True),
    Choice("proud", "the parts do not close, or hardly move: it is too thick"),
    Choice("slack", "no drag at all, or it hangs out of its groove: too thin or too wide"),
    Choice("rolled", "it is twisted, or was rolled out of its groove"),
    Choice("cut", "it was nicked or cut while it went in"),
)
SAYS = {
    "proud": "A thinner cord, or the groove is not as deep as it was read: look for dirt on its floor.",
    "slack": "A thicker cord or a smaller ring, after the groove was read again.",
    "rolled": "Dry, or put on turning: grease it, and let it roll once round until it lies without a twist.",
    "cut": "A sharp edge or a thread on its way: break it, or cover it with a smooth sleeve.",
}
"""What an outcome says."""
CAUSES = (
    ("dirt", "dirt or a hair in the groove or on the ring"),
    ("cut", "the ring is nicked, twisted or rolled"),
    ("scratch", "a scratch across, or a worn tube"),
    ("none", "none of these: clean, whole and evenly pressed"),
)


def cord_step() -> Step:
    """Its cord at one place."""
    return Step(
        key=own_keys.CORD,
        stage="verify",
        kind="number",
        title="New ring, lying free: cord at place {place}",
        rests_on=LIVE,
        waits_for="an O-ring to be measured",
        why="The cord decides the squeeze; bags are mixed up, and cords differ.",
        how=("Rubber gives: the reading where the anvil just begins to drag.",),
    )


def inside_step(decided: OringDecided) -> Step:
    """Its inside diameter, once."""
    inside = decided.ring.inside
    limits = (inside.mm - inside.limit_mm, inside.mm + inside.limit_mm)
    return Step(
        key=own_keys.INSIDE,
        stage="verify",
        kind="number",
        title="New ring, lying free: inside diameter",
        mask=Mask(2, 2, "mm", 0.4, 60.0),
        gauge=Gauge(*limits, inside.mm, ("small", "as planned", "wide")),
        rests_on=(*LIVE,),
        why="It says how far the ring is stretched, or pressed together.",
        how=(
            "On a tapered pin where it just begins to be stretched, or as the calliper shows it lying flat.",
        ),
    )


def cord_gauge(window: CordWindow | None, cord_mm: float) -> Gauge | None:
    """The cords that work with the inside diameter that was accepted."""
    if window is None or window.high_mm - window.low_mm < 0.005:
        return None
    return Gauge(window.low_mm, window.high_mm, cord_mm, ("too thin", "works", "too thick"))


def off_band_step(found: OringSizing, read: Words) -> Step:
    """A ring that breaks a need as it was measured."""
    ring, state = found.ring, found.state
    return Step(
        key=own_keys.OFF_ITS_BAND,
        stage="verify",
        kind="result",
        title="As measured it does not meet its needs: what next?",
        say=(
            f"{length(ring.inside.mm)} inside, cord {length(ring.cord.mm, 3)}: {'; '.join(found.broken)}.",
            f"Squeezed by {100 * state.squeeze:.1f} %; fills {100 * state.fill:.0f} % of its groove.",
        ),
        choices=plain_choices(
            ("another", "another O-ring"),
            ("use", "put it in all the same"),
            ("measure", "measure the groove again, then another O-ring"),
        ),
        rests_on=(*LIVE, *read),
        waits_for="another O-ring",
        why="Only a test shows whether it seals; most often it does not for long.",
    )


CLEANED = Step(
    key=own_keys.CLEANED,
    stage="verify",
    kind="action",
    title="Wipe groove, ring and what it seals on",
    say=(
        "Lint-free, dry; loupe round the groove once more: a hair is a leak.",
        "No sharp edge on its way: break it, or cover it.",
    ),
    choices=(Choice("done", "clean, dry, no edge on its way"),),
    rests_on=(*LIVE, own_keys.INSIDE),
    cautions=("solvents",),
    why="What lies under a ring is pressed into it and stays a channel.",
)


def greased_step(decided: OringDecided) -> Step:
    """With what it goes in."""
    rubber, still = decided.question.of, not decided.question.housing.moving
    grease = Choice("greased", f"a thin film of {greased_with(rubber)}, no lump")
    dry = Choice("dry", "dry: it lies still")
    return Step(
        key=own_keys.GREASED,
        stage="verify",
        kind="choice",
        title="The ring goes in: with what?",
        say=(f"{rubber.name[:1].upper()}{rubber.name[1:]} bears {rubber.fluids}",) if rubber.fluids else (),
        choices=(grease, dry) if still else (grease,),
        rests_on=(*LIVE, own_keys.CLEANED),
        why="Dry it twists, rolls and is cut; the wrong grease swells it until it jams or splits.",
        how=(grease_rules(),),
    )


STRETCH_IT = "Stretch it no further than it needs, evenly, and wait a minute until it has drawn in again."
FOLD_IT = "Fold it, push it in and let it spring out into its groove all round; nothing sharp."


def fitted_step(decided: OringDecided, found: OringSizing, rests: Words) -> Step:
    """What happened when it was put in."""
    ring, state = found.ring, found.state
    kept = (
        f"inside {ring.inside.mm:.2f} mm",
        f"cord {ring.cord.mm:.3f} mm",
        f"stretch {100 * state.stretch:.1f} %",
        f"squeeze {100 * state.squeeze:.1f} %",
        f"fill {100 * state.fill:.0f} %",
        *(("off yes",) if found.broken else ()),
    )
    rests_inside = "It lies on the inner wall all round." if decided.question.housing.lies == FACE else ""
    return Step(
        key=own_keys.FITTED,
        stage="verify",
        kind="choice",
        title="Put the ring in and close the parts: what happened?",
        say=(
            FOLD_IT if decided.question.housing.lies == FEMALE else STRETCH_IT,
            f"Its flash lines run straight round: no twist. {rests_inside}".rstrip(),
            "Close without turning where you can; then move what moves, several times.",
        ),
        choices=tuple(replace(one, with_it=kept) for one in OUTCOMES),
        rests_on=(*LIVE, own_keys.CLEANED, own_keys.GREASED, *rests),
        waits_for="putting the O-ring in",
        why="A twisted ring seals in two places and leaks between them.",
    )


def after_step(outcome: str, works: CordWindow | None) -> Step:
    """What comes next when it did not go in as it should."""
    cords = "" if works is None else f" Cords that work: {bare(works.low_mm)} to {length(works.high_mm)}."
    return Step(
        key=own_keys.AFTER,
        stage="verify",
        kind="result",
        title="Not accepted: what next?",
        say=(f"{SAYS[outcome]}{cords}", "A ring that was nicked or squeezed is not used again."),
        choices=(
            Choice("another", "another O-ring"),
            Choice("measure", "measure its groove again, then another O-ring"),
            Choice("keep", "leave it for now", goto="jobs"),
            Choice("hand_back", "hand back without a new O-ring"),
        ),
        rests_on=(own_keys.FITTED,),
        waits_for="another O-ring",
        why="What was twisted or cut once leaks there again.",
    )


LEAKED = Step(
    key=own_keys.LEAK_CAUSE,
    stage="verify",
    kind="choice",
    title="This joint leaked: what does the loupe show on ring and groove?",
    choices=plain_choices(*CAUSES),
    rests_on=SEARCHED,
    waits_for="another O-ring",
    why="Dirt and nicks are commoner than a wrong size. Nothing found: read the groove again.",
    how=("Look before anything is wiped; bend the ring outwards: a nick opens.",),
)
