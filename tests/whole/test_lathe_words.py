"""What is said at the lathe and on its paper: speeds, zeros, belts, drills, by the words alone."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache

from bench.job import keys
from bench.seals.lathe.cut_checks import belt_asked
from bench.seals.ring.decided import decided_from
from bench.seals.ring.planning import planned
from bench.sheet.turning import plan_lines
from bench.shop.shop import Shop, built_in
from rules.turning.passes import Plan
from tests.whole.lathe_presses import dials
from tests.whole.repairer import Repairer, fresh


@lru_cache
def by_dials() -> tuple[Repairer, Plan]:
    """A job in a shop of hand dials and a belt, the ring accepted, and its plan."""
    repairer = fresh(shop=dials()).on_to("lathe_hands")
    return repairer, plan_of(repairer)


def plan_of(repairer: Repairer) -> Plan:
    """The plan of the accepted ring."""
    job, shop = repairer.desk.job, repairer.desk.shop
    assert job is not None and isinstance(shop, Shop)
    ring = job.newest(keys.RING)
    assert ring is not None
    made, why = planned(job, shop, decided_from(ring.words))
    assert made is not None, why
    return made


def test_the_plan_on_paper_says_each_step_of_the_belt_where_it_goes_over() -> None:
    _, made = by_dials()
    lines = [line.strip() for line in plan_lines(made)]
    over = [line for line in lines if "belt over, to " in line]
    changes = [one for one in made.passes if made.new_speed(one)]
    assert len(over) == len(changes) >= 4
    drill = next(at for at, line in enumerate(lines) if line.startswith("centre, "))
    assert lines[drill + 1] == "- spindle off at the switch: belt over, to 1000 rpm (step 5)"


def test_every_drill_is_set_to_zero_at_its_point() -> None:
    _, made = by_dials()
    drilled = [one for one in made.passes if one.axis == "tailstock"]
    assert len(drilled) == 2
    assert all(one.before[-1] == "point at the face: tailstock to zero" for one in drilled)


def test_what_is_faced_off_is_said_in_divisions_of_a_dial() -> None:
    _, made = by_dials()
    assert made.passes[0].reading_text == "face: 0.30 (0 turns 6 div) off; carriage to zero"


def test_the_belt_is_found_by_the_number_that_its_step_has() -> None:
    repairer = fresh(shop=dials()).on_to("lathe_speed")
    assert not repairer.step.choices and repairer.step.title.endswith("Key the number of the step.")
    repairer.type("2")
    assert "The belt is on step 2: not the step to begin on." in repairer.desk.message
    repairer.on_to("lathe_speed")
    repairer.type("3")
    assert repairer.asked == "rough_outside"


def test_steps_that_are_called_without_numbers_are_dealt_out() -> None:
    named = belt_asked(("inner step", "middle step", "outer step"), 1)
    assert next(one.text for one in named["choices"]) == "middle step" and "readback" not in named
    assert "choices" in belt_asked(("step 1 of pulley 2", "step 2 of pulley 2"), 0)


def test_a_shop_said_after_the_ring_says_its_chance_again() -> None:
    own = built_in()
    calliper = replace(own, instruments=tuple(one for one in own.instruments if one.kind == "calliper"))
    repairer = fresh(shop=calliper).on_to("ring")
    read = next(text for text in repairer.step.say if text.startswith("Wall read with the calliper"))
    here, before = re.findall(r"(\d+) %", read)
    repairer.on_to("bar_measured")
    said = " ".join(repairer.step.consequence)
    assert f"In this shop the chance of this ring is {here} %, with what is assumed {before} %" in said
    wall = repairer.on_to("wall_reading").step
    assert (
        not any("nvil" in text for text in (*wall.say, *wall.how)) and "Thin ends of the jaws" in wall.how[1]
    )
    assert not any("In this shop" in text for text in fresh().on_to("bar_measured").step.consequence)
