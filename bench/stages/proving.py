"""Stage four, second part: the tests of the empty case and of the cased watch.

Invariant: every pressure starts low; the hold is fixed before it starts; a pass opens only after the hold;
a test is never claimed above the pressure that was raised.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word, words
from bench.job.corrections import AGAIN, TESTS, courses, to_ask
from bench.job.job import Job
from bench.job.kept import HURRIED, SEEN_TO, TESTER as ITSELF, UNCHANGED
from bench.job.keys import Sitting
from bench.job.of_each_seal import known_of, others_of
from bench.job.renewed import renewed_in_search
from bench.job.steps import Words
from bench.job.values import named_text, number
from bench.seals import in_place, opened
from bench.seals.seal import Fitted
from bench.seals.several import OneSeal, in_place_of
from bench.shop.groups import TESTER
from bench.stages.correcting import correction_step
from bench.stages.deflection import with_readings
from bench.stages.each_seal import as_said, said_of_each
from bench.stages.guard import guarded
from bench.stages.holding import (
    START,
    hold_step,
    is_over,
    result_step,
    tester_step,
    timing,
    verdict_step,
)
from bench.stages.letting_off import may_be_up, said_first, told_on_leaving
from bench.stages.marking import MARKING, MARKING_KEYED
from bench.stages.proving_steps import (
    Setup,
    check_step,
    hand_back_step,
    length_step,
    method_step,
    pressure_step,
    renewed_step,
    temperature_step,
    unclear_step,
)
from bench.stages.searching import after_a_fail
from rules.testing.methods import allowed, method, methods, offered_pressure, usual
from rules.testing.pressure import marking

if TYPE_CHECKING:
    from bench.shop.shop import Shop


def proved(job: Job, shop: Shop, last: tuple[OneSeal, Fitted], *, old_paint: bool) -> Stage[None]:
    """Both sittings, until the watch is handed back or another seal is to be made; `last`: the seal that was
    put in last, and since when.
    """
    yield from said_first(job, both_sittings(job, shop, last, old_paint=old_paint))


def both_sittings(job: Job, shop: Shop, last: tuple[OneSeal, Fitted], *, old_paint: bool) -> Stage[None]:
    """The same without what the step after a result says first."""
    marking_bar, divers = yield from marked()
    seals = in_place_of(job)
    for sitting in keys.SITTINGS:
        if sitting is keys.CASED:
            again = tuple(key for key in once_more(job, sitting) if key == sitting.found)
            ours = {one.closes for one in seals}
            searched = renewed_in_search(seals[0].job.attempt_spans()[-1])
            yield from renewed(job, seals, again, tuple(one for one in searched if one not in ours))
        result = yield from tested(job, shop, sitting, marking_bar, divers=divers, old_paint=old_paint)
        if result == "not_judged":
            result = yield from word(unclear_step(sitting))
        if result not in ("pass", "go_on"):
            if result != "hand_back":
                yield from after_a_fail(job, sitting, seals)
            return
    put_in, fitted = last
    yield from word(hand_back_step(put_in.seal.short, fitted))


def renewed(job: Job, seals: Sequence[OneSeal], again: Words, found: Words) -> Stage[None]:
    """Which other seals are new, in one answer or said of each."""
    own = tuple(one.closes for one in seals)
    said = yield from said_of_each(job, seals)
    others = others_of(own)
    step = renewed_step(seals, known_of(others[0]) if others else "", again, found)
    yield from word(as_said(step, said, found) if said else step)


def marked() -> Stage[tuple[float | None, bool]]:
    """What the case says: bar over the atmosphere (None = nothing), and whether it is a divers' watch."""
    keyed = yield from word(MARKING_KEYED)
    if keyed != "as chosen":
        return number(keyed), False
    answer = yield from words(MARKING)
    chosen = answer[0]
    if chosen == "nothing":
        return marking().overpressure_bar, False
    if chosen == "words_only":
        return marking(worded=True).overpressure_bar, False
    figure = number(answer[1])
    return marking(figure=figure).overpressure_bar, chosen.startswith("divers")


def tested(
    job: Job, shop: Shop, sitting: Sitting, marking_bar: float | None, *, divers: bool, old_paint: bool
) -> Stage[str]:
    """One test of one sitting: pressure, check, hold, result; gives the word of its result."""
    dry_passed = has_passed_dry(job, sitting, demo=shop.demo)
    open_to = {
        key: allowed(
            key,
            sitting=sitting.name,
            old_paint=old_paint,
            dry_passed=dry_passed,
            divers=divers,
            divers_equipped=shop.divers_equipped,
        )
        for key in methods()
    }
    chosen = method((yield from word(method_step(sitting, open_to, shop.tester.gives))))
    barred = open_to[usual().key]
    again = once_more(job, sitting)
    rests: Words = (sitting.method, *again, *rests_of(job, sitting, again), keys.MARKING, keys.MARKING_KEYED)
    pressure = 0.0
    if chosen.raises:
        offer = offered_pressure(marking_bar=marking_bar, tester_bar=shop.tester.largest_bar, divers=divers)
        asked = replace(pressure_step(sitting, offer, chosen, rests), goes_by=(TESTER,), asks_shop=(TESTER,))
        pressure = number((yield from word(asked)))
    setup = Setup(sitting, chosen, pressure, (*rests, sitting.pressure))
    result = yield from held(job, setup, said=(barred,) if barred else (), hurried=shop.demo)
    kind = TESTS[sitting.name]
    if course := to_ask(job, kind):
        yield from word(correction_step(kind, course, "tested again: from the start, with a hold of its own"))
    return result


