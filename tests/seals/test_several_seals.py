"""Several seals of one watch in one job: each under keys of its own, one after the other, tested once."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from bench.command import BAD_INPUT, DONE
from bench.edits.meant import as_meant
from bench.file.entry import Entry, Head
from bench.found_by import found_by
from bench.job.job import Job, replay
from bench.job.kept import Misfit
from bench.job.mask import Mask
from bench.job.steps import Step
from bench.past.drawer import all_of, rings_of
from bench.past.shelf import finished
from bench.seals.ring.drawer import is_over
from bench.seals.several import first_of, nth_of, seals_of
from bench.sheet.customer_text import customer_lines
from bench.sheet.data import sheet_data
from bench.sheet.slip import slip
from bench.sheet.text import sheet_lines
from bench.sheet.workshop import shop_copy
from bench.shop.shop import built_in
from bench.stages.keyed_in import keyed
from ringwright import main
from tests.independent.promised import unlike
from tests.seals.test_gasket import on_paper, sheet, shown, walked
from tests.seals.test_oring import AT_THE_CROWN, THIS_CORD
from tests.whole.hands import lines
from tests.whole.repairer import Repairer, fresh
from tests.whole.script import Hand
from tests.whole.seen import read

SECOND = "seal_2_seal"
HEAD = Head(format=1, id="00000000", job="85", made_by="test")


def of(number: int, given: Mapping[str, str]) -> dict[str, str]:
    """Answers about a further seal."""
    return {f"seal_{number}_{key}": answer for key, answer in given.items()}


CROWN = of(2, {**AT_THE_CROWN, "oring_beside": "2.000"})
CORD = of(2, THIS_CORD)


def chosen(repairer: Repairer, kind: str, number: int = 2) -> Repairer:
    """A repairer who has said from the list that a further seal is made."""
    repairer.pick("usual")
    repairer.pick_key(f"seal_{number}_seal")
    repairer.give(kind)
    return repairer


@cache
def _ring_in() -> Repairer:
    return fresh().on_to("empty_check")


def ring_in() -> Repairer:
    """A ring put in, nothing tested yet."""
    return _ring_in().copy()


def begun_with(kind: str) -> Repairer:
    """A repairer who has said that another kind is made first."""
    repairer = fresh()
    repairer.answer()
    repairer.pick("usual")
    repairer.pick_key("seal")
    repairer.give(kind)
    return repairer


def job_of(repairer: Repairer) -> Job:
    """The job on the desk."""
    assert repairer.desk.job is not None
    return repairer.desk.job


def test_a_ring_and_an_oring_are_made_and_tested_once() -> None:
    repairer = ring_in()
    assert sheet(repairer)["further_seals"] == []
    chosen(repairer, "oring")
    kinds = [one.word for one in walk_step(repairer, SECOND).choices]
    assert kinds == ["none", "gasket", "oring"], "no second seal for the glass"
    repairer.on_to("seal_2_oring_cord_1", CROWN)
    assert "seal 2, O-ring verify" in shown(repairer)
    repairer.pick("spoiled")
    assert repairer.asked == "seal_2_oring_accepted" and "O-ring 2 size" in shown(repairer)
    assert job_of(repairer).newest("attempt") is None, "the ring is not begun again"
    repairer.pick("undo")
    assert "O-ring 1 was given up as spoiled; O-ring 2 is not begun" in repairer.desk.message
    repairer.pick("spoiled")
    repairer.on_to("renewed", CORD)
    page = shown(repairer)
    assert "none but the seals of this job" in page and "back, tube and pushers" in page
    assert "crown" not in page
    repairer.on_to("")
    data = sheet(repairer)
    (oring,) = data["further_seals"]
    assert (data["seal"], data["attempt"], data["fitted"]) == ("ring", 1, True)
    assert (oring["number"], oring["seal"], oring["closes"], oring["attempt"]) == (2, "oring", "crown", 2)
    assert [one["outcome"] for one in oring["attempts"]] == ["spoiled", "home"]
    assert oring["fitted"] and oring["fitted_at"] and oring["groove"]["place"] == "crown"
    assert [test["result"] for test in data["tests"]] == ["pass", "pass"]
    made = [one["seal"] for one in data["seals_of_watch"] if one["known"] == "this_job"]
    assert made == ["glass", "crown"]
    said = dict(parts(sheet_lines(data)))
    assert "O-ring between crown and tube" in said["Measured (seal 2: O-ring, crown)"]
    assert "Measured: cord 0.602, 0.602 mm." in said["Taken and put in (seal 2: O-ring, crown)"]
    told = "\n".join(customer_lines(data, columns=400))
    assert told.index("A plastic ring") < told.index("A further seal of this watch: crown.")
    assert "O-ring from stock was fitted: nitrile rubber (NBR), between crown and tube" in told
    assert "not an original part" in told, "the ring was made here"
    own = [part.heading for part in shop_copy(data, (1.0, 0.0))]
    assert "Readings as they were keyed (seal 2: O-ring, crown)" in own


def parts(text: tuple[str, ...]) -> list[tuple[str, str]]:
    """Headings of a sheet with what stands under them."""
    blocks = "\n".join(text).split("\n\n")
    return [(block.partition("\n")[0], " ".join(block.partition("\n")[2].split())) for block in blocks]


def test_a_seal_put_in_after_a_test_makes_it_be_done_again_and_none_undoes_another() -> None:
    repairer = chosen(begun_with("oring").on_to("empty_check"), "oring")
    offered = [one.word for one in walk_step(repairer, "seal_2_oring_place").choices]
    assert offered == ["crown", "tube", "pusher"], "the back is closed"
    repairer.on_to("seal_2_oring_cord_1", CROWN).on_to("renewed", CORD)
    assert [one["counts"] for one in sheet(repairer)["tests"]] == [True]
    chosen(repairer, "ring", 3).on_to("empty_check")
    assert [one["counts"] for one in sheet(repairer)["tests"]] == [False]
    before = set(walked(repairer))
    repairer.pick("replace")
    repairer.pick_key("seal_2_oring_outer_2")
    repairer.give("3.00")
    count = len(repairer.bench.entries)
    assert repairer.asked == "seal_2_oring_accepted", "only that O-ring is gone through again"
    repairer.on_to("empty_pressure", CORD)
    again = {entry.key for entry in repairer.bench.entries[count:]}
    assert again and all(key.startswith("seal_2_") for key in again), again
    assert {key for key in before if not key.startswith("empty_")} <= set(walked(repairer))


def walk_step(repairer: Repairer, key: str) -> Step:
    """A step of the walk."""
    assert repairer.desk.walk is not None
    step = repairer.desk.walk.step(key)
    assert step is not None
    return step


def test_a_leak_at_the_second_seal_leads_to_another_one_of_it() -> None:
    repairer = ring_in().on_to("renewed")
    repairer.give("each")
    repairer.give("this_job")
    assert repairer.desk.at == SECOND, "said of each seal: it is made in this job"
    repairer.give("gasket")
    covered = {
        **{f"hunt_{one}": "same" for one in ("back", "crown_positions", "joint_glass", "back_seal")},
        "hunt_opened": "back",
        "hunt_joint_back": "tight",
        "empty_result": "fail",
    }
    repairer.on_to("empty_found", covered)
    assert [one.word for one in repairer.step.choices[:2]] == ["seal_2_ring", "seal_2_measure"]
    assert "make another gasket: back" in shown(repairer)
    repairer.give("seal_2_ring")
    assert repairer.asked == "seal_2_gasket_leak_cause"
    repairer.answer()
    assert repairer.asked == "seal_2_gasket_accepted" and "gasket 2 size" in shown(repairer)
    crown = {
        "empty_result": "fail",
        "hunt_opened": "crown",
        "hunt_crown_positions": "changes",
        "hunt_crown_seal": "cannot",
    }
    repairer.on_to("empty_found", crown)
    assert repairer.step.choices[0].word == "hand_back" and "as a further seal of this job" in shown(repairer)
    repairer.give("here")
    repairer.give("oring")
    repairer.on_to("seal_3_oring_not_here", of(3, {"oring_place": "crown", "oring_held": "washer"}))
    assert "close the job" not in shown(repairer)
    repairer.give("closed")
    assert repairer.asked == "empty_found", "the job goes on without it"
    repairer.give("seen_to" if repairer.step.choice("seen_to") else "test")
    repairer.on_to("")
    data = sheet(repairer)
    gasket, oring = data["further_seals"]
    assert [(one["outcome"], one["leak_found"]) for one in gasket["attempts"]] == [
        ("home", "ring"),
        ("home", "test"),
    ]
    assert [one["leak_found"] for one in data["attempts"]] == ["test"] and data["attempt"] == 1
    assert (oring["ended"], oring["ended_because"]) == ("oring_not_here: closed", "oring_held: washer")
    assert data["ended"] is None and not oring["fitted"]
    assert [test["result"] for test in data["tests"]] == ["fail", "pass", "pass"]
    assert [test["stands"] for test in data["tests"]] == [False, True, True]
    text = dict(parts(sheet_lines(data, columns=400)))["Seal 3: O-ring, crown"]
    assert text.startswith("Not renewed in this job: the O-ring is not to be renewed by itself. The reason:")
    told = " ".join("\n".join(customer_lines(data, columns=400)).split())
    assert "Not renewed, though looked at: crown. The reason: the seal lies under a washer" in told


def test_two_gaskets_and_what_knows_one_seal_alone_is_told_of_the_first() -> None:
    repairer = begun_with("gasket").on_to("empty_check", {"gasket_joint": "glass_thread"})
    chosen(repairer, "gasket")
    repairer.on_to("seal_2_gasket_laid", {"seal_2_gasket_joint": "back_screws"})
    repairer.pick("spoiled")
    repairer.on_to("")
    data = sheet(repairer)
    assert (data["room"]["closes"], data["further_seals"][0]["closes"]) != ("back", "glass")
    made = [one["seal"] for one in data["seals_of_watch"] if one["known"] == "this_job"]
    assert made == ["glass", "back"]
    entries, head = tuple(repairer.bench.entries), repairer.bench.head
    alone = sheet_data(replay(head, kept(entries)), finished=True)
    about = ("attempt", "seal", "room", "gasket", "made_gasket", "laid", "attempts", "gasket_readings")
    assert {key: alone[key] for key in about} == {key: data[key] for key in about}
    assert alone["further_seals"] == [] and alone["fitted_at"] == data["fitted_at"]


def kept(entries: tuple[Entry, ...]) -> list[Entry]:
    """The entries without those about a further seal."""
    return [one for one in entries if not re.match(r"seal_\d_", one.key)]


def test_a_ring_that_is_turned_second_asks_its_own_checks() -> None:
    repairer = begun_with("oring").on_to("empty_check", AT_THE_CROWN | THIS_CORD | {"oring_beside": "2.000"})
    chosen(repairer, "ring")
    repairer.on_to("seal_2_part")
    assert "seal_2_lathe_hands" in walked(repairer) and "lathe_hands" not in walked(repairer)
    assert repairer.step.guarded_by and all(key.startswith("seal_2_") for key in repairer.step.guarded_by)
    repairer.on_to("")
    job = job_of(repairer)
    first, second = seals_of(job)
    assert (first.seal.word, second.seal.word, second.closes) == ("oring", "ring", "glass")
    assert second.in_place and second.seal.past(second.job) and not first.seal.past(first.job)
    assert sheet(repairer)["further_seals"][0]["made"]["wall_mm"]
    assert first_of(job).job.attempt == nth_of(job, 2).job.attempt == 1


def test_in_plain_lines_left_in_the_second_seal_and_gone_on_with(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    second = {SECOND: "oring", **CROWN}
    lines(tmp_path, [Hand(second, until="seal_2_oring_cord_1")])
    file = str(next((tmp_path / "jobs").glob("00001*.toml")))
    desk, _ = lines(tmp_path, [Hand((), until="seal_2_oring_cord_1")], file=file)
    assert desk.walk is not None and (desk.walk.number, desk.walk.seal) == (2, "O-ring")
    desk, _ = lines(tmp_path, [Hand(CORD)], file=file)
    assert desk.walk is not None and desk.walk.open is None
    capsys.readouterr()
    assert main(["sheet", file, "--json", "--folder", str(tmp_path)]) == DONE
    data = json.loads(capsys.readouterr().out)
    assert unlike("sheet", data) == [] and data["further_seals"][0]["closes"] == "crown"
    printed = on_paper(monkeypatch)
    pdf = ["--pdf", str(tmp_path / "a.pdf"), "--slip", str(tmp_path / "b.pdf"), "--folder", str(tmp_path)]
    assert main(["sheet", file, "--shop", *pdf]) == DONE
    paper = "\n".join(printed)
    assert "section of the O-ring's cord" in paper and "O-ring: nitrile rubber (NBR), between crown" in paper
    assert main(["plan", file, "--folder", str(tmp_path)]) == DONE
    assert main(["plan", file, "--seal", "2", "--folder", str(tmp_path)]) == BAD_INPUT
    assert "another seal of it is turned: --seal 1" in capsys.readouterr().err
    assert main(["plan", file, "--seal", "4", "--folder", str(tmp_path)]) == BAD_INPUT
    assert "its seals are 1 to 2" in capsys.readouterr().err
    assert main(["jobs", "--json", "--folder", str(tmp_path)]) == DONE
    (row,) = json.loads(capsys.readouterr().out)
    assert row["attempt"] == 1


def test_a_mark_of_a_further_seal_changed_by_hand_is_read_as_it_is_meant() -> None:
    def meant(key: str) -> str:
        mark = Entry(n=1, at="2026-03-02T08:00:00+00:00", kind="mark", key=key, value="O-ring 2")
        return as_meant(HEAD, (), mark, built_in(), set()).key

    assert meant("seal_2_Oring attempt") == "seal_2_oring_attempt" and meant("Sitting") == "sitting"
    for wrong in ("seal_2_gone", "seal_2_sitting", "seal_9_attempt", "seal_2_learned"):
        with pytest.raises(Misfit) as said:
            meant(wrong)
        assert "seal_" not in str(said.value)


LEAKS_AT_THE_CROWN = {
    "empty_result": "fail",
    "hunt_opened": "crown",
    "hunt_crown_positions": "changes",
}
LEFT_AT_THE_CROWN = of(2, {"oring_place": "crown", "oring_held": "washer"})


@cache
def _oring_second() -> Repairer:
    return chosen(ring_in(), "oring").on_to("empty_check", {**CROWN, **CORD})


def counting(repairer: Repairer) -> list[bool]:
    """Of each test on the sheet, whether it counts."""
    return [one["counts"] for one in sheet(repairer)["tests"]]


def test_a_pass_counts_no_more_once_another_joint_was_opened_even_where_it_is_left() -> None:
    repairer = ring_in().on_to("renewed")
    assert counting(repairer) == [True]
    chosen(repairer, "oring")
    assert counting(repairer) == [False], "its joint is open"
    repairer.pick("undo")
    assert counting(repairer) == [True] and repairer.asked == "renewed"
    chosen(repairer, "oring").on_to("seal_2_oring_not_here", LEFT_AT_THE_CROWN)
    repairer.give("closed")
    assert repairer.asked == "empty_pressure", "tested again"
    repairer.on_to("")
    assert counting(repairer) == [False, True, True]
    chosen(repairer, "gasket", 3)
    assert counting(repairer) == [False, False, False] and sheet(repairer)["retest"] is None


def test_a_search_goes_on_where_the_further_seal_it_led_to_came_to_nothing() -> None:
    repairer = _oring_second().copy().on_to("empty_found", LEAKS_AT_THE_CROWN)
    repairer.give("seal_2_ring")
    assert repairer.asked == "seal_2_oring_leak_cause"
    repairer.answer()
    repairer.pick("replace")
    repairer.pick_key("seal_2_oring_held")
    repairer.give("washer")
    repairer.open()
    assert repairer.asked == "seal_2_oring_not_here"
    repairer.give("closed")
    assert repairer.asked == "empty_found", "neither over nor asked about another kind"
    assert "seal_2_ring" not in [one.word for one in repairer.step.choices]
    (oring,) = sheet(repairer)["further_seals"]
    assert oring["ended"] == "oring_not_here: closed" and not oring["fitted"]


def test_one_that_was_in_and_is_left_after_all_is_said_to_be_left() -> None:
    repairer = _oring_second().copy()
    assert sheet(repairer)["further_seals"][0]["fitted"]
    repairer.pick("replace")
    repairer.pick_key("seal_2_oring_held")
    repairer.give("washer")
    repairer.open()
    repairer.give("closed")
    data = sheet(repairer)
    (oring,) = data["further_seals"]
    assert oring["ended"] and not oring["fitted"] and oring["fitted_at"] is None
    assert [one["seal"] for one in data["seals_of_watch"] if one["known"] == "this_job"] == ["glass"]
    assert "Not renewed, though looked at: crown." in "\n".join(customer_lines(data, columns=400))


def test_a_test_is_early_by_the_seal_that_is_in_not_by_one_that_was_left() -> None:
    repairer = chosen(ring_in(), "oring").on_to("seal_2_oring_laid", {**CROWN, **CORD})
    repairer.give("proud")
    repairer.give("hand_back")
    repairer.on_to("")
    data = sheet(repairer)
    assert [one["early"] for one in data["tests"]] == [True, True] and data["retest_soon"]
    found = found_by(tuple(repairer.bench.entries))
    assert found["retest"] == "2026-03-03", "the list says the next day too"
    papers = [one.sentence for one in slip(data)] + list(customer_lines(data, columns=400))
    assert not [line for line in papers if "O-ring" in line], "no paper tells of one that is not in"
    assert "  Not renewed, though looked at: crown." in papers


def test_a_joint_closed_by_another_seal_since_is_asked_for_again() -> None:
    repairer = begun_with("gasket").on_to("empty_check", {"gasket_joint": "glass_thread"})
    chosen(repairer, "gasket").on_to("empty_check", {"seal_2_gasket_joint": "back_screws"})
    repairer.pick("replace")
    repairer.pick_key("gasket_joint")
    repairer.give("back_screws")
    repairer.on_to("seal_2_gasket_joint")
    assert {one.word for one in repairer.step.choices} == {"glass_thread", "glass_screws"}


def test_a_ring_made_second_is_learned_from_and_leaves_its_bar(tmp_path: Path) -> None:
    first = {"seal": "oring", **AT_THE_CROWN, "oring_beside": "2.000", **THIS_CORD}
    lines(tmp_path, [Hand({**first, SECOND: "ring"})])
    data = next((tmp_path / "jobs").glob("00001*.toml")).read_bytes()
    (ring,) = json.loads(finished(data)[2]["rings"])
    assert ring["job"] == "1" and ring["outcome"] == "home"
    for look in (all_of, rings_of):
        book = json.loads(look(data)[2]["drawer"])
        assert book["bar"]["left_mm"] > 0 and book["lying"] == [] and book["taken"] == []
    job = replay(HEAD, [Entry(n=1, at="", kind="answer", key="hand_back", value=("done", "stands over"))])
    assert is_over(nth_of(job, 2).job), "what lies there of a further seal is free once the job is over"


def test_a_length_of_a_further_ring_is_keyed_like_that_of_the_first() -> None:
    shop = replace(built_in(), works_in="inch")
    for key in ("bore_wanted", "plug_enters"):
        step = Step(key=key, stage="size", kind="number", title="?", mask=Mask(2, 2, "mm", 1.0, 50.0))
        assert keyed(replace(step, key=f"seal_2_{key}"), shop) == replace(
            keyed(step, shop), key=f"seal_2_{key}"
        )


def test_one_of_this_job_that_a_search_renewed_is_begun_again_and_is_no_other_seal() -> None:
    repairer = chosen(ring_in(), "oring").on_to("empty_check", {**CROWN, **CORD})
    leaked = {
        "empty_result": "fail",
        "hunt_opened": "crown",
        "hunt_crown_positions": "changes",
        "hunt_crown_seal": "tight",
    }
    page = shown(repairer.on_to("empty_found", leaked))
    first, second, *others = (one.word for one in repairer.step.choices)
    assert (first, second) == ("seal_2_ring", "seal_2_measure") and "test" not in others
    assert "It is a seal of this job" in page
    repairer.give("seal_2_ring")
    repairer.on_to("renewed", CORD)
    assert "crown" not in shown(repairer)
    repairer.on_to("")
    data = sheet(repairer)
    assert data["further_seals"][0]["attempt"] == 2 and data["renewed_in_search"] == []
    assert "Other seals renewed: none." in " ".join(customer_lines(data))


def test_the_head_names_the_seal_in_hand_in_the_smallest_window_too() -> None:
    repairer = chosen(begun_with("gasket").on_to("empty_check"), "gasket").on_to("seal_2_gasket_outside_2")
    spoiled = repairer.copy().on_to("seal_2_gasket_thickness_1")
    spoiled.pick("spoiled")
    for one, said in ((repairer, "seal 2, gasket measure"), (spoiled, "seal 2, gasket 2 size")):
        for columns, rows in ((40, 12), (60, 20)):
            assert said in read(replace(one.desk, columns=columns, rows=rows))
