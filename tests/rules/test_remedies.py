"""What is advised where no bore works or the chance is poor: tried, said with what it brings, and no more."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from rules import limits
from rules.sizing.question import SizingQuestion
from rules.sizing.remedies import LEAST_GAIN, POOR_CHANCE
from rules.sizing.sizing import Sizing, size
from rules.tables import plastics

OVAL = SizingQuestion(case_bore_mm=34.12, glass_mm=33.32, ovality_mm=0.07)
"""Gap 0.40: a quarter of the oval each way leaves hardly any of the band."""
TRAPPED = SizingQuestion(
    case_bore_mm=34.12,
    glass_mm=33.12,
    height_mm=1.0,
    case_metal="316L",
    case_wall_mm=0.8,
    case_height_mm=2.0,
    glass_material="sapphire",
    glass_thickness_mm=1.5,
    overpressure_bar=10.0,
)


def kinds(answer: Sizing) -> str:
    """Everything that is advised, in one line."""
    return " | ".join((*answer.window.help, *answer.warnings))


def test_an_oval_seat_is_trued_and_the_chance_then_is_said() -> None:
    answer = size(OVAL)
    best = answer.remedies[0]
    assert best.question.ovality_mm == limits.TRUED_MM and best.words.startswith("truing the seat to 0.03")
    trued = size(replace(OVAL, ovality_mm=limits.TRUED_MM)).window.chance
    assert answer.window.help[0] == f"{best.words}: {100 * trued:.0f} % by the squeeze alone"
    assert trued > answer.window.ring_chance + 0.4
    assert "measuring the seat" not in kinds(answer), "measuring more closely cannot help here"


@pytest.mark.parametrize("oval", [0.0, 0.01, 0.03])
def test_no_bending_where_it_would_not_help(oval: float) -> None:
    """Gap 0.17: the thinnest wall that can be turned is over 13 %, whatever the oval."""
    answer = size(SizingQuestion(case_bore_mm=28.40, glass_mm=28.06, ovality_mm=oval))
    assert not answer.window.feasible and answer.window.help
    assert "true" not in kinds(answer) and "truing" not in kinds(answer)


def test_a_far_oval_that_a_wide_gap_takes_up_is_not_trued_first() -> None:
    wide = size(SizingQuestion(case_bore_mm=34.12, glass_mm=31.52, ovality_mm=0.09))
    assert "truing it alone would not raise the chance" in kinds(wide) and "true the bezel" not in kinds(wide)
    narrow = size(replace(OVAL, ovality_mm=0.09))
    assert "true the bezel first: to 0.03 mm" in kinds(narrow)


def test_missing_data_is_no_remedy() -> None:
    """Of no other plastic is the relaxation known: what would hold after ten years cannot be judged."""
    answer = size(TRAPPED)
    assert not answer.window.feasible and answer.window.not_judged == ()
    for plastic in plastics().values():
        assert plastic.key == "acetal" or plastic.name not in kinds(answer)
    pvc = size(replace(TRAPPED, material="pvc")).window
    assert pvc.chance_words == " (ten years, an hour's test not judged)"
    assert {"ten years", "an hour's test"} == set(pvc.not_judged)


def test_a_chance_says_which_limits_it_leaves_out() -> None:
    nylon = size(replace(TRAPPED, material="pa12", overpressure_bar=None)).window
    assert nylon.chance_words == " (ten years not judged)"
    assert size(replace(TRAPPED, glass_material=None)).window.not_judged == ("cold and warmth",)
    assert size(replace(TRAPPED, rigid=True)).window.chance_words == " by the squeeze alone"


def test_another_plastic_is_named_where_both_are_judged_alike() -> None:
    """Too stiff for this press; a softer nylon of which as much is known needs less."""
    stiff = replace(TRAPPED, material="peek", overpressure_bar=None, case_wall_mm=3.0, press_force_n=1600)
    answer = size(stiff)
    named = [one for one in answer.remedies if one.question.material != "peek"]
    assert named and all(one.window.not_judged == answer.window.not_judged for one in answer.remedies)
    assert "(ten years not judged)" in named[0].said


def test_a_given_ring_is_told_of_the_better_bore() -> None:
    given = replace(OVAL, ovality_mm=0.0, outside_mm=34.12, bore_mm=33.29)
    answer = size(given)
    own = size(replace(given, bore_mm=None))
    assert answer.window.help == (
        f"a bore of {own.ring.bore_mm:.2f} mm: {100 * own.window.chance:.0f} % by the squeeze alone",
    )


def test_a_good_chance_is_left_alone() -> None:
    good = size(replace(OVAL, ovality_mm=0.0, case_bore_u_mm=0.015))
    assert good.window.ring_chance > POOR_CHANCE
    assert (good.remedies, good.window.help) == ((), ())


def test_what_is_named_raises_the_chance_by_what_it_says() -> None:
    """Over a grid of narrow places; the question asked with the remedy gives the chance that was said."""
    seen = 0
    for gap, oval, u in product((0.2, 0.3, 0.45), (0.0, 0.04, 0.09), (0.02, 0.06)):
        asked = SizingQuestion(case_bore_mm=34.0, glass_mm=34.0 - 2 * gap, ovality_mm=oval, case_bore_u_mm=u)
        answer = size(asked)
        for one in answer.remedies:
            seen += 1
            then = size(one.question).window
            assert f"{100 * then.chance:.0f} %" in one.said
            assert then.chance >= answer.window.ring_chance + LEAST_GAIN
    assert seen > 15
