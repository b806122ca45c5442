"""The shop asked once, by keypad: when, in what words, and what is then in shop.toml."""

from __future__ import annotations

import re
import tomllib
from dataclasses import replace
from pathlib import Path

import pytest

from bench.desk.desk import Desk
from bench.desk.effects import ShopIs
from bench.file.slug import SHOP
from bench.shop.groups import GROUPS, TO_CUT
from bench.shop.shop import Shop, built_in, load
from ringwright import main
from screens.look import Look
from screens.view import view
from tests.screens.keying import at_size
from tests.whole.clock import Clock
from tests.whole.hands import lines, press
from tests.whole.repairer import fresh
from tests.whole.script import Hand, Pair, Recorder
from tests.whole.scripts import straight
from tests.whole.shop_presses import OWN, table
from tests.whole.stated import stated

TO_THE_CHECKS = "lathe_hands"


def page(desk: Desk, columns: int = 80, rows: int = 24) -> str:
    """The text of a page."""
    shown = view(at_size(desk, columns, rows), Look("ascii"))
    return "\n".join("".join(text for text, _ in line) for line in shown)


def said_by(folder: Path, script: tuple[Pair, ...], until: str = TO_THE_CHECKS) -> tuple[Desk, Shop]:
    """The desk and the shop after a script."""
    desk, _ = lines(folder, [Hand(script, until=until)])
    return desk, load(folder)


def test_one_answer_ends_it_for_good(tmp_path: Path) -> None:
    desk, shop = said_by(tmp_path, (("your_shop", "as_assumed"),))
    assert desk.step is not None and desk.step.key == TO_THE_CHECKS
    assert replace(shop, is_built_in=True, materials={}) == built_in()
    assert shop.said == frozenset(TO_CUT)
    for job in ("1", "0"):
        _, out = lines(tmp_path, [job, Hand(until="rough_outside")])
        assert "[rough_outside]" in out and "[your_shop]" not in out


def test_a_shop_of_ones_own_is_said_page_by_page(tmp_path: Path) -> None:
    _, shop = said_by(tmp_path, OWN)
    lathe = shop.lathes[0]
    assert (lathe.cross.shows, lathe.cross.division_mm, lathe.cross.divisions_per_turn) == (
        "radius",
        0.025,
        80,
    )
    assert (lathe.cross.backlash_mm, lathe.cross.direction) == (0.15, "inward")
    assert (lathe.carriage.division_mm, lathe.carriage.step_mm, lathe.carriage.backlash_mm) == (
        0.1,
        0.05,
        0.2,
    )
    assert lathe.speeds_rpm == (310.0, 620.0, 1150.0) and lathe.largest_rpm == 1150.0
    assert len(lathe.speed_names) == 3 and not lathe.numbered_tools and lathe.largest_drill_mm == 10.0
    assert [(grip.name, grip.largest_mm) for grip in lathe.grips] == [
        ("three-jaw chuck", 65.0),
        ("step collet", 38.0),
    ]
    boring = next(tool for tool in shop.tools if tool.kind == "boring")
    assert (boring.smallest_bore_mm, boring.longest_reach_mm) == (6.5, 18.0)
    assert [tool.blade_mm for tool in shop.tools if tool.kind == "parting"] == [1.2]
    assert [(one.kind, one.resolution_mm) for one in shop.instruments] == [
        ("calliper", 0.02),
        ("micrometer", 0.01),
    ]
    assert [(bar.diameter_mm, bar.length_mm, bar.colour) for bar in shop.bars] == [(41.5, 320.0, "black")]


def test_both_slides_are_asked_alike_and_a_length_needs_no_closing_nought(tmp_path: Path) -> None:
    """A dial on the cross slide does not turn the list of the carriage round; 0.1 of backlash is 0.1."""
    desk, said = lines(tmp_path, [Hand((*OWN[:7], ("cross_backlash", "0.1")), until="carriage_shown_by")])
    listed = re.findall(r"((?:  \d .*\n)+)\[\w+_shown_by\]", said)
    assert len(listed) == 2 and listed[0] == listed[1] and "dial" in listed[0]
    assert desk.asked_shop is not None
    assert [one.value for one in desk.asked_shop.answers if one.key == "cross_backlash"] == ["0.10 mm"]


