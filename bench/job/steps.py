"""A step is data: one thing to ask or to do, of what kind, on which answers it rests, and what it shows.

Invariant: a step holds no state of the job beyond what its text and figures show; two walks over the same
entries give equal steps.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bench.job.mask import Mask
    from rules.testing.leak_curve import LeakCurve

CHECKED = {"right": "as it should be", "wrong": "not as it should be"}
"""How an answer to a check is said."""

Words = tuple[str, ...]
"""The value of an answer: its word first, then what was decided with it, each as text with its unit."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One numbered choice of a step."""

    word: str
    """What the file keeps and a script sees."""
    text: str
    """What a person reads."""
    goto: str = ""
    """Key of an optional step that this choice opens instead of being written."""
    with_it: Words = ()
    """Decided values written together with the word."""
    stamp: bool = False
    """The moment of the answer (UTC text) is written with the word: a timer or a waiting time starts here."""
    follows: tuple[tuple[str, str], ...] = ()
    """Answers, key and word, that are given together with this one and written after it."""


@dataclass(frozen=True, slots=True)
class ReadBy:
    """An instrument that a number may be read with, and how it is keyed then."""

    name: str
    mask: Mask

    @property
    def said(self) -> str:
        """What is kept with a reading that it was taken with."""
        return f"by {self.name}"


@dataclass(frozen=True, slots=True)
class Target:
    """One thing to go to at a machine, and what is done before it."""

    words: str
    """The whole sentence: "outside: go to 33.00, diameter"."""
    figure: str = ""
    """The figure as it is read there; empty where nothing is read."""
    before: Words = ()
    """What is set first, a sentence each."""
    on: str = ""
    """The slide that shows it."""


@dataclass(frozen=True, slots=True)
class Gauge:
    """Where a typed number lands: the expected band and the target, in the step's unit."""

    low: float
    """Lower end of the band that works."""
    high: float
    """Upper end of the band that works."""
    target: float | None = None
    """What is aimed at, None where nothing is."""
    words: tuple[str, str, str] = ("under", "expected", "over")
    """What lies below, in and above the band."""
    half_width: float = 0.0
    """How far to either side of the target 95 % of the results are expected to land; 0 = not shown."""
    drawn: bool = True
    """False where it would lead the eye that reads: then it stands under why alone."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture to draw beside the words: its name and the numbers it needs."""

    name: str
    numbers: tuple[tuple[str, float], ...] = ()
    series: tuple[tuple[str, float], ...] = ()
    curve: LeakCurve | None = None
    """The curve of a test with readings, where that is drawn."""
    of: str = "ring"
    """What is made, in one word."""


@dataclass(frozen=True, slots=True)
class Why:
    """Where one shown figure comes from."""

    figure: str
    formula: str
    inputs: str
    source: str


