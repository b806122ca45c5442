"""Stage four, last part: after a failed test, the guided search for the leak and where the job goes on.

Invariant: every path ends in a step that leads back into the route or ends the job.
"""

from __future__ import annotations

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.kept import TESTER
from bench.job.keys import Sitting
from bench.job.steps import Choice, Step
from bench.job.values import named_text
from bench.seals.seal import Seal
from rules.testing.hunt import Conclusion, SearchQuestion, after_verdict, next_step


def leads(seal: Seal) -> dict[str, Choice]:
    """The ways on from where a search ended."""
    return {
        "ring": Choice("ring", f"make another {seal.short}"),
        "measure": Choice("measure", f"measure {seal.again.places} again, then another {seal.short}"),
        "test": Choice("test", "done: test again from the start"),
        "hand_back": Choice("hand_back", "hand back as not water-resistant"),
    }


def after_a_fail(job: Job, sitting: Sitting, seal: Seal) -> Stage[str]:
    """Search for the leak; gives ring (another seal), test or hand_back: where the job goes on."""
    given: dict[str, str] = {}
    failed = job.newest(sitting.result)
    by_tester = failed is not None and named_text(failed.words, "timed") == TESTER
    joint = seal.joint(job)
    found = next_step(given, seal.short, joint)
    while isinstance(found, SearchQuestion):
        asked = after_verdict(found) if by_tester else found
        given[found.key] = yield from word(question_step(asked, sitting.result))
        found = next_step(given, seal.short, joint)
    led_to = yield from word(conclusion_step(found, sitting, tuple(given), leads(seal)))
    if seal.leaked is not None and led_to == found.goes_to == "ring":
        yield from word(seal.leaked)
    if led_to == "measure":
        yield from word(seal.again.measured)
    if led_to in ("ring", "measure"):
        yield from word(seal.again.another)
    return led_to


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


def conclusion_step(
    found: Conclusion, sitting: Sitting, asked: tuple[str, ...], leads: dict[str, Choice]
) -> Step:
    """Where the search ended, with the ways on."""
    first = leads[found.goes_to]
    others = tuple(lead for lead in leads.values() if lead is not first)
    return Step(
        key=sitting.found,
        stage="verify",
        kind="result",
        title="Where the search ended",
        say=(found.words,),
        choices=(first, *others, Choice("keep", "leave it for now", goto="jobs")),
        rests_on=(sitting.result, *map(keys.asked_in_search, asked)),
        waits_for="what the search found",
        why="A leak that was found leads back to the right place; one that was not is written on the sheet.",
    )
