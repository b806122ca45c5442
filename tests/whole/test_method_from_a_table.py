"""A test method that stands in a table alone:
a job runs through with it, and every page says what its table says.
"""

from __future__ import annotations

import shutil
import tomllib
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from bench.sheet.customer_text import papers_data
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from bench.shop.shop import built_in
from rules import tables
from rules.cautions import for_place
from rules.testing.method_table import duration
from rules.testing.methods import methods
from screens import pictures
from tests.whole.places import SHORTEST
from tests.whole.repairer import Repairer, fresh
from tests.whole.seen import read

SPRAYED = """
[sprayed]
name = "Sprayed on the stand"
source = "invented for this test"
sittings = ["empty", "cased"]
wet = true
pressure = "none"
needs = []
cautions = ["solvents"]
timers_s = { wetting = 90, standing = 720, dripping = 45 }
begin = "Spray is on."
hold = "standing"
raising = ["Turn the stand once round within {wetting}."]
holding = ["Let it stand wet for {standing}."]
[sprayed.check]
right = "hung"
why = "Spray runs past a joint that lies flat."
[sprayed.check.states]
lying = "watch lying on its back"
hung = "watch hung by its lugs, crown to the left"
tilted = "stand not level"
[sprayed.ending]
steps = ["Let it drip for {dripping}, then look through the glass with a lamp."]
cautions = ["bench_glass"]
passed = "clear under the lamp: pass"
why = "By the lamp alone."
[sprayed.claim]
can = "no spray inside after that time"
cannot = "any pressure at all"
shorter = "spray through an open joint"
words = "spray on the stand"
in_water = true
of_marking = false
"""
COLD_AIR = """
[cold_air]
name = "Cold air with a gauge"
source = "invented for this test"
sittings = ["empty", "cased"]
wet = false
pressure = "raised"
needs = []
reads_deflection = true
cautions = ["pressure_air"]
timers_s = { cooling = 1200 }
begin = "Cold and steady."
raising = ["Let the vessel cool for {cooling}.", "Raise it in steps: {rising}."]
holding = ["Read without touching the vessel."]
[cold_air.check]
right = "dry"
why = "Water freezes on the probe."
[cold_air.check.states]
dry = "vessel wiped dry, door shut"
wet = "water in the vessel"
ajar = "door ajar"
[cold_air.ending]
steps = ["Open the valve a quarter turn."]
cautions = ["vent"]
passed = "pass"
why = "By the gauge."
[cold_air.claim]
can = "a leak in cold air"
cannot = "anything warm"
words = "cold air with a gauge"
in_water = false
of_marking = true
"""


STEPS = "0.5, 1, 2 bar"


@pytest.fixture(params=[SPRAYED, COLD_AIR], ids=["sprayed", "cold_air"])
def table(request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Any]:
    """One more table in a copy of the data; gives its key and entries."""
    added: str = request.param
    copied = tmp_path / "data"
    shutil.copytree(str(tables.DATA), copied)
    text = (copied / "methods.toml").read_text("utf-8")
    if "sprayed" in added:
        added = added.replace('["empty", "cased"]', '["empty", "cased"]', 1).replace(
            "needs = []", 'needs = ["dry_pass"]'
        )
    (copied / "methods.toml").write_text(text + added, encoding="utf-8")
    monkeypatch.setattr(tables, "DATA", copied)
    methods.cache_clear()
    yield next(iter(tomllib.loads(added).items()))
    methods.cache_clear()


def page(repairer: Repairer, name: str = "step") -> str:
    """A page in a window in which it stands whole."""
    return read(replace(repairer.desk, page=name, rows=200, columns=140))


def choose(repairer: Repairer, sitting: str, key: str) -> None:
    """Take another method than the usual one, from the list."""
    repairer.pick("usual")
    repairer.pick_key(f"{sitting}_method")
    repairer.give(key)


def filled(lines: list[str], times: dict[str, int]) -> list[str]:
    """Lines of the table with its times in words."""
    given = {name: duration(seconds) for name, seconds in times.items()}
    return [line.format(**given, rising=STEPS) for line in lines]


