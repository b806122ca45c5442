"""What a sheet says of the tests, worked out anew from pressures, holds,
readings and results in the raw file.
"""

from __future__ import annotations

import math
import re
from datetime import datetime
from pathlib import Path
from typing import Any

from tests.independent.claims_ground import Ground, in_turn
from tests.independent.raw_session import Kept, figure, in_file, newest, newest_before

VOLUMES = {
    "empty": {"small": 1.5, "middle": 3.0, "large": 6.0, "chronograph": 4.0},
    "cased": {"small": 0.5, "middle": 1.0, "large": 2.0, "chronograph": 1.2},
}
"""Free volumes in cm3 by the words chosen."""
UNDER_WATER = ("water_overpressure", "shallow_immersion", "crown_force")
"""Tests in which the watch lies in water; a drop on the glass is none."""
OWN_VERDICT = ("dry_pass_fail",)
"""Tests that the tester times and judges itself."""
NEEDED_MIN = {
    "underpressure": 5.0,
    "water_overpressure": 10.0,
    "shallow_immersion": 60.0,
    "crown_force": 10.0,
    "condensation": 10.0,
    "bubble": 5.0,
}
"""Less than this many minutes is no pass: ISO 2281 as far as it names them, common practice else."""
SAID_OF = {
    "program": "timed by the program",
    "asked": "bench was left meanwhile",
    "tester": "verdict of the tester at",
    "keyed": "time as keyed",
}
"""What the text says of who timed a test."""
READING = re.compile(r"_(signal_\d+|vented|vented_by)$")
SHARED = ("fit_outcome", "marking", "marking_keyed")
"""Answers that begin the tests of both sittings afresh."""
TOUCHED = re.compile(
    r"seal_[2-5]_(?:seal|.*laid|.*fit_outcome|.*not_here|.*not_this_ring|.*none_fits|.*cannot_turn|.*no_ring"
    r"|.*after|.*clue|.*remake|.*acrylic_anyway|paint_go)"
)
"""Answers by which a further seal of the job is begun, put in or left: another joint was touched."""
AGAIN = re.compile(r"seal_[2-5]_(?:\w+_)?attempt")
"""Marks of another piece of a further seal."""


