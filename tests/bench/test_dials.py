"""Which way the figures of a dial grow, where the shop or a kept plan does not say it."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from bench.asking.slides import usual_way
from bench.file.slug import SHOP
from bench.seals.lathe.turning_facts import from_text, to_text
from bench.shop.shop import built_in, load
from bench.shop.starter import starter_text
from rules.turning.order import SetUp
from rules.turning.planning import order_for
from rules.turning.readout import CrossFrame
from tests.bench.test_turning_commands import RING
from tests.whole.lathe_presses import dials


def test_a_dial_grows_inward_where_the_shop_does_not_say_it(tmp_path: Path) -> None:
    own = starter_text(dials())
    assert own.count('direction = "inward"') == 1
    (tmp_path / SHOP).write_text(own.replace('direction = "inward"\n', ""), encoding="utf-8")
    assert load(tmp_path).lathes[0].cross.direction == "inward"
    (tmp_path / SHOP).write_text(own.replace('"inward"', '"outward"'), encoding="utf-8")
    assert load(tmp_path).lathes[0].cross.direction == "outward"
    (tmp_path / SHOP).write_text(starter_text(built_in()), encoding="utf-8")
    assert load(tmp_path).lathes[0].cross.direction == "outward", "a read-out shows the diameter itself"


@pytest.mark.parametrize(("said", "direction"), [(True, "outward"), (False, "inward")])
def test_a_kept_plan_that_says_nothing_of_its_dial_reads_it_as_growing_inward(
    said: bool, direction: str
) -> None:
    own = dials()
    outward = replace(own.lathes[0], cross=replace(own.lathes[0].cross, direction="outward"))
    set_up = SetUp(lathe=outward, tools=own.tools, bar=own.bars_of("acetal")[1])
    facts = json.loads(to_text(order_for(RING, set_up)))
    assert facts["dials"] == "direction"
    if not said:
        del facts["dials"]
    assert from_text(json.dumps(facts)).lathe.cross.direction == direction


def test_asked_by_keypad_a_dial_is_taken_to_grow_inward_until_it_is_said() -> None:
    read_out, dial = built_in().lathes[0].cross, dials().lathes[0].cross
    assert usual_way("cross", read_out, dial=True) == "inward"
    assert usual_way("cross", read_out, dial=False) == "outward" == usual_way("cross", dial, dial=False)
    assert usual_way("cross", replace(dial, direction="outward"), dial=True) == "outward", "as it was said"
    assert usual_way("carriage", built_in().lathes[0].carriage, dial=True) == "to_chuck"


def test_a_dial_of_which_nobody_said_one_turn_names_no_mark_that_it_may_not_have() -> None:
    axis = replace(dials().lathes[0].cross, divisions_per_turn=0, direction="outward")
    frame = CrossFrame(axis=axis, surface="outside", zero_diameter_mm=36.0)
    at = frame.steps_at(34.0)
    assert frame.sentence(at, "outside") == "outside: go to 40 div, makes 34.00"
    assert "dial to 0, counted as 40 div; turned in it counts down" in frame.touch_words(34.0, again=True)


def test_what_lies_before_the_zero_of_a_dial_is_counted_back_from_it() -> None:
    """So the hole of a spare's core, a little smaller than that of the first ring."""
    frame = CrossFrame(axis=dials().lathes[0].cross, surface="bore", zero_diameter_mm=34.20)
    assert "dial to 0.5, counted as 0 turns 0.5 dial before 0;" in frame.touch_words(34.175, again=True)
