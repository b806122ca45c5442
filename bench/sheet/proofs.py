"""The tests of a seal as data: what was raised and held, the result, and which passes still stand.

Invariant: a figure stands here only if an answer holds it; a pass whose pressure was changed afterwards never
counts, and no pass stands after a later fail of the same seal.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import count
from typing import Any

from bench.job import keys
from bench.job.corrections import results
from bench.job.job import Answer, newest_of
from bench.job.kept import HOME, HURRIED
from bench.job.keys import Sitting
from bench.job.steps import Words
from bench.job.values import named, named_text, number
from bench.moments import at_the_bench, is_early, seconds_between, year_after
from bench.seals import in_place, opened
from bench.sheet.keyed_anew import from_readings
from rules.testing.methods import methods
from rules.testing.volume import SIZES, Volume, by_size, measured

OF_RESULT = {one.result: one for one in keys.SITTINGS}
"""The sittings by the key of their results."""
Test = dict[str, Any]


def tests_of(answers: Sequence[Answer], since: int = 0) -> list[Test]:
    """Every test in the order in which it was made, `since` a place in the file; of a corrected result only
    the one that holds.
    """
    fitted = [answer for answer in answers if answer.key in in_place()]
    made = [test_of(answer, answers, fitted) for answer in results(answers) if answer.n > since]
    last_fail = max(
        (at for at, test in enumerate(made) if test["counts"] and test["result"] == "fail"), default=-1
    )
    for at, test in enumerate(made):
        proves = test["counts"] and test["result"] == "pass" and test["timed"] != HURRIED
        test["stands"] = proves and at > last_fail
    return made


def between(answers: Sequence[Answer], low: int, high: float) -> list[Answer]:
    """The answers after one place in the file and before another."""
    return [answer for answer in answers if low < answer.n < high]


def replaced(result: Answer, answers: Sequence[Answer]) -> bool:
    """Whether the pressure of a test was keyed again afterwards without a further test being asked for."""
    sitting = OF_RESULT[result.key]
    pressure = next((one for one in answers if one.key == sitting.pressure and one.n > result.n), None)
    if pressure is None:
        return False
    afresh = (
        *(sitting.method, sitting.found, sitting.unclear, sitting.correction, sitting.throughout),
        *(*in_place(), *opened(), keys.MARKING, keys.MARKING_KEYED),
    )  # after one of these a further pressure belongs to a further test
    return not any(one.key in afresh for one in between(answers, result.n, pressure.n))


def test_of(answer: Answer, answers: Sequence[Answer], fitted: Sequence[Answer]) -> Test:
    """One test from the words of its result and the answers before it."""
    words, sitting = answer.words, OF_RESULT[answer.key]
    stamp = words[1] if len(words) > 1 else ""
    there = {one.key: one for one in fitted if one.n < answer.n}
    home = max((one for one in there.values() if one.word == HOME), key=lambda one: one.n, default=None)
    before = between(answers, 0, answer.n)
    return {
        "sitting": sitting.name,
        "method": named_text(words, "method") or None,
        "overpressure_bar": named(words, "pressure"),
        "minutes": named(words, "held"),
        "needed_minutes": named(words, "needed"),
        "timed": named_text(words, "timed") or None,
        "stopped_after_min": stopped_after(words, newest_of(before, sitting.hold)),
        "temperature_c": named(words, "temperature"),
        "result": answer.word,
        "leak": leak_of(words),
        "reason": named_text(words, "leak_reason") or None,
        "readings": readings_of(words, sitting, before),
        "at": stamp or None,
        "at_local": at_the_bench(stamp, answer.at),
        "early": is_early(home.words[1] if home else "", stamp),
        "counts": not undone(answer, answers, there)
        and (answer.word == "fail" or not (replaced(answer, answers) or undermined(answer, answers))),
    }


def undone(result: Answer, answers: Sequence[Answer], there: Mapping[str, Answer]) -> bool:
    """Whether no seal was `there`, or a joint was touched since: any after a pass, one there after a fail."""
    by = there if result.word == "fail" else (*in_place(), *opened())
    return not there or any(one.n > result.n and one.key in by for one in answers)


def undermined(result: Answer, answers: Sequence[Answer]) -> bool:
    """Whether what a result rests on was changed by hand after it."""
    sitting = OF_RESULT[result.key]
    before = sorted((one for one in answers if one.number < result.number), key=lambda one: one.number)
    newest = {one.key: one for one in before if sitting.what(one.key) != one.key}
    hold = newest.get(sitting.hold)
    read = keys.readings_of(sitting.signal, sitting.vented, sitting.vented_by)
    return any(
        one.accepted > result.number
        and not (read.fullmatch(one.key) and hold is not None and one.number < hold.number)
        for one in newest.values()
    )


def stopped_after(words: Words, hold: Answer | None) -> float | None:
    """Minutes after which a test timed by the program was over before its hold; None where it was held out.

    As written with the result; by the clock on the wall where that was not written.
    """
    held, ran = named(words, "held"), named(words, "ran")
    if held is not None and ran is not None:
        return ran if ran < held else None
    if hold is None or hold.word != "start" or held is None or len(hold.words) < 2 or len(words) < 2:
        return None
    hours = hours_between(hold.words[1], words[1])
    if hours is None or hours * 60 >= held:
        return None
    return round(max(hours, 0.0) * 60, 1)


def leak_of(words: Words) -> dict[str, float | str | None] | None:
    """The leak rate that was worked out for a test, None where none was."""
    if (rate := named(words, "leak")) is None:
        return None
    return {
        "rate_ug_min": rate,
        "low_ug_min": named(words, "leak_low"),
        "high_ug_min": named(words, "leak_high"),
        "decision": named_text(words, "leak_decision") or None,
        "law": named_text(words, "leak_law") or None,
    }


def readings_of(words: Words, sitting: Sitting, before: Sequence[Answer]) -> dict[str, Any] | None:
    """The readings of a test that reads a gauge, with the volume
    and gauge they were taken with; None elsewhere.
    """
    held = named(words, "held")
    if held is None or not from_readings(words):
        return None
    signals: list[float] = []
    for n in count():
        reading = newest_of(before, keys.nth(sitting.signal, n))
        if reading is None:
            break
        signals.append(number(reading.word))
    if len(signals) < 2:
        return None
    step, volume = newest_of(before, sitting.gauge_step), volume_of(sitting, before)
    return {
        "times_s": [held * 60 * n / (len(signals) - 1) for n in range(len(signals))],
        "signals_um": signals,
        "step_um": float(step.word) if step else 0.1,
        "volume_cm3": volume.cm3 if volume else None,
        "volume_u_cm3": round(volume.u_cm3, 4) if volume else None,
    }


def volume_of(sitting: Sitting, before: Sequence[Answer]) -> Volume | None:
    """The free volume as it was said before a test; None where it is not known."""
    exact, chosen = newest_of(before, sitting.volume_exact), newest_of(before, sitting.volume)
    if exact is not None and exact.word != "not measured":
        return measured(number(exact.word))
    return by_size(sitting.name, chosen.word) if chosen and chosen.word in SIZES else None


def hours_between(start: str, end: str) -> float | None:
    """Hours from one UTC text to another; None where either is missing."""
    seconds = seconds_between(start, end)
    return None if seconds is None else seconds / 3600


def covers(test: Test, marking: float | None) -> bool:
    """Whether a standing pass of the cased watch, by a method that tests the marking, reached it."""
    raised = test["overpressure_bar"]
    if marking is None or raised is None or not proved_cased(test):
        return False
    return bool(raised >= marking - 1e-9) and claims(test, "of_marking")


def proved_cased(test: Test) -> bool:
    """Whether a test is a standing pass of the cased watch."""
    return bool(test["stands"]) and test["sitting"] == keys.CASED.name


def claims(test: Test, what: str) -> bool:
    """Whether the method of a test may claim something: in_water or of_marking."""
    method = methods().get(test["method"] or "")
    return method is not None and bool(getattr(method.claim, what))


LIMITS = {
    "marking_not_tested": "The marking {bar:g} bar was not tested.",
    "marking_words_not_tested": 'The marking "water-resistant", without a figure, was not tested.',
    "last_test_failed": "The last test was a fail: as it stands the watch is not water-resistant.",
    "watch_not_passed": "The cased watch has not passed a test.",
    "early_only": "It passed only early, while the {seal} was settling: the test is to be repeated.",
    "not_in_water": "It was not tested in water.",
    "nothing_above": "Nothing is said of pressures above {bar:g} bar.",
    "no_overpressure": "No overpressure was raised on the cased watch.",
}
"""What tests may leave unproved, as the workshop is told, by the name of the limit."""


def limits_of(
    tests: Sequence[Test], marking: float | None, *, worded: bool, covered: bool
) -> dict[str, float | None]:
    """What the tests do not prove: names of limits, each with the pressure that belongs to it."""
    cased = [test for test in tests if proved_cased(test)]
    judged = [test for test in tests if test["counts"] and test["result"] in ("pass", "fail")]
    raised = [test["overpressure_bar"] for test in cased if test["overpressure_bar"] is not None]
    found: dict[str, float | None] = {}
    if marking is not None and not covered:
        found |= {"marking_words_not_tested": None} if worded else {"marking_not_tested": marking}
    if judged and judged[-1]["result"] == "fail":
        found["last_test_failed"] = None
    if not cased:
        found["watch_not_passed"] = None
    elif all(test["early"] for test in cased):
        found["early_only"] = None
    if not any(claims(test, "in_water") for test in cased):
        found["not_in_water"] = None
    if raised:
        found["nothing_above"] = max(raised)
    elif cased:
        found["no_overpressure"] = None
    return found


def not_tested(limits: dict[str, float | None], seal: str) -> list[str]:
    """What the tests do not prove, each as a sentence for the workshop."""
    return [LIMITS[name].format(bar=bar, seal=seal) for name, bar in limits.items()]


def retest_of(tests: Sequence[Test]) -> str | None:
    """The day, a year after the last standing pass of the cased watch; None where none stands."""
    return year_after(last["at"]) if (last := last_pass(tests)) else None


def last_pass(tests: Sequence[Test]) -> Test | None:
    """The last standing pass of the cased watch whose time is known."""
    return next((test for test in reversed(tests) if proved_cased(test) and test["at"]), None)
