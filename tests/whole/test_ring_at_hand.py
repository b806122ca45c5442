"""A ring that is there: whole jobs as scripts, judged before anything is turned; a used one is a pattern.

The invented watch: gap 0.5625, band 5.84 to 12.22 % of the wall (a quarter of the seat's oval off each
end), so walls from 0.597 to 0.641 work. What a page or a sheet says is read off it.
"""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from bench.desk.desk import Desk
from bench.seals import seal_of
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from bench.shop.shop import built_in
from bench.stages.guard import LATHE_CHECKS
from tests.independent.sheet_claims import complaints
from tests.whole.hands import lines, session_text
from tests.whole.places import at, bore_of
from tests.whole.repairer import Repairer
from tests.whole.script import Hand, Pair, Typist
from tests.whole.scripts import STRAIGHT
from tests.whole.seen import read

SIZES = ((80, 24), (60, 20), (40, 12))
MEASURED = STRAIGHT[:5]
TURNED = STRAIGHT[5:]


def there(what: str, wall: str, height: str = "1.20", lies: str = "lies") -> tuple[Pair, ...]:
    """A ring that is there, measured alike at four places."""
    walls = tuple((f"hand_wall_{place}", wall) for place in range(1, 5))
    seat = () if what == "made" else (("hand_seat", lies),)
    return (("at_hand", what), *walls, ("hand_height", height), *seat)


def judged(what: str, wall: str, height: str = "1.20", lies: str = "lies") -> Repairer:
    """A repairer before the page that judges it."""
    repairer = at("ring")
    repairer.give("at_hand")
    for key, answer in there(what, wall, height, lies):
        assert repairer.step.key == key
        repairer.give(answer)
    assert repairer.asked == "ring"
    return repairer


def sheet_of(desk: Desk) -> tuple[dict[str, Any], str]:
    """The sheet as data and as one line of text."""
    assert desk.job is not None and desk.walk is not None
    data = sheet_data(desk.job, finished=desk.walk.open is None)
    return data, " ".join(" ".join(sheet_lines(data)).split())


def seen(repairer: Repairer) -> str:
    """The page, in a window without the picture beside it."""
    return read(replace(repairer.desk, columns=70, rows=40))


def words(repairer: Repairer) -> list[str]:
    """The ways on."""
    return [choice.word for choice in repairer.step.choices]


def test_the_whole_job_with_a_ring_that_fits(tmp_path: Path) -> None:
    """Nothing is turned and no check of the lathe is asked; the job is left and opened again on the way."""
    script = (*MEASURED, *there("new", "0.618"), ("ring", "accept"))
    desk, said = lines(tmp_path, [Hand(script, until="fit_ready")])
    assert "The ring you have: it may fit. What next?" in said
    file = str(next((tmp_path / "jobs").glob("*.toml")))
    desk, _ = lines(tmp_path, [Hand((("fit_outcome", "home"), ("marking", "bar_5")))], file=file)
    assert desk.walk is not None and desk.walk.open is None
    text = session_text(tmp_path)
    assert not any(f'"{key}"' in text for key in (*LATHE_CHECKS, "rough_outside", "part"))
    data, said = sheet_of(desk)
    assert data["made"]["wall_mm"] == [0.618] * 4 and data["made"]["height_mm"] == 1.20
    assert data["ring"]["plastic"] is None and data["turned"]["lathe"] is None
    assert "This ring was there already, never pressed before" in said and "plastic not named" in said
    assert complaints(data, "\n".join(sheet_lines(data)), Path(file)) == []
    assert desk.job is not None
    assert seal_of(desk.job).plan(desk.job, built_in())[1].startswith("the ring of this job was there")


def test_left_between_its_walls_and_opened_again(tmp_path: Path) -> None:
    hand = there("new", "0.618")
    lines(tmp_path, [Hand((*MEASURED, *hand[:3]), until="hand_wall_3")])
    file = str(next((tmp_path / "jobs").glob("*.toml")))
    desk, _ = lines(tmp_path, [Hand((*hand[3:], ("ring", "accept")), until="fit_ready")], file=file)
    assert desk.walk is not None and desk.walk.open is not None and desk.walk.open.key == "fit_ready"


@pytest.mark.parametrize(
    ("wall", "verdict"),
    [
        ("0.575", "likely too loose"),
        ("0.530", "too loose"),
        ("0.660", "likely too tight"),
        ("0.700", "too tight"),
    ],
)
def test_too_loose_or_too_tight_is_made_instead(wall: str, verdict: str, tmp_path: Path) -> None:
    """The first way on leads to a ring that is made; the whole job then goes its way."""
    repairer = judged("new", wall)
    assert f"The ring you have: {verdict}. What next?" in seen(repairer)
    assert words(repairer) == ["make", "accept"]
    typing: list[Typist | str] = [
        Hand((*MEASURED, *there("new", wall)), until="ring"),
        "1",
        Hand((("at_hand", "none"), *TURNED)),
    ]
    desk, _ = lines(tmp_path, typing)
    assert desk.walk is not None and desk.walk.open is None
    data, said = sheet_of(desk)
    assert data["at_hand"]["what"] is None and "there already" not in said


