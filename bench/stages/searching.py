"""Stage four, last part: after a failed test, the guided search for the leak and where the job goes on.

Invariant: every path ends in a step that leads back into the route or ends the job; a question for which
pressure is raised stands behind a check and says how, as a test does.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from bench.job import further, keys
from bench.job.asking import Stage, word
from bench.job.begun import is_attempt
from bench.job.further import MEASURE, RING
from bench.job.job import Job
from bench.job.kept import SEEN_TO, TESTER, UNCHANGED
from bench.job.keys import Sitting
from bench.job.steps import Choice, Step, Words
from bench.job.values import named, named_text
from bench.seals.seal import Seal
from bench.seals.several import OneSeal, next_question
from bench.shop.groups import TESTER as SHOP_TESTER
from bench.stages.proving_steps import Setup, check_step
from rules.testing.hunt import (
    AGAIN,
    RENEWED,
    Conclusion,
    SearchQuestion,
    after_verdict,
    next_step,
    search,
)
from rules.testing.methods import methods, usual

LOW_BAR = 0.5
"""What is raised to search after a test without a known pressure, bar over the room."""
HERE = "here"
"""Word of the way that leads to another seal, to be measured and made in this job."""
OURS = "It is a seal of this job: begin the new one as another one of it, and the papers tell of that one."
"""Where a seal was renewed in a search that this job made or chose."""
VENTED = "Vent; wait until the watch itself has come down. Only then open, cover or renew."
"""Before a joint is touched between two raises."""


def leads(seal: Seal, besides: Sequence[Choice] = ()) -> dict[str, Choice]:
    """The ways on from where a search ended; `besides`: those to another seal at which it ended."""
    return {
        **{one.word: one for one in besides},
        RING: Choice(RING, another(seal)),
        MEASURE: Choice(MEASURE, measured_again(seal)),
        "test": Choice("test", "done: test again from the start"),
        SEEN_TO: Choice(SEEN_TO, "seen to, no new part: test again"),
        UNCHANGED: Choice(UNCHANGED, "nothing done: test again as it is"),
        "hand_back": Choice("hand_back", "hand back as not water-resistant"),
    }


def another(seal: Seal) -> str:
    """Another one is begun, in words."""
    return f"{'make' if seal.made_by else 'take'} another {seal.short}"


def measured_again(seal: Seal) -> str:
    """The same after its place was measured again."""
    return f"measure {seal.again.places} again, then another {seal.short}"


def to_others(
    job: Job, seals: Sequence[OneSeal], given: Mapping[str, str], end: Conclusion
) -> tuple[Choice, ...]:
    """The ways on where a search ended at a seal besides the first: another one of it where this job made
    it, else to measure and make it now where it was not renewed.
    """
    *_, last = given
    found = search(seals[0].seal.joint(seals[0].job)).questions[last].renews
    made = tuple(
        choice
        for one in seals[1:]
        if one.closes in found
        for choice in (
            Choice(further.lead_of(one.number, RING), f"{another(one.seal)}: {one.closes}"),
            Choice(further.lead_of(one.number, MEASURE), f"{measured_again(one.seal)}: {one.closes}"),
        )
    )
    new = set(found) - {one.closes for one in seals}
    question = next_question(job) if new and end.key != RENEWED else ""
    here = Choice(HERE, "measure and make that seal now, in this job", goto=question)
    return (*made, here) if question else made


def after_a_fail(job: Job, sitting: Sitting, seals: Sequence[OneSeal]) -> Stage[str]:
    """Search for the leak; gives ring (another seal), test or hand_back: where the job goes on."""
    seal, own = seals[0].seal, seals[0].job
    given: dict[str, str] = {}
    failed = job.newest(sitting.result)
    by_tester = failed is not None and named_text(failed.words, "timed") == TESTER
    method = methods().get(named_text(failed.words, "method")) if failed is not None else None
    unread = by_tester or (method is not None and method.wet)
    joint = seal.joint(own)
    found = next_step(given, seal.short, joint)
    while isinstance(found, SearchQuestion):
        key = keys.asked_in_search(found.key)
        if found.unread and unread and job.fresh(key, (sitting.result,)) is None:
            given[found.key] = found.unread
        else:
            asked = after_verdict(found) if by_tester else found
            given[found.key] = yield from answered(job, asked, sitting)
        found = next_step(given, seal.short, joint)
    besides = to_others(job, seals, given, found)
    rests = (*map(keys.asked_in_search, given), *begun_of(job))
    end = conclusion_step(found, sitting, rests, leads(seal, besides))
    led_to = yield from word(replace(end, say=(*end.say, *own_job(job, besides, found))))
    number = further.number_of(led_to)
    lead = further.theirs(number, led_to)
    one = next((one for one in seals if one.number == number), seals[0])
    why = number != further.FIRST or found.goes_to == RING
    yield from further.naming(number).asked(begun_again(one.seal, lead, why=why))
    return led_to


def begun_of(job: Job) -> Words:
    """Keys of the marks of further seals that were begun again: where one came to nothing the search is gone
    on with, at the same fail.
    """
    begun = (mark.key for mark in job.marks if is_attempt(mark.key))
    return tuple(dict.fromkeys(key for key in begun if further.number_of(key) != further.FIRST))


def begun_again(seal: Seal, lead: str, *, why: bool) -> Stage[None]:
    """Another one of a seal, after a search led to it; `why`: what else may have let its joint leak."""
    if seal.leaked is not None and lead == RING and why:
        yield from word(seal.leaked)
    if lead == MEASURE:
        yield from word(seal.again.measured)
    if lead in (RING, MEASURE):
        yield from word(seal.again.another)


def own_job(job: Job, besides: Sequence[Choice], end: Conclusion) -> Words:
    """That another seal is sized here or in a job of its own, where the search ended at one that could not be
    renewed.
    """
    if end.goes_to != "hand_back" or HERE not in {one.word for one in besides}:
        return ()
    return (
        "A seal that is not to be had is sized here, as a further seal of this job; or in a job of its own: "
        f"leave this one for now, begin it from the list (*), and key {job.head.job} there as another job of "
        "the same owner.",
    )


def answered(job: Job, question: SearchQuestion, sitting: Sitting) -> Stage[str]:
    """One question, behind a check of its own where pressure is raised for it."""
    step = question_step(question, sitting.result)
    if not question.raises:
        return (yield from word(step))
    setup = raised_for(job, question, sitting)
    is_open = job.fresh(step.key, step.rests_on) is None
    check = check_before(setup, keys.asked_in_search(f"check_{question.key}"), asked_again=is_open)
    if is_open or job.fresh(check.key, check.rests_on) is not None:
        yield from word(check)
    return (yield from word(raising(step, setup, check.key, by=question.raises)))


def raised_for(job: Job, question: SearchQuestion, sitting: Sitting) -> Setup:
    """How pressure is raised to search: never above that of the test that failed, dry but for bubbles."""
    failed = job.newest(sitting.result)
    words = failed.words if failed is not None else ()
    bar = named(words, "pressure") or LOW_BAR
    method = methods().get(question.raises if question.raises != AGAIN else named_text(words, "method"))
    if method is None or not method.raises or (question.raises == AGAIN and method.wet):
        method = usual()
    return Setup(sitting, method, bar, (sitting.result,))


def check_before(setup: Setup, key: str, *, asked_again: bool) -> Step:
    """The check before pressure is raised to search, as before a test; it may be that nothing is raised."""
    step = check_step(setup, asked_again=asked_again, left_up=False)
    right, *others = step.choices
    slip = keys.slip_of(keys.asked_in_search("check"))
    return replace(
        step,
        key=key,
        title="To search for the leak pressure is raised again: how does it stand?",
        choices=(replace(right, text=f"{right.text}; or nothing is raised"), *others),
        rests_on=(*setup.rests, *((keys.SITTING,) if asked_again else ()), slip),
        cautions=(*step.cautions, "vent"),
    )


def raising(step: Step, setup: Setup, check: str, *, by: str) -> Step:
    """The question with how pressure is raised for it, behind its check."""
    low = setup.rising.partition(",")[0]
    enough = f"A leak that shows at {low} bar needs no more; never above {setup.pressure_bar:g} bar."
    after = (*setup.holding(setup.method.hold_s / 60), *setup.ending) if by != AGAIN else ()
    return replace(
        step,
        say=(VENTED, *setup.raising, enough, *after),
        brief=(VENTED, *setup.brief),
        guarded_by=(check,),
        goes_by=(SHOP_TESTER,),
        cautions=tuple(dict.fromkeys((*setup.method.cautions, *step.cautions))),
    )


def question_step(question: SearchQuestion, result_key: str) -> Step:
    """One question of the search."""
    return Step(
        key=keys.asked_in_search(question.key),
        stage="verify",
        kind="choice",
        title=question.ask,
        choices=tuple(Choice(answer.key, answer.text) for answer in question.answers),
        rests_on=(result_key,),
        cautions=("vent",),
        waits_for="search for the leak",
        why=question.why or "One joint excluded after the other leaves the one that leaks.",
    )


def conclusion_step(found: Conclusion, sitting: Sitting, rests: Words, leads: dict[str, Choice]) -> Step:
    """Where the search ended, with the ways on."""
    ours = next((one for word, one in leads.items() if further.number_of(word) != further.FIRST), None)
    renewed = ours is not None and found.goes_to == "test"
    first = ours if ours is not None and (renewed or found.goes_to == "hand_back") else leads[found.goes_to]
    off = ("test",) if renewed or found.goes_to in (RING, MEASURE) else (SEEN_TO, UNCHANGED)
    others = tuple(lead for word, lead in leads.items() if lead is not first and word not in off)
    return Step(
        key=sitting.found,
        stage="verify",
        kind="result",
        title="Where the search ended",
        say=(found.words, *((OURS,) if renewed else ())),
        choices=(first, *others, Choice("keep", "leave it for now", goto="jobs")),
        rests_on=(sitting.result, *rests),
        waits_for="what the search found",
        why="A leak that was found leads back to the right place; one that was not is written on the sheet.",
    )
