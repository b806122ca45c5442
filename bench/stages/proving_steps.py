"""The steps of the tests as data: marking, method, pressure, check, hold, result, handing back.

Invariant: what a step says of a method comes from the method's own table, its key from its sitting.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from bench.job import keys
from bench.job.in_words import moment
from bench.job.keys import Sitting
from bench.job.mask import Mask
from bench.job.renewed import named, word_of
from bench.job.steps import Choice, Step, Words
from bench.moments import EARLY_HOURS
from bench.seals import in_place
from bench.seals.seal import Fitted
from bench.seals.several import OneSeal
from bench.stages.beside import beside
from bench.stages.common import INDOORS, plain_choices
from bench.stages.each_seal import EACH
from rules.testing.method_table import LOWERED, Method
from rules.testing.methods import Offer, first_for, methods, rising_pressures, usual

ONE_BAR = "1.0 bar"


@dataclass(frozen=True, slots=True)
class Setup:
    """What one test is: of which sitting, by which method, at what pressure."""

    sitting: Sitting
    method: Method
    pressure_bar: float
    """Over the room; 0 where none is raised."""
    rests: Words
    """Keys of the answers that begin another test."""

    @property
    def raising(self) -> Words:
        """How it is begun: to be shown only once the check before it was answered."""
        return self.method.worded(self.method.raising, rising=self.rising)

    @property
    def brief(self) -> Words:
        """What of it stands in every window."""
        return (f"Close the screen. Raise it in steps: {self.rising}.",) if self.rising else ()

    @property
    def rising(self) -> str:
        """The pressures on the way up, with their unit; empty where none is raised."""
        rising = rising_pressures(self.pressure_bar) if self.pressure_bar else ()
        return f"{', '.join(f'{bar:g}' for bar in rising)} bar" if rising else ""

    def holding(self, minutes: float) -> Words:
        """What is done while it is held."""
        return self.method.worded(self.method.holding, hold_s=minutes * 60)

    @property
    def ending(self) -> Words:
        """What is done when the hold is over."""
        return self.method.worded(self.method.ending.steps)

    @property
    def shorter(self) -> str:
        """What less than the usual hold proves."""
        needed = self.method.hold_s / 60
        return f"less than {needed:.0f} min is no pass: it shows {self.method.claim.shorter}"


def renewed_step(seals: Sequence[OneSeal], each: str, again: Words, found: Words) -> Step:
    """Between the sittings: service, casing, which other seals are new; asked `again` after these.

    `seals`: those of the job. `found`: what a search found leaking and renewed; it is offered first. `each`:
    key of the question that begins to say it of each seal, empty where there is no other.
    """
    first, *others = seals
    seal = "seals of this job" if others else first.seal.short
    as_found = (Choice(word_of(found), f"{named(found)}, as the search found"),) if found else ()
    usual_ones = (
        Choice("none", f"none but the {seal}"),
        *beside(first.seal.joint(first.job), [one.closes for one in others]),
        Choice("parked", "not back yet: leave it", goto="jobs"),
        *((replace(EACH, goto=each),) if each else ()),
    )
    return Step(
        key=keys.RENEWED,
        stage="verify",
        kind="choice",
        title="Back from service and cased: which seals were renewed?",
        say=(f"The search for the leak found and renewed: {named(found)}.",) if found else (),
        choices=(
            *as_found,
            *(one for one in usual_ones if one.word not in {first.word for first in as_found}),
        ),
        rests_on=(*in_place(), keys.EMPTY.result, *again),
        waits_for="service and casing",
        why="A test of the whole watch proves every seal, so the sheet says which ones were new. "
        f"The {seal} {'settle' if others else 'settles'} while the movement is serviced; a test within "
        f"{EARLY_HOURS:g} hours of fitting counts as early.",
    )


def method_step(sitting: Sitting, open_to: Mapping[str, str | None], gives: str) -> Step:
    """Which test; what the tester `gives` first, the usual one otherwise, where it is allowed."""
    fitting = [one for key, one in methods().items() if open_to[key] is None]
    barred = tuple(dict.fromkeys(reason for reason in open_to.values() if reason))
    return Step(
        key=sitting.method,
        stage="verify",
        kind="choice",
        title=f"Test of the {sitting.title}: which method?",
        say=barred[:2],
        choices=tuple(Choice(one.key, one.name) for one in fitting),
        usual=next(iter(sorted(fitting, key=lambda one: first_for(one, gives))), usual()).key,
        optional=True,
        rests_on=(*in_place(), keys.PAINT, sitting.found),
        why="Each method proves something else; the sheet names the method.",
    )


def pressure_step(sitting: Sitting, offer: Offer, chosen: Method, rests: Words) -> Step:
    """The test pressure: the offer is taken by 1 Enter."""
    return Step(
        key=sitting.pressure,
        stage="verify",
        kind="number",
        title=f"{chosen.name.partition(',')[0]}, {sitting.title}: overpressure",
        say=(offer.words,),
        mask=Mask(2, 1, "bar", 0.1, round(offer.overpressure_bar, 1)),
        usual=(usual := f"{offer.overpressure_bar:.1f} bar"),
        usual_said="" if usual == ONE_BAR else f"1 Enter takes {usual[:-4]}; 1 bar: key 1.0",
        rests_on=rests,
        cautions=chosen.cautions,
        why=chosen.claim.sentence,
    )


def check_step(setup: Setup, *, asked_again: bool, left_up: bool) -> Step:
    """The check before a test begins; asked again in every sitting until the test is over.

    `left_up`: the bench was left after the test had begun, and nobody has said that it was let off.
    """
    chosen, sitting, bar = setup.method, setup.sitting, setup.pressure_bar
    words = sorted(chosen.check.states, key=lambda word: word != chosen.check.right)
    texts = chosen.worded(chosen.check.states[word] for word in words)
    before = f"Before {bar:g} bar is raised" if bar else f"{chosen.name}, before it begins"
    again = (keys.SITTING,) if asked_again else ()
    still = "vacuum" if chosen.pressure == LOWERED else "pressure"
    let_off = f"CHECK first: the case may still stand under {still}. {setup.ending[0]} Or go on as it stands."
    return Step(
        key=sitting.check,
        stage="verify",
        kind="safety",
        title=f"{f'It may still be under {still}' if left_up else before}: how does it stand?",
        consequence=(let_off,) if left_up else (),
        choices=plain_choices(*zip(words, texts, strict=True)),
        rests_on=(*setup.rests, *again, sitting.slip),
        cautions=chosen.cautions,
        why=chosen.check.why,
    )


def length_step(setup: Setup) -> Step:
    """How long is held, where no reading says it; what a shorter hold proves is said before it is taken."""
    sitting, chosen = setup.sitting, setup.method
    needed = chosen.hold_s / 60
    return Step(
        key=sitting.minutes,
        stage="verify",
        kind="number",
        title=f"Length of the hold, {sitting.title}",
        mask=Mask(3, 0, "min", 1, 600),
        usual=f"{needed:.0f} min",
        optional=True,
        below=(needed, setup.shorter),
        why="Fixed before the test: stopping at the first favourable moment proves nothing.",
    )


def temperature_step(sitting: Sitting) -> Step:
    """How warm it is."""
    return Step(
        key=sitting.temperature,
        stage="verify",
        kind="number",
        title=f"Temperature at the test, {sitting.title}",
        mask=INDOORS,
        usual="unknown",
        optional=True,
        rests_on=in_place(),
        why="Air expands with warmth: a watch that warms up during the hold reads like a leak.",
    )


def unclear_step(sitting: Sitting) -> Step:
    """A test that could not be judged: neither a pass nor a fail."""
    return Step(
        key=sitting.unclear,
        stage="verify",
        kind="result",
        title="Neither pass nor fail: what next?",
        say=("An undecided test proves nothing either way; the sheet says so.",),
        choices=(
            Choice("again", "test again, longer or measured better"),
            Choice("other", "test again by another method", goto=sitting.method),
            Choice("search", "search for a leak"),
            Choice("go_on", "go on without it"),
        ),
        rests_on=(sitting.result,),
        waits_for="another test",
        why=(
            "A small thick glass hardly moves: "
            "a test in water or with the tester's own verdict says more then."
        ),
    )


def hand_back_step(seal: str, fitted: Fitted) -> Step:
    """The last step of a job."""
    since = f"{seal.capitalize()} fitted {moment(fitted.since)}"
    return Step(
        key=keys.HAND_BACK,
        stage="verify",
        kind="result",
        title="Hand it back with the sheet, or test again?",
        say=(f"{since}; a test within {EARLY_HOURS:g} hours is repeated a day later.",),
        choices=(
            Choice("done", "finished: hand it back with the sheet"),
            Choice("again", "another test of the cased watch", goto=keys.CASED.method),
            Choice("later", "leave it for a repeat tomorrow", goto="jobs"),
        ),
        rests_on=(keys.CASED.result, keys.CASED.unclear, keys.CASED.found, *in_place()),
        waits_for="handing back",
        why=f"A test soon after fitting is repeated a day later, when the {seal} has settled.",
    )
