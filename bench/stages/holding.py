"""The hold of a test and what it gave, as steps: the clock is started, the bench left or not, the result.

Invariant: a page says what is done now and not what comes after; a pass opens only after the hold, never
after one shorter than its method needs; what a tester times and judges itself is not timed here.
"""

from __future__ import annotations

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.kept import ASKED, HURRIED, KEYED, PROGRAM
from bench.job.keys import Sitting
from bench.job.steps import Choice, Meanwhile, Step, Words
from bench.job.values import number
from bench.stages.common import plain_choices
from bench.stages.proving_steps import Setup

START = "start"
"""First word of a hold that the clock was started for."""


def on_the_clock(hold: Words) -> bool:
    """Whether a hold runs on the clock since the moment kept with it."""
    return hold[0] == START and len(hold) > 1


def tester_step(setup: Setup) -> Step:
    """A tester that times and judges itself is set going; acknowledged when its verdict is there."""
    return Step(
        key=setup.sitting.hold,
        stage="verify",
        kind="action",
        title=f"{setup.method.begin} Then let the tester measure.",
        say=(*setup.raising, *setup.holding(0.0)),
        brief=setup.brief,
        choices=(Choice(START, "its verdict is there", stamp=True),),
        rests_on=setup.rests,
        cautions=setup.method.cautions,
        why="The tester keeps its own time and its own limit: its verdict is taken when it comes.",
    )


def hold_step(setup: Setup, minutes: float, *, say: Words, rests_on: str, hurried: bool) -> Step:
    """Start of the hold, whose length is fixed by now; `rests_on` is the key of what gave it.

    It does not rest on the check before it, which in another sitting begins no new hold.
    `hurried`: it may be let be over at once, as in a demo.
    """
    length = f"{minutes:.0f} min"
    over = Choice(HURRIED, f"demo only: let {length} be over at once", with_it=(length,), stamp=True)
    short = (f"CHECK {setup.shorter}.",) if minutes * 60 < setup.method.hold_s else ()
    return Step(
        key=setup.sitting.hold,
        stage="verify",
        kind="timer",
        title=f"{setup.method.begin} Start the hold of {length}?",
        say=say,
        brief=setup.brief if say else (),
        consequence=short,
        choices=(
            Choice(START, f"start the clock: {length}", with_it=(length,), stamp=True),
            *((over,) if hurried else ()),
        ),
        hold_s=minutes * 60,
        keyed_minutes=not hurried,
        rests_on=(*setup.rests, rests_on),
        cautions=setup.method.cautions,
        why="The length of the hold is fixed before it starts, so that nobody stops at a favourable moment.",
    )


def is_over(job: Job, setup: Setup) -> bool:
    """Whether the test has its result."""
    return job.fresh(setup.sitting.result, (*setup.rests, setup.sitting.hold)) is not None


def left_meanwhile(job: Job, sitting: Sitting) -> bool:
    """Whether the bench was left between the beginning of the newest hold on the clock and its result."""
    hold = job.newest(sitting.hold)
    if hold is None or hold.word != START:
        return False
    end = next((one.n for one in job.answers if one.key == sitting.result and one.n > hold.n), job.last_n + 1)
    return any(mark.key == keys.SITTING and hold.n < mark.n < end for mark in job.marks)


def timing(job: Job, setup: Setup, hold: Words) -> Stage[str]:
    """By whom a hold is timed, as it is kept with the result; asked about where the bench was left."""
    if not left_meanwhile(job, setup.sitting):
        return hold[0] if hold[0] in (KEYED, HURRIED) else PROGRAM
    yield from word(throughout_step(setup, asked_again=not is_over(job, setup)))
    return ASKED


def throughout_step(setup: Setup, *, asked_again: bool) -> Step:
    """The bench was left during a hold: did all stay as it was? Asked in every sitting until the result."""
    under = setup.method.pressure != "none"
    held = "the pressure held" if under else "it left as it was"
    yes = "yes: held, and nothing touched" if under else "yes: left as it was, and nothing touched"
    return Step(
        key=setup.sitting.throughout,
        stage="verify",
        kind="choice",
        title=f"The bench was left during the hold: was {held} throughout?",
        choices=plain_choices(("yes", yes), ("no", "no, or not known: the test begins again")),
        rests_on=(*setup.rests, setup.sitting.hold, *((keys.SITTING,) if asked_again else ())),
        cautions=setup.method.cautions,
        waits_for="whether it was held throughout",
        why="The clock went on, but nobody saw the gauge: what is not known proves nothing. "
        "The sheet says that it was left, and what was answered.",
    )


def verdict_step(setup: Setup, decided: Words) -> Step:
    """What the tester said, taken when it has come."""
    chosen, sitting = setup.method, setup.sitting
    return Step(
        key=sitting.result,
        stage="verify",
        kind="result",
        title="What did the tester say?",
        say=setup.ending,
        choices=(
            Choice("pass", chosen.ending.passed, with_it=decided, stamp=True),
            Choice("fail", "fail", with_it=decided, stamp=True),
            Choice("not_judged", "stopped, or no verdict", with_it=decided, stamp=True),
        ),
        rests_on=(*setup.rests, sitting.hold, sitting.correction),
        cautions=chosen.ending.cautions,
        why=f"{chosen.ending.why} {chosen.claim.sentence}",
    )


def result_step(setup: Setup, hold: Words, minutes: float, decided: Words) -> Step:
    """What the test gave; a pass opens when the hold is over, a fail at once."""
    chosen, sitting = setup.method, setup.sitting
    timed, held = on_the_clock(hold), number(hold[-1])
    needed = max(minutes, chosen.hold_s / 60)
    passed = Choice("pass", chosen.ending.passed, with_it=decided, stamp=True)
    if held < needed:
        words = f"held {held:g} of {needed:g} min: too short to count as a pass"
        passed = Choice("not_judged", words, with_it=decided, stamp=True)
    now, *rest = setup.holding(minutes)
    return Step(
        key=sitting.result,
        stage="verify",
        kind="result",
        title=f"{chosen.name}: what did it give?",
        say=setup.ending,
        choices=(
            passed,
            Choice("fail", "fail", with_it=decided, stamp=True),
            Choice("not_judged", "stopped, or could not be judged", with_it=decided, stamp=True),
        ),
        opens_after=(hold[1], minutes * 60) if timed else None,
        meanwhile=Meanwhile(now, tuple(rest), chosen.cautions),
        ran_since=hold[1] if timed else "",
        rests_on=(*setup.rests, sitting.hold, sitting.correction),
        cautions=chosen.ending.cautions,
        why=f"{chosen.ending.why} {chosen.claim.sentence}",
    )
