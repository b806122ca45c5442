"""The bar as it is: asked before the first touch, and what follows from what it measures."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bench.job.job import Job
from bench.shop.shop import Shop, built_in
from rules.bars import Bar
from tests.whole.lathe_presses import CORE_TOOL
from tests.whole.places import at
from tests.whole.repairer import Repairer, fresh
from tests.whole.seen import read


def page(repairer: Repairer) -> str:
    """What stands on the page, without its line breaks."""
    return read(repairer.desk)


def said(repairer: Repairer) -> str:
    """The words of the step on the screen."""
    step = repairer.step
    return " ".join((step.title, *step.to_do, *step.consequence, *(one.text for one in step.choices)))


def with_bars(*bars: Bar, shop: Shop | None = None) -> Shop:
    return replace(shop or built_in(), bars=bars)


def job_of(repairer: Repairer) -> Job:
    assert repairer.desk.job is not None
    return repairer.desk.job


def test_it_is_measured_once_before_the_checks_and_nothing_is_offered_for_it() -> None:
    repairer = at("bar_measured")
    assert "acetal black 45 mm: what does it measure" in page(repairer)
    before = len(repairer.bench.entries)
    assert not repairer.step.usual, "a size that was only bought as such is no reading"
    repairer.answer()
    assert repairer.asked == "lathe_hands" and len(repairer.bench.entries) == before + 1
    assert repairer.bench.entries[-1].value == "45.50 mm"
    repairer.on_to("dress")
    assert "bar_measured" not in repairer.keyed[repairer.keyed.index("lathe_hands") :]


def test_the_first_touch_is_on_what_was_measured() -> None:
    repairer = at("bar_measured").on_to("rough_outside", {"bar_measured": "45.83"})
    assert "touch off on the outside (45.83)" in said(repairer)
    assert "touch off on the outside (45.50)" in said(at("rough_outside"))


def test_a_bar_that_measures_too_little_leads_to_another_which_is_asked_for() -> None:
    thin = Bar(plastic="acetal", diameter_mm=37.5, length_mm=120.0, colour="white")
    thick = Bar(plastic="acetal", diameter_mm=45.0, length_mm=120.0, colour="black")
    repairer = fresh(shop=with_bars(thin, thick)).on_to("bar_measured")
    assert "white 37.5" in page(repairer)
    repairer.give("37.20")
    assert repairer.asked == "bar_measured_2" and "black 45" in page(repairer)
    repairer.on_to("lathe_bar", {"bar_measured_2": "45.20"})
    assert "bar: acetal, black, 45.00 mm" in page(repairer)


def test_the_only_bar_that_measures_too_little_is_refused_with_what_would_do() -> None:
    thin = Bar(plastic="acetal", diameter_mm=37.5, length_mm=120.0)
    repairer = fresh(shop=with_bars(thin)).on_to("bar_measured")
    repairer.give("37.10")
    assert repairer.asked == "cannot_turn"
    assert "37.10 mm is too thin" in said(repairer) and "take one of 37.43 mm" in said(repairer)


def test_another_figure_for_the_bar_makes_another_plan_and_the_checks_begin_again() -> None:
    repairer = at("rough_bore")
    repairer.pick("replace")
    repairer.pick_key("bar_measured")
    repairer.type("45.90")
    repairer.go_on_replacing()
    assert repairer.asked == "lathe_hands"


def test_the_next_ring_of_the_job_begins_with_what_is_left_of_the_bar() -> None:
    """A ring of 1.20, 0.10 to dress, a blade of 1.00 and 0.30 faced off: 2.60 of 150 mm, twice."""
    assert "1 ring uses 2.60 mm of it; 147.4 mm are left" in said(at("bar_measured"))
    assert "Bar left: about 147 mm." in said(at("dress"))
    repairer = at("outside_reading")
    small = f"{(repairer.step.gauge.target or 0.0) - 0.5:.3f}" if repairer.step.gauge else ""
    repairer.on_to("past_outside", {"outside_reading": small, "outside_reading_2": small})
    repairer.on_to("bar_measured", {"past_outside": "fresh"})
    assert "1 ring uses 2.60 mm of it; 144.8 mm are left" in said(repairer)


def test_a_tube_is_bored_from_its_own_bore_and_nothing_is_drilled() -> None:
    tube = Bar(plastic="acetal", diameter_mm=40.0, length_mm=90.0, kind="tube", bore_mm=30.0)
    repairer = fresh(shop=with_bars(tube)).on_to("bar_measured")
    assert "tube, bore 30 mm" in page(repairer)
    repairer.on_to("rough_bore", {"bar_bore": "29.80"})
    assert "touch off on the bore (29.80)" in said(repairer)
    assert "drill" not in repairer.keyed


def test_a_core_is_cut_out_where_the_shop_has_the_tool_and_the_post_is_looked_at_first() -> None:
    own = built_in()
    repairer = fresh(shop=replace(own, tools=(*own.tools, CORE_TOOL))).on_to("tool_core")
    repairer.type("4")
    assert repairer.asked in ("tool_core", "lathe_hands"), "a wrong tool is not taken"
    repairer.on_to("core")
    assert "groove along: go to" in said(repairer) and "Cut out the core: tool 7" in said(repairer)
    assert "coring" in repairer.step.cautions
    repairer.on_to("dress")
    assert "stands on it: shortened before the next ring" in said(repairer)
    assert "drill" not in repairer.keyed


def test_what_a_larger_drill_or_a_core_would_save_is_said() -> None:
    text = said(at("bar_measured"))
    assert "drill would save" not in text, "the tailstock takes none larger"
    assert "face-grooving tool relieved for" in text


def test_a_shorter_rest_says_what_it_costs() -> None:
    repairer = at("rest")
    text = said(repairer)
    assert "worth 0.04 mm on the outside, under 0.001 mm in the wall" in text
    assert "outside shrinks up to 0.04 mm, wall under 0.001 mm" in text
    repairer.give("shorter")
    assert repairer.asked == "tool_turning"


@pytest.fixture
def past_the_bore() -> Repairer:
    repairer = at("wall_reading")
    thin = f"{(repairer.step.gauge.target or 0.0) - 0.15:.3f}" if repairer.step.gauge else ""
    return repairer.on_to("past_bore", {"wall_reading": thin, "wall_reading_2": thin})


def test_a_bore_too_large_names_the_glass_and_keeps_the_ring(past_the_bore: Repairer) -> None:
    assert "the next larger glass, 35.40 mm, squeeze" in said(past_the_bore)
    past_the_bore.give("larger_glass")
    assert past_the_bore.asked == "tool_chamfer", "the piece is finished, not thrown away"
    past_the_bore.on_to("dress")
    past_the_bore.answer()
    assert past_the_bore.asked == "measure_again"
    past_the_bore.on_to("hand_wall_1", {"glass_1": "35.40", "glass_2": "35.41"})
    assert "The ring you have" in page(past_the_bore)