class ProofClaims(Ground):
    """Tests, leak rates, and what they do not prove."""

    def __init__(self, sheet: dict[str, Any], text: str, path: Path) -> None:
        super().__init__(sheet, text, path)
        self.sittings = [one.n for one in self.all if (one.kind, one.key) == ("mark", "sitting")]
        again = (one.n for one in self.all if one.kind == "mark" and AGAIN.fullmatch(one.key))
        self.tests = tests_in(self.now, self.sittings, max(again, default=0))
        for one in self.tests if self.loose else ():
            one["overpressure_bar"] = one["overpressure_bar"] or one["said_bar"]  # the result alone is left

    def tested(self) -> None:
        """Every test with what was raised, held and seen."""
        shown = self.sheet["tests"]
        self.same("number of tests", len(shown), len(self.tests))
        for n, (one, own) in enumerate(zip(shown, self.tests, strict=False), 1):
            for key in (
                "sitting",
                "method",
                "overpressure_bar",
                "result",
                "timed",
                "early",
                "counts",
                "stands",
                "at",
            ):
                self.same(f"test {n} {key}", one[key], own[key])
            self.lasted(n, one, own)
            self.must(
                own["full"] or one["stopped_after_min"] is not None, f"test {n}: stopped early, not said"
            )
            if own["ran"] is not None:
                stopped = own["ran"] if own["ran"] < own["minutes"] else None
                self.same(f"test {n} stopped after", one["stopped_after_min"], stopped)
            self.same(f"test {n} temperature", one["temperature_c"], own["temperature_c"])
            self.leak(n, one, own)

    def lasted(self, n: int, one: dict[str, Any], own: dict[str, Any]) -> None:
        """How long it was held, of how long it has to be, and what was answered where nobody was there."""
        if own["timed"] == "tester":
            self.same(f"test {n} minutes", one["minutes"], None)
            return
        held = one["minutes"] is not None and one["minutes"] <= own["minutes"] + 1e-9
        self.must(held, f"test {n}: {one['minutes']} min were not held")
        needed = NEEDED_MIN.get(own["method"], 0.0)
        short = own["minutes"] < needed
        self.same(f"test {n} needed", one["needed_minutes"], needed if short else None)
        self.must(not (short and one["result"] == "pass"), f"test {n}: a pass after less than {needed:g} min")
        self.must(own["timed"] != "asked" or own["throughout"] == "yes", f"test {n}: left, and not asked")

    def leak(self, n: int, one: dict[str, Any], own: dict[str, Any]) -> None:
        """The leak of a test with readings, by an own fit."""
        leak, signals = one["leak"], own["signals"]
        if self.loose or own["edited"]:
            return
        if own["method"] != "dry_deflection":
            self.must(leak is None and one["readings"] is None, f"test {n}: a leak without readings")
            return
        if one["readings"] is None:
            self.must(False, f"test {n}: its readings are left out")
            return
        self.same(f"test {n} readings", one["readings"]["signals_um"], signals)
        self.must(
            one["readings"]["times_s"][-1] <= own["minutes"] * 60 + 1e-6, f"test {n}: readings past the hold"
        )
        if leak is None:
            self.must(one["result"] != "pass", f"test {n}: a pass without a leak rate")
            return
        low, high, rate = leak["low_ug_min"], leak["high_ug_min"], leak["rate_ug_min"]
        self.must(
            low <= rate and (high is None or rate <= high), f"test {n}: the rate lies outside its interval"
        )
        expected = {"PASS": "pass", "FAIL": "fail"}.get(leak["decision"], "not_judged")
        self.must(one["result"] in (expected, "not_judged"), f"test {n}: result and decision differ")
        if leak["decision"] == "PASS":
            self.must(high is not None and high <= 50.05, f"test {n}: PASS with {high} above the limit")
        fitted = own_rate(one["readings"]["times_s"], signals, own)
        self.same(f"test {n} leak", rate, fitted, 0.06 + 0.0001 * abs(fitted))

    def timed_in_text(self) -> None:
        """The text says of every test by whom it was timed, and of none otherwise."""
        text = " ".join(self.text.split())
        for by, words in SAID_OF.items():
            own = sum(one["timed"] == by for one in self.tests)
            self.same(f"{words!r} in the text", text.count(words), own)

    def proved(self) -> None:
        """Marking, what was not tested, when to test again."""
        marking = self.marking()
        self.same("marking", self.sheet["marking_bar"], marking)
        cased = [one for one in self.tests if one["sitting"] == "cased" and one["stands"]]
        raised = [one["overpressure_bar"] for one in cased if one["overpressure_bar"] is not None]
        covered = marking is not None and max(raised, default=0.0) >= marking - 1e-9
        self.same("marking_tested", self.sheet["marking_tested"], covered)
        said = self.sheet["not_tested"]
        judged = [one for one in self.tests if one["counts"] and one["result"] in ("pass", "fail")]
        wet = any(one["method"] in UNDER_WATER for one in cased)
        figured = "" if marking is None else f"The marking {marking:g} bar was not tested."
        worded = 'The marking "water-resistant", without a figure, was not tested.'
        expected = {
            (worded if self.worded() else figured): marking is not None and not covered,
            "The cased watch has not passed a test.": not cased,
            "It was not tested in water.": not wet,
            f"Nothing is said of pressures above {max(raised, default=0.0):g} bar.": bool(raised),
            "No overpressure was raised on the cased watch.": bool(cased) and not raised,
            "It passed only early, while the ring was settling: the test is to be repeated.": bool(cased)
            and all(one["early"] for one in cased),
            "The last test was a fail: as it stands the watch is not water-resistant.": bool(judged)
            and judged[-1]["result"] == "fail",
        }
        self.same("not_tested", sorted(said), sorted(words for words, holds in expected.items() if holds))
        day = cased[-1]["at"][:10] if cased else None
        retest = f"{int(day[:4]) + 1}{day[4:]}".replace("-02-29", "-02-28") if day else None
        self.same("retest", self.sheet["retest"], retest)

    def worded(self) -> bool:
        """Whether the case says water-resistant without a figure."""
        chosen = newest(self.answers, "marking")
        keyed = newest(self.answers, "marking_keyed", after=chosen.n if chosen else 0)
        return (
            chosen is not None
            and chosen.word == "words_only"
            and (keyed is None or keyed.word == "as chosen")
        )

    def marking(self) -> float | None:
        """What the case says, in bar."""
        chosen = newest(self.answers, "marking")
        keyed = newest(self.answers, "marking_keyed", after=chosen.n if chosen else 0)
        if keyed and keyed.word != "as chosen":
            return figure(keyed.word)
        if chosen is None or chosen.word == "nothing":
            return None
        return 2.0 if chosen.word == "words_only" else figure(chosen.words[1])