def test_press_and_tester_are_asked_when_they_are_needed(tmp_path: Path) -> None:
    script = (("your_shop", "as_assumed"), ("your_shop", "ask"), ("force", "1800"))
    _, shop = said_by(tmp_path, script, until="fit_outcome")
    assert shop.press.largest_force_n == 1800.0 and "tester" not in shop.said
    more = (("your_shop", "ask"), ("gives", "deflection"), ("reaches_bar", "5.0"), ("gauge_step", "usual"))
    file = str(next((tmp_path / "jobs").glob("*.toml")))
    desk, _ = lines(tmp_path, [Hand(more, until="empty_pressure")], file=file)
    shop = load(tmp_path)
    assert (shop.tester.largest_bar, shop.tester.gives) == (5.0, "deflection")
    assert shop.said == frozenset(GROUPS)
    assert desk.step is not None and "with a reading" in desk.step.title


def test_a_known_shop_is_not_asked_one_press_more(tmp_path: Path) -> None:
    known, new = Recorder(straight()), Recorder(straight())
    lines(stated(tmp_path / "known"), [known])
    lines(tmp_path / "new", [new])
    assert len(new.lines) == len(known.lines) + 3
    again = Recorder(straight())
    lines(
        tmp_path / "new", [again], clock=Clock(step_s=60.0)
    )  # nobody is away while the shop's jobs are read
    assert again.lines == known.lines


def test_gone_on_with_what_is_assumed_every_page_says_so(tmp_path: Path) -> None:
    seen: dict[str, str] = {}
    hand = Hand((("your_shop", "later"), ("your_shop", "later"), ("your_shop", "later")))

    class Looking:
        def line(self, desk: Desk) -> str | None:
            if desk.step is not None and desk.asked_shop is None and desk.page == "step":
                seen[desk.step.key] = page(desk) + page(desk, 40, 12)
            return hand.line(desk)

    lines(tmp_path, [Looking()])
    assert not (tmp_path / SHOP).exists()
    for key in ("lathe_hands", "lathe_bar", "rough_outside", "tool_boring", "last_bore", "part"):
        assert seen[key].count("assumed lathe, tools, bar") == 2, key
    assert seen["fit_ready"].count("assumed press") == 2
    assert seen["empty_pressure"].count("assumed tester") == 2
    assert "assumed" not in seen["case_bore_1"] + seen["dress"]


def test_left_half_way_nothing_is_written_and_the_group_begins_again(tmp_path: Path) -> None:
    half = OWN[: [key for key, _ in OWN].index("speeds_by")]
    desk, shop = said_by(tmp_path, half, until="speeds_by")
    assert desk.asked_shop is not None and shop.said == frozenset()
    _, shop = said_by(tmp_path, (("job", "1"), *OWN))
    assert shop.lathes[0].cross.division_mm == 0.025 and shop.said == frozenset(TO_CUT)


def test_the_full_screen_takes_the_same_keys(tmp_path: Path) -> None:
    import asyncio

    desk, keys = asyncio.run(press(tmp_path, [Hand(OWN, until=TO_THE_CHECKS)]))
    assert desk.step is not None and desk.step.key == TO_THE_CHECKS
    assert set(keys) <= set("0123456789.-/+*E")
    other = tmp_path / "in lines"
    said_by(other, OWN)
    assert (tmp_path / SHOP).read_bytes() == (other / SHOP).read_bytes()


def test_my_shop_stands_in_both_lists_and_changes_one_value(tmp_path: Path) -> None:
    stated(tmp_path)
    before = (tmp_path / SHOP).read_text(encoding="utf-8")
    with_comment = before.replace("backlash_mm = 0.05", "backlash_mm = 0.05  # measured in May", 1)
    (tmp_path / SHOP).write_text(with_comment, encoding="utf-8")
    press_line = ["*", "18", "5", "1400", "8"]
    desk, out = lines(tmp_path, press_line)
    assert desk.page == "jobs" and "written to shop.toml" in out
    after = (tmp_path / SHOP).read_text(encoding="utf-8")
    assert after == with_comment.replace(
        'name = "hand press"\n', 'name = "hand press"\nlargest_force_n = 1400.0\n'
    )
    desk, _ = lines(tmp_path, ["0", "*", "18", "7", "2", "1", "8"])
    assert desk.step is not None and desk.step.key == "paint"
    assert tomllib.loads((tmp_path / SHOP).read_text(encoding="utf-8"))["works_in"] == "inch"
    assert desk.shop is not None and desk.shop.works_in == "inch"


