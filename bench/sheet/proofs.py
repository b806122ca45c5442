"""The tests of a ring as data: what was raised and held, what came of it, and which passes still stand.

Invariant: a figure stands here only if an answer holds it; a pass whose pressure was changed afterwards never counts,
and no pass stands that a later fail of the same ring took away.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from itertools import count
from typing import Any

from bench.job import keys
from bench.job.corrections import results
from bench.job.job import Answer
from bench.job.steps import Words
from bench.job.values import named, number, said
from bench.stages.deflection import VOLUMES

EARLY_H = 12.0
IN_WATER = ("water_overpressure", "shallow_immersion")
RESULTS = {keys.EMPTY.result: "empty", keys.CASED.result: "cased"}
STARTS_AFRESH = ("method", "found", "unclear", "correction")
"""Answers of a sitting after which a further pressure belongs to a further test, not to a correction."""

Test = dict[str, Any]


def tests_of(answers: Sequence[Answer]) -> list[Test]:
    """Every test of one ring in the order in which it was made; of a corrected result only the one that holds."""
    fitted = [answer for answer in answers if answer.key == keys.FIT_OUTCOME]
    made = [test_of(answer, answers, fitted) for answer in results(answers)]
    last_fail = max(
        (at for at, test in enumerate(made) if test["counts"] and test["result"] == "fail"), default=-1
    )
    for at, test in enumerate(made):
        test["stands"] = test["counts"] and test["result"] == "pass" and at > last_fail
    return made


def between(answers: Sequence[Answer], low: int, high: float) -> list[Answer]:
    """The answers after one place in the file and before another."""
    return [answer for answer in answers if low < answer.n < high]


def last(answers: Sequence[Answer], key: str) -> Answer | None:
    """The newest answer to a key."""
    return next((answer for answer in reversed(answers) if answer.key == key), None)


def replaced(result: Answer, answers: Sequence[Answer]) -> bool:
    """Whether the pressure of a test was keyed anew afterwards without a further test being asked for."""
    name = RESULTS[result.key]
    pressure = next((one for one in answers if one.key == f"{name}_pressure" and one.n > result.n), None)
    if pressure is None:
        return False
    afresh = {f"{name}_{word}" for word in STARTS_AFRESH} | {
        keys.FIT_OUTCOME,
        keys.MARKING,
        keys.MARKING_KEYED,
    }
    return not any(one.key in afresh for one in between(answers, result.n, pressure.n))


def test_of(answer: Answer, answers: Sequence[Answer], fitted: Sequence[Answer]) -> Test:
    """One test from the words of its result and the answers before it."""
    words, name = answer.words, RESULTS[answer.key]
    stamp = words[1] if len(words) > 1 else ""
    home = next((one for one in reversed(fitted) if one.n < answer.n), None)
    hours = hours_between(home.words[1] if home and home.word == "home" else "", stamp)
    before = between(answers, 0, answer.n)
    return {
        "sitting": name,
        "method": said(words, "method") or None,
        "overpressure_bar": named(words, "pressure"),
        "minutes": named(words, "held"),
        "timed": said(words, "timed") or None,
        "stopped_after_min": stopped_after(words, last(before, f"{name}_hold")),
        "temperature_c": named(words, "temperature"),
        "result": answer.word,
        "leak": leak_of(words),
        "reason": said(words, "leak_reason") or None,
        "readings": readings_of(words, name, before),
        "at": stamp or None,
        "early": hours is not None and hours < EARLY_H,
        "counts": home is not None
        and home is fitted[-1]
        and (answer.word == "fail" or not replaced(answer, answers)),
    }


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
    rate = named(words, "leak")
    if rate is None:
        return None
    return {
        "rate_ug_min": rate,
        "low_ug_min": named(words, "leak_low"),
        "high_ug_min": named(words, "leak_high"),
        "decision": said(words, "leak_decision") or None,
        "law": said(words, "leak_law") or None,
    }


def readings_of(words: Words, name: str, before: Sequence[Answer]) -> dict[str, Any] | None:
    """The readings of a dry test with readings, with the volume and gauge they were taken with; None elsewhere."""
    held = named(words, "held")
    if said(words, "method") != "dry_deflection" or held is None:
        return None
    signals: list[float] = []
    for n in count():
        reading = last(before, f"{name}_signal_{n}")
        if reading is None:
            break
        signals.append(number(reading.word))
    if len(signals) < 2:
        return None
    exact, chosen = last(before, f"{name}_volume_exact"), last(before, f"{name}_volume")
    step = last(before, f"{name}_gauge_step")
    measured = exact is not None and exact.word != "not measured"
    volume = number(exact.word) if exact and measured else VOLUMES[name].get(chosen.word) if chosen else None
    return {
        "times_s": [held * 60 * n / (len(signals) - 1) for n in range(len(signals))],
        "signals_um": signals,
        "step_um": float(step.word) if step else 0.1,
        "volume_cm3": volume,
        "volume_u_cm3": None if volume is None else round(volume * (0.1 if measured else 0.5), 4),
    }


def hours_between(start: str, end: str) -> float | None:
    """Hours from one UTC text to another; None where either is missing."""
    try:
        return (datetime.fromisoformat(end) - datetime.fromisoformat(start)).total_seconds() / 3600
    except (ValueError, TypeError):
        return None


def covers(test: Test, marking: float | None) -> bool:
    """Whether a standing pass of the cased watch reached the marking."""
    raised = test["overpressure_bar"]
    if marking is None or raised is None or test["sitting"] != "cased" or not test["stands"]:
        return False
    return bool(raised >= marking - 1e-9)


def not_tested(tests: Sequence[Test], marking: float | None, *, covered: bool) -> list[str]:
    """What the tests do not prove, each as a sentence."""
    said_so = []
    if marking is not None and not covered:
        said_so.append(f"The marking {marking:g} bar was not tested.")
    cased = [test for test in tests if test["sitting"] == "cased" and test["stands"]]
    judged = [test for test in tests if test["counts"] and test["result"] in ("pass", "fail")]
    if judged and judged[-1]["result"] == "fail":
        said_so.append("The last test was a fail: as it stands the watch is not water-resistant.")
    if not cased:
        said_so.append("The cased watch has not passed a test.")
    elif all(test["early"] for test in cased):
        said_so.append("It passed only early, while the ring was settling: the test is to be repeated.")
    if not any(test["method"] in IN_WATER for test in cased):
        said_so.append("It was not tested in water.")
    raised = [test["overpressure_bar"] for test in cased if test["overpressure_bar"] is not None]
    if raised:
        said_so.append(f"Nothing is said of pressures above {max(raised):g} bar.")
    elif cased:
        said_so.append("No overpressure was raised on the cased watch.")
    return said_so


def retest_of(tests: Sequence[Test]) -> str | None:
    """The day, a year after the last standing pass of the cased watch; None where none stands."""
    stamps = [test["at"] for test in tests if test["stands"] and test["sitting"] == "cased" and test["at"]]
    if not stamps:
        return None
    day = datetime.fromisoformat(stamps[-1]).date()
    leap = day.month == 2 and day.day == 29
    return day.replace(year=day.year + 1, day=28 if leap else day.day).isoformat()
