"""The plan of a ring begun is written with the job: a later change of the shop does not move it."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from bench.command import DONE
from bench.file.codec import render_entry
from bench.file.entry import LINE_LIMIT, Entry
from bench.file.slug import SHOP
from bench.seals.lathe.turning_facts import kept_words
from bench.shop.shop import Shop, built_in
from bench.shop.starter import starter_text
from bench.stages.guard import LATHE_CHECKS
from ringwright import main
from tests.rules.test_turning import planned
from tests.whole.hands import lines
from tests.whole.places import at
from tests.whole.repairer import Repairer
from tests.whole.scripts import STRAIGHT, answers

TURNED = (
    "finish_outside",
    "last_outside",
    "tool_boring_again",
    "finish_bore",
    "last_bore",
    "chamfer",
    "part",
)


def other_shop() -> Shop:
    """Another lathe first, with other speeds and a radius read-out;
    other tool numbers, a wider blade, other bars.
    """
    own = built_in()
    old = own.lathes[0]
    other = replace(
        old,
        name="other lathe",
        speeds_rpm=(90.0, 510.0, 1310.0),
        cross=replace(old.cross, shows="radius", step_mm=0.005),
    )
    tools = tuple(
        replace(one, number=one.number + 20, blade_mm=1.4 if one.kind == "parting" else 0.0)
        for one in own.tools
    )
    bars = tuple(replace(bar, diameter_mm=bar.diameter_mm + 3.0) for bar in own.bars)
    return replace(own, lathes=(other,), tools=tools, bars=bars)


def moved(key: str, change: Callable[[Entry], Entry] = lambda entry: entry) -> Repairer:
    """The job left before a step and opened a while later, when the shop has changed."""
    repairer = at(key)
    repairer.bench.entries = [change(entry) for entry in repairer.bench.entries]
    repairer.bench.shop = other_shop()
    repairer.wait(3600)
    return repairer.open()


def pages(repairer: Repairer) -> dict[str, tuple[str, tuple[str, ...]]]:
    """Title and lines of every turning step from here to the parted ring;
    the outside comes out a little large.
    """
    found = {}
    while repairer.asked != "dress":
        step = repairer.step
        found[step.key] = (step.title, step.to_do)
        larger = f"{(step.gauge.target or 0.0) + 0.03:.3f}" if step.gauge else ""
        repairer.answer({"outside_reading": larger})
    return {key: found[key] for key in TURNED}


def with_order(text: str | None) -> Callable[[Entry], Entry]:
    """The entries with another text for the order, or without it."""

    def changed(entry: Entry) -> Entry:
        if entry.key != "lathe_speed" or not isinstance(entry.value, tuple):
            return entry
        return replace(entry, value=entry.value[:2] + (() if text is None else (f"order {text}",)))

    return changed


def test_a_ring_begun_stays_as_it_was_begun_and_is_corrected_from_there() -> None:
    assert pages(moved("finish_outside")) == pages(at("finish_outside"))


def test_the_checks_of_a_ring_begun_ask_for_the_bar_and_speed_it_was_begun_with() -> None:
    begun, later = at("lathe_bar"), moved("finish_outside").on_to("lathe_bar")
    assert (later.step.title, later.step.to_do) == (begun.step.title, begun.step.say)
    assert later.on_to("lathe_speed").step.title == begun.on_to("lathe_speed").step.title


def test_a_ring_that_nothing_was_cut_of_yet_follows_the_shop() -> None:
    later = moved("rough_outside")
    assert later.asked == LATHE_CHECKS[0]
    assert "tool 21" in later.on_to("rough_outside").step.title


def test_another_ring_is_planned_on_the_shop_as_it_is_then() -> None:
    later = moved("outside_reading").on_to("outside_reading")
    small = f"{(later.step.gauge.target or 0.0) - 0.5:.3f}" if later.step.gauge else ""
    later.on_to("past_outside", {"outside_reading": small, "outside_reading_2": small})
    later.on_to("tool_boring", {"past_outside": "fresh"})
    assert later.step.readback == 22


def test_a_file_without_the_order_is_planned_from_the_shop() -> None:
    later = moved("outside_reading", with_order(None)).on_to("lathe_bar")
    assert not any("kept with the job" in text for text in later.step.say)
    assert any(re.match(r"bar: [^;]* 39\.00 mm", text) for text in later.step.say)


@pytest.mark.parametrize("text", ["{", "[]", "x", '{"ring":{}}', "NaN"])
def test_an_order_that_cannot_be_read_is_said_and_planned_from_the_shop(text: str) -> None:
    later = moved("outside_reading", with_order(text)).on_to("lathe_bar")
    said = [line for line in later.step.say if "the plan kept with the job cannot be used" in line]
    assert said and said[0].startswith("CHECK  ")
    assert any(re.match(r"bar: [^;]* 39\.00 mm", text) for text in later.step.say)


def test_an_order_of_another_ring_is_said_and_not_used() -> None:
    (words,) = kept_words(planned().order)
    later = moved("outside_reading", with_order(words.removeprefix("order "))).on_to("lathe_bar")
    assert any("it makes another ring" in line for line in later.step.say)


def test_the_order_stands_behind_what_the_check_always_kept_and_fits_a_line() -> None:
    kept = next(entry for entry in at("finish_outside").bench.entries if entry.key == "lathe_speed")
    assert isinstance(kept.value, tuple)
    assert kept.value[:2] == ("right", "read 420")
    assert str(kept.value[2]).startswith('order {"ring":')
    assert len(render_entry(kept, salt="00000000")) < LINE_LIMIT / 4


def test_a_shop_of_too_many_words_keeps_no_order_rather_than_no_answer() -> None:
    order = planned().order
    assert kept_words(order)
    assert kept_words(replace(order, lathe=replace(order.lathe, name="ж" * 20_000))) == ()


def test_the_command_prints_the_plan_as_it_was_begun(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lines(tmp_path, answers(STRAIGHT))
    capsys.readouterr()
    assert main(["plan", "1", "--json", "--folder", str(tmp_path)]) == DONE
    begun = json.loads(capsys.readouterr().out)
    (tmp_path / SHOP).write_text(starter_text(other_shop()), encoding="utf-8")
    assert main(["plan", "1", "--json", "--folder", str(tmp_path)]) == DONE
    assert json.loads(capsys.readouterr().out) == begun
    assert begun["lathe"] == "small bench lathe"


GARBLED = (
    ('"spares":0', '"spares":Infinity'),
    ('"spares":0', '"spares":-0.0'),
    ('"spares":0', '"spares":' + "9" * 400),
    ('"divisions_per_turn":', '"divisions_per_turn":[],"x":'),
    ('"outside_diameter_mm":', '"outside_diameter_mm":' + "9" * 400 + ',"y":'),
)


@pytest.mark.parametrize(("old", "new"), GARBLED, ids=range(len(GARBLED)))
def test_a_garbled_order_ends_in_a_plan_from_the_shop_and_never_in_a_fault(old: str, new: str) -> None:
    """An order changed by hand and accepted at the gate: the job opens, and says what it plans from."""

    def garbled(entry: Entry) -> Entry:
        if entry.key != "lathe_speed" or not isinstance(entry.value, tuple):
            return entry
        changed = tuple(str(word).replace(old, new) for word in entry.value)
        assert changed != entry.value
        return replace(entry, value=changed)

    later = moved("outside_reading", garbled).on_to("lathe_bar")
    assert any(text.startswith("bar: ") for text in later.step.say)


def test_a_kept_expansion_that_is_no_number_is_said() -> None:
    def garbled(entry: Entry) -> Entry:
        if entry.key != "lathe_speed" or not isinstance(entry.value, tuple):
            return entry
        none = '"expansion_per_k":[]'
        changed = tuple(re.sub(r'"expansion_per_k":[^,}]+', none, str(word)) for word in entry.value)
        assert changed != entry.value
        return replace(entry, value=changed)

    later = moved("outside_reading", garbled).on_to("lathe_bar")
    assert any("the plan kept with the job cannot be used" in line for line in later.step.say)
