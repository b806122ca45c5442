"""The ring with a foot, a kind of seal that stands on the straight ring: whole jobs under keys of its own."""

from __future__ import annotations

import json
from functools import lru_cache
from pathlib import Path

import pytest

from bench.command import DONE
from bench.job import keys
from bench.job.job import replay
from bench.seals import SEALS
from bench.seals.foot import own_keys
from bench.seals.foot.within import own, theirs
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from ringwright import main
from rules.turning import operations
from tests.seals.test_gasket import on_paper, sheet, shown, walked
from tests.whole.hands import lines
from tests.whole.repairer import Repairer, fresh
from tests.whole.script import Hand

SHARED = (
    "lathe_",
    "marking",
    "empty_",
    "cased_",
    "hunt_",
    "renewed",
    "hand_back",
    "paint",
    "seal",
    "sitting",
)
"""How keys begin that every kind of seal has."""


def begun() -> Repairer:
    """A repairer who has said that a ring with a foot is made."""
    repairer = fresh()
    repairer.answer()
    repairer.pick("usual")
    repairer.pick_key("seal")
    repairer.give("foot")
    return repairer


@lru_cache(maxsize=8)
def stands(key: str) -> Repairer:
    """One who stands before a step; each walked to once."""
    return begun().on_to(key)


def at(key: str) -> Repairer:
    """The same, to go on from."""
    return stands(key).copy()


def test_a_whole_job_under_its_own_keys() -> None:
    repairer = at("")
    own_ones = [key for key in walked(repairer) if not key.startswith(SHARED)]
    assert own_ones and all(key.startswith("foot_") for key in own_ones)
    acts = [key for key in own_ones if "rough" in key or "finish" in key or key.startswith("foot_last")]
    assert acts == [
        *("foot_rough_outside", "foot_rough_foot", "foot_rough_bore", "foot_finish_outside"),
        *("foot_last_outside", "foot_finish_bore", "foot_last_bore"),
    ], "the opening first, then the wall to depth, corrected before each last pass"
    data = sheet(repairer)
    foot, ring = data["foot"], data["ring"]
    assert data["seal"] == "foot" and data["finished"] and data["retest"]
    assert (foot["thickness_mm"], foot["inside_mm"], foot["mean_mm"]) == (0.32, 28.4, 0.32)
    assert ring["height_mm"] == pytest.approx(1.32) and data["made"]["decision"] == "undecided"
    text = " ".join(" ".join(sheet_lines(data)).split())
    assert "Foot planned: 0.32 thick, inside 28.40 mm." in text
    assert "Foot measured at 4 places" in text and "Wall measured at 4 places" in text


def test_what_knows_the_ring_alone_is_told_nothing_of_one(monkeypatch: pytest.MonkeyPatch) -> None:
    repairer = at("")
    entries, ring = tuple(repairer.bench.entries), SEALS["ring"]
    monkeypatch.setattr("bench.seals.SEALS", {"ring": ring})
    job = replay(repairer.bench.head, [one for one in entries if one.key != keys.SEAL])
    assert ring.data(job) == ring.data(replay(repairer.bench.head, ()))
    assert job.attempt == 1 and not sheet_data(job, finished=False)["fitted"]


def test_the_stages_of_the_ring_see_its_answers_alone() -> None:
    assert own(keys.RING) == own_keys.ACCEPTED and theirs(own_keys.ACCEPTED) == keys.RING
    assert own(keys.LATHE_EYES) == theirs(keys.LATHE_EYES) == keys.LATHE_EYES
    assert theirs(keys.CASE_BORE) == "" and own(own(keys.CASE_BORE)) == own(keys.CASE_BORE)
    for key in (keys.EMPTY.result, keys.asked_in_search("kind")):
        assert own(key) == theirs(key) == key


def test_the_page_says_foot_load_and_height() -> None:
    page = shown(at("foot_accepted"))
    assert "foot 0.32 thick, inside 28.40; the wall on it 1.00 high" in page
    assert "10 bar push the glass with 684 N: 21 MPa on a foot 0.35 wide" in page
    assert "the edge of the glass stands level with the rim" in page and "measure a ring I have" not in page


def test_a_nose_too_round_for_the_bevel_is_said_before_the_ring_is_accepted() -> None:
    wanted = "CHECK corner: a boring bar with a nose of 0.10 mm or less is missing"
    assert wanted in " ".join(shown(begun().on_to("foot_accepted", {"foot_bevel": "0.10"})).split())
    assert "a boring bar with a nose" not in shown(at("foot_accepted"))


