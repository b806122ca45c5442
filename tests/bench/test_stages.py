"""The stages driven by answers alone: what is asked in which order, and what it adds up to."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import pytest

from bench.job import keys
from bench.job.asking import Stage
from bench.job.job import Answer
from bench.job.mask import Mask
from bench.job.steps import Step
from bench.seals import SEALS
from bench.stages.common import Dimension, Readings, readings
from bench.stages.deflection import with_readings
from bench.stages.leak_outcome import leak_words, rate_words
from bench.stages.opening import opened
from bench.stages.proving import marked
from bench.stages.proving_steps import Setup
from bench.stages.searching import after_a_fail
from rules.testing.leak_fit import fit_leak
from rules.testing.methods import method
from rules.testing.rig import Rig

BEGAN = "2026-03-02T09:00:00Z"


def drive(stage: Stage[Any], given: Mapping[str, str | tuple[str, ...]]) -> tuple[list[Step], Any]:
    """The steps that are asked, and what the stage adds up to; what is not given takes its usual value."""
    asked: list[Step] = []
    try:
        step = next(stage)
        while True:
            asked.append(step)
            value = given.get(step.key, step.usual)
            assert value or step.key in given or step.optional, f"{step.key} is asked"
            words = value if isinstance(value, tuple) else (value,)
            step = stage.send(Answer(len(asked), "", step.key, words))
    except StopIteration as end:
        return asked, end.value


def keys_of(asked: list[Step]) -> list[str]:
    """Keys in the order asked."""
    return [step.key for step in asked]


@pytest.mark.parametrize(
    ("paint", "go", "result"),
    [("none", "", "none"), ("old", "go", "old"), ("unknown", "go", "unknown"), ("old", "stop", "stopped")],
)
def test_old_paint_is_gone_on_with_only_where_it_is_said(paint: str, go: str, result: str) -> None:
    asked, found = drive(opened(), {keys.PAINT: paint, keys.PAINT_GO: go})
    assert found == result
    assert keys_of(asked)[-1] == (keys.PAINT if paint == "none" else keys.PAINT_GO)


@pytest.mark.parametrize(
    ("given", "bar", "divers"),
    [
        ({keys.MARKING: "nothing"}, None, False),
        ({keys.MARKING: "words_only"}, 2.0, False),
        ({keys.MARKING: ("bar_5", "5 bar")}, 5.0, False),
        ({keys.MARKING: ("divers_20", "20 bar")}, 20.0, True),
        ({keys.MARKING_KEYED: "7.5 bar"}, 7.5, False),
    ],
)
def test_what_the_case_says(given: dict[str, str | tuple[str, ...]], bar: float | None, divers: bool) -> None:
    assert drive(marked(), given)[1] == (bar, divers)


def setup(sitting: keys.Sitting = keys.CASED) -> Setup:
    """A test with readings at 3 bar."""
    return Setup(sitting, method("dry_deflection"), 3.0, ("a", "b"))


FALL = 3e-5
SIGNALS = [round(40.0 * math.exp(-FALL * 50.0 * n), 1) for n in range(13)]


def given_readings(**more: str | tuple[str, ...]) -> dict[str, str | tuple[str, ...]]:
    """Answers to a whole test with readings."""
    found: dict[str, str | tuple[str, ...]] = {
        "cased_volume": "middle",
        "cased_hold": ("start", BEGAN, "10 min"),
        "cased_vented": "zero",
        "cased_result": "pass",
    }
    found |= {f"cased_signal_{n}": f"{value:.1f} um" for n, value in enumerate(SIGNALS)}
    return found | more


@pytest.mark.parametrize(
    ("vented", "by", "reading"),
    [("zero", "", 0.0), ("not_read", "", None), ("inward", "1.5 um", 1.5), ("outward", "2.5 um", -2.5)],
)
def test_a_test_with_readings_is_judged_by_its_own_readings(
    vented: str, by: str, reading: float | None
) -> None:
    given = given_readings(cased_vented=vented, cased_vented_by=by)
    asked, result = drive(with_readings(setup(), "24 C", ("method dry_deflection",)), given)
    times = [50.0 * n for n in range(13)]
    rig = Rig(1.0, 0.5, 3.0, 0.1, 24.0)
    leak = fit_leak(times, SIGNALS, rig, fixed_hold_s=600.0, after_venting_reading=reading)
    last = asked[-1]
    assert result == "pass" and last.key == "cased_result"
    accepted = last.choices[0]
    assert accepted.with_it == ("method dry_deflection", "held 10 min", "timed program", *leak_words(leak))
    words = {"PASS": "pass", "FAIL": "fail", "UNDECIDED": "not_judged", "NOT_JUDGED": "not_judged"}
    assert accepted.word == words[leak.decision] and accepted.stamp and last.choices[1].word == "not_judged"
    assert last.title == f"{leak.decision.replace('_', ' ')}: {''.join(rate_words(leak))}"
    assert last.say == (leak.reason,) and last.ran_since == BEGAN
    assert last.rests_on == (
        "a",
        "b",
        "cased_vented",
        "cased_vented_by",
        "cased_signal_12",
        "cased_correction",
    )
    assert (
        last.picture is not None and last.picture.curve is not None and len(last.picture.curve.readings) == 13
    )
    assert ("cased_vented_by" in keys_of(asked)) == (vented in ("inward", "outward"))


def test_readings_are_asked_at_their_times_with_the_last_five_before_them() -> None:
    asked, _ = drive(with_readings(setup(), "unknown", ()), given_readings())
    signals = [step for step in asked if step.key.startswith("cased_signal_")]
    assert [step.opens_after for step in signals[1:]] == [(BEGAN, 50.0 * n) for n in range(1, 13)]
    assert signals[1].title == "Reading 1 of 12, at 0:50" and signals[6].title == "Reading 6 of 12, at 5:00"
    assert signals[2].earlier == (("0 min", "40"), ("0 min", f"{SIGNALS[1]:g}"))
    assert len(signals[12].earlier) == 4 and signals[12].earlier[-1][0] == "9 min"
    assert signals[0].mask == Mask(3, 1, "um", 0.0, 999.0)
    assert signals[3].rests_on == ("a", "b", "cased_hold", "cased_signal_0")
    hold = next(step for step in asked if step.key == "cased_hold")
    assert hold.hold_s == 600.0 and hold.rests_on == ("a", "b", "cased_signal_0")


def test_a_hold_keyed_in_minutes_counts_as_long_as_it_was() -> None:
    """Readings are spread over what was held; the length needed stays the one planned."""
    given = given_readings(cased_hold=("keyed", BEGAN, "8 min"))
    asked, _ = drive(with_readings(setup(), "unknown", ()), given)
    last = asked[-1]
    times = [40.0 * n for n in range(13)]
    leak = fit_leak(times, SIGNALS, Rig(1.0, 0.5, 3.0, 0.1), fixed_hold_s=600.0, after_venting_reading=0.0)
    assert last.choices[0].with_it == ("held 8 min", "timed keyed", *leak_words(leak))
    assert leak.decision == "UNDECIDED" and "shorter" in leak.reason and last.ran_since == ""
    assert all(step.opens_after is None for step in asked)
    long = given_readings(cased_hold=("keyed", BEGAN, "30 min"))
    assert drive(with_readings(setup(), "unknown", ()), long)[0][-1].choices[0].with_it[0] == "held 10 min"


def test_a_coarse_gauge_is_held_longer_and_keyed_whole() -> None:
    """Three times as long as a leak at the limit takes to move it a step."""
    given = given_readings(cased_gauge_step="1", cased_signal_0="6 um", cased_volume_exact="2.0 cm3")
    asked, _ = drive(with_readings(setup(), "unknown", ()), given)
    hold = next(step for step in asked if step.key == "cased_hold")
    rig = Rig(2.0, 0.2, 3.0, 1.0)
    assert hold.hold_s == rig.planned_hold_s(6.0) > 600.0
    first = next(step for step in asked if step.key == "cased_signal_0")
    assert first.mask == Mask(3, 0, "um", 0.0, 999.0)
    silent = given_readings(cased_gauge_step="1", cased_signal_0="0 um", cased_volume_exact="2.0 cm3")
    held = next(s for s in drive(with_readings(setup(), "unknown", ()), silent)[0] if s.key == "cased_hold")
    assert held.hold_s == rig.planned_hold_s(1.0)


def test_the_words_of_a_leak() -> None:
    times = [60.0 * n for n in range(11)]
    measured = fit_leak(times, [20.0 * math.exp(-1e-4 * t) for t in times], Rig(2.0, 0.1, 2.0, 0.01))
    words = leak_words(measured)
    assert words[0] == f"leak {measured.rate_ug_min:.1f} ug/min" and words[4] == "leak_law fixed"
    assert words[1] == f"leak_low {measured.low_ug_min:.1f} ug/min"
    assert words[2] == f"leak_high {measured.high_ug_min:.1f} ug/min"
    rate, ends = rate_words(measured)
    assert rate == f"leak {measured.rate_ug_min:.0f} ug/min at 2 bar overpressure"
    assert ends == f", 95 %: {measured.low_ug_min:.0f} to {measured.high_ug_min:.0f}; limit 50"
    gross = fit_leak(times, [20.0, *[0.0] * 10], Rig(2.0, 0.1, 2.0, 0.01))
    assert leak_words(gross)[2] == "leak_high unknown" and rate_words(gross)[1] == ""
    silent = fit_leak(times, [0.0] * 11, Rig(2.0, 0.1, 2.0, 0.01))
    assert leak_words(silent) == ("leak_decision NOT_JUDGED", f"leak_reason {silent.reason}")
    assert rate_words(silent) == ("no rate", "")


def dimension(**more: Any) -> Dimension:
    """How a seat is asked."""
    step = Step("bore", "measure", "number", "Seat at {place}", mask=Mask(2, 2), rests_on=("x",))
    return Dimension(step, **({"within_mm": 0.2} | more))


def read(values: list[str], **more: Any) -> tuple[list[Step], Readings]:
    """The readings of a dimension, given one after another; then no more."""
    given = {f"bore_{n}": f"{value} mm" for n, value in enumerate(values, 1)}
    if more.get("least") == 1:
        given["bore"] = f"{values[0]} mm"
    asked, found = drive(readings(dimension(**more)), given)
    return asked, found


def test_two_readings_that_agree_are_enough() -> None:
    asked, found = read(["33.20", "33.24"])
    assert [step.title for step in asked] == ["Seat at 12", "Seat at 3", "Seat at 1:30"]
    assert [step.optional for step in asked] == [False, False, True] and asked[2].usual == "none"
    assert found.used_mm == found.counted_mm == found.values_mm == (33.20, 33.24)
    assert found.places == ("12", "3") and found.keys == ("bore_1", "bore_2")
    assert asked[1].earlier == (("12", "33.20 mm"),) and not asked[1].blind
    assert asked[2].picture is not None and asked[2].picture.series == (("12", 33.20), ("3", 33.24))


def test_further_readings_count_too() -> None:
    asked, found = read(["33.20", "33.24", "33.22", "33.23"])
    assert found.used_mm == (33.20, 33.24, 33.22, 33.23) and found.places == ("12", "3", "1:30", "4:30")
    assert [step.optional for step in asked] == [False, False, True, True, True]


def test_a_reading_that_differs_is_taken_again_at_its_place_without_the_others_shown() -> None:
    asked, found = read(["33.20", "30.50", "33.22"], differs=("A slip?",))
    assert [step.title for step in asked][:3] == ["Seat at 12", "Seat at 3", "Seat at 3, again"]
    again = asked[2]
    assert again.blind and again.earlier == () and again.asked_of == ("33.20 mm", "30.50 mm")
    assert again.consequence == ("It differs by 2.70 mm: measure again and key it again.", "A slip?")
    assert again.picture is None
    assert found.used_mm == (33.20, 33.22) and found.values_mm == (33.20, 30.50, 33.22)


def test_an_oval_seat_is_read_between_as_well() -> None:
    asked, found = read(["33.20", "33.26", "33.22", "33.23"], between_mm=0.03)
    assert [step.title for step in asked][:4] == ["Seat at 12", "Seat at 3", "Seat at 1:30", "Seat at 4:30"]
    assert asked[2].consequence == ("They differ by more than 0.03 mm: measure the two between as well.",)
    assert [step.optional for step in asked] == [False] * 4 + [True] and len(found.used_mm) == 4
    assert len(read(["33.20", "33.23"], between_mm=0.03)[1].used_mm) == 2


def test_what_is_expected_counts_as_a_reading() -> None:
    one = read(["1.20"], least=1, expected_mm=1.21, within_mm=0.05)
    assert keys_of(one[0]) == ["bore"] and one[1].used_mm == (1.20,)
    given = {"bore": "1.40 mm", "bore_2": "1.41 mm"}
    asked, found = drive(readings(dimension(least=1, expected_mm=1.21, within_mm=0.05)), given)
    assert keys_of(asked) == ["bore", "bore_2"] and found.used_mm == (1.40, 1.41)
    assert asked[1].consequence[0] == "It differs by 0.19 mm: measure again and key it again."


def test_readings_that_never_agree_come_to_an_end() -> None:
    values = [f"{30 + n}.00" for n in range(10)]
    asked, found = read(values)
    assert len([step for step in asked if not step.optional]) == 10
    assert found.counted_mm == found.values_mm == tuple(30.0 + n for n in range(10))


def test_a_search_leads_on_and_its_end_may_be_left_for_another_way() -> None:
    seal = next(iter(SEALS.values()))
    answers: dict[str, str | tuple[str, ...]] = {}
    stage = after_a_fail(keys.CASED, seal)
    step = next(stage)
    asked = []
    while step.key != keys.CASED.found:
        asked.append(step)
        answers[step.key] = step.choices[0].word
        step = stage.send(Answer(len(asked), "", step.key, (step.choices[0].word,)))
    assert step.rests_on == (keys.CASED.result, *(one.key for one in asked))
    assert all(one.rests_on == (keys.CASED.result,) and one.cautions == ("vent",) for one in asked)
    ways = [one.word for one in step.choices]
    assert sorted(ways[:4]) == ["hand_back", "measure", "ring", "test"] and ways[4] == "keep"
    assert step.choices[4].goto == "jobs"
    for way, more in (("test", []), ("hand_back", []), ("ring", [seal.again.another.key])):
        again, found = drive(
            after_a_fail(keys.CASED, seal),
            answers | {keys.CASED.found: way} | dict.fromkeys(_later(seal), "done"),
        )
        assert found == way
        after = keys_of(again)[len(asked) + 1 :]
        assert after[-len(more) :] == more if more else after == []
    again, found = drive(
        after_a_fail(keys.CASED, seal),
        answers | {keys.CASED.found: "measure"} | dict.fromkeys(_later(seal), "done"),
    )
    assert found == "measure" and keys_of(again)[-2:] == [seal.again.measured.key, seal.again.another.key]


def _later(seal: Any) -> list[str]:
    """Keys of the steps that may come after a search."""
    leaked = [seal.leaked.key] if seal.leaked is not None else []
    return [*leaked, seal.again.measured.key, seal.again.another.key]
