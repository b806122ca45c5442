"""The list "everything else": its numbers on every page, and what asks before it acts."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from bench.desk.desk import Desk
from bench.desk.effects import Append
from bench.desk.moving import open_list
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from bench.sheet.workshop import shop_copy
from screens.look import Look
from screens.view import view
from tests.screens.album import album
from tests.screens.keying import at_size
from tests.whole.hands import lines
from tests.whole.places import at
from tests.whole.repairer import Repairer, fresh
from tests.whole.script import Hand
from tests.whole.scripts import STRAIGHT
from tests.whole.seen import read

TABLE = {
    1: "why this is asked",
    2: "usual values",
    3: "replace an earlier answer",
    4: "the sheet",
    5: "write a note",
    6: "the piece is spoiled",
    7: "the keys",
    8: "the list of jobs",
    9: "leave",
    11: "take back the last answer",
    12: "take back the last note",
    13: "write the sheet",
    14: "save a complete copy",
    15: "day or night",
    16: "bell",
    17: "a gauge sends",
    18: "my shop",
    21: "only jobs of one stage",
    22: "look at a sample",
    23: "stop the questions",
    24: "only jobs with one result",
    25: "only watches with",
    26: "the manual",
    27: "the drawer",
    28: "a new job like an old one",
}
"""What a number means, whatever page the list lies over: written here once more, by hand."""


def shown(repairer: Repairer | Desk, *, rows: int = 40, columns: int = 100) -> dict[int, str]:
    """The entries as they stand on the page: number and text."""
    desk = repairer if isinstance(repairer, Desk) else repairer.desk
    lines = [
        "".join(text for text, _ in spans) for spans in view(at_size(desk, columns, rows), Look("ascii"))
    ]
    found = (re.match(r"[ -]([ 12]\d)  (.*?)\s*$", line) for line in lines)
    return {int(one[1]): one[2] for one in found if one}


def entries_asked(repairer: Repairer) -> int:
    """How many entries were written."""
    return len(repairer.bench.entries)


def test_a_number_means_the_same_over_every_page() -> None:
    met = set()
    for heading, desk in album().items():
        if desk.page in ("list", "pick", "damage", "left", "text") or desk.line.text or desk.line.void:
            continue
        listed = shown(open_list(desk)[0])
        assert listed.keys() == TABLE.keys(), heading
        for number, text in listed.items():
            assert text.removeprefix("not now: ").startswith(TABLE[number]), (heading, number, text)
        met.add(desk.page)
    assert {"step", "jobs", "sheet", "account"} <= met, met


@pytest.mark.parametrize("rows", [12, 20, 24, 43])
def test_every_entry_can_be_seen_in_every_window(rows: int) -> None:
    repairer = at("drill")
    seen: dict[int, str] = {}
    repairer.key("list")
    for _ in range(3):
        seen |= shown(repairer, rows=rows, columns=80 if rows > 12 else 40)
        repairer.key("next")
    assert seen.keys() == TABLE.keys()


def test_what_makes_no_sense_now_is_said_and_does_nothing() -> None:
    repairer = fresh()
    repairer.key("list")
    off = [number for number, text in shown(repairer).items() if text.startswith("not now: ")]
    assert 6 in off and 12 in off and 21 in off and 1 not in off
    for number in off:
        other, before = repairer.copy(), entries_asked(repairer)
        other.type(str(number))
        assert other.desk.page == "list" and other.desk.message.startswith("not now: "), number
        assert entries_asked(other) == before


def test_two_digits_are_read_on_the_list_alone() -> None:
    repairer = at("drill")
    repairer.type("11")
    assert "two digits where one is asked" in repairer.desk.message or repairer.desk.line.void
    other = at("drill")
    other.key("list")
    other.type("10")
    assert other.desk.message == "there is no entry 10"


def test_a_spoiled_piece_asks_first_and_says_what_stops_counting() -> None:
    repairer = at("drill")
    before = entries_asked(repairer)
    repairer.key("list")
    repairer.type("6")
    assert entries_asked(repairer) == before and repairer.desk.page == "replacing"
    page = "\n".join("".join(text for text, _ in spans) for spans in view(repairer.desk, Look("ascii")))
    assert "ring 1 is given up" in page and "stop counting" in page and "cut:" in page
    left = repairer.copy()
    left.type("1")
    assert entries_asked(left) == before and left.asked == "drill"
    repairer.type("2")
    assert repairer.desk.job is not None and repairer.desk.job.attempt == 2


def test_nothing_is_taken_back_from_a_finished_job_unasked() -> None:
    repairer = at("drill").on_to("")
    before = entries_asked(repairer)
    repairer.key("list")
    repairer.type("11")
    assert entries_asked(repairer) == before and repairer.desk.page == "replacing"
    left = repairer.copy()
    left.type("1")
    assert left.desk.page == "sheet" and entries_asked(left) == before
    repairer.type("2")
    assert repairer.bench.entries[-1].kind == "undo" and repairer.asked
    assert "Taken back: " in read(repairer.desk)


def test_a_page_of_text_is_left_by_enter() -> None:
    for stand in (at("drill"), at("drill").on_to("")):
        page, asked, before = stand.desk.page, stand.asked, entries_asked(stand)
        stand.key("list")
        stand.type("5")
        stand.type("2")
        assert stand.desk.page == "text"
        stand.key("enter")
        assert (stand.desk.page, stand.asked, entries_asked(stand)) == (page, asked, before)


def noted(repairer: Repairer, whose: str, text: str) -> None:
    """Write a note: 1 for the workshop, 2 for the customer too."""
    repairer.key("list")
    repairer.type("5")
    repairer.type(whose)
    for letter in text:
        repairer.letter(letter)
    repairer.key("enter")


def test_a_note_for_the_workshop_never_reaches_the_customer() -> None:
    repairer = at("drill")
    noted(repairer, "1", "crown stiff")
    noted(repairer, "2", "strap is worn")
    repairer.on_to("")
    assert repairer.desk.job is not None
    data = sheet_data(repairer.desk.job, finished=True)
    text = "\n".join(sheet_lines(data))
    assert "strap is worn" in text and "crown stiff" not in text
    assert any("crown stiff" in " ".join(part.sentences) for part in shop_copy(data, (1.0, 0.0)))


def test_a_note_is_taken_back() -> None:
    repairer = at("drill")
    noted(repairer, "2", "strap is worn")
    repairer.key("list")
    repairer.type("12")
    assert repairer.desk.job is not None and not repairer.desk.job.notes and repairer.asked == "drill"
    written = [effect for effect in repairer.effects if isinstance(effect, Append)]
    assert written[-1].kind == "undo"
    assert "Taken back: strap is worn" in read(repairer.desk)


def test_what_is_taken_back_is_said_as_it_was_asked_and_answered(tmp_path: Path) -> None:
    """On the page that is returned to, and in plain lines."""
    repairer = at("seat_depth")
    repairer.key("list")
    repairer.type("11")
    said = "Taken back: Glass, outside, at 3 o'clock: 35.30 mm"
    assert repairer.asked == "glass_2" and said in " ".join(read(repairer.desk).split())
    _, told = lines(tmp_path, [Hand(STRAIGHT, until="seat_depth"), "*", "11"])
    assert f"= {said}" in told
