"""The O-ring, a kind of seal that is chosen: whole jobs, turned down, of a wrong size, leaked, plain."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import partial
from pathlib import Path

import pytest

from bench.command import BAD_INPUT, DONE
from bench.job.job import replay
from bench.paper.page import Paper
from bench.seals import SEALS
from bench.seals.oring.size_steps import grease_rules, greased_with
from bench.seals.oring.size_words import follows, size_line
from bench.seals.oring.text import recorded
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from ringwright import main
from rules.lengths import INCH, speaking
from rules.oring.housing import FACE, Housing, Length
from rules.oring.judging import OringQuestion
from rules.oring.sizing import oring_sizing
from rules.tables import rubbers
from screens.pictures import oring_in_groove
from tests.seals.test_gasket import sheet, shown, walked
from tests.whole.hands import lines
from tests.whole.repairer import Repairer, fresh
from tests.whole.script import Hand

CHOSEN = {"seal": "oring"}
OF_ANOTHER = re.compile(r"gasket|spindle|\b(?<!O-)rings\b", re.I)
AT_THE_CROWN = {
    "oring_place": "crown",
    "oring_inner_1": "1.990",
    "oring_inner_2": "1.990",
    "oring_outer_1": "3.01",
    "oring_outer_2": "3.01",
    "oring_other_1": "0.90",
    "oring_other_2": "0.90",
}
THIS_CORD = {"oring_cord_1": "0.602", "oring_cord_2": "0.602", "oring_inside": "1.84"}


SAID = (
    "over all tolerances 9 to 28 (15 to 32 % works)",
    "fills 70 % of its groove, 86 at worst (85 at most)",
    "CHECK  the groove is too full at worst tolerances",
    "cord to 0.05 by our judgement, closer than ISO 3601-1",
    "cords that work: 0.71 (thinner: the squeeze is too small) to 0.83 (thicker: the groove is too full)",
    "squeeze left after years 15.1 %, then at -10 C 14.3",
    "not to be had? next: 25.50 x 0.75",
    "it would help: measure several and take one that reads 25.88 mm inside, cord 0.77 mm",
)
"""On the page of the choice."""


def begun() -> Repairer:
    """A repairer who has said that an O-ring is renewed."""
    repairer = fresh()
    repairer.answer()
    repairer.pick("usual")
    repairer.pick_key("seal")
    repairer.give("oring")
    return repairer


def test_a_whole_job_under_the_back() -> None:
    repairer, stages, pages = begun(), [], ""
    while repairer.asked:
        pages += shown(repairer)
        step = repairer.step
        stages.append(step.stage)
        if step.key == "oring_accepted":
            said = " ".join((*step.say, *step.consequence))
            assert [words for words in SAID if words not in said] == []
        repairer.answer()
    assert "oring_beside" not in walked(repairer), "nothing rubs there"
    assert list(dict.fromkeys(stages)) == ["measure", "size", "cut", "verify"]
    assert not OF_ANOTHER.search(pages)
    data = sheet(repairer)
    assert data["seal"] == "oring" and data["finished"] and data["retest"]
    assert (data["oring"]["inside_mm"], data["oring"]["cord_mm"]) == (26.0, 0.75)
    assert data["groove"]["lies"] == "flat" and data["put_in"]["outcome"] == "home"
    assert data["measured_oring"]["cord_mm"] == [0.756, 0.758]
    text = " ".join("\n".join(sheet_lines(data)).split())
    assert "Chosen: 26.00 inside, cord 0.75 mm (to 0.05 by our judgement" in text
    assert "made in this workshop" not in text and not any("original" in one for one in data["cautions"])


def test_a_whole_job_in_plain_lines_opened_again(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    lines(tmp_path, [Hand({**CHOSEN, **AT_THE_CROWN}, until="oring_beside")])
    file = str(next((tmp_path / "jobs").glob("00001*.toml")))
    sizing = lines(tmp_path, [Hand({"oring_beside": "2.030"}, until="oring_taken")], file=file)[1]
    assert "CHECK  worn by 0.040 mm where the ring runs" in sizing and "(8 to 25 % works)" in sizing
    desk, later = lines(tmp_path, [Hand(THIS_CORD)], file=file)
    assert desk.walk is not None and desk.walk.open is None and not OF_ANOTHER.search(later)
    printed: list[str] = []
    plain = Paper.plain

    def remembered(paper: Paper, text: str) -> str:
        printed.append(text)
        return plain(paper, text)

    monkeypatch.setattr(Paper, "plain", remembered)
    words = ["sheet", "1", "--pdf", str(tmp_path / "a.pdf"), "--slip", str(tmp_path / "b.pdf")]
    assert main([*words, "--folder", str(tmp_path)]) == DONE
    paper = "\n".join(printed)
    assert "section of the O-ring's cord" in paper and "cord 0.602" in paper
    assert "O-ring: nitrile rubber (NBR), between crown and tube" in paper
    capsys.readouterr()
    assert main(["plan", "1", "--folder", str(tmp_path)]) == BAD_INPUT
    assert "an O-ring is chosen from stock; nothing is turned" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("given", "asked", "says"),
    [
        ({"oring_place": "crown", "oring_held": "washer"}, "oring_not_here", "not to be renewed. New crown."),
        ({"oring_place": "pusher", "oring_held": "moulded"}, "oring_not_here", "New pusher."),
        ({"oring_place": "crown", "oring_state": "worn"}, "oring_not_here", "New tube, then measure again."),
        ({"oring_goes_by": "old"}, "oring_clue", "stock cords near it: 0.50, 0.55"),
        ({"oring_other_1": "2.00", "oring_other_2": "2.00"}, "oring_none_fits", "wants a cord of"),
    ],
)
def test_what_a_new_ring_does_not_cure(given: Mapping[str, str], asked: str, says: str) -> None:
    repairer = begun().on_to(asked, given)
    assert says in shown(repairer)
    repairer.give("closed")
    data = sheet(repairer)
    assert data["finished"] and data["ended"] == f"{asked}: closed"
    assert SEALS["oring"].endings[asked, "closed"] in "\n".join(sheet_lines(data))


def test_a_stock_size_is_ordered_in_mm_where_inch_is_spoken() -> None:
    housing = Housing(lies=FACE, inner=Length(mm=26.5), outer=Length(mm=28.6), other=Length(mm=0.6))
    found = oring_sizing(OringQuestion(housing=housing, rubber="nbr"))
    with speaking(INCH):
        assert "inside 1.0236, cord 0.0295 (in), nitrile" in size_line(found)
        assert "sold as 26.00 x 0.75 mm" in size_line(found)
        assert any("next: 25.50 x 0.75 mm (" in one for one in follows(found))
    assert "sold as" not in size_line(found)


def test_an_old_ring_is_a_clue_and_the_groove_is_measured_after_all() -> None:
    repairer = begun().on_to("oring_clue", {"oring_goes_by": "old"})
    repairer.give("groove")
    repairer.give("groove")
    assert repairer.asked == "oring_inner_1"


def test_a_wrong_size_is_not_put_in_and_one_given_up_is_followed_by_another() -> None:
    repairer = begun().on_to("oring_off_its_band", {"oring_cord_1": "0.850", "oring_cord_2": "0.850"})
    assert "the groove is too full" in shown(repairer)
    repairer.give("another")
    assert repairer.asked == "oring_accepted" and "O-ring 2 size" in shown(repairer)
    repairer.on_to("oring_taken").pick("spoiled")
    assert repairer.asked == "oring_accepted" and sheet(repairer)["attempt"] == 3
    repairer.on_to("oring_after", {"oring_laid": "cut"})
    assert "Cords that work: 0.71 to 0.83 mm." in shown(repairer)
    repairer.give("measure")
    repairer.answer()
    assert repairer.asked == "oring_lies"
    repairer.on_to("")
    data = sheet(repairer)
    gone = [one["outcome"] for one in data["attempts"]]
    assert gone == ["off_its_band", "spoiled", "cut", "home"]
    text = " ".join(" ".join(sheet_lines(data)).split())
    assert "O-ring 1 before it, planned cord 0.75 mm: not put in, as measured it did not meet" in text


def test_a_reading_that_was_replaced_is_told_from_those_that_stand() -> None:
    repairer = begun().on_to("oring_taken", {"oring_inner_1": "26.520", "oring_inner_2": "26.530"})
    repairer.pick("replace")
    repairer.pick_key("oring_inner_1")
    repairer.type("26.530")
    repairer.go_on_replacing("replace")
    repairer.on_to("")
    one = next(one for one in sheet(repairer)["oring_readings"] if one["what"] == "oring_inner")
    assert one["replaced"] == ["26.520 mm"] and one["as_keyed"] == ["26.520 mm", "26.530 mm", "26.530 mm"]
    text = " ".join(line for part in recorded(sheet(repairer)) for line in part.sentences)
    assert "; keyed first and replaced: 26.520 mm." in text


def test_a_bad_one_keyed_over_holds_until_it_is_said() -> None:
    repairer = begun().on_to("oring_after", {"oring_laid": "rolled"})
    repairer.pick("replace")
    repairer.pick_key("oring_laid")
    repairer.give("home")
    assert repairer.asked == "oring_corrected" and "another O-ring was put in" in shown(repairer)
    assert sheet(repairer)["put_in"]["outcome"] == "rolled"


def test_one_that_leaks_at_the_crown_is_followed_by_another() -> None:
    repairer = begun().on_to("oring_cord_1", AT_THE_CROWN).on_to("empty_result", THIS_CORD)
    repairer.give("fail")
    repairer.on_to("empty_found", {"hunt_opened_beside_stem": "none", "hunt_own_stem": "dirt"})
    page = shown(repairer)
    assert "a new O-ring, groove and ring clean" in page and "take another O-ring" in page
    repairer.give("ring")
    assert repairer.asked == "oring_leak_cause"
    repairer.on_to("oring_cord_1").on_to("renewed", THIS_CORD)
    beside = shown(repairer)
    assert "none but the O-ring" in beside and "back and pushers" in beside and "crown" not in beside
    repairer.on_to("")
    data = sheet(repairer)
    assert data["attempt"] == 2 and [test["result"] for test in data["tests"]] == ["pass", "pass"]


def test_the_grease_that_a_rubber_takes() -> None:
    said = {key: greased_with(one) for key, one in rubbers().items()}
    assert said == {
        "nbr": "silicone grease",
        "fkm": "silicone grease",
        "vmq": "grease without silicone",
        "epdm": "silicone grease, nothing mineral",
    }
    rules = "No silicone grease on silicone rubber (VMQ); no mineral grease, oil or benzine on EPDM rubber."
    assert grease_rules() == rules


def test_what_knows_the_ring_alone_is_told_nothing_of_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """A version that has no other kind opens such a file: a job whose ring nobody has begun."""
    repairer = begun().on_to("oring_taken")
    repairer.pick("spoiled")
    repairer.on_to("")
    entries, ring = tuple(repairer.bench.entries), SEALS["ring"]
    monkeypatch.setattr("bench.seals.SEALS", {"ring": ring})
    own = [one for one in entries if not one.key.startswith("oring_")]
    assert not {one.key for one in own} & {"attempt", "spoiled", "measure_again", "ring", "fit_outcome"}
    job = replay(repairer.bench.head, own)
    assert job.attempt == 1 and ring.data(job) == ring.data(replay(repairer.bench.head, ()))
    assert not sheet_data(job, finished=False)["fitted"]


def test_the_picture_squeezes_the_ring_and_lays_it_where_the_water_presses_it() -> None:
    drawn = partial(oring_in_groove, depth_mm=0.6, width_mm=1.04, cord_mm=0.74, rows=11, style="ascii")
    lines_ = drawn(on_the_wall=True, columns=40)
    middle = lines_[5]
    assert lines_[-1].strip() == "cord 0.74 in 0.60 x 1.04" and max(map(len, lines_)) <= 40
    wall = middle.index("|", middle.index("|") + 1)
    assert middle.index("#") - wall == 1 and " |" in middle, "on the inner wall, with room beside it"
    free = drawn(columns=40)[5]
    assert free.index("#") - wall > 1
