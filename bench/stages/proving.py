"""Stage four, second part: the tests of the empty case and of the cased watch.

Invariant: every pressure starts low; the hold is fixed before it starts; a pass opens only after the hold; a test
is never claimed above the pressure that was raised.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word, words
from bench.job.corrections import AGAIN, TESTS, courses, to_ask
from bench.job.job import Job
from bench.job.steps import Words
from bench.job.values import number
from bench.job.values import said as named_in
from bench.seals.seal import Fitted
from bench.stages.correcting import correction_step
from bench.stages.deflection import Set, with_readings
from bench.stages.guard import guarded
from bench.stages.proving_steps import (
    MARKING,
    MARKING_KEYED,
    MINUTES,
    RENEWED,
    TEMPERATURE,
    check_step,
    hand_back_step,
    hold_step,
    method_step,
    pressure_step,
    raising,
    result_step,
    unclear_step,
)
from bench.stages.searching import after_a_fail
from rules.testing.methods import Method, allowed, method, methods, offered_pressure
from rules.testing.pressure import marking

if TYPE_CHECKING:
    from bench.shop.shop import Shop


@dataclass(frozen=True, slots=True)
class Sitting:
    """One of the two sittings in which a watch is tested."""

    name: str
    """`empty` or `cased`: begins its keys, and names it on the sheet."""
    title: str

    def key(self, what: str) -> str:
        """Key of one of its steps."""
        return f"{self.name}_{what}"


EMPTY = Sitting("empty", "empty case")
CASED = Sitting("cased", "cased watch")


def proved(job: Job, shop: Shop, fitted: Fitted, *, old_paint: bool) -> Stage[None]:
    """Both sittings, until the watch is handed back or another ring is to be made."""
    marking_bar, divers = yield from marked()
    for sitting in (EMPTY, CASED):
        if sitting is CASED:
            again = tuple(key for key in once_more(job, CASED) if key == keys.CASED.found)
            yield from word(replace(RENEWED, rests_on=(*RENEWED.rests_on, *again)))
        result = yield from tested(job, shop, sitting, marking_bar, divers=divers, old_paint=old_paint)
        if result == "not_judged":
            result = yield from word(unclear_step(sitting.name))
        if result not in ("pass", "go_on"):
            if result != "hand_back":
                yield from after_a_fail(sitting.name)
            return
    yield from word(hand_back_step(fitted.since))


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
    return marking(figure=figure, unit="bar").overpressure_bar, chosen.startswith("divers")


def tested(
    job: Job,
    shop: Shop,
    sitting: Sitting,
    marking_bar: float | None,
    *,
    divers: bool,
    old_paint: bool,
) -> Stage[str]:
    """One test of one sitting: pressure, check, hold, result; gives the word of its result."""
    dry_passed = has_passed_dry(job, sitting)
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
    chosen = method((yield from word(method_step(sitting.name, sitting.title, open_to))))
    barred = open_to["dry_pass_fail"]
    rests: Words = (
        sitting.key("method"),
        *once_more(job, sitting),
        keys.FIT_OUTCOME,
        keys.MARKING,
        keys.MARKING_KEYED,
    )
    if chosen.pressure:
        offer = offered_pressure(marking_bar=marking_bar, tester_bar=shop.tester.largest_bar, divers=divers)
        step = pressure_step(sitting.name, sitting.title, offer, chosen, rests)
        pressure = number((yield from word(step)))
    else:
        pressure = 0.0
    rests = (*rests, sitting.key("pressure"))
    result = yield from held(job, sitting, chosen, pressure, rests, said=(barred,) if barred else ())
    kind = TESTS[sitting.name]
    if course := to_ask(job, kind):
        yield from word(correction_step(kind, course, "tested again: from the start, with a hold of its own"))
    return result


def once_more(job: Job, sitting: Sitting) -> Words:
    """Keys of the answers that sent the job back to test again; other ways on leave the test as it stands."""
    led_back = {
        sitting.key("found"): "test",
        sitting.key("unclear"): "again",
        sitting.key("correction"): AGAIN,
    }
    return tuple(
        key
        for key, word in led_back.items()
        if (answer := job.newest(key)) is not None and answer.word == word
    )


def held(
    job: Job, sitting: Sitting, chosen: Method, pressure_bar: float, rests: Words, *, said: Words
) -> Stage[str]:
    """Check, hold and result of one test; `said` is why the usual method is not offered.

    What says how pressure is raised stands behind the check: not even looked back at without it.
    """
    name = sitting.name
    over = job.fresh(f"{name}_result", (*rests, f"{name}_hold"))
    check = check_step(name, chosen, pressure_bar, rests, asked_again=over is None)
    yield from word(replace(check, consequence=said))
    behind = (f"{name}_hold", f"{name}_signal_0")
    stage = under_pressure(sitting, chosen, pressure_bar, rests)
    return (yield from guarded(stage, (check.key,), lambda step: step.key in behind))


def under_pressure(sitting: Sitting, chosen: Method, pressure_bar: float, rests: Words) -> Stage[str]:
    """Hold and result of one test."""
    name = sitting.name
    usual = chosen.timers_s.get("hold", chosen.timers_s.get("warm", 600)) / 60
    length = replace(
        MINUTES, key=f"{name}_minutes", usual=f"{usual:.0f} min", title=f"{MINUTES.title}, {sitting.title}"
    )
    minutes = number((yield from word(length)))
    warmth_step = replace(
        TEMPERATURE, key=f"{name}_temperature", title=f"{TEMPERATURE.title}, {sitting.title}"
    )
    temperature = yield from word(warmth_step)
    decided = (
        f"method {chosen.key}",
        f"pressure {pressure_bar:g} bar" if chosen.pressure else "pressure unknown",
        f"temperature {temperature}",
    )
    say = raising(chosen, pressure_bar)
    hold = hold_step(name, chosen, minutes, rests, say=say)
    if chosen.key == "dry_deflection":
        warmth = 20.0 if temperature == "unknown" else number(temperature)
        setting = Set(name, pressure_bar, warmth, rests, say)
        return (yield from with_readings(setting, hold, decided))
    started = yield from words(hold)
    timed = "program" if started[0] == "start" else "keyed"
    kept = (*decided, f"held {started[-1]}", f"timed {timed}")
    result = yield from words(result_step(name, chosen, started, minutes, kept, rests))
    return result[0]


def has_passed_dry(job: Job, sitting: Sitting) -> bool:
    """Whether a dry test of this ring has passed in this sitting."""
    since = max(job.newest_n(keys.FIT_OUTCOME), job.newest_n(sitting.key("found")))
    given = (course.holds for course in courses(job.answers, TESTS[sitting.name]))
    passed = (answer for answer in given if answer and answer.n > since and answer.word == "pass")
    return any(not method(named_in(answer.words, "method") or "dry_pass_fail").wet for answer in passed)
