"""Bars as they are, drawn wide, and how their holes are opened: every plan right, each planted fault seen."""

from __future__ import annotations

import copy
from collections.abc import Callable
from typing import Any

import pytest

from tests.campaigns.turning_plans import Tally, run
from tests.independent.plan_replay import faults

pytestmark = pytest.mark.xdist_group("turning bars")

Spoil = Callable[[dict[str, Any]], bool]
"""Plants a fault; gives whether there was anything to plant it in."""
REACHED = (
    *("bar", "blank", "tube", "left_over", "oversize", "sawn", "own bore", "core", "core before a spare"),
    *("one drill", "drills in steps", "in soft_jaws", "in step_collet"),
)


@pytest.fixture(scope="module")
def tally() -> Tally:
    return run(250, keep=250)


def test_every_plan_is_right_and_every_kind_is_reached(tally: Tally) -> None:
    print(f"{tally.planned} planned, {dict(tally.kinds)}, refused {dict(tally.refused)}")
    assert not tally.wrong, tally.wrong[:5]
    assert all(tally.kinds[kind] >= 5 for kind in REACHED), tally.kinds
    assert tally.planned > 180 and set(tally.refused) <= {"bar", "bore", "drill", "reach"}


def each(operation: str, key: str, by: float) -> Spoil:
    def spoil(data: dict[str, Any]) -> bool:
        found = [one for one in data["passes"] if one["operation"] == operation]
        for one in found:
            one[key] += by
        return bool(found)

    return spoil


def not_shortened(data: dict[str, Any]) -> bool:
    left = [one for one in data["passes"] if one["operation"] != "shorten_core"]
    planted = len(left) < len(data["passes"])
    data["passes"] = left
    return planted


def drilled_in_the_tube(data: dict[str, Any]) -> bool:
    if data["opening"]["drills_mm"] or data["opening"]["face_grooving"]:
        return False
    at = next(at for at, one in enumerate(data["passes"]) if one["operation"] == "rough_bore")
    drill = {**data["passes"][at], "operation": "drill", "axis": "tailstock"}
    data["passes"].insert(at, {**drill, "material_diameter_after_mm": 3.0})
    return True


def another_boring_bar(data: dict[str, Any]) -> bool:
    for one in data["passes"]:
        one["tool"] = 99 if one["tool"] == 12 else one["tool"]
    return True


def whole_bar_stands_out(data: dict[str, Any]) -> bool:
    planted = bool(data["bar"]["sawn_mm"] > 0.0)
    data["bar"] |= {"sawn_mm": 0.0, "stick_out_mm": data["bar"]["stick_out_mm"]}
    return planted


def turned_from_the_size_it_goes_by(data: dict[str, Any]) -> bool:
    """As if an oversize bar had not been measured: the first cut is deeper than the plan says."""
    over = data["bar"]["start_mm"] - data["bar"]["diameter_mm"]
    first = next((one for one in data["passes"] if one["operation"] == "rough_outside"), None)
    if over < 0.01 or first is None:
        return False
    first["cut_depth_mm"] -= over / 2.0
    return True


PLANTED: dict[str, Spoil] = {
    "a drill that is not there": each("drill", "material_diameter_after_mm", 0.13),
    "a groove into the ring": each("core", "target_mm", 4.0),
    "a groove too shallow for the bore": each("core", "along_mm", -0.6),
    "the core of the ring before left standing": not_shortened,
    "a tube drilled in its own bore": drilled_in_the_tube,
    "a boring bar that does not go in": another_boring_bar,
    "a billet not sawn": whole_bar_stands_out,
    "an oversize bar taken for its size": turned_from_the_size_it_goes_by,
}


@pytest.mark.parametrize("name", PLANTED)
def test_the_replay_catches(name: str, tally: Tally) -> None:
    planted = caught = 0
    for data, shop in tally.plans:
        spoilt = copy.deepcopy(data)
        if PLANTED[name](spoilt):
            planted += 1
            caught += bool(faults(spoilt, shop))
    print(f"{name}: caught {caught} of {planted}")
    assert planted >= 15 and caught == planted
