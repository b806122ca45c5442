"""The steps of the tests as data: marking, method, pressure, check, hold, result, handing back.

Invariant: keys begin with the sitting (`empty`, `cased`) and never carry a number of an attempt or a test.
"""

from __future__ import annotations

from collections.abc import Mapping

from bench.job import keys
from bench.job.corrections import TESTS
from bench.job.steps import Choice, Places, Step, Words
from bench.stages.common import plain_choices
from rules.testing.methods import Method, Offer, methods, rising_pressures

MARKING_KEYED = Step(
    key=keys.MARKING_KEYED,
    stage="verify",
    kind="number",
    title="Pressure marked on the case, in bar",
    places=Places(3, 1, "bar", 0.5, 100.0),
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
        Choice("words_only", "water-resistant, without a figure (counts as 2 bar)"),
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
RENEWED = Step(
    key=keys.RENEWED,
    stage="verify",
    kind="choice",
    title="Back from service and cased: which seals were renewed?",
    say=(
        "The ring settles while the movement is serviced; a test within 12 hours of fitting counts as early.",
    ),
    choices=(
        Choice("none", "none but the ring"),
        Choice("back", "back"),
        Choice("back_crown", "back and crown"),
        Choice("back_crown_tube", "back, crown and tube"),
        Choice("all", "all, pushers too"),
        Choice("crown", "crown only"),
        Choice("parked", "still parked: leave it", goto="jobs"),
    ),
    rests_on=(keys.FIT_OUTCOME, keys.EMPTY.result),
    waits_for="service and casing",
    why="A test of the whole watch proves every seal, so the sheet says which ones were new.",
)
MINUTES = Step(
    key="minutes",
    stage="verify",
    kind="number",
    title="Length of the hold",
    places=Places(3, 0, "min", 1, 600),
    optional=True,
    why="Fixed before the test: stopping at the first favourable moment proves nothing.",
)
TEMPERATURE = Step(
    key=keys.TEMPERATURE,
    stage="verify",
    kind="number",
    title="Temperature at the test",
    places=Places(2, 0, "C", 5.0, 40.0),
    usual="unknown",
    optional=True,
    why="Air expands with warmth: a watch that warms up during the hold reads like a leak.",
)
CHECKS = {
    "air": (
        ("shut", "screen shut and locked, nobody's face in front of it"),
        ("open", "screen open, or a face in front of it"),
        ("not_looked", "vessel's rating not looked at"),
    ),
    "water": (
        ("shut", "water up to the mark, screen shut, dry test passed"),
        ("air_inside", "much air left above the water"),
        ("not_dry", "not tested dry before"),
    ),
    "under": (
        ("ready", "screen shut, set to begin at 0.2 bar below the room, never deeper than 0.7"),
        ("deep", "set to go to 0.7 bar below at once"),
        ("open", "screen open, or the glass not to be seen"),
    ),
    "still": (
        ("ready", "movement's battery and my hands kept off the heat; watch as the order of work says"),
        ("crown_out", "crown pulled out or unscrewed"),
        ("not_dry", "not tested dry before"),
    ),
}


def method_step(name: str, title: str, open_to: Mapping[str, str | None]) -> Step:
    """Which test; the pass or fail of the tester unless another is chosen."""
    known = methods()
    fitting = [key for key in known if open_to[key] is None]
    usual = "dry_pass_fail" if "dry_pass_fail" in fitting or not fitting else fitting[0]
    barred = tuple(dict.fromkeys(reason for reason in open_to.values() if reason))
    return Step(
        key=f"{name}_method",
        stage="verify",
        kind="choice",
        title=f"Test of the {title}: which method?",
        say=barred[:2],
        choices=tuple(Choice(key, f"{known[key].name}") for key in fitting),
        usual=usual,
        optional=True,
        rests_on=(keys.FIT_OUTCOME, keys.PAINT, f"{name}_found"),
        why="Each method proves something else; the sheet names the method.",
    )


def pressure_step(name: str, title: str, offer: Offer, chosen: Method, rests: Words) -> Step:
    """The test pressure: the offer is taken by 1 Enter."""
    return Step(
        key=f"{name}_pressure",
        stage="verify",
        kind="number",
        title=f"{chosen.name}, {title}: overpressure",
        say=(offer.words,),
        places=Places(2, 1, "bar", 0.1, round(offer.overpressure_bar, 1)),
        usual=f"{offer.overpressure_bar:.1f} bar",
        rests_on=rests,
        cautions=chosen.places,
        why=f"It can prove {chosen.can_prove}; it cannot prove {chosen.cannot_prove}.",
    )


def raising(chosen: Method, pressure_bar: float) -> Words:
    """How the pressure is raised and held: to be shown only once the check before it was answered."""
    rising = ", ".join(f"{bar:g}" for bar in rising_pressures(pressure_bar)) if pressure_bar else ""
    return (*((f"Raise it in steps: {rising} bar.",) if rising else ()), *chosen.steps)


def check_step(name: str, chosen: Method, pressure_bar: float, rests: Words, *, asked_again: bool) -> Step:
    """The check before pressure is raised; asked again in every sitting until the test is over."""
    still = "under" if chosen.key == "underpressure" else "still"
    kind = ("water" if chosen.wet else "air") if chosen.pressure else still
    again = (keys.SITTING,) if asked_again else ()
    raised = f"Before {pressure_bar:g} bar is raised" if pressure_bar else f"Before the {chosen.name.lower()}"
    return Step(
        key=f"{name}_check",
        stage="verify",
        kind="safety",
        title=f"{raised}: how does it stand?",
        choices=plain_choices(*CHECKS[kind]),
        rests_on=(*rests, *again, f"{name}_slip"),
        cautions=chosen.places,
        why="Compressed air in a vessel, and in a leaking watch, is stored energy. The tester's own manual and "
        "local rules come first.",
    )


def hold_step(name: str, chosen: Method, minutes: float, rests: Words, *, say: Words) -> Step:
    """Start of the hold; its length is fixed from here on.

    It comes after the check but does not rest on it: asked again in another sitting, the check begins no new hold.
    """
    return Step(
        key=f"{name}_hold",
        stage="verify",
        kind="timer",
        title=f"Low first, look, then up. Start the hold of {minutes:.0f} min?",
        say=say,
        choices=(
            Choice(
                "start", f"start the clock: {minutes:.0f} min", with_it=(f"{minutes:.0f} min",), stamp=True
            ),
        ),
        hold_s=minutes * 60,
        keyed_minutes=True,
        rests_on=(*rests, f"{name}_minutes"),
        cautions=chosen.places,
        why="The hold is told before the test and fixed then.",
    )


def result_step(name: str, chosen: Method, hold: Words, minutes: float, decided: Words, rests: Words) -> Step:
    """What the test gave; a pass opens when the hold is over, a fail at once."""
    timed = hold[0] == "start" and len(hold) > 1
    held = float(hold[-1].split()[0])
    passed = Choice("pass", "pass" if chosen.pressure else "nothing seen: pass", with_it=decided, stamp=True)
    if not timed and held < minutes:
        words = f"held {held:g} of {minutes:g} min: too short to count as a pass"
        passed = Choice("not_judged", words, with_it=decided, stamp=True)
    return Step(
        key=f"{name}_result",
        stage="verify",
        kind="result",
        title=f"{chosen.name}: what did it give?",
        say=("Vent slowly, screen shut, face away; only then open.",),
        choices=(
            passed,
            Choice("fail", "fail", with_it=decided, stamp=True),
            Choice("not_judged", "stopped, or could not be judged", with_it=decided, stamp=True),
        ),
        opens_after=(hold[1], minutes * 60) if timed else None,
        ran_since=hold[1] if timed else "",
        rests_on=(*rests, f"{name}_hold", TESTS[name].asks),
        cautions=("vent",),
        why="As the tester or the eye gives it. A watch that leaked holds pressure inside: treat it as a vessel.",
    )


def unclear_step(name: str) -> Step:
    """A test that could not be judged: neither a pass nor a fail."""
    return Step(
        key=f"{name}_unclear",
        stage="verify",
        kind="result",
        title="Neither pass nor fail: what next?",
        say=("An undecided test proves nothing either way; the sheet says so.",),
        choices=(
            Choice("again", "test again, longer or measured better"),
            Choice("other", "test again by another method", goto=f"{name}_method"),
            Choice("search", "search for a leak"),
            Choice("go_on", "go on without it"),
        ),
        rests_on=(f"{name}_result",),
        waits_for="another test",
        why="A small thick glass hardly moves: a test in water or with the tester's own verdict says more then.",
    )


def hand_back_step(fitted_at: str) -> Step:
    """The last step of a job."""
    return Step(
        key=keys.HAND_BACK,
        stage="verify",
        kind="result",
        title="Hand it back with the sheet, or test again?",
        say=(
            f"Ring fitted {fitted_at[:16].replace('T', ' ')} UTC; a test within 12 hours is repeated a day later.",
        ),
        choices=(
            Choice("done", "finished: hand it back with the sheet"),
            Choice("again", "another test of the cased watch", goto=keys.CASED.method),
            Choice("later", "leave it for a repeat tomorrow", goto="jobs"),
        ),
        rests_on=(keys.CASED.result, keys.CASED.unclear, keys.CASED.found, keys.FIT_OUTCOME),
        waits_for="handing back",
        why="A test soon after fitting is repeated a day later, when the ring has settled.",
    )
