"""The flat gasket, a second kind of seal: whole jobs, no word of the ring on their way."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from bench.command import BAD_INPUT, DONE
from bench.job.job import replay
from bench.paper.page import Paper
from bench.seals import SEALS
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from bench.sheet.workshop import correction_lines
from ringwright import main
from tests.whole.hands import bench_in, lines
from tests.whole.repairer import Repairer, fresh
from tests.whole.script import Hand
from tests.whole.seen import read

CHOSEN = {"seal": "gasket"}
A_RING = re.compile(r"\brings?\b", re.I)
UNDER_THE_BACK = {
    "hunt_kind": "rate",
    "hunt_opened_beside": "none",
    "hunt_own_joint": "dirt",
}
"""One way through the search, to the joint of the gasket."""
OF_A_RING = ("measured", "ring", "turned", "made", "fitting")
"""Keys of JSON that stay for whatever is made."""


def begun() -> Repairer:
    """A repairer who has said that a gasket is made."""
    repairer = fresh()
    repairer.answer()
    repairer.pick("usual")
    repairer.pick_key("seal")
    repairer.give("gasket")
    return repairer


def shown(repairer: Repairer, name: str = "step") -> str:
    """A page in a window in which it stands whole."""
    return read(replace(repairer.desk, page=name, rows=200, columns=140))


def values(data: Any) -> Iterator[str]:
    """Every text that stands as a value in JSON."""
    if isinstance(data, dict):
        for one in data.values():
            yield from values(one)
    elif isinstance(data, list):
        for one in data:
            yield from values(one)
    elif isinstance(data, str):
        yield data


def on_paper(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What is printed from now on, as it comes."""
    printed: list[str] = []
    plain = Paper.plain

    def remembered(paper: Paper, text: str) -> str:
        printed.append(text)
        return plain(paper, text)

    monkeypatch.setattr(Paper, "plain", remembered)
    return printed


def sheet(repairer: Repairer) -> dict[str, Any]:
    """The sheet of the job as it stands, through JSON."""
    job, walk = repairer.desk.job, repairer.desk.walk
    assert job is not None and walk is not None
    data: dict[str, Any] = json.loads(json.dumps(sheet_data(job, finished=walk.open is None)))
    return data


def test_a_whole_job_and_no_word_of_the_ring() -> None:
    repairer = begun()
    stages = []
    while repairer.asked:
        for name in ("step", "why", "list", "account", "sheet"):
            assert not A_RING.search(shown(repairer, name)), (repairer.asked, name, shown(repairer, name))
        stages.append(repairer.step.stage)
        repairer.answer()
    assert list(dict.fromkeys(stages)) == ["measure", "size", "cut", "verify"]
    data = sheet(repairer)
    assert data["seal"] == "gasket" and data["finished"]
    assert data["room"]["height_mm"] == 0.45 and data["gasket"]["thickness_mm"] == 0.6
    assert data["made_gasket"]["squeeze_pct"] == 25.0 and data["laid"]["outcome"] == "home"
    assert data["laid"]["lid"] == "greased"
    assert [test["result"] for test in data["tests"]] == ["pass", "pass"]
    assert all(test["stands"] for test in data["tests"]) and data["retest"]
    assert "Gasket made in this workshop, not an original part." in data["cautions"]
    text = "\n".join(sheet_lines(data))
    assert "thickness 0.60 mm, nitrile rubber" in text and "Lid: closed, level all round" in text
    assert not A_RING.search(text) and not [one for one in values(data) if A_RING.search(one)]


def test_what_a_ring_would_say_stays_and_is_empty() -> None:
    ring, gasket = sheet(fresh().on_to("hand_back")), sheet(begun().on_to("hand_back"))
    assert set(ring) < set(gasket) and set(ring["attempts"][0]) <= set(gasket["attempts"][0])
    for name in OF_A_RING:
        assert set(gasket[name]) == set(ring[name])
        assert not list(values(gasket[name])) and ring[name] != gasket[name]


