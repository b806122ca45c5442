"""Methods, cautions and offers: the rules that keep a test from doing harm or claiming too much."""

from __future__ import annotations

import ast
import copy
import itertools
import math
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from bench.job import keys
from rules.cautions import caution, for_place, places
from rules.checks import OutOfRange
from rules.limits import UNDERPRESSURE_BAR
from rules.tables import raw_table
from rules.testing.method_table import SITTINGS, duration, read
from rules.testing.methods import (
    allowed,
    methods,
    offered_pressure,
    rising_pressures,
    usual,
)
from rules.testing.volume import BY_SIZE_CM3

WET = {"water_overpressure", "shallow_immersion", "crown_force", "condensation", "bubble"}
EIGHT = WET | {"dry_deflection", "dry_pass_fail", "underpressure"}
"""The methods of the beginning; what the table gains later has rules of its own."""
NEEDED_PLACES = {
    "luminous_paint", "bench_glass", "lathe", "parting", "swarf", "ptfe", "acetal_heat", "press",
    "pressure_air", "pressure_water", "vent", "warm_plate", "solvents", "battery",
}  # fmt: skip


def test_the_eight_methods() -> None:
    assert set(methods()) >= EIGHT
    assert usual().key == "dry_pass_fail"
    assert set(SITTINGS) == {one.name for one in keys.SITTINGS} == set(BY_SIZE_CM3)
    assert {key for key in EIGHT if methods()[key].wet} == WET
    assert {key for key in EIGHT if methods()[key].reads_deflection} == {"dry_deflection"}
    assert {key for key in EIGHT if methods()[key].claim.in_water} == WET - {"condensation", "bubble"}


def test_every_time_of_a_method_stands_where_it_is_waited_for() -> None:
    """Raising and releasing 1 minute, holds of 10 and 60, drop 1,
    filling 5 (ISO 2281 list by second-hand copies).
    """
    told = {
        key: " | ".join(one.worded((*one.raising, *one.holding, *one.ending.steps)))
        for key, one in methods().items()
    }
    assert not any("{" in text for text in told.values())
    for key, times in {
        "dry_deflection": ("Raise to the test pressure within 1 minute",),
        "water_overpressure": ("within 1 minute. |", "Hold for 10 minutes", "Release within 1 minute"),
        "shallow_immersion": ("Leave it for 1 hour",),
        "crown_force": ("for 10 minutes",),
        "condensation": ("warm, 10 minutes", "wait 1 minute"),
        "bubble": ("filled, 5 minutes",),
        "underpressure": ("at the most", "for 5 minutes"),
    }.items():
        for words in times:
            assert words.replace(". |", ".") in told[key], (key, words)
    assert (
        "for 25 minutes"
        in methods()["underpressure"].worded(methods()["underpressure"].holding, hold_s=1500)[0]
    )
    assert [duration(s) for s in (1, 45, 60, 90, 3600, 5400)] == [
        "1 second", "45 seconds", "1 minute", "1.5 minutes", "1 hour", "1.5 hours",
    ]  # fmt: skip


def test_the_least_pressure_has_one_figure() -> None:
    """Method and caution name the same 0.7 bar below the room,
    and its push on a 32 mm glass (pressure times area).
    """
    chosen = methods()["underpressure"]
    assert f"to {UNDERPRESSURE_BAR:g} bar below" in " ".join(chosen.worded(chosen.raising))
    push_n = UNDERPRESSURE_BAR * 0.1 * math.pi * 32.0**2 / 4.0
    said = " ".join(caution("under_glass").lines)
    assert f"{UNDERPRESSURE_BAR:g} bar below lifts a 32 mm glass with {push_n:.0f} N" in said


def tables() -> dict[str, dict[str, Any]]:
    return copy.deepcopy(raw_table("methods"))


def entries(table: dict[str, Any]) -> Iterator[tuple[dict[str, Any], str]]:
    """Every entry of a table, with the table it stands in."""
    for name, value in list(table.items()):
        yield table, name
        if isinstance(value, dict):
            yield from entries(value)


