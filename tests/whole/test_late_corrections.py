"""A late correction: before an answer is replaced the page says how many answers stop counting and which,
and offers what would do instead. Whoever checks a page reads only the page.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from bench.desk.replacing import Replacing
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from tests.whole.hands import lines
from tests.whole.places import at, bore_of
from tests.whole.repairer import Repairer
from tests.whole.script import Back, Hand, Typist
from tests.whole.scripts import STRAIGHT
from tests.whole.seen import read

SIZES = ((80, 24), (60, 20), (40, 12))


def back_to(repairer: Repairer, key: str, reading: str) -> Repairer:
    """An earlier answer picked from the list and keyed again, up to the page that asks."""
    repairer.pick("replace")
    repairer.pick_key(key)
    repairer.type(reading)
    return repairer


def offered(repairer: Repairer) -> list[str]:
    """The ways on, by their words."""
    assert repairer.desk.page == "replacing" and repairer.desk.replacing is not None
    return [way.word for way in repairer.desk.replacing.ways]


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_the_page_says_how_many_answers_stop_counting_and_which(size: tuple[int, int]) -> None:
    """After parting: the height of the seat keyed again. Every answer from the ring on rests on it."""
    repairer = at("wall_3")
    before = len(repairer.bench.entries)
    rests = repairer.keyed[repairer.keyed.index("ring") :]
    back_to(repairer, "seat_depth", "1.30")
    assert len(repairer.bench.entries) == before, "nothing is written before the person has chosen"
    repairer.desk = replace(repairer.desk, columns=size[0], rows=size[1])
    page = read(repairer.desk)
    assert f"{len(rests)} answers stop counting" in page
    seen = page
    for _ in range(20):
        repairer.key("next")
        seen += read(repairer.desk)
    assert "1.30 mm in place of 1.45 mm" in seen
    for words in (
        "The ring: accept it?",
        "cut: 3 readings",
        "verify: 2 readings",
        "Wall of the ring at place 1",
    ):
        assert words in seen, words
    for words in ("dress it to 1.05 mm; the rest stays", "leave it as it was"):
        assert words in read(repairer.desk), words


def test_it_is_left_as_it_was() -> None:
    repairer = back_to(at("wall_3"), "seat_depth", "1.30")
    before = list(repairer.bench.entries)
    repairer.go_on_replacing("leave")
    assert repairer.bench.entries == before and repairer.asked == "wall_3"
    assert "left as it was" in read(repairer.desk)


def test_it_is_left_by_the_key_that_goes_back() -> None:
    repairer = back_to(at("wall_3"), "seat_depth", "1.30")
    repairer.key("previous")
    assert repairer.desk.page == "step" and repairer.step.key == "seat_depth"
    assert repairer.asked == "wall_3"


def test_an_answer_that_nothing_rests_on_is_replaced_at_once() -> None:
    repairer = back_to(at("seat_depth"), "glass_2", "35.33")
    assert repairer.asked == "seat_depth" and repairer.keyed.count("glass_2") == 2


def test_a_ring_too_high_is_dressed_and_all_else_stays() -> None:
    """1.45 high was 1.30: the ring of 1.20 is dressed to 1.05; walls and turning are not asked again."""
    repairer = back_to(at("fit_ready"), "seat_depth", "1.30")
    counted = len(repairer.keyed)
    repairer.go_on_replacing("instead")
    assert repairer.asked == "dress_lower" and "to 1.05 mm" in read(repairer.desk)
    repairer.give("done")
    assert repairer.asked == "ring_height" and "1.05 proud over" in read(repairer.desk)
    repairer.type("1.05")
    assert repairer.asked == "fit_ready"
    assert repairer.keyed[counted:] == ["seat_depth_late", "dress_lower", "ring_height"]
    repairer.on_to("empty_check")
    assert repairer.desk.job is not None
    sheet = sheet_data(repairer.desk.job, finished=False)
    assert sheet["made"]["height_mm"] == 1.05 and sheet["ring"]["height_mm"] == 1.05
    assert sheet["made"]["wall_mm"]


def test_a_further_ring_has_the_height_that_was_corrected() -> None:
    repairer = back_to(at("fit_ready"), "seat_depth", "1.30")
    repairer.go_on_replacing("instead")
    repairer.on_to("ring", {"ring_height": "1.05", "fit_outcome": "too_easy", "remake": "ring"})
    assert "high 1.05" in read(repairer.desk)


def test_a_deeper_seat_keeps_the_ring() -> None:
    repairer = back_to(at("fit_ready"), "seat_depth", "1.60")
    assert "keep this ring: 1.20 has room" in read(repairer.desk)
    repairer.go_on_replacing("instead")
    assert repairer.asked == "fit_ready"


def test_another_height_wanted_is_dressed_too() -> None:
    repairer = at("fit_ready")
    repairer.pick("usual")
    while "height_wanted" not in [key for key, _ in repairer.desk.picks[repairer.desk.offset :][:9]]:
        repairer.key("next")
    repairer.pick_key("height_wanted")
    repairer.type("1.10")
    assert "dress it to 1.10 mm" in read(repairer.desk)
    repairer.go_on_replacing("instead")
    assert repairer.asked == "dress_lower"


def counting(repairer: Repairer) -> set[str]:
    """Keys of the answers that count."""
    assert repairer.desk.walk is not None
    return {step.key for step, _ in repairer.desk.walk.done if step.kind != "mark"}


@pytest.mark.parametrize(
    ("place", "key", "value"),
    [
        ("cased_pressure", "case_bore_3", "36.43"),
        ("cased_pressure", "case_bore_3", "36.60"),
        ("cased_pressure", "glass_3", "35.31"),
        ("cased_pressure", "wall_5", "0.640"),
        ("fit_outcome", "seat_depth_late", "1.30"),
        ("fit_outcome", "height_wanted_late", "1.10"),
    ],
)
def test_an_answer_under_a_key_of_its_own_is_asked_about_too(place: str, key: str, value: str) -> None:
    """From the list of usual values and further readings: what then stops counting is said before."""
    repairer = at(place)
    before = counting(repairer)
    repairer.pick("usual")
    repairer.pick_key(key)
    repairer.type(value)
    assert offered(repairer)[-2:] == ["replace", "leave"]
    about = repairer.desk.replacing
    assert isinstance(about, Replacing)
    said = {step.key for step in about.lost}
    repairer.go_on_replacing("replace")
    assert repairer.asked in said or repairer.asked not in before
    between = {"case_bore_4": "36.43"} if value == "36.60" else {}
    repairer.on_to(place, between)
    again = {entry.key for entry in repairer.bench.entries[len(at(place).bench.entries) + 1 :]}
    assert before & again <= said and "fit_ready" in said


def test_a_late_height_that_leaves_room_is_taken_at_once() -> None:
    repairer = at("fit_outcome")
    repairer.pick("usual")
    repairer.pick_key("seat_depth_late")
    repairer.type("1.60")
    assert repairer.asked == "fit_outcome" and repairer.keyed[-1] == "seat_depth_late"


def test_another_ring_instead_of_this_one_all_the_same_is_asked_about() -> None:
    """All four walls loose, pressed all the same; then taken back from the list of answers."""
    repairer = at("wall_1")
    repairer.on_to("off_band", {f"wall_{place}": "0.565" for place in range(1, 5)})
    repairer.on_to("fit_outcome", {"off_band": "press"})
    repairer.pick("replace")
    repairer.pick_key("off_band")
    repairer.type("1")
    assert offered(repairer) == ["replace", "leave"]
    assert isinstance(repairer.desk.replacing, Replacing)
    assert {"wall_1", "ring_height", "fit_ready"} <= {step.key for step in repairer.desk.replacing.lost}


@pytest.mark.parametrize("key", ["rough_outside", "lathe_eyes"])
def test_before_the_ring_is_begun_it_is_chosen_anew(key: str) -> None:
    assert offered(back_to(at(key), "seat_depth", "1.30")) == ["replace", "leave"]


def test_on_the_lathe_it_is_turned_on_and_dressed_later() -> None:
    repairer = back_to(at("last_bore"), "seat_depth", "1.30")
    repairer.go_on_replacing("instead")
    assert repairer.asked == "last_bore"
    repairer.on_to("dress_lower", {"dress": "done"})


def test_a_pressed_ring_is_not_dressed() -> None:
    repairer = back_to(at("empty_check"), "seat_depth", "1.30")
    assert offered(repairer) == ["replace", "leave"]


def test_the_corrected_value_is_shown_and_the_first_can_be_keyed_again() -> None:
    repairer = back_to(at("fit_ready"), "seat_depth", "1.30")
    repairer.go_on_replacing("instead")
    repairer.pick("replace")
    assert dict(repairer.desk.picks)["seat_depth"].endswith(": 1.30 mm")
    repairer.pick_key("seat_depth")
    assert "answered: 1.30 mm" in read(repairer.desk)
    same = repairer.copy()
    same.type("1.30")
    assert same.desk.message == "unchanged"
    repairer.type("1.45")
    assert "1.45 mm in place of 1.30 mm" in read(repairer.desk)
    repairer.go_on_replacing("instead")
    assert repairer.asked == "fit_ready", "nothing was dressed yet: the ring has room again"


@pytest.mark.parametrize("key", ["seat_depth_late", "glass_edge_late", "height_wanted_late"])
def test_a_pressed_ring_is_not_corrected_from_the_list(key: str) -> None:
    """The ring is home and the empty case held: what limits its height late is not on the list any more."""
    repairer = at("cased_pressure")
    repairer.pick("usual")
    assert key not in [word for word, _ in repairer.desk.picks]


def test_a_ring_dressed_and_pressed_keeps_its_height() -> None:
    repairer = back_to(at("fit_ready"), "seat_depth", "1.30")
    repairer.go_on_replacing("instead")
    repairer.on_to("cased_pressure", {"ring_height": "1.05"})
    assert repairer.desk.walk is not None and repairer.desk.walk.answer("dress_lower") is not None
    assert repairer.desk.job is not None
    assert sheet_data(repairer.desk.job, finished=False)["ring"]["height_mm"] == 1.05


@pytest.mark.parametrize(("depth", "ways"), [("1.40", "keep this ring: 1.05"), ("1.20", "dress it to 0.9")])
def test_a_second_late_correction_counts_from_the_dressed_height(depth: str, ways: str) -> None:
    repairer = back_to(at("fit_ready"), "seat_depth", "1.30")
    repairer.go_on_replacing("instead")
    repairer.on_to("fit_ready", {"ring_height": "1.05"})
    back_to(repairer, "seat_depth", depth)
    assert ways in read(repairer.desk)
    repairer.go_on_replacing("instead")
    if depth == "1.40":
        assert repairer.asked == "fit_ready"
    else:
        assert repairer.asked == "dress_lower" and "It is 1.05 high" in read(repairer.desk)
        repairer.give("done")
        assert repairer.asked == "ring_height"


def test_another_gap_has_the_ring_that_is_made_judged_not_turned_again() -> None:
    repairer = back_to(at("fit_ready"), "glass_2", "35.33")
    assert "judge the ring as it is" in read(repairer.desk)
    repairer.go_on_replacing("instead")
    assert repairer.asked == "hand_wall_1"
    for place in range(1, 5):
        repairer.type("0.604")
        assert repairer.asked != "lathe_hands", place
    repairer.type("1.20")
    assert repairer.asked == "ring" and "The ring you have" in read(repairer.desk)
    repairer.give("accept")
    assert repairer.asked == "fit_ready"
    assert bore_of(repairer, 1) == pytest.approx(36.43 - 2 * 0.604, abs=0.006)


def test_plain_lines_ask_the_same_and_it_goes_on_after_a_break(tmp_path: Path) -> None:
    corrected: list[Typist | str] = [
        Hand(STRAIGHT[:-1], until="fit_ready"),
        Back("seat_depth"),
        "1.30",
        Hand((("replacing", "instead"),), until="dress_lower"),
    ]
    _, said = lines(tmp_path, corrected)
    assert "30 answers stop counting" in said and "dress it to 1.05 mm" in said
    file = str(next((tmp_path / "jobs").glob("*.toml")))
    desk, said = lines(
        tmp_path, [Hand((("dress_lower", "done"), ("ring_height", "1.05")), until="marking")], file=file
    )
    assert "Dress the ring lower, to 1.05 mm" in said
    assert desk.job is not None and desk.job.attempt == 1


def test_a_ring_that_is_in_is_judged_against_the_new_readings() -> None:
    """Pressed home and the empty case held; then a glass reading was wrong: it stays, its tests do not."""
    repairer = back_to(at("cased_pressure"), "glass_2", "35.33")
    assert offered(repairer) == ["instead", "replace", "leave"]
    assert "judge the ring that is in" in read(repairer.desk)
    counted = len(repairer.keyed)
    repairer.go_on_replacing("instead")
    assert repairer.asked == "ring"
    page = " ".join(read(repairer.desk).split())
    assert "The ring that is in: it may fit. What next?" in page and "leave it in" in page
    assert not any(text in page for text in ("on to the press", "dressed", "pressing will show", "to press"))
    repairer.give("accept")
    assert repairer.asked == "fit_outcome" and "how does it stand?" in read(repairer.desk)
    repairer.give("home")
    assert not {"fit_ready", "wall_1", "rough_outside"} & set(repairer.keyed[counted:])
    repairer.on_to("")
    assert repairer.desk.job is not None and repairer.desk.job.attempt == 1
    data = sheet_data(repairer.desk.job, finished=True)
    assert data["at_hand"]["what"] == "pressed" and len(data["made"]["wall_mm"]) == 4
    assert "in its place already; it was judged again" in " ".join("\n".join(sheet_lines(data)).split())


def test_a_ring_that_is_in_and_does_not_fit_the_new_readings_is_told_so() -> None:
    repairer = back_to(at("cased_pressure"), "case_bore_1", "36.95")
    repairer.go_on_replacing("instead")
    repairer.on_to("ring", {"case_bore_3": "36.95"})
    assert "The ring that is in: too loose" in read(repairer.desk)
    assert [one.word for one in repairer.step.choices] == ["make", "accept"]


def test_a_ring_that_would_not_go_home_is_not_judged_where_it_is() -> None:
    repairer = at("fit_outcome")
    repairer.give("too_easy")
    assert "instead" not in offered(back_to(repairer, "glass_2", "35.33"))