def test_a_whole_job_in_plain_lines(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    lines(tmp_path, [Hand(CHOSEN, until="gasket_outside_1")])
    file = str(next((tmp_path / "jobs").glob("00001*.toml")))
    sizing = lines(tmp_path, [Hand(until="gasket_accepted")], file=file)[1]
    assert main(["jobs", "--json", "--folder", str(tmp_path)]) == DONE
    row = json.loads(capsys.readouterr().out)[0]
    assert (row["stage"], row["step"]) == ("size", "gasket_accepted")
    desk, later = lines(tmp_path, [Hand()], file=file)
    assert desk.walk is not None and desk.walk.open is None
    assert "thick 0.60 (mm), nitrile rubber" in sizing and not A_RING.search(sizing + later)
    printed = on_paper(monkeypatch)
    words = ["sheet", "1", "--pdf", str(tmp_path / "a.pdf"), "--slip", str(tmp_path / "b.pdf")]
    assert main([*words, "--folder", str(tmp_path)]) == DONE
    capsys.readouterr()
    paper = "\n".join(printed)
    assert "section of the gasket" in paper and "thickness 0.60" in paper
    assert "Flat gasket: nitrile rubber (NBR), under a back that screws in" in paper and not A_RING.search(
        paper
    )
    assert main(["plan", "1", "--folder", str(tmp_path)]) == BAD_INPUT
    refused = capsys.readouterr().err
    assert "this gasket is cut from sheet or taken from stock; nothing is turned" in refused


@pytest.mark.parametrize(
    ("until", "stage", "waits"),
    [
        ("gasket_depth_1", "measure", "readings"),
        ("gasket_accepted", "size", "a gasket to be accepted"),
        ("gasket_cut_out", "cut", "a gasket to be cut"),
        ("gasket_laid", "verify", "closing the lid"),
        ("empty_check", "verify", "testing"),
        ("renewed", "verify", "service and casing"),
    ],
)
def test_the_list_of_jobs_says_where_it_stands(tmp_path: Path, until: str, stage: str, waits: str) -> None:
    lines(tmp_path, [Hand(CHOSEN, until=until)])
    desk, _ = lines(tmp_path, [])
    bench = bench_in(tmp_path)
    row = next(iter(desk.known.values()))
    assert (row.stage, row.waiting_for) == (stage, waits)
    bench.close()


def test_one_that_is_spoiled_is_followed_by_another() -> None:
    repairer = begun().on_to("gasket_cut_out")
    assert "start another gasket" in shown(repairer, "list")
    repairer.pick("spoiled")
    assert repairer.asked == "gasket_accepted" and "gasket 2 size" in shown(repairer)
    said = [
        entry.value for entry in repairer.bench.entries if entry.key in ("gasket_spoiled", "gasket_attempt")
    ]
    assert [one[0] if isinstance(one, tuple) else one for one in said] == ["gasket 1", "gasket 2"]
    repairer.on_to("")
    assert "Gasket 1 before it, planned 0.60 mm thick: spoiled while it was made." in "\n".join(
        sheet_lines(sheet(repairer))
    )


def test_the_smallest_window_says_which_gasket_and_how_far() -> None:
    repairer = begun().on_to("gasket_cut_out")
    repairer.pick("spoiled")
    repairer.on_to("gasket_thickness_1")
    assert "gasket 2 verify, 0 answered" in read(replace(repairer.desk, rows=12, columns=40))


def test_it_is_not_offered_as_spoiled_before_one_is_accepted() -> None:
    assert "not now: the piece is spoiled" in shown(begun().on_to("gasket_accepted"), "list")


def test_one_that_does_not_lie_is_followed_by_another() -> None:
    repairer = begun().on_to("gasket_after", {"gasket_laid": "torn"})
    repairer.on_to("gasket_accepted", {"gasket_after": "gasket"}).on_to("")
    data = sheet(repairer)
    assert [one["outcome"] for one in data["attempts"]] == ["torn", "home"]


def test_a_bad_one_keyed_over_holds_until_it_is_said() -> None:
    repairer = begun().on_to("gasket_after", {"gasket_laid": "torn"})
    repairer.pick("replace")
    repairer.pick_key("gasket_laid")
    repairer.give("home")
    assert repairer.asked == "gasket_corrected" and "another gasket was laid in" in shown(repairer)
    assert sheet(repairer)["laid"]["outcome"] == "torn"
    repairer.give("again")
    repairer.on_to("hand_back")
    said = correction_lines(sheet(repairer))[0]
    assert (
        said.startswith("Gasket 1, fitting: first given as gasket tore")
        and "another gasket was laid in" in said
    )


@pytest.mark.parametrize("sitting", ["empty", "cased"])
@pytest.mark.parametrize("way", ["ring", "measure"])
def test_a_test_that_fails_leads_back_to_another_gasket(sitting: str, way: str) -> None:
    repairer = begun().on_to(f"{sitting}_result")
    repairer.give("fail")
    while repairer.asked != f"{sitting}_found":
        assert not A_RING.search(shown(repairer)), shown(repairer)
        repairer.answer(UNDER_THE_BACK)
    page = shown(repairer)
    assert "make a new gasket" in page and "make another gasket" in page and not A_RING.search(page)
    assert "measure its room again, then another gasket" in page
    repairer.give(way)
    if way == "measure":
        assert "The room of the gasket is measured again" in shown(repairer)
        repairer.answer()
        assert repairer.asked == "gasket_meets"
        repairer.on_to("gasket_accepted")
    else:
        assert repairer.asked == "gasket_leak_cause"
        repairer.answer()
    assert repairer.asked == "gasket_accepted"
    repairer.on_to("")
    assert sheet(repairer)["attempt"] == 2 and sheet(repairer)["retest"]


def test_a_room_too_narrow_ends_the_job() -> None:
    repairer = begun().on_to("gasket_none_fits", {"gasket_inside_1": "29.20", "gasket_inside_2": "29.20"})
    repairer.give("closed")
    data = sheet(repairer)
    assert data["finished"] and data["ended"] == "gasket_none_fits: closed"
    assert "Closed: no gasket fits this room." in "\n".join(sheet_lines(data))


TURNED = {"gasket_meets": "all"}
"""What leads to hard plastic, turned."""


def walked(repairer: Repairer) -> tuple[str, ...]:
    """Keys of the steps that were answered."""
    walk = repairer.desk.walk
    assert walk is not None
    return tuple(step.key for step, _ in walk.done)


def test_hard_plastic_is_turned_by_the_plan_of_a_ring() -> None:
    repairer = begun().on_to("gasket_thickness_1", TURNED)
    acts = [key for key in walked(repairer) if key.startswith(("gasket_rough", "gasket_finish"))]
    assert acts == [
        "gasket_rough_outside",
        "gasket_rough_bore",
        "gasket_finish_outside",
        "gasket_finish_bore",
    ]
    walk = repairer.desk.walk
    assert walk is not None
    part = walk.step("gasket_part")
    assert part is not None and "the gasket drops on the rod" in part.targets[-1].words
    repairer.on_to("")
    data = sheet(repairer)
    assert data["gasket"]["way"] == "turned" and data["room"]["closes"] == "all"
    assert [test["result"] for test in data["tests"]] == ["pass", "pass"]
    assert not data["at_the_lathe"] and data["turned"]["lathe"] is None


def test_nothing_of_turning_is_shown_without_the_checks() -> None:
    repairer = begun().on_to("gasket_rough_bore", TURNED)
    walk = repairer.desk.walk
    assert walk is not None and walk.open is not None
    acts = [one for one in (*(step for step, _ in walk.done), walk.open) if one.targets]
    assert len(acts) >= 3 and all(one.guarded_by for one in acts)
    repairer.open()
    assert repairer.asked == "lathe_hands" and "rough" not in shown(repairer, "list").lower()
    repairer.on_to("gasket_bar_stands").give("moved")
    assert repairer.asked == "gasket_accepted" and sheet(repairer)["attempt"] == 2
    assert "the piece before is still on the bar" in " ".join(repairer.on_to("lathe_bar").step.to_do)


def test_a_gasket_that_is_too_thick_is_dressed_further() -> None:
    thick = {f"gasket_thickness_{n}": "0.560" for n in (1, 2, 3, 4)}
    repairer = begun().on_to("gasket_off_its_band", {**TURNED, **thick})
    page = shown(repairer)
    assert "the lid stands proud" in page and "dress it further" in page
    repairer.give("use")
    repairer.on_to("")
    data = sheet(repairer)
    assert data["made_gasket"]["off_its_band"] and data["made_gasket"]["thickness_mm"] == [0.56] * 4
    assert "It does not meet its needs as measured." in " ".join(" ".join(sheet_lines(data)).split())
    repairer = begun().on_to("gasket_off_its_band", {**TURNED, **thick})
    repairer.give("another")
    assert [one["outcome"] for one in sheet(repairer)["attempts"]] == ["off_its_band", None]


def test_a_rib_takes_from_the_height_and_screws_press_the_lid() -> None:
    given = {
        "gasket_joint": "glass_screws",
        "gasket_shape": "ledge",
        "gasket_depth_1": "0.75",
        "gasket_depth_2": "0.75",
        "gasket_stands_over": "rib",
        "gasket_stands_by": "0.30",
    }
    repairer = begun().on_to("gasket_accepted", given)
    page = shown(repairer)
    assert "the stop squeezes it to 0.45 mm" in page and "4 screws of 1.2 mm, gives 293 to 586 N" in page
    repairer.on_to("gasket_laid")
    assert "gasket_lid_drags" not in walked(repairer) and "Draw the screws crosswise" in shown(repairer)
    assert sheet(repairer)["room"] == {
        "joint": "glass_screws",
        "closes": "stop",
        "outside_mm": 30.21,
        "inside_mm": 27.61,
        "height_mm": 0.45,
    }


def test_a_clamped_glass_leads_on_to_its_gasket_and_back_costs_nothing() -> None:
    repairer = fresh().on_to("not_this_ring", {"hold": "clamped"})
    assert "make that flat gasket" in shown(repairer)
    repairer.give("gasket")
    assert "Which seal is made?" in shown(repairer)
    repairer.give("gasket")
    assert repairer.asked == "gasket_joint"
    other = fresh().on_to("bench")
    other.give("other")
    other.give("gasket")
    assert other.asked == "gasket_joint"
    assert "seal" not in walked(fresh().on_to("case_bore_1"))


def test_what_knows_the_ring_alone_is_told_nothing_of_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """A version that has no other kind opens such a file: a job whose ring nobody has begun."""
    repairer = begun().on_to("gasket_cut_out")
    repairer.pick("spoiled")
    repairer.on_to("")
    entries, ring = tuple(repairer.bench.entries), SEALS["ring"]
    monkeypatch.setattr("bench.seals.SEALS", {"ring": ring})
    own = [one for one in entries if not one.key.startswith("gasket_")]
    assert not {one.key for one in own} & {"attempt", "spoiled", "measure_again", "ring", "fit_outcome"}
    job = replay(repairer.bench.head, own)
    empty, data = ring.data(replay(repairer.bench.head, ())), ring.data(job)
    assert job.attempt == 1 and data == empty
    assert not sheet_data(job, finished=False)["fitted"]


def test_the_search_goes_past_the_joint_of_the_gasket() -> None:
    """Found sound there, the crown comes next; its seal is what was renewed."""
    way = {
        "hunt_kind": "rate",
        "hunt_opened_beside": "none",
        "hunt_own_joint": "whole",
    }
    crown = {"hunt_crown_positions": "changes", "hunt_crown_seal": "tight"}
    repairer = begun().on_to("empty_result")
    repairer.give("fail")
    repairer.on_to("empty_found", {**way, **crown})
    repairer.give("test")
    assert sheet(repairer)["renewed_in_search"] == ["crown"]