@pytest.mark.parametrize("key", list(methods()))
def test_a_table_that_lacks_something_is_refused_in_one_line(key: str) -> None:
    tried = 0
    assert read(key, tables()[key]) == methods()[key]
    for n, (_, name) in enumerate(entries(tables()[key])):
        for spoil in ("gone", "empty", "number"):
            table = tables()[key]
            place, _ = list(entries(table))[n]
            if spoil == "gone":
                del place[name]
            else:
                place[name] = "" if spoil == "empty" else 12.5
            if name == "usual" and spoil == "gone":
                continue
            tried += 1
            with pytest.raises(OutOfRange) as refused:
                read(key, table)
            said = str(refused.value)
            assert "\n" not in said and said.startswith(f"test method {key}"), (name, said)
    assert tried > 60


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"colour": "red"}, "colour is not known"),
        ({"sittings": ["worn"]}, "sittings: known are empty, cased"),
        ({"needs": ["luck"]}, "needs: known are dry_pass"),
        ({"pressure": "high"}, "pressure: known are raised"),
        ({"cautions": ["cellar"]}, "cautions: 'cellar' is not known"),
        ({"timers_s": {"hold": 600, "rise": 0}}, "timers_s: give whole seconds"),
        ({"timers_s": {"hold": 600, "rise": 60, "soak": 5}}, "each must stand as {name}"),
        ({"timers_s": {"hold": 600}}, "each must stand as {name}"),
        ({"raising": ["Raise to {deepest} within {rise}."]}, "each must stand as {name}"),
        ({"hold": "soak"}, "hold: it is the name of no timer"),
        ({"hold": ""}, "hold: missing, empty"),
        ({"reads_deflection": True}, "hold: name a timer"),
        ({"needs": []}, "no cased watch meets water"),
        ({"wet": False}, "claim: it is not wet"),
        ({"pressure": "none"}, "no marking is tested"),
    ],
)  # fmt: skip
def test_a_table_that_cannot_be_is_refused(change: dict[str, Any], said: str) -> None:
    with pytest.raises(OutOfRange, match=re.escape(said)) as refused:
        read("water_overpressure", {**tables()["water_overpressure"], **change})
    assert "\n" not in str(refused.value)


def test_two_usual_methods_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    table = tables()
    table["underpressure"]["usual"] = True
    monkeypatch.setattr("rules.testing.methods.raw_table", lambda _: table)
    with pytest.raises(OutOfRange, match="one method, and no more"):
        methods.__wrapped__()