def rests_of(job: Job, sitting: Sitting, again: Words) -> Words:
    """What of the seals a test rests on. A fail holds while a further seal is only looked at, until it was
    said what is done about it.
    """
    result = job.newest(sitting.result)
    failed = result is not None and result.word == "fail"
    if result is not None and failed and all(job.newest_n(key) < result.n for key in again):
        return in_place()
    return (*in_place(), *(key for key in opened() if job.newest(key) is not None))


def once_more(job: Job, sitting: Sitting) -> Words:
    """Keys of the answers that sent the job back to test again; other ways on leave the test as it stands."""
    led_back = {
        sitting.found: ("test", SEEN_TO, UNCHANGED),
        sitting.unclear: ("again",),
        sitting.correction: (AGAIN,),
        sitting.throughout: ("no",),
    }
    return tuple(
        key for key, led in led_back.items() if (answer := job.newest(key)) is not None and answer.word in led
    )


def held(job: Job, setup: Setup, *, said: Words, hurried: bool) -> Stage[str]:
    """Check, hold and result of one test; `said` is why the usual method is not offered.

    What says how pressure is raised stands behind the check: not even looked back at without it.
    """
    sitting = setup.sitting
    check = check_step(setup, asked_again=not is_over(job, setup), left_up=may_be_up(job, setup))
    glass = glass_said(job) if setup.pressure_bar else ()
    check = replace(check, consequence=(*check.consequence, *said), cautions=(*glass, *check.cautions))
    yield from word(replace(check, goes_by=(TESTER,) if setup.pressure_bar else ()))
    behind = (sitting.hold, keys.nth(sitting.signal, 0))
    test = told_on_leaving(setup, under_test(job, setup, hurried=hurried))
    return (yield from guarded(test, (check.key,), lambda step: step.key in behind))


def glass_said(job: Job) -> Words:
    """The place whose caution says what a glass of unknown strength may do; none of one measured."""
    thickness = job.newest(keys.GLASS_THICKNESS)
    if thickness is not None and thickness.word != "not measured":
        return ()
    return ("unknown_glass",)


def under_test(job: Job, setup: Setup, *, hurried: bool) -> Stage[str]:
    """Hold and result of one test."""
    sitting, chosen = setup.sitting, setup.method
    minutes = 0.0
    if chosen.hold:
        minutes = number((yield from word(length_step(setup))))
    temperature = yield from word(temperature_step(sitting))
    decided = (
        f"method {chosen.key}",
        f"pressure {setup.pressure_bar:g} bar" if chosen.raises else "pressure unknown",
        f"temperature {temperature}",
    )
    if chosen.own_verdict or begun_by_tester(job, setup):
        yield from word(tester_step(setup))
        return (yield from word(verdict_step(setup, (*decided, "held unknown", f"timed {ITSELF}"))))
    if chosen.reads_deflection:
        return (yield from with_readings(job, setup, temperature, decided, hurried=hurried))
    step = hold_step(setup, minutes, say=setup.raising, rests_on=sitting.minutes, hurried=hurried)
    started = yield from words(step)
    timed = yield from timing(job, setup, started)
    short = (f"needed {chosen.hold_s / 60:g} min",) if number(started[-1]) * 60 < chosen.hold_s else ()
    kept = (*decided, f"held {started[-1]}", *short, f"timed {timed}")
    return (yield from word(result_step(setup, started, minutes, kept)))


def begun_by_tester(job: Job, setup: Setup) -> bool:
    """Whether the test runs on a tester that times itself, whatever the shop says of its tester by now."""
    begun = job.fresh(setup.sitting.hold, setup.rests)
    return begun is not None and begun.word == START and not begun.words[-1].endswith(" min")


def has_passed_dry(job: Job, sitting: Sitting, *, demo: bool) -> bool:
    """Whether a dry test of this seal has passed in this sitting; a hurried one has in a demo alone."""
    since = max(job.newest_n(key) for key in (*in_place(), *opened(), sitting.found))
    given = (course.holds for course in courses(job.answers, TESTS[sitting.name]))
    passed = (answer for answer in given if answer and answer.n > since and answer.word == "pass")
    held = (answer.words for answer in passed if demo or named_text(answer.words, "timed") != HURRIED)
    by = (methods().get(named_text(words, "method")) for words in held)
    return any(one is not None and not one.wet for one in by)
