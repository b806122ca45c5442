"""Every guard of lathe and tester, taken away, and where the walks begin that are to find it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import AbstractContextManager
from functools import partial

from bench.job import keys
from bench.stages.guard import LATHE_CHECKS
from rules.turning import operations
from tests.campaigns import lathe_faults as fault
from tests.campaigns.lathe_faults import CUT, POSTS, PROVING, UPDATE
from tests.campaigns.lathe_tally import Tally
from tests.campaigns.lathe_walks import PLACES, SHOPS, standing, standing_again, walks

Fault = Callable[[], AbstractContextManager[object]]
LATE = {"dress": 1.0}
"""Walks that begin anywhere at the lathe."""
TESTS = {"": 1.0}
"""Walks that begin anywhere, most of them at the tests."""
TOOLS = (keys.TOOL_BORING, keys.TOOL_TURNING, keys.TOOL_BORING_AGAIN, keys.TOOL_CHAMFER, keys.TOOL_PARTING)
PAGES = ("list", "pick", "why", "keys", "sheet", "text", "account", "jobs", "damage", "left")
OTHER_PLAN = (
    *(keys.RING, keys.ATTEMPT, keys.LATHE, keys.TOOL_SET, keys.BAR),
    *(keys.BAR_MEASURED, keys.nth(keys.BAR_MEASURED, 2), keys.BAR_BORE),
)
BEFORE = (operations.DRILL, operations.REST, operations.CHAMFER, *map(keys.last, ("outside", "bore")))
"""What is done before a tool is changed."""

AGAIN: dict[str, Fault] = {
    "checks of an earlier sitting count until work begins": fault.earlier_checks_until_work_begins,
    "the quarter of an hour counts on a step alone": fault.idle_on_a_step_only,
    "sleep does not count": fault.sleep_that_does_not_count,
    "keys count in any window": fault.keys_in_any_window,
}
"""What was wrong once."""

AT_THE_LATHE: dict[str, Fault] = {
    **{f"{key} is not asked": partial(fault.without_lathe_check, key) for key in LATHE_CHECKS},
    **{f"{key} is not asked": partial(fault.without_look_at_the_post, key) for key in TOOLS},
    "the lathe is not asked again": partial(fault.asked_once, CUT, "lathe_checks"),
    "a wrong check asks that one alone again": partial(
        fault.resting_less, CUT, "lathe_checks", keys.LATHE_SLIP
    ),
    "another ring asks nothing": partial(fault.resting_less, CUT, "lathe_checks", *OTHER_PLAN),
    "another ring asks for no tool": partial(fault.resting_less, POSTS, "tool_change", *OTHER_PLAN, *BEFORE),
    "nothing is touched off after a break": partial(fault.always, CUT, "began_before_this_sitting", False),
    "old passes are shown": partial(fault.open_to_all, CUT),
    "nothing is hidden": partial(fault.always, "bench.job.route", "hidden", frozenset()),
}
AT_THE_TESTER: dict[str, Fault] = {
    "the empty case is not asked": partial(fault.without_pressure_check, "empty"),
    "the cased watch is not asked": partial(fault.without_pressure_check, "cased"),
    "the tester is not asked again": partial(fault.asked_once, PROVING, "check_step"),
    "a wrong answer at the tester changes nothing": partial(
        fault.resting_less, PROVING, "check_step", keys.EMPTY.slip, keys.CASED.slip
    ),
    "old holds are shown": partial(fault.open_to_all, PROVING),
    "raising is told with the pressure": fault.raising_told_with_the_pressure,
}
AT_THE_DESK: dict[str, Fault] = {
    "a step from the account begins no sitting": partial(fault.always, UPDATE, "sitting_is_due", False),
    "a job opened goes on in its sitting": fault.a_sitting_that_goes_on,
    "a sitting begins though its mark is refused": fault.a_sitting_though_not_saved,
    "nobody is ever away": partial(fault.always, UPDATE, "why_anew", ""),
    "sleep counts by boot time only": fault.sleep_by_boot_time_only,
    "a clock set back is believed": fault.a_clock_set_back_is_believed,
    "any answer to a check will do": fault.any_answer,
    "a check is taken unread": partial(fault.value_of, "bench.desk.answering", "SEEN_S", -1.0),
    "a wrong check is taken back": fault.a_wrong_check_taken_back,
    "the gate names figures": fault.a_gate_that_names_figures,
}
ON_THE_PAGES: dict[str, Fault] = {
    **{f"the page {page} tells": partial(fault.told_on, page) for page in PAGES},
    "plain lines tell": fault.told_in_lines,
}
FAULTS: dict[str, tuple[Fault, Mapping[str, float]]] = {
    **{name: (one, PLACES) for name, one in {**AGAIN, **AT_THE_DESK, **ON_THE_PAGES}.items()},
    **{name: (one, LATE) for name, one in AT_THE_LATHE.items()},
    **{name: (one, TESTS) for name, one in AT_THE_TESTER.items()},
}
"""All of them, and where the walks begin."""


def found(name: str, most: int, first: int = 0) -> Tally:
    """Walk with a guard taken away until that shows, from the first walk on."""
    one, places = FAULTS[name]
    for lathe in SHOPS:
        standing(lathe)  # where walks begin is made before the guard is taken away
    standing_again()
    with one():
        return walks(most, first=first, places=places, until=lambda tally: bool(tally.faults))


def caught(most: int) -> int:
    """Take every guard away in turn and say in which walk it showed; 1 when one does not show."""
    missed = 0
    for name in FAULTS:
        tally = found(name, most)
        said = tally.faults[0] if tally.faults else "NOT FOUND"
        missed += not tally.faults
        print(f"walk {tally.walks:5}  {name}: {said}", flush=True)
    print(f"{len(FAULTS) - missed} of {len(FAULTS)} found")
    return 1 if missed else 0