def tests_in(span: list[Kept], sittings: list[int], since: int = 0) -> list[dict[str, Any]]:
    """The tests of one ring from its answers: pressures, holds and results where they were given; `since`
    another piece of a further seal was begun.
    """
    home = newest(span, "fit_outcome")
    found = []
    held = [
        one
        for name in ("empty", "cased")
        for one, _ in in_turn(span, f"{name}_result", f"{name}_correction", f"{name}_hold")
        if one is not None and one.n > since
    ]
    for result in sorted(held, key=lambda one: one.n):
        name = result.key.partition("_")[0]
        later = [
            one for one in span if one.n > result.n and (one.key.startswith(f"{name}_") or one.key in SHARED)
        ]
        own = one_test(span, result, name, sittings)
        begins = ("method", "found", "unclear", "correction", "throughout")
        fresh = {f"{name}_{word}" for word in begins} | set(SHARED)
        rekeyed = any(one.key == f"{name}_pressure" for one in takewhile_not(later, fresh))
        failed = result.word == "fail"  # another pressure makes no fail undone
        edited = any(one.accepted > in_file(result) for one in rested_on(span, result, name))
        own["edited"] = edited or bool(result.number)
        touched = any(one.n > result.n and TOUCHED.fullmatch(one.key) for one in span)
        own["counts"] = (
            home is not None and result.n > home.n and (failed or not (rekeyed or edited or touched))
        )
        found.append(own)
    fails = [n for n, one in enumerate(found) if one["counts"] and one["result"] == "fail"]
    for n, one in enumerate(found):
        one["stands"] = one["counts"] and one["result"] == "pass" and n > max(fails, default=-1)
    return found


def rested_on(span: list[Kept], result: Kept, name: str) -> list[Kept]:
    """The answers of its sitting that a result rests on: the newest of each key, readings of its own hold."""
    hold = newest_before(span, f"{name}_hold", result)
    found = [newest_before(span, key, result) for key in {one.key for one in span}]
    return [
        one
        for one in found
        if one is not None
        and one.key.startswith(f"{name}_")
        and not (READING.search(one.key) and hold is not None and in_file(one) < in_file(hold))
    ]


def takewhile_not(entries: list[Kept], stops: set[str]) -> list[Kept]:
    """The entries before the first with one of these keys."""
    out = []
    for one in entries:
        if one.key in stops:
            break
        out.append(one)
    return out


