"""A job left in the middle, killed, come back to:
where it stood, what is asked again, what goes on running.
"""

from __future__ import annotations

import os
from datetime import datetime
from pathlib import Path

import pytest

from bench.desk.effects import Open
from bench.stages.guard import LATHE_CHECKS
from screens.look import Look
from screens.view import view
from tests.whole.hands import bench_in, lines
from tests.whole.on_file import OnFile
from tests.whole.places import at, before_a_hold
from tests.whole.repairer import Repairer
from tests.whole.scripts import straight

CHECKS = list(LATHE_CHECKS)


def shown(repairer: Repairer) -> str:
    """Everything that stands on the screen."""
    return "\n".join("".join(text for text, _ in spans) for spans in view(repairer.desk, Look("ascii")))


def come_back(repairer: Repairer, *, hours: float) -> None:
    """The program was killed; so much later it is started again on the same file. Stops at the account."""
    repairer.wait(hours * 3600)
    repairer.feed(repairer.bench.opened())


@pytest.mark.parametrize(
    ("left_at", "looked_at"),
    [("outside_reading", ["tool_again", "touch_off"]), ("tool_boring", ["touch_off"])],
)
def test_killed_in_the_middle_of_turning(left_at: str, looked_at: list[str]) -> None:
    """The tool is looked at once, where the step that was left does not ask for it itself."""
    repairer = at(left_at)
    come_back(repairer, hours=15)
    assert repairer.desk.page == "account"
    assert "Gloves" in shown(repairer) and "in the stage cut" in shown(repairer)
    repairer.type("1")
    again = [repairer.asked]
    while repairer.asked != left_at:
        repairer.answer()
        again.append(repairer.asked)
    assert again == [*CHECKS, *looked_at, left_at]
    repairer.answer()
    assert "tool_again" not in repairer.asked


def test_checks_begun_in_one_sitting_do_not_count_in_the_next() -> None:
    repairer = at("lathe_bar")
    come_back(repairer, hours=0.1)
    repairer.type("1")
    assert repairer.asked == CHECKS[0]


def test_no_way_past_the_account_leaves_the_checks_out() -> None:
    """Picking an answer to replace, taking one back, writing a note from the account:
    a sitting begins all the same.
    """
    for item in ("replace", "undo", "note", "usual"):
        repairer = at("last_bore")
        come_back(repairer, hours=1)
        repairer.pick(item)
        if item in ("replace", "usual"):
            repairer.type("9")
        if item == "note":
            repairer.key("enter")
        assert repairer.asked in CHECKS, item
        repairer.key("previous")
        assert repairer.step.key not in ("last_bore", "finish_bore"), item


def test_off_the_lathe_the_lathe_is_not_asked_about() -> None:
    repairer = at("wall_2")
    come_back(repairer, hours=15)
    repairer.type("1")
    assert repairer.asked == "wall_2"
    repairer.key("previous")
    repairer.key("previous")
    assert repairer.step.key == "dress", "an old turning step was shown without the checks"


def test_a_quarter_of_an_hour_without_a_key_asks_the_checks_again() -> None:
    repairer = at("last_bore")
    repairer.wait(16 * 60)
    repairer.type("1")
    assert repairer.asked == CHECKS[0] and "quarter of an hour" in repairer.desk.message.lower()


def test_a_hold_goes_on_running_while_the_program_is_away() -> None:
    """Ten minutes from its own UTC text: not shortened, not begun again;
    the check is asked anew, and whether it was held throughout.
    """
    repairer = before_a_hold("empty")
    started = repairer.now
    repairer.answer()
    come_back(repairer, hours=4 / 60)
    repairer.type("1")
    assert repairer.asked == "empty_check"
    repairer.answer()
    assert repairer.asked == "empty_throughout"
    repairer.give("yes")
    assert repairer.asked == "empty_result"
    opens = repairer.step.opens_after
    assert opens is not None
    assert abs((datetime.fromisoformat(opens[0]) - started).total_seconds()) < 10 and opens[1] == 600
    repairer.type("1")
    assert repairer.asked == "empty_result" and "still to run" in repairer.desk.message
    repairer.wait(6 * 60)
    repairer.type("1")
    assert repairer.asked == "renewed"


def test_a_hold_longer_than_a_quarter_of_an_hour_comes_to_its_end() -> None:
    """No key for an hour: the check is asked again, the hold is not begun again."""
    repairer = before_a_hold("empty")
    repairer.pick("usual")
    repairer.pick_key("empty_minutes")
    repairer.type("060")
    repairer.on_to("empty_result")
    repairer.wait(3601)
    repairer.type("1")
    assert repairer.asked == "empty_check"
    repairer.answer()
    assert repairer.asked == "empty_throughout"
    repairer.give("yes")
    assert repairer.asked == "empty_result"
    repairer.type("1")
    assert repairer.asked == "renewed"


def test_a_failed_hold_can_be_said_before_it_is_over() -> None:
    repairer = before_a_hold("empty").on_to("empty_result")
    repairer.give("fail")
    assert repairer.asked == "hunt_kind"


def test_a_test_pressure_check_is_asked_in_every_sitting() -> None:
    repairer = at("empty_hold")
    come_back(repairer, hours=20)
    repairer.type("1")
    assert repairer.asked == "empty_check"


def test_a_replaced_diameter_makes_ring_and_turning_stale_and_keeps_the_old_values() -> None:
    repairer = at("wall_1")
    old = dict.fromkeys(repairer.keyed)
    repairer.pick("replace")
    repairer.pick_key("glass_2")
    repairer.type("35.34")
    repairer.go_on_replacing()
    assert repairer.asked == "ring"
    assert repairer.desk.walk is not None and repairer.desk.walk.stale is not None
    assert "no longer" in shown(repairer) or "before" in shown(repairer), shown(repairer)
    again = []
    while repairer.asked != "wall_1":
        again.append(repairer.asked)
        repairer.answer()
    assert again == [key for key in old if list(old).index(key) >= list(old).index("ring")]
    assert repairer.keyed.count("glass_2") == 2 and repairer.keyed.count("ring") == 2


def test_killed_without_closing_on_a_real_file(tmp_path: Path) -> None:
    """The first workbench is never closed: another process opens the same file and goes on."""
    lines(tmp_path, [straight(until="tool_boring_again")])
    file = str(next((tmp_path / "jobs").glob("*.toml")))
    first = bench_in(tmp_path)
    killed = Repairer(OnFile(first))
    for arrival in first.carry_out([Open(file)]):
        killed.feed(arrival)
    killed.type("1")
    stood = killed.asked
    assert stood == CHECKS[0] and first.session is not None
    size = Path(file).stat().st_size
    os.close(first.session._fd)  # what the end of a process does, and nothing else
    second = bench_in(tmp_path)
    repairer = Repairer(OnFile(second))
    for arrival in second.carry_out([Open(file)]):
        repairer.feed(arrival)
    assert repairer.desk.page == "account" and repairer.desk.writable
    repairer.type("1")
    assert repairer.asked == stood and Path(file).stat().st_size > size
    second.close()
