"""No turning without every check of the lathe: random walks, and the faults that they must find."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.campaigns.lathe_fault_list import AGAIN, AT_THE_LATHE, FAULTS, ON_THE_PAGES, found
from tests.campaigns.lathe_tally import Tally
from tests.campaigns.lathe_walks import SHOPS, SHORT, standing, walks
from tests.whole.lathe_judge import RIGHT, Recorded, fault

STEPS = ("rough_outside", "drill", "rough_bore", "finish_outside", "last_outside", "finish_bore", "last_bore")
PAGES = {"step", "list", "pick", "why", "keys", "sheet", "text", "account", "jobs", "damage", "plain"}
LATE_STEPS = ("chamfer", "part", "spare_2", "spare_3")
WINDOWS = {"132 x 43", "80 x 24", "60 x 20", "40 x 12", "39 x 24", "1 x 1"}
HARDLY = {
    "a sitting begins though its mark is refused",
    "a wrong check is taken back",
    "the gate names figures",
    "a clock set back is believed",
    "the quarter of an hour counts on a step alone",
}
"""Faults that show in the long form: `python -m tests.campaigns.lathe_walks --faults`."""
WITH_THE_TESTS = [
    *(name for name in AGAIN if name not in HARDLY),
    *list(AT_THE_LATHE)[::2],
    *list(ON_THE_PAGES)[::3],
    "any answer to a check will do",
    "a job opened goes on in its sitting",
    "old holds are shown",
    "raising is told with the pressure",
]

FIRST = 224
"""The walk from which soon everything has happened often enough."""
SHOWS_FROM = {
    "another ring asks nothing": 110,
    "nothing is hidden": 10,
    "old holds are shown": 35,
    "raising is told with the pressure": 78,
    "sleep does not count": 6,
    "the page keys tells": 15,
    "the page left tells": 9,
    "tool_chamfer is not asked": 43,
    "tool_turning is not asked": 12,
}
"""Walks from which those are soon found that take long from the first one on."""


def test_walks_reach_turning_often_and_never_without_the_checks() -> None:
    tally = walks(SHORT, first=FIRST, until=Tally.enough)
    print(tally)
    assert not tally.faults, tally.faults[:3]
    assert tally.enough(), tally
    assert tally.steps >= {*STEPS, *LATE_STEPS}
    assert set(tally.pages) >= PAGES and set(tally.sizes) >= WINDOWS, tally


@pytest.mark.parametrize("name", WITH_THE_TESTS)
def test_walks_find_a_guard_taken_away(name: str) -> None:
    tally = found(name, SHORT // 3, SHOWS_FROM.get(name, 0))
    print(f"{name}: found in walk {tally.walks}: {tally.faults[:1]}")
    assert tally.faults, tally


def test_all_faults_have_names_of_their_own() -> None:
    assert set(FAULTS) >= HARDLY | set(WITH_THE_TESTS)
    assert len(FAULTS) >= 40


@pytest.mark.parametrize("lathe", SHOPS)
def test_every_lathe_of_the_walks_asks_what_the_judge_expects(lathe: str) -> None:
    asked = [entry.key for entry in standing(lathe)[-1].bench.entries if entry.key in RIGHT]
    assert set(asked) == set(SHOPS[lathe][1])


def recorded_checks(n: int = 1) -> list[Recorded]:
    """A sitting in which every check was answered rightly."""
    values = {"lathe_hands": "read 0", "lathe_bar": "read 6", "lathe_speed": "read 420"}
    entries = [Recorded(n, "mark", "sitting", ("work",))]
    entries += [
        Recorded(n + at, "answer", key, ("right", values.get(key, RIGHT[key])))
        for at, key in enumerate(RIGHT, 1)
    ]
    return entries


def test_the_judge_itself() -> None:
    """What the judge of the walks lets pass and what not, on entries written by hand."""
    checks = recorded_checks()
    assert fault(checks, "rough_outside") == ""
    assert fault(checks[:-1], "tool_boring") == ""
    assert "lathe_speed" in fault(checks[:-1], "spare_2")
    assert "sitting" in fault([], "last_bore")
    assert fault([*checks, Recorded(7, "mark", "sitting", ("work",))], "part") != ""
    assert fault([*checks, Recorded(7, "answer", "ring", ("accept",))], "part") != ""
    slip = Recorded(7, "answer", "lathe_slip", ("wrong", "lathe_bar", "read 9"))
    assert fault([*checks, slip], "part") != ""
    taken_back = Recorded(8, "undo", "lathe_slip", ("wrong",), of=7)
    assert fault([*checks, slip, taken_back], "part") != "", "a wrong answer stays one"
    assert fault([*checks, Recorded(7, "undo", "lathe_key", ("right",), of=4)], "part") != ""
    assert (
        "go to 29.00" in fault([], "", text="outside: go to 29.00, diameter")
        and fault([], "", text="go home") == ""
    )
    assert fault(checks, "", text="outside: go to 29.00, diameter") == ""
    assert fault(checks, "", text="go to 29.00", opened_at=7) != ""
    assert (
        "empty_check" in fault(checks, "empty_hold")
        and fault(checks, "", text="Raise it in steps: 1 bar") != ""
    )
    shut = [*checks, Recorded(8, "answer", "empty_check", ("right", "shut"))]
    assert fault(shut, "empty_hold", text="Raise it in steps: 1 bar") == ""
    assert fault([*shut, Recorded(9, "answer", "empty_slip", ("wrong", "empty_check"))], "empty_hold") != ""
    assert fault(shut, "cased_hold") != "" and fault(shut, "empty_hold", opened_at=8) != ""
    wrong_key = [replace(one, words=("right", "bed")) if one.key == "lathe_key" else one for one in checks]
    assert "lathe_key" in fault(wrong_key, "drill")


def test_the_judge_of_tools_and_of_a_break() -> None:
    checks = recorded_checks()
    bore = "Rough the bore: tool 2, 720 rpm"
    assert "tool_boring" in fault(checks, "", text=bore)
    looked = [*checks, Recorded(7, "answer", "tool_boring", ("right", "read 2"))]
    assert fault(looked, "", text=bore) == ""
    assert "tool_boring" in fault(
        [*looked, Recorded(8, "answer", "bar", ("36",)), *recorded_checks(9)], "", text=bore
    )
    wrong = Recorded(8, "answer", "tool_boring_slip", ("wrong", "tool_boring", "read 3"))
    assert "tool_boring" in fault([*looked, wrong], "", text=bore)
    other = Recorded(8, "answer", "tool_boring_again_slip", ("wrong", "tool_boring_again", "read 3"))
    assert fault([*looked, other], "", text=bore) == "", "another tool was wrong"
    begun = [Recorded(0, "answer", "rough_outside", ("done",)), *checks]
    begun = [replace(one, n=one.n + 1) for one in begun]
    assert "touch_off" in fault(begun, "", text="outside: go to 29.00")
    dressed = [*begun, Recorded(9, "answer", "dress", ("done",))]
    assert fault(dressed, "", text="outside: go to 29.00") == "", "nothing is cut any more"
    again = "Work interrupted: touch off again outside: last cut with outside: go to 29.00"
    assert fault(begun, "", text=again) == ""
    assert fault([*begun, Recorded(9, "answer", "touch_off", ("done",))], "", text="go to 29.00") == ""
    shows_nothing = {key: how for key, how in RIGHT.items() if key != "lathe_speed"}
    assert fault(checks[:-1], "", text="go to 29.00", right=shows_nothing) == ""