def test_no_method_is_named_in_code() -> None:
    """What a method is stands in its table: its key is a string nowhere in the Python of the product."""
    top, met = Path(__file__).resolve().parents[2], 0
    for path in (path for room in ("rules", "bench", "screens") for path in (top / room).rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                met += 1
                named = [key for key in methods() if "_" in key and re.search(rf"\b{key}\b", node.value)]
                assert not named and node.value not in methods(), (path, node.value)
    assert met > 3000


def test_permission_over_all_combinations() -> None:
    """Water never with old paint, and before a passed dry test only the bubbles; 2^4 x 8 x 2 cases."""
    granted = 0
    flags = itertools.product(*[(False, True)] * 4)
    for (old_paint, dry_passed, divers, equipped), key, sitting in itertools.product(
        flags, sorted(EIGHT), SITTINGS
    ):
        reason = allowed(
            key,
            sitting=sitting,
            old_paint=old_paint,
            dry_passed=dry_passed,
            divers=divers,
            divers_equipped=equipped,
        )
        forbidden = (
            (key in WET and old_paint)
            or (key in WET - {"bubble"} and not dry_passed)
            or (key == "bubble" and sitting == "cased")
            or (divers and not equipped and key.endswith(("deflection", "fail", "overpressure", "bubble")))
        )
        assert (reason is not None) == forbidden, (
            key,
            sitting,
            old_paint,
            dry_passed,
            divers,
            equipped,
            reason,
        )
        granted += reason is None
    assert granted > 100


def test_divers_watches_are_refused_politely() -> None:
    reason = allowed("dry_deflection", sitting="cased", old_paint=False, dry_passed=False, divers=True)
    assert reason is not None and "please" in reason and "125 %" in reason


def test_unknown_names_are_refused() -> None:
    with pytest.raises(OutOfRange, match="dry_deflection"):
        allowed("steam", sitting="cased", old_paint=False, dry_passed=True)
    with pytest.raises(OutOfRange, match="empty or cased"):
        allowed("bubble", sitting="worn", old_paint=False, dry_passed=True)


@pytest.mark.parametrize(
    ("marking_bar", "tester_bar", "divers", "offered", "covers"),
    [
        (5.0, 2.5, False, 2.5, False),
        (3.0, 10.0, False, 3.0, True),
        (20.0, 30.0, True, 25.0, True),
        (20.0, 20.0, True, 20.0, False),
        (None, 6.0, False, 2.0, False),
        (None, 1.0, False, 1.0, False),
    ],
)
def test_the_smaller_is_offered(
    marking_bar: float | None, tester_bar: float, divers: bool, offered: float, covers: bool
) -> None:
    offer = offered_pressure(marking_bar=marking_bar, tester_bar=tester_bar, divers=divers)
    assert offer.overpressure_bar == offered
    assert ("will not be tested" in offer.words) == (marking_bar is not None and not covers)


@pytest.mark.parametrize("bad", [0.0, -1.0, float("nan"), float("inf"), 201.0])
def test_absurd_pressures_are_refused(bad: float) -> None:
    with pytest.raises(OutOfRange):
        offered_pressure(marking_bar=3.0, tester_bar=bad)


def test_pressure_starts_low_and_rises() -> None:
    for bar in (0.3, 0.5, 1.0, 2.5, 10.0, 25.0):
        steps = rising_pressures(bar)
        assert list(steps) == sorted(set(steps))
        assert 0 < steps[0] <= 0.5 and steps[-1] == bar


def test_cautions_stand_at_every_place_of_danger() -> None:
    assert set(places()) >= NEEDED_PLACES
    for place in places():
        for one in for_place(place):
            assert one.title and one.source and one.lines
            assert len(one.title) <= 58 and all(len(line) <= 58 for line in one.lines), one.key
            assert one == caution(one.key)


def test_every_caution_says_where_it_is_from() -> None:
    ways = ("opened", "memory", "no source", "computed", "our judgement")
    for place in places():
        for one in for_place(place):
            assert any(way in one.source for way in ways), one.key


def test_radium_and_lathe_defer_to_local_rules() -> None:
    assert "Local rules" in " ".join(caution("radium").lines)
    assert any("licensed practice" in " ".join(one.lines) for one in for_place("lathe"))


def test_an_unknown_place_is_refused_with_the_list() -> None:
    with pytest.raises(OutOfRange, match="lathe"):
        for_place("cellar")
    with pytest.raises(OutOfRange, match="radium"):
        caution("ghosts")


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"raising": []}, "raising, holding and ending each need a step"),
        ({"holding": []}, "raising, holding and ending each need a step"),
        ({"ending": {"steps": []}}, "raising, holding and ending each need a step"),
        ({"cautions": []}, "cautions: name a place, before and after"),
        ({"ending": {"cautions": []}}, "cautions: name a place, before and after"),
        ({"sittings": []}, "sittings: known are empty, cased"),
        ({"check": {"right": "elsewhere"}}, "check: give three states, and which of them is right"),
    ],
)
def test_a_table_lacks_nothing_that_is_done(change: dict[str, Any], said: str) -> None:
    """No step, no caution and no state; timers that no step names any more are left out with it."""
    plain = tables()["water_overpressure"]
    for name, value in change.items():
        plain[name] = {**plain[name], **value} if isinstance(value, dict) else value
    steps = " ".join((*plain["raising"], *plain["holding"], *plain["ending"]["steps"]))
    plain["timers_s"] = {name: time for name, time in plain["timers_s"].items() if f"{{{name}}}" in steps}
    with pytest.raises(OutOfRange) as refused:
        read("water_overpressure", plain)
    assert said in str(refused.value)