@dataclass(frozen=True, slots=True)
class Meanwhile:
    """What a step shows while its hold still runs: what is done now, not what comes after."""

    title: str
    say: Words
    cautions: Words


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the route; which fields matter depends on `kind`."""

    key: str
    """The word for this step in the file, in plain prompts and in JSON; never carries an attempt number."""
    stage: str
    kind: str
    """number: keyed digit by digit; choice: digit + Enter; safety: a check that cannot be ticked through;
    action: done when acknowledged; timer: acknowledged to start a clock; text: free text, from the list only;
    result: read and acknowledged; mark: appended by the program itself.
    """
    title: str
    """The question or the thing to do, one line."""
    say: Words = ()
    """Instructions or an order of work, one line each."""
    brief: Words = ()
    """What of it stands in every window, where that is too small for the whole."""
    targets: tuple[Target, ...] = ()
    """What one goes to, one after the other, the first large; action steps only."""
    consequence: Words = ()
    """What follows from the answers so far, one line each."""
    earlier: tuple[tuple[str, str], ...] = ()
    """What was answered before that belongs here: (place, value)."""
    mask: Mask | None = None
    """How a number is keyed; number steps only."""
    by: tuple[ReadBy, ...] = ()
    """The instruments that it may be read with, first the one in hand, whose mask is that of the step."""
    chosen: bool = False
    """A length that is chosen, not read with an instrument: keyed in the unit of the shop."""
    read_with: str = ""
    """Name of the one that the dimension is read with; a reading with another says so."""
    choices: tuple[Choice, ...] = ()
    """What can be chosen, first the usual; choice, safety (found state), action, timer and result steps."""
    usual: str = ""
    """The value that 1 Enter takes on a number step."""
    usual_said: str = ""
    """How that is offered, where its word alone does not say it."""
    readback: int | None = None
    """The number that has to be read off and keyed; safety steps that are read back."""
    readback_within: int = 0
    """How far a read-back may lie from `readback`."""
    wrong: Words = ()
    """What is said of a wrong answer, which stands at `{given}`:
    of any, or of one too small and of one too large.
    """
    decided: Words = ()
    """Decided values written together with a right answer to a check."""
    asked_of: Words = ()
    """Earlier values against which a slip of keying is suspected, as text with unit."""
    blind: bool = False
    """Second entry of a number that was far off: what was keyed before is not shown."""
    gauge: Gauge | None = None
    rests_on: Words = ()
    """Keys of answers that must be older than this one for it to count."""
    guarded_by: Words = ()
    """Keys of checks that must have been answered in this sitting before the step may be shown,
    even as an old one.
    """
    optional: bool = False
    """Not on the straight path: `usual` holds until the person changes it from the list."""
    opens_after: tuple[str, float] | None = None
    """(UTC text, seconds): the first choice is only open once that much time has passed since then."""
    meanwhile: Meanwhile | None = None
    """What stands there until that time has passed."""
    below: tuple[float, str] | None = None
    """(value, words): what a smaller number means, said before it is taken."""
    ran_since: str = ""
    """UTC text: how long it is since then is written with the answer."""
    hold_s: float = 0.0
    """Length of the timer a timer step starts, seconds; 0 = none."""
    keyed_minutes: bool = False
    """A timer that may be answered by minutes keyed when input is no terminal."""
    left_so: str = ""
    """What is left behind by a person who leaves the program at this step; empty where nothing is."""
    waits_for: str = ""
    """What the job waits for while this step is open, for the list of jobs."""
    why: str = ""
    """Why this is asked."""
    how: Words = ()
    """How it is measured or done, one line each."""
    cautions: Words = ()
    """Keys of cautions to show where the danger is."""
    goes_by: Words = ()
    """Groups of the shop (`bench.shop.groups`) that it goes by: it says so where they are assumed."""
    asks_shop: Words = ()
    """Groups that are asked before it where the shop has not said them."""
    learns: Words = ()
    """What is looked up in the shop's finished jobs before it is answered, and kept as a mark."""
    looks_for: Words = ()
    """For what the drawer of the shop is looked into before that, and what lies there kept as a mark."""
    picture: Picture | None = None
    figures: tuple[Why, ...] = field(default=())
    """Where the figures shown on this step come from."""

    @property
    def runs_since(self) -> str:
        """UTC text of the beginning of the hold that the step belongs to, empty where it has none."""
        return self.opens_after[0] if self.opens_after else self.ran_since

    @property
    def to_do(self) -> Words:
        """All that is to be known and done, in its order."""
        goes = (text for one in self.targets for text in (*one.before, one.words))
        return (*self.say, *goes)

    def choice(self, word: str) -> Choice | None:
        """The choice with that word, None where there is none."""
        return next((choice for choice in self.choices if choice.word == word), None)

    def in_words(self, word: str) -> str:
        """An answer as a person reads it; that of a check never tells what is right."""
        choice = self.choice(word)
        if self.kind == "safety":
            return CHECKED.get(word, word)
        return choice.text if choice else word

    def with_answer(self, word: str) -> str:
        """The question and its answer in one line."""
        question = self.title.rstrip(".")
        return f"{question}{'' if question.endswith('?') else ':'} {self.in_words(word)}"
