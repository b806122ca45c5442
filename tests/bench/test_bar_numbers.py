"""What the picture of the bar is drawn from: the bar before each pass, its core and own bore too."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bench.job.steps import Picture
from bench.paper.bar import hollow
from bench.seals.lathe.bar_numbers import bar_numbers
from bench.shop.shop import Shop, built_in
from rules.turning.order import SetUp
from rules.turning.passes import Plan
from rules.turning.planning import plan
from screens.pictures import drawn
from tests.bench.test_turning_commands import RING
from tests.whole.lathe_presses import CORE_TOOL, tube


def planned(shop: Shop, spares: int = 0) -> Plan:
    """The plan of a ring in this shop, from its thickest bar."""
    bar = max((one for one in shop.bars if one.plastic == "acetal"), key=lambda one: one.diameter_mm)
    set_up = SetUp(lathe=shop.lathes[0], tools=shop.tools, bar=bar, spares=spares)
    return plan(ring=RING, set_up=set_up)


def cored(spares: int = 0) -> Plan:
    """The same with a core cut out."""
    own = built_in()
    made = planned(replace(own, tools=(*own.tools, replace(CORE_TOOL, smallest_groove_mm=20.0))), spares)
    assert len(made.of("core")) > 1
    return made


def seen(numbers: dict[str, float]) -> list[str]:
    """The picture of these numbers."""
    return drawn(Picture("bar", tuple(numbers.items())), columns=56, rows=12, style="half")


def test_a_core_stands_once_it_is_grooved_and_the_hole_is_as_wide_as_the_outermost_groove() -> None:
    made = cored()
    grooves, bore = made.of("core"), made.of("rough_bore")
    begun, second, after = (bar_numbers(made, one) for one in (grooves[0], grooves[1], bore[0]))
    assert begun["core_mm"] == begun["bore_now_mm"] == 0.0
    outer = grooves[0].material_diameter_after_mm or 0.0
    assert second["core_mm"] == pytest.approx(outer - 2.0 * CORE_TOOL.blade_mm)
    assert second["bore_now_mm"] == after["bore_now_mm"] == outer, "later grooves lie further in"
    assert after["core_mm"] == pytest.approx(made.order.opening.core_mm, abs=0.02)
    assert begun["groove_mm"] == CORE_TOOL.blade_mm and begun["along_mm"] == grooves[0].along_mm


def test_the_next_ring_has_no_core_before_it_is_cut() -> None:
    made = cored(spares=1)
    again = made.of("core", ring=2)[0]
    assert bar_numbers(made, again)["core_mm"] == bar_numbers(made, again)["bore_now_mm"] == 0.0


def test_a_tube_is_hollow_before_anything_is_bored() -> None:
    made = planned(tube())
    first = bar_numbers(made, made.passes[0])
    assert first["own_mm"] == first["bore_now_mm"] == 30.0
    assert first["own_deep_mm"] == made.order.stock.stick_out_mm


def test_core_and_own_bore_are_seen_on_the_page() -> None:
    core, hollow_bar = cored(), planned(tube())
    for made, one, name in (
        (core, core.of("finish_bore")[0], "core_mm"),
        (hollow_bar, hollow_bar.passes[0], "own_mm"),
    ):
        numbers = bar_numbers(made, one)
        assert seen(numbers) != seen({**numbers, name: 0.0}), name


def test_core_and_own_bore_stand_on_paper() -> None:
    made = cored()
    assert (0.0, made.order.opening.core_mm) in hollow(made)
    made = planned(tube())
    assert (made.order.stock.stick_out_mm, 30.0) in hollow(made)
