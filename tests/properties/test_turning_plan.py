"""Two hundred drawn rings, lathes and tool sets, cut by an independent replay of the plan's data."""

from __future__ import annotations

import copy
import json
from collections import Counter
from collections.abc import Callable
from typing import Any

import pytest

from bench.sheet.turning import plan_json, plan_text
from rules.turning.planning import plan
from tests.independent.plan_replay import faults
from tests.turning_draws import job

pytestmark = pytest.mark.xdist_group("turning plans")

DRAWS = 200
Spoil = Callable[[dict[str, Any]], None]


@pytest.fixture(scope="module")
def drawn() -> list[tuple[dict[str, Any], Any]]:
    """The plans as data, through JSON text, with their workshops."""
    made = []
    for seed in range(DRAWS):
        ring, set_up, workshop = job(seed)
        data = json.dumps(plan_json(plan(ring=ring, set_up=set_up)), allow_nan=False)
        made.append((json.loads(data), workshop))
    return made


def test_every_plan_is_right(drawn: list[tuple[dict[str, Any], Any]]) -> None:
    wrong = {seed: found for seed, (data, shop) in enumerate(drawn) if (found := faults(data, shop))}
    assert not wrong, dict(list(wrong.items())[:5])


def test_the_draws_reach_every_kind(drawn: list[tuple[dict[str, Any], Any]]) -> None:
    shown = Counter(one["shows"] for data, _ in drawn for one in data["passes"] if one["axis"] == "cross")
    spares = Counter(data["rings"] for data, _ in drawn)
    print(
        f"cross passes by what the lathe shows: {dict(shown)}; rings in one set-up: "
        f"{dict(sorted(spares.items()))}"
    )
    assert set(shown) == {"diameter", "radius", "dial"}
    assert min(shown.values()) > 500
    assert set(spares) == {1, 2, 3, 4}


def change(operation: str, key: str, by: float, last: bool = True) -> Spoil:
    def spoil(data: dict[str, Any]) -> None:
        found = [one for one in data["passes"] if one["operation"] == operation]
        found[-1 if last else 0][key] += by

    return spoil


def drop_a_finishing_pass(data: dict[str, Any]) -> None:
    at = next(at for at, one in enumerate(data["passes"]) if one["operation"] == "finish_bore")
    del data["passes"][at]


def widen_the_bar(data: dict[str, Any]) -> None:
    data["bar"]["used_mm"] += 0.1


FAULTS: dict[str, Spoil] = {
    "last outside pass one step off": change("finish_outside", "target_mm", 0.05),
    "last bore pass one step off": change("finish_bore", "target_mm", -0.05),
    "blade on the wrong side": change("part", "target_mm", -0.8),
    "a speed the lathe lacks": change("part", "rpm", 5000.0),
    "a deeper cut than said": change("rough_outside", "target_mm", 0.3, last=False),
    "a missing pass": drop_a_finishing_pass,
    "stock that does not add up": widen_the_bar,
    "a bore too shallow": change("finish_bore", "along_mm", -0.5),
    "an outside turned into the jaws": change("rough_outside", "along_mm", 3.0, last=False),
}


@pytest.mark.parametrize("name", FAULTS)
def test_the_replay_catches(name: str, drawn: list[tuple[dict[str, Any], Any]]) -> None:
    caught = 0
    for data, shop in drawn[:60]:
        spoilt = copy.deepcopy(data)
        FAULTS[name](spoilt)
        caught += bool(faults(spoilt, shop))
    print(f"{name}: caught {caught} of 60")
    assert caught == 60


def test_the_same_job_gives_the_same_plan() -> None:
    for seed in range(10):
        ring, set_up, _ = job(seed)
        first, second = (plan(ring=ring, set_up=set_up) for _ in range(2))
        assert json.dumps(plan_json(first)) == json.dumps(plan_json(second))
        assert plan_text(first) == plan_text(second)
