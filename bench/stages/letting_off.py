"""Pressure that is still up when a result is given: the step after it says first how it is let off.

Invariant: only the very next act hears of it; a new sitting has a check of its own.
"""

from __future__ import annotations

from dataclasses import replace

from bench.job import keys
from bench.job.asking import Stage, T
from bench.job.job import Answer, Job
from bench.job.keys import Sitting
from bench.job.values import named
from bench.stages.proving_steps import Setup
from rules.testing.method_table import LOWERED, RAISED
from rules.testing.methods import methods

STANDS = {RAISED: "still under pressure", LOWERED: "still under vacuum"}
"""How a case stands during a test, by what is done with the pressure."""


def said_first(job: Job, stage: Stage[T]) -> Stage[T]:
    """The same stage; its open step says first what a test just stopped leaves to do."""
    last = job.answers[-1] if job.answers and job.answers[-1].n == job.last_n else None
    sitting = next((one for one in keys.SITTINGS if last and leaves_it_up(last, one)), None)
    try:
        step, method = next(stage), ""
        while True:
            is_open = not step.optional and job.fresh(step.key, step.rests_on) is None
            if sitting and is_open and (found := methods().get(method)):
                first = tuple(f"CHECK first: {line}" for line in found.worded(found.ending.steps))
                cautions = tuple(dict.fromkeys((*found.ending.cautions, *step.cautions)))
                step = replace(step, consequence=(*first, *step.consequence), cautions=cautions)
            answer = yield step
            if sitting and step.key == sitting.method:
                method = answer.word
            step = stage.send(answer)
    except StopIteration as end:
        result: T = end.value
        return result


def told_on_leaving(setup: Setup, stage: Stage[T]) -> Stage[T]:
    """The same stage: from its beginning until it is let off, whoever leaves hears how the case stands."""
    sitting, up = setup.sitting, setup.method.own_verdict
    said = f"{STANDS.get(setup.method.pressure, '')}. {setup.ending[0]}"
    try:
        step = next(stage)
        while True:
            up = up and step.key != sitting.vented
            answer = yield replace(step, left_so=said) if up and setup.method.pressure in STANDS else step
            up = up or step.key in (sitting.hold, keys.nth(sitting.signal, 0))
            step = stage.send(answer)
    except StopIteration as end:
        result: T = end.value
        return result


def may_be_up(job: Job, setup: Setup) -> bool:
    """Whether a test was begun before this sitting and neither let off nor judged since."""
    sitting, method = setup.sitting, setup.method
    if method.pressure not in STANDS:
        return False
    begins = (sitting.check,) if method.own_verdict else (sitting.hold, keys.nth(sitting.signal, 0))
    begun = max((one.n for key in begins if (one := job.fresh(key, setup.rests))), default=0)
    over = max(map(job.newest_n, (sitting.result, sitting.vented, sitting.slip)))
    return over < begun < job.newest_n(keys.SITTING)


def leaves_it_up(answer: Answer, sitting: Sitting) -> bool:
    """Whether a test of a sitting ended with this answer before its hold was over."""
    if answer.key == sitting.throughout:
        return answer.word == "no"
    held, ran = named(answer.words, "held"), named(answer.words, "ran")
    return answer.key == sitting.result and held is not None and ran is not None and ran < held
