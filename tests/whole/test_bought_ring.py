"""A bought ring after it was accepted: what changes later, and what the sheet says of it."""

from __future__ import annotations

from tests.whole.places import at
from tests.whole.repairer import Repairer
from tests.whole.test_ring_at_hand import judged, seen, sheet_of, there


def bring(repairer: Repairer, wall: str, height: str = "1.20") -> Repairer:
    """A bought ring measured and accepted where a ring is proposed."""
    repairer.give("at_hand")
    for _, answer in there("new", wall, height):
        repairer.give(answer)
    repairer.give("accept")
    return repairer


def test_a_reading_changed_after_it_judges_a_bought_ring_again_as_bought() -> None:
    """Its own readings stay; it does not become a ring turned here."""
    repairer = judged("new", "0.618", lies="slack")
    repairer.give("accept")
    repairer.pick("replace")
    repairer.pick_key("glass_1")
    repairer.type("35.33")
    assert "judge the ring as it is" not in seen(repairer)
    repairer.go_on_replacing()
    page = seen(repairer)
    assert repairer.asked == "ring" and "It has wall 0.618 (mean of 4), height 1.20 mm." in page
    assert "CHECK slack in the seat" in page
    repairer.give("accept")
    data, said = sheet_of(repairer.desk)
    assert data["at_hand"]["what"] == "new" and data["ring"]["plastic"] is None
    assert "This ring was there already" in said and "turned before" not in said


def test_of_a_bought_ring_the_sheet_says_only_what_was_measured() -> None:
    """It takes the place of a spare of a black bar: neither sizes nor the colour of that bar are its own."""
    repairer = at("ring")
    repairer.pick("usual")
    repairer.pick_key("spares")
    repairer.type("2")
    while repairer.desk.looking_back:
        repairer.key("next")
    repairer.on_to("remake", {"ring": "accept", "fit_outcome": "shaved", "fit_cause": "chamfer"})
    repairer.on_to("ring", {"remake": "spare"})
    bring(repairer, "0.622")
    data, said = sheet_of(repairer.desk)
    assert "Measured: mean wall 0.622, height 1.20 mm, plastic not named." in said
    assert "Planned" not in said and data["ring"]["bore_mm"] is data["ring"]["chamfer_mm"] is None
    assert data["turned"]["colour"] is None


def test_of_a_bought_ring_before_it_the_sheet_says_the_wall() -> None:
    repairer = bring(at("ring"), "0.622")
    repairer.on_to("remake", {"fit_outcome": "too_easy"})
    repairer.on_to("ring", {"remake": "ring"})
    assert "Ring 1 before it: wall 0.622 mm, went in too easily." in sheet_of(repairer.desk)[1]


def test_its_page_says_what_the_rings_before_have_taught_and_advises_no_bore() -> None:
    repairer = at("fit_outcome")
    repairer.give("too_easy")
    repairer.on_to("ring", {"remake": "ring"})
    taught = "after ring 1 the gap is rather 0.58 than 0.56"
    assert taught in seen(repairer)
    repairer.give("at_hand")
    for _, answer in there("new", "0.610"):
        repairer.give(answer)
    page = seen(repairer)
    assert "The ring you have" in page and taught in page
    assert "a bore of" not in page and "rules of thumb" not in page and "this bore" not in page