def test_a_job_runs_through_with_it(table: tuple[str, dict[str, Any]]) -> None:
    key, entry = table
    repairer = fresh().on_to("empty_pressure")
    if "dry_pass" in entry["needs"]:  # the dry test first, then the same watch again
        repairer.on_to("renewed").on_to("cased_pressure").on_to("hand_back")
        repairer.answer({"hand_back": "again"})
        repairer.give(key)
        sitting = "cased"
    else:
        choose(repairer, "empty", key)
        sitting = "empty"
    met: set[str] = set()
    times = entry["timers_s"]
    for _ in range(60):
        step = repairer.asked
        if step in ("renewed", "hand_back", ""):
            break
        met.add(step)
        shown, why = page(repairer), page(repairer, "why")
        if step == f"{sitting}_check":
            check = entry["check"]
            assert check["why"] in why and len(check["states"]) == len(repairer.step.choices) == 3
            assert all(text in shown for text in check["states"].values())
            assert repairer.step.choices[0].word == check["right"]
            warned = [one for place in entry["cautions"] for one in for_place(place)]
            assert warned and all(line in shown for one in warned for line in one.lines)
        if step == (f"{sitting}_signal_0" if "reads_deflection" in entry else f"{sitting}_hold"):
            assert all(line in shown for line in filled(entry["raising"], times))
        if step == f"{sitting}_hold":
            assert entry["begin"] in shown
            assert not any(line in shown for line in filled(entry["holding"], times))
            if "hold" in entry:
                assert f"Start the hold of {times[entry['hold']] // 60} min?" in shown
        if step == f"{sitting}_signal_1" or (step == f"{sitting}_result" and "hold" in entry):
            assert all(line in shown for line in filled(entry["holding"], times))
            assert not any(line in shown for line in filled(entry["ending"]["steps"], times))
            if "hold" in entry:
                later = repairer.copy()
                later.wait(times[entry["hold"]])
                later.look()
                shown = page(later)
        if step == (f"{sitting}_vented" if "reads_deflection" in entry else f"{sitting}_result"):
            assert all(line in shown for line in filled(entry["ending"]["steps"], times))
            warned = [one for place in entry["ending"]["cautions"] for one in for_place(place)]
            assert warned and all(line in shown for one in warned for line in one.lines)
        if step == f"{sitting}_result":
            claim = entry["claim"]
            assert entry["ending"]["why"] in why
            assert f"It can prove {claim['can']}; it cannot prove {claim['cannot']}." in why
            assert "reads_deflection" in entry or entry["ending"]["passed"] in shown
            assert "reads_deflection" not in entry or repairer.step.picture is not None
        repairer.answer({f"{sitting}_signal_{n}": "012.5" for n in range(13)} | {f"{sitting}_vented": "zero"})
    assert {f"{sitting}_{what}" for what in ("check", "hold", "result")} <= met
    assert (f"{sitting}_signal_12" in met) == ("reads_deflection" in entry)
    repairer.on_to("")
    job = repairer.desk.job
    assert job is not None
    sheet = sheet_data(job, finished=True)
    test = next(one for one in sheet["tests"] if one["method"] == key)
    assert test["result"] == "pass" and test["stands"]
    text = " ".join(" ".join(sheet_lines(sheet)).split())
    assert f"tested by method: {entry['claim']['words']}" in text
    assert ("It was not tested in water." in text) != entry["claim"]["in_water"]
    assert (test["readings"] is not None) == ("reads_deflection" in entry)
    if sitting == "cased":
        assert any(entry["claim"]["words"] in one["text"] for one in papers_data(sheet)["slip"])


def test_a_crown_test_in_a_bowl_is_a_test_in_water() -> None:
    """What passed in water is not said to be untested in water;
    a drop on a warm glass is no test in water.
    """
    for key, in_water in (("crown_force", True), ("condensation", False)):
        repairer = fresh().on_to("hand_back")
        repairer.answer({"hand_back": "again"})
        repairer.give(key)
        assert repairer.on_to("cased_check").asked == "cased_check"
        shown = page(repairer)
        assert "vessel" not in shown and "screen" not in shown and "battery" in shown.lower()
        repairer.on_to("cased_result")
        assert "Vent slowly" not in page(repairer)
        repairer.on_to("")
        job = repairer.desk.job
        assert job is not None
        sheet = sheet_data(job, finished=True)
        assert [one["method"] for one in sheet["tests"] if one["stands"]][-1] == key
        assert ("It was not tested in water." in sheet["not_tested"]) != in_water


def test_a_gauge_is_read_at_any_pressure_that_a_tester_reaches() -> None:
    """A divers' watch of 20 bar at 125 % of its marking: hold and verdict follow as at any other pressure."""
    shop = built_in()
    shop = replace(shop, tester=replace(shop.tester, largest_bar=30.0), divers_equipped=True)
    repairer = fresh(shop=shop).on_to("empty_pressure", {"marking": "divers_20"})
    choose(repairer, "empty", "dry_deflection")
    repairer.on_to(
        "empty_result", {f"empty_signal_{n}": "125.0" for n in range(13)} | {"empty_vented": "zero"}
    )
    assert repairer.step.title.startswith("PASS")
    assert [one.value for one in repairer.bench.entries if one.key == "empty_pressure"] == ["25.0 bar"]


def test_a_temperature_is_not_carried_over_to_the_test_of_another_ring() -> None:
    repairer = fresh().on_to("empty_hold")
    repairer.pick("usual")
    repairer.pick_key("empty_temperature")
    repairer.give("12")
    repairer.on_to("empty_result")
    assert "temperature 12 C" in repairer.step.choices[0].with_it
    repairer.on_to("ring", {"empty_result": "fail", **SHORTEST, "empty_found": "ring"}).on_to("empty_result")
    assert "temperature unknown" in repairer.step.choices[0].with_it


def test_the_picture_of_the_readings_has_its_limit() -> None:
    repairer = fresh().on_to("empty_pressure")
    choose(repairer, "empty", "dry_deflection")
    repairer.on_to(
        "empty_result", {f"empty_signal_{n}": "012.5" for n in range(13)} | {"empty_vented": "zero"}
    )
    curve = repairer.step.picture.curve if repairer.step.picture else None
    assert curve is not None and len(curve.readings) == 13 and curve.limit
    assert curve.limit[-1][1] < curve.fitted[-1][1]
    assert "limit" in "\n".join(pictures.leak_picture(curve))
    assert "limit" in read(replace(repairer.desk, rows=40, columns=140))
