"""The questions about the shop, one by one: in its unit, none keyed as 0, its answers told apart."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bench.asking import names
from bench.asking.bars import shortened
from bench.asking.lathe import grip_said, grips_said
from bench.asking.measuring import instruments_said, words_of
from bench.asking.opening import opening_step
from bench.job.job import Answer
from bench.job.number import Refusal, TypedNumber, read_number
from bench.shop.groups import TO_CUT
from bench.shop.shop import built_in
from rules.lengths import speaking


@pytest.mark.parametrize("inch", [False, True])
def test_no_collet_is_keyed_as_nought(inch: bool) -> None:
    collet = built_in().lathes[0].grips[1]
    mask = next(grip_said("holds_2", collet, inch=inch)).mask
    assert mask is not None
    none = read_number("0", mask, inch=inch)
    assert isinstance(none, TypedNumber) and none.value == 0.0
    assert isinstance(read_number("1", mask, inch=inch), Refusal), "any other digit alone is half a number"
    whole = read_number("11", mask, inch=inch)
    assert isinstance(whole, TypedNumber) and whole.value == 11.0, "a whole number needs no closing nought"
    assert isinstance(read_number("0", replace(mask, nought=False), inch=inch), Refusal)


def test_what_is_assumed_in_an_inch_shop_is_said_in_inch() -> None:
    shop = built_in("inch")
    with speaking("inch"):
        said = " ".join(opening_step(shop, TO_CUT).say)
        bars = next(shortened(shop.bars, inch=True)).choices
    assert "read-out to 0.0005 in" in said and "blade 0.0394 in" in said and "1.25, 1.5, 1.75 in" in said
    assert " mm" not in said
    assert bars[0].text == "acetal white 1.25 in, 7.874 in long"
    odd = replace(shop.instruments[0], resolution_mm=0.0508)
    assert words_of("as it is", odd) == "0.002 in, as it stands in the file"


def test_what_was_just_denied_is_not_offered() -> None:
    """Neither a collet nor a measuring tool that is not there."""
    own = built_in()
    grips = grips_said(own.lathes[0].grips, inch=False)
    asked = next(grips)
    while not asked.key.startswith(names.HOLDS_MORE):
        asked = grips.send(Answer(1, "", asked.key, ("0.0 mm",)))
    assert not {one.word for one in asked.choices} & {grip.name for grip in own.lathes[0].grips}
    tools = instruments_said(own)
    asked = next(tools)
    while not asked.key.startswith(names.READS_MORE):
        asked = tools.send(Answer(1, "", asked.key, ("none",)))
    assert [one.word for one in asked.choices] == ["no", "bore_gauge", "depth_gauge"]