def test_pressed_all_the_same_and_went_in_too_easily_the_next_one_is_made() -> None:
    repairer = judged("new", "0.590")
    repairer.give("accept")
    repairer.on_to("ring", {"fit_outcome": "too_easy", "remake": "ring"})
    assert repairer.desk.job is not None and repairer.desk.job.attempt == 2
    assert "The ring you have" not in seen(repairer)
    repairer.on_to("lathe_hands")
    assert (36.43 - bore_of(repairer, 2)) / 2 >= 0.600


@pytest.mark.parametrize(
    ("outcome", "wall", "verdict"),
    [("too_easy", "0.618", "likely too loose"), ("would_not_start", "0.625", "likely too tight")],
)
def test_the_side_is_that_of_the_ring_tried_before(outcome: str, wall: str, verdict: str) -> None:
    """Ring 1, wall 0.620, has said more than the band: title and page name the same side of it."""
    repairer = at("fit_outcome")
    repairer.on_to("ring", {"fit_outcome": outcome, "remake": "ring"})
    repairer.give("at_hand")
    for _, answer in there("new", wall):
        repairer.give(answer)
    page = seen(repairer)
    assert f"The ring you have: {verdict}. What next?" in page
    side = "over the largest" if outcome == "too_easy" else "under the smallest"
    assert f"bore {side} that works" in page


def test_a_used_ring_judged_fit_is_a_pattern_and_never_pressed(tmp_path: Path) -> None:
    repairer = judged("used", "0.612")
    page = seen(repairer)
    assert "Used ring, not to be fitted again. It may fit as a pattern. What is made?" in page
    assert "A used ring is a pattern to measure, not one to fit again." in page
    assert words(repairer) == ["pattern", "accept", "make"]
    desk, _ = lines(tmp_path, [Hand((*MEASURED, *there("used", "0.612"), ("ring", "pattern"), *TURNED))])
    assert desk.walk is not None and desk.walk.open is None
    data, said = sheet_of(desk)
    assert data["ring"]["bore_mm"] == pytest.approx(36.43 - 2 * 0.612, abs=0.0051)
    assert "A used ring was measured: wall 0.612, height 1.20 mm." in said
    assert "It was a pattern and was not fitted again; this ring is new, made after it." in said
    assert data["turned"]["lathe"] is not None


def test_a_used_ring_that_does_not_fit_is_no_pattern() -> None:
    repairer = judged("used", "0.500")
    assert "Too loose: no pattern here" in seen(repairer)
    assert words(repairer) == ["accept", "make"]
    repairer.give("accept")
    assert repairer.asked == "bar_measured"
    assert repairer.desk.job is not None
    assert "this ring is new, made as proposed" in sheet_of(repairer.desk)[1]


@pytest.mark.parametrize("wall", ["0.612", "0.618", "0.560", "0.700"])
def test_a_used_ring_is_judged_as_a_new_one_of_the_same_wall(wall: str) -> None:
    """The same wall, the same squeeze on both pages, and on that of a ring that was made."""
    found = re.search(r"Squeeze (-?[\d.]+) % of the wall", seen(judged("new", wall)))
    assert found and abs(float(found[1]) - 100 * (1 - 0.5625 / float(wall))) < 0.1
    squeeze = found[0]
    assert squeeze in seen(judged("used", wall))
    made = at("wall_1")
    for _ in range(4):
        made.type(wall)
    if made.asked.startswith("wall"):  # far from what was planned: keyed once more
        made.type(wall)
    assert squeeze in seen(made)


def test_one_too_high_is_dressed_before_it_is_pressed() -> None:
    repairer = judged("new", "0.618", "1.40")
    assert "CHECK too high here: dressed to 1.20 mm first" in seen(repairer)
    repairer.give("accept")
    assert repairer.asked == "dress_lower" and "to 1.20 mm" in seen(repairer)
    repairer.give("done")
    assert repairer.asked == "ring_height" and sheet_of(repairer.desk)[0]["made"]["height_mm"] is None
    repairer.type("1.19")
    assert repairer.asked == "fit_ready"
    repairer.on_to("empty_check")
    data, said = sheet_of(repairer.desk)
    assert data["made"]["height_mm"] == 1.19 and "0.618; height 1.19 mm." in said


def test_one_that_buckles_is_not_pressed_and_slack_warns() -> None:
    assert words(judged("new", "0.618", lies="buckles")) == ["make"]
    assert "CHECK slack in the seat" in seen(judged("new", "0.618", lies="slack"))


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize(
    ("what", "wall", "said"),
    [
        ("new", "0.618", "it may fit"),
        ("new", "0.700", "too tight"),
        ("used", "0.618", "not to be fitted again"),
    ],
)
def test_the_verdict_stands_in_every_window(size: tuple[int, int], what: str, wall: str, said: str) -> None:
    repairer = judged(what, wall)
    page = read(replace(repairer.desk, columns=size[0], rows=size[1]))
    assert said in page and all(f" {n} " in page for n in range(1, len(words(repairer)) + 1))


def test_named_plastic_is_kept() -> None:
    repairer = at("ring")
    repairer.give("plastic")
    repairer.give("pa66")
    repairer.give("at_hand")
    for _, answer in there("new", "0.618"):
        repairer.give(answer)
    repairer.give("accept")
    assert sheet_of(repairer.desk)[0]["ring"]["plastic"] == "pa66"