def test_a_shop_file_changed_meanwhile_is_left_as_it_is(tmp_path: Path) -> None:
    stated(tmp_path)

    def meanwhile() -> None:
        text = (tmp_path / SHOP).read_text(encoding="utf-8")
        text = text.replace('name = "hand press"', 'name = "hand press"\nlargest_force_n = 900')
        (tmp_path / SHOP).write_text(text, encoding="utf-8")

    class Typing:
        given = iter(["*", "18", "5", "1400"])

        def line(self, desk: Desk) -> str | None:
            line = next(self.given, None)
            if line == "1400":
                meanwhile()
            return line

    desk, out = lines(tmp_path, [Typing()])
    assert "changed meanwhile" in out and desk.asked_shop is not None
    assert load(tmp_path).press.largest_force_n == 900.0


def test_finished_jobs_ask_nothing_and_their_sheet_needs_no_shop(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lines(stated(tmp_path), [straight()])
    (tmp_path / SHOP).unlink()
    desk, _ = lines(tmp_path, ["1"])
    assert desk.walk is not None and desk.walk.open is None and desk.asked_shop is None
    (tmp_path / SHOP).write_text("bell = yes\n", encoding="utf-8")
    capsys.readouterr()
    for words in (["sheet", "1"], ["jobs"], ["jobs", "--json"]):
        assert main(["--folder", str(tmp_path), *words]) == 0
        told = capsys.readouterr()
        assert told.out and ("shop.toml line 1" in told.err or words == ["jobs"])
    lines_of_other = tmp_path / "unfinished"
    lines(stated(lines_of_other), [Hand(until="ring")])
    (lines_of_other / SHOP).write_text("bell = yes\n", encoding="utf-8")
    assert main(["--folder", str(lines_of_other), "sheet", "1"]) == 2


def test_presses_from_an_empty_folder_to_the_first_cut() -> None:
    """Counted; by the model quicker than editing the file, and two presses more than in a known shop."""
    found = table()
    known, own = found["a known shop, to the first cut"], found["own shop by keypad, to the first cut"]
    assert found["  of it about a shop as assumed"].presses == 2
    assert found["as assumed, to the first cut"].presses == known.presses + 2
    second = found["its second job, to the first cut"]
    assert own.presses == second.presses + found["  of it about a shop of one's own"].presses
    assert own.minutes < found["own shop by editing, to the first cut"].minutes


def test_the_questions_are_left_by_going_back_or_from_the_list(tmp_path: Path) -> None:
    desk, _ = lines(tmp_path, [Hand(until="your_shop"), "/"])
    assert desk.asked_shop is None and desk.step is not None and desk.step.key == "ring"
    desk, _ = lines(tmp_path, ["1", Hand((("your_shop", "ask"),), until="cross_counts"), "/", "/", "/"])
    assert desk.asked_shop is None and desk.step is not None and desk.step.key == "ring"
    desk, _ = lines(tmp_path, ["1", Hand((("your_shop", "ask"),), until="cross_counts"), "*", "23"])
    assert desk.asked_shop is not None and desk.step is not None and desk.step.key == "your_shop"
    assert "lathe" not in load(tmp_path).said


def test_what_cannot_be_together_is_said_and_asked_again(tmp_path: Path) -> None:
    """Two tools of one number: nothing is written, the last question stands again."""
    answers = (("your_shop", "ask"), ("tool_number_2", "01"))
    desk, out = lines(tmp_path, [Hand(answers, until="tool_more_5"), "1"])
    assert "! not written: tool number 1 stands twice in the set 'bench'; give each its own" in out
    assert desk.step is not None and desk.step.key == "tool_more_5"
    assert load(tmp_path).said == {"lathe"}


def test_who_was_away_while_the_shop_was_asked_is_checked_anew() -> None:
    repairer = fresh().on_to("rough_outside")
    for minutes, asked in ((5, "rough_outside"), (16, "lathe_hands")):
        repairer.pick("shop")
        repairer.feed(ShopIs(repairer.bench.shop))
        assert repairer.step.key == "shop_part"
        repairer.wait(60.0 * minutes)
        repairer.type("8")
        assert repairer.step.key == asked