def test_clamped_it_is_a_flat_gasket_as_well() -> None:
    given = {
        "foot_clamped": "glass_screws",
        "foot_home": "wall",
        "foot_stands": "over",
        "foot_stands_by": "0.20",
    }
    repairer = begun().on_to("foot_accepted", given)
    page = shown(repairer)
    assert "as a flat gasket: 4 screws of 1.2 mm, gives 293 to 586 N; presses with 13.8 MPa" in page
    assert "CHECK the glass hangs in the wall alone" in page
    assert "Then close the bezel on the glass" in shown(repairer.on_to("foot_laid"))


def test_a_foot_too_thick_is_dressed_and_one_too_thin_said() -> None:
    thick = {f"foot_thickness_{n}": "0.370" for n in (1, 2, 3, 4)}
    repairer = at("foot_thickness_1").on_to("foot_off", thick)
    page = shown(repairer)
    assert "stands 0.05 mm over the rim" in page and "dress off 0.05 mm" in page
    repairer.give("lower")
    assert "Foot as made: thickness at place 1" in shown(repairer)
    thin = {f"foot_thickness_{n}": "0.290" for n in (1, 2, 3, 4)}
    repairer = at("foot_thickness_1").on_to("foot_off", thin)
    assert "dress" not in repairer.step.choices[0].text
    repairer.give("another")
    assert repairer.asked == "foot_accepted" and sheet(repairer)["attempt"] == 2


def test_spoiled_left_and_opened_again_nothing_turns_without_the_checks() -> None:
    repairer = at("foot_rough_bore")
    acts = [step for step, _ in repairer.desk.walk.done if step.targets] if repairer.desk.walk else []
    assert acts and all(step.guarded_by for step in acts)
    repairer.open()
    assert repairer.asked == "lathe_hands" and "floor" not in shown(repairer, "list")
    repairer.on_to("foot_touch_off").give("moved")
    repairer.on_to("foot_rough_bore")
    assert sheet(repairer)["attempt"] == 2
    page = shown(repairer)
    assert "it ends on the foot: feed off before the figure" in page and "floor: go to" in page
    repairer.pick("spoiled")
    assert repairer.asked == "foot_accepted" and sheet(repairer)["attempts"][1]["outcome"] == "spoiled"


def test_a_leak_at_the_glass_leads_to_another() -> None:
    repairer = at("empty_result")
    repairer.give("fail")
    repairer.on_to("empty_found", {"hunt_kind": "loose", "hunt_glass_lifts": "yes"})
    assert "measure seat, ledge and glass again" in shown(repairer)
    repairer.give("ring")
    assert repairer.asked == "foot_leak_cause"
    repairer.on_to("foot_accepted")
    assert sheet(repairer)["attempt"] == 2 and "Ring 2: accept it?" in shown(repairer)


def test_no_foot_fits_and_the_job_ends_with_the_reason() -> None:
    repairer = at("foot_edge_1").on_to("foot_none_fits", {"foot_edge_1": "1.55", "foot_edge_2": "1.55"})
    assert "it would have to be 0.05 mm thick" in shown(repairer)
    repairer.give("closed")
    assert sheet(repairer)["ended"] == "foot_none_fits: closed"


def test_a_glass_on_a_foot_leads_there_and_a_ring_presses_no_key_more() -> None:
    repairer = fresh().on_to("not_this_ring", {"hold": "foot"})
    repairer.give("foot")
    repairer.give("foot")
    assert repairer.asked == "foot_bench"
    assert "seal" not in walked(fresh().on_to("case_bore_1"))


def test_in_plain_lines_with_plan_sheet_and_slip(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    lines(tmp_path, [Hand({"seal": "foot"}, until="empty_check")])
    folder = ["--folder", str(tmp_path)]
    assert main(["plan", "1", "--json", *folder]) == DONE
    plan = json.loads(capsys.readouterr().out)
    assert plan["ring"]["foot_mm"] == 0.32 and plan["ring"]["corner_mm"] == 0.2
    made = [one["operation"] for one in plan["passes"]]
    assert (
        made.index(operations.ROUGH_FOOT) < made.index(operations.ROUGH_BORE) < made.index(operations.FLOOR)
    )
    printed = on_paper(monkeypatch)
    words = ["--pdf", str(tmp_path / "a.pdf"), "--slip", str(tmp_path / "b.pdf")]
    assert main(["sheet", "1", *words, *folder]) == DONE
    paper = "\n".join(printed)
    assert "section of wall and foot" in paper and "foot 0.320 measured" in paper
    assert "foot under the glass, measured on the ring: thickness 0.320" in paper
