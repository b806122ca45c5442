"""Jobs that this ring, water or pressure are not for: each says why, none is a dead end."""

from __future__ import annotations

import pytest

from bench.sheet.data import sheet_data
from tests.whole.places import SHORTEST, at

NOT_THIS_RING = [("hold", word) for word in ("foot", "clamped", "spring", "glued", "unknown")]
NOT_THIS_RING += [("bench", word) for word in ("pit", "dented")]


@pytest.mark.parametrize(("key", "word"), NOT_THIS_RING)
def test_a_job_that_is_none_for_this_ring_says_why_and_can_be_kept_or_closed(key: str, word: str) -> None:
    repairer = at(key)
    repairer.give(word)
    assert repairer.asked == "not_this_ring"
    assert len(repairer.step.say) == 1 and len(repairer.step.say[0]) > 40
    kept = repairer.copy()
    kept.give("keep")
    assert kept.desk.page == "jobs"
    repairer.give("closed")
    assert repairer.asked == "" and repairer.desk.page == "sheet"
    assert repairer.desk.job is not None
    assert sheet_data(repairer.desk.job, finished=True)["ring"]["bore_mm"] is None


def test_a_tension_ring_can_be_replaced_all_the_same() -> None:
    repairer = at("hold").on_to("case_bore_1", {"hold": "spring", "not_this_ring": "anyway"})
    repairer.on_to("ring")


def test_another_answer_to_the_holding_opens_the_way_again() -> None:
    """The screen that says no is left by answering the question before it anew, not only by closing."""
    repairer = at("hold")
    repairer.give("glued")
    repairer.key("previous")
    assert repairer.step.key == "hold"
    repairer.give("front")
    assert repairer.asked == "case_bore_1"


def test_old_luminous_paint_stops_or_goes_and_never_meets_water() -> None:
    repairer = at("paint")
    repairer.give("old")
    stopped = repairer.copy()
    stopped.give("stop")
    assert stopped.asked == ""
    repairer.on_to("hand_back", {"paint_go": "go"})
    for sitting in ("empty", "cased"):
        repairer.pick("usual")
        repairer.pick_key(f"{sitting}_method")
        assert repairer.step.key == f"{sitting}_method"
        words = [choice.word for choice in repairer.step.choices]
        assert not {"water_overpressure", "shallow_immersion", "crown_force", "condensation", "bubble"} & set(
            words
        )
        assert any("luminous" in text for text in repairer.step.say)


def test_water_only_after_a_dry_test_of_this_ring_has_passed() -> None:
    repairer = at("empty_pressure")
    repairer.pick("usual")
    repairer.pick_key("empty_method")
    assert "water_overpressure" not in [choice.word for choice in repairer.step.choices]
    passed = at("renewed")
    passed.pick("usual")
    passed.pick_key("empty_method")
    passed.give("water_overpressure")
    assert passed.asked == "empty_pressure" and "water" in passed.step.title.lower()
    # a further ring begins dry again, whatever was chosen for the one before it
    passed.on_to("ring", {"empty_result": "fail", **SHORTEST, "empty_found": "ring"})
    passed.on_to("empty_pressure")
    assert "water" not in passed.step.title.lower()


def test_a_divers_watch_is_refused_politely_and_handed_back_untested_under_pressure() -> None:
    repairer = at("marking")
    repairer.give("divers_20")
    repairer.on_to("empty_check")
    assert "empty_pressure" not in repairer.keyed
    assert any("125 %" in text for text in repairer.step.consequence)
    repairer.on_to("")
    assert repairer.desk.job is not None
    sheet = sheet_data(repairer.desk.job, finished=True)
    assert sheet["marking_tested"] is False
    assert not any(test["method"].startswith(("dry", "water")) for test in sheet["tests"])