def one_test(span: list[Kept], result: Kept, name: str, sittings: list[int]) -> dict[str, Any]:
    """What was raised, held and read before one result."""
    said = {word.split(" ", 1)[0]: word.split(" ", 1)[1] for word in result.words[2:]}
    hold, pressure, warmth, volume, exact, step = (
        newest_before(span, f"{name}_{word}", result)
        for word in ("hold", "pressure", "temperature", "volume", "volume_exact", "gauge_step")
    )
    home = newest(span, "fit_outcome", result.n)
    if warmth is not None and home is not None and warmth.n < home.n:
        warmth = None  # it was said before the ring was pressed in, or pressed in again
    assert hold is not None
    timed = timed_by(span, hold, f"{name}_result", said["method"], sittings)
    held = math.inf if timed == "tester" else figure(hold.words[-1])
    throughout = newest(span, f"{name}_throughout", result.n, hold.n)
    at = result.words[1]
    took = minutes_between(hold.words[1], at)
    ran = figure(said["ran"]) if "ran" in said else None
    since = minutes_between(home.words[1], at) if home and home.word == "home" else None
    signals = []
    for n in range(40):
        read = newest(span, f"{name}_signal_{n}", result.n)
        if read is None:
            break
        signals.append(figure(read.word))
    with_pressure = said["method"] not in (
        "underpressure",
        "shallow_immersion",
        "crown_force",
        "condensation",
    )
    warm = warmth.word if warmth else "unknown"
    return {
        "sitting": name,
        "method": said["method"],
        "overpressure_bar": figure(pressure.word) if with_pressure and pressure else None,
        "said_bar": None if said["pressure"] == "unknown" else figure(said["pressure"]),
        "minutes": held,
        "timed": timed,
        "throughout": throughout.word if throughout else "",
        "ran": ran,
        "full": timed in ("keyed", "tester") or (took >= held - 0.06 if ran is None else ran >= held),
        "temperature_c": None if warm == "unknown" else figure(warm),
        "result": result.word,
        "at": at,
        "early": since is not None and since < 12 * 60,
        "signals": signals,
        "step": float(step.word) if step else 0.1,
        "volume": figure(exact.word)
        if exact and exact.word != "not measured"
        else VOLUMES[name][volume.word]
        if volume
        else None,
    }


def timed_by(span: list[Kept], hold: Kept, result: str, method: str, sittings: list[int]) -> str:
    """By whom a hold was timed: never by the program alone where the job was left before its first result."""
    if method in OWN_VERDICT:
        return "tester"
    if hold.word != "start":
        return hold.word
    first = next(one.n for one in span if one.key == result and one.n > hold.n)
    return "asked" if any(hold.n < mark < first for mark in sittings) else "program"


def minutes_between(start: str, end: str) -> float:
    """Minutes from one moment to another."""
    return (datetime.fromisoformat(end) - datetime.fromisoformat(start)).total_seconds() / 60


def own_rate(times_s: list[float], signals: list[float], own: dict[str, Any]) -> float:
    """Leak in ug/min at 2 bar overpressure, air as an ideal gas, both flow laws.

    Least squares of the logarithm; where the deflection was gone within the hold,
    the least leak that does so.
    """
    bar, warm = own["overpressure_bar"], own["temperature_c"] if own["temperature_c"] is not None else 20.0
    density = 1188.4 * 293.15 / (273.15 + warm)  # ug per cm3 and bar, dry air at 20 C
    air = 1.01325
    laminar = ((2 + air) ** 2 - air**2) / ((bar + air) ** 2 - air**2)
    scale = float(60 * own["volume"] * density * bar * max(2 / bar, laminar))
    least = max(own["step"], 0.1 * max(signals[:3]))
    gone = [at for at, one in zip(times_s, signals, strict=True) if one < least]
    if gone:
        return scale * -math.log(max(own["step"] / signals[0], 0.1)) / (gone[0] - times_s[0])
    logs = [math.log(one) for one in signals]
    mean_t, mean_y = sum(times_s) / len(times_s), sum(logs) / len(logs)
    slope = sum((t - mean_t) * (y - mean_y) for t, y in zip(times_s, logs, strict=True))
    return scale * -slope / sum((t - mean_t) ** 2 for t in times_s)
