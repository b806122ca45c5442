"""What is asked and said of the straight ring while it is turned, function by function, as it was read once
and found true.

python -m tests.seals.test_ring_cut writes `ring_cut.md` anew; read the difference before keeping it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from bench.job import keys
from bench.job.job import Job
from bench.job.route import walk_route
from bench.job.steps import Step, Words
from bench.seals.lathe.turning_facts import kept_words
from bench.seals.ring import bar_steps, cut, cut_readings, cut_steps, interrupted, planning, roughing
from bench.seals.ring.decided import Decided, decided_from
from bench.seals.ring.seal import plan as plan_of_job
from bench.shop.shop import Shop, built_in
from bench.stages.common import Readings
from rules.bars import Bar
from rules.equipment import Tool
from rules.lengths import speaking
from rules.measuring.reading import judge
from rules.turning import operations
from rules.turning.correction import replan
from rules.turning.opening import Opening
from rules.turning.passes import Plan
from tests.seals.test_ring_measured import SHOP, Given, Kept, driven, job_of, only
from tests.seals.test_ring_sized import ACCEPTED, ANOTHER, READ, accepted

KEPT = Kept(__file__)
DECIDED = decided_from(ACCEPTED[1:])
CUT = {"bar_measured": "45.40 mm", "outside_reading": "36.62 mm", "wall_reading": "0.720 mm"}
"""What the bar, the outside before its last pass, and the wall before its last pass measure."""
BASE_JOB: tuple[Given, ...] = (*READ, ACCEPTED)


def made_of(decided: Decided = DECIDED, shop: Shop = SHOP, *given: Given) -> Plan:
    """The plan of a ring in this shop."""
    made, why = planning.planned(job_of(*READ, ACCEPTED, *given), shop, decided)
    assert made is not None, why
    return made


@cache
def turned_to(key: str, said: tuple[tuple[str, str], ...] = (), **ring: str) -> tuple[Given, ...]:
    """A file of a straight ring at the lathe, up to the step before this one."""
    first = accepted(**ring)
    given: list[Given] = [*READ, first]
    stage = cut.cut(job_of(*given), SHOP, decided_from(first[1:]))
    step: Any = None
    for one in driven(stage, CUT | dict(said)):
        if isinstance(one, Step):
            if one.key == key:
                return tuple(given)
            step = one
        elif step is not None:
            words = answer_of(step, (CUT | dict(said)).get(step.key))
            given.append((step.key, *words))
            step = None
    raise AssertionError(f"{key} is never asked")


def answer_of(step: Step, said: str | None) -> Words:
    """What `driven` answers."""
    if step.kind == "safety":
        return ("right", *step.decided)
    word = said or step.usual or step.choices[0].word
    choice = step.choice(word)
    return (word, *(choice.with_it if choice else ()))


def walked(job: Job, decided: Decided = DECIDED, shop: Shop = SHOP) -> Iterator[object]:
    """How far the answers of a job carry at the lathe: what counts, and the step that is open."""
    way = walk_route(job, cut.cut(job, shop, decided), seal="ring")
    yield " ".join(step.key for step, _ in way.done)
    yield way.open if way.open is not None else "= done"


# the whole stage


@KEPT.case
def a_ring_is_turned() -> Iterator[object]:
    yield from driven(cut.cut(job_of(*BASE_JOB), SHOP, DECIDED), CUT)


@KEPT.case
def a_ring_and_two_spares_are_turned() -> Iterator[object]:
    two = replace(DECIDED, spares=2)
    shown = ("part", "tool_spare_2", "spare_2", "spare_3", "dress")
    yield from only(driven(cut.cut(job_of(*READ, accepted(spares="2")), SHOP, two), CUT), *shown)


@KEPT.case
def what_needs_no_turning() -> Iterator[object]:
    yield list(driven(cut.cut(job_of(*BASE_JOB), SHOP, replace(DECIDED, at_hand="new"))))
    remake: Given = ("remake", "spare", "bore 35.19 mm", "outside 36.43 mm")
    yield list(driven(cut.cut(job_of(*BASE_JOB, remake, ANOTHER), SHOP, DECIDED)))
    thin = replace(SHOP, bars=SHOP.bars[:1])
    yield from driven(cut.cut(job_of(*BASE_JOB), thin, DECIDED))
    yield from list(driven(cut.cut(job_of(*BASE_JOB), replace(SHOP, bars=SHOP.bars[3:]), DECIDED)))[:1]
    with speaking("inch"):
        yield cut_steps.cannot_turn("bar: 36.5 mm is too thin")


@KEPT.case
def readings_that_cannot_come_from_the_cut() -> Iterator[object]:
    odd = CUT | {"outside_reading": "35.00 mm", "outside_reading_2": "35.00 mm"}
    for then in ("again", "fresh"):
        said = odd | {"odd_finish_outside": then}
        yield then
        yield from list(
            only(
                driven(cut.cut(job_of(*BASE_JOB), SHOP, DECIDED), said),
                "odd_finish_outside",
                "finish_outside_afresh",
                "fresh_ring",
            )
        )[-7:]


@KEPT.case
def an_outside_that_is_past() -> Iterator[object]:
    past = CUT | {"outside_reading": "36.36 mm", "outside_reading_2": "36.36 mm"}
    wall = {"wall_reading": "0.700 mm", "wall_reading_2": "0.700 mm"}
    for then in ("smaller_bore", "fresh"):
        said = past | wall | {"past_outside": then}
        stage = cut.cut(job_of(*BASE_JOB), SHOP, DECIDED)
        every = list(only(driven(stage, said), "past_outside", "finish_bore"))
        yield from every[-13 if then == "fresh" else -32 :]
    lands = replace(DECIDED, lands_mm=0.012)
    stage = cut.cut(job_of(*BASE_JOB), SHOP, lands)
    yield [
        one.choices[0].text
        for one in driven(stage, past | wall)
        if isinstance(one, Step) and one.key == "past_outside"
    ]


@KEPT.case
def a_bore_that_is_past() -> Iterator[object]:
    past = CUT | {"wall_reading": "0.560 mm", "wall_reading_2": "0.561 mm"}
    for then in ("larger_glass", "fresh"):
        stage = cut.cut(job_of(*BASE_JOB), SHOP, DECIDED)
        every = list(
            only(
                driven(stage, past | {"past_bore": then}), "past_bore", "fresh_ring", "dress", "measure_again"
            )
        )
        yield from every[-20 if then == "larger_glass" else -7 :]


@KEPT.case
def readings_that_call_for_another_pass() -> Iterator[object]:
    far = CUT | {"outside_reading": "36.75 mm", "outside_reading_2": "36.75 mm"}
    far |= {"second_outside_reading": "36.62 mm", "second_outside_reading_2": "36.62 mm"}
    far |= {"third_outside_reading": "36.60 mm", "third_outside_reading_2": "36.60 mm"}
    shown = (
        "outside_reading",
        "second_outside_reading",
        "third_outside_reading",
        "more_outside_1",
        "more_outside_2",
        "last_outside",
    )
    yield from only(driven(cut.cut(job_of(*BASE_JOB), SHOP, DECIDED), far), *shown)


# broken off


@KEPT.case
def work_broken_off_and_gone_on_with() -> Iterator[object]:
    for upto in (
        "rough_outside",
        "tool_boring",
        "finish_outside",
        "last_outside",
        "chamfer",
        "part",
        "dress",
    ):
        given = turned_to(upto)
        yield upto
        yield from walked(job_of(*given, ("sitting", "work")))
    every = (*turned_to("part"), ("sitting", "work"))
    back = walk_route(job_of(*every), cut.cut(job_of(*every), SHOP, DECIDED), seal="ring").open
    assert back is not None
    checks = [(key, "right") for key in ("lathe_hands", "lathe_eyes", "lathe_key")]
    order = next(one for one in every if one[0] == "lathe_speed")
    again = (*every, *checks, ("lathe_bar", "right"), ("lathe_speed", *order[1:]))
    yield from walked(job_of(*again))
    yield from walked(job_of(*again, ("tool_again", "right")))
    yield from walked(job_of(*again, ("tool_again", "right"), ("touch_off", "moved")))
    yield from walked(job_of(*again, ("tool_again", "right"), ("touch_off", "done")))


@KEPT.case
def which_pass_comes_next() -> Iterator[object]:
    made = made_of()
    for upto in ("rough_outside", "drill", "tool_boring", "rest", "last_outside", "chamfer", "part", "dress"):
        job = job_of(*turned_to(upto), ("sitting", "work"))
        one = interrupted.next_pass(job, made)
        yield (
            upto,
            interrupted.began_before_this_sitting(job),
            one.n if one else None,
            one.operation if one else None,
        )
        yield interrupted.last_cut(job)
    some: Given = ("rough_outside", "some", "passes 2", "outside: go to 44.00, diameter")
    for given in (some, (*some[:2], *some[3:]), ("rough_outside_from_3", "some", "passes 1")):
        job = job_of(*turned_to("rough_outside"), some, given, ("sitting", "work"))
        one = interrupted.next_pass(job, made)
        assert one is not None
        yield given, one.n, one.operation
    before = job_of(*BASE_JOB, ("sitting", "work"))
    yield interrupted.began_before_this_sitting(before)
    yield interrupted.began_before_this_sitting(job_of(*BASE_JOB, ("lathe_bar", "right")))
    yield interrupted.began_before_this_sitting(
        job_of(*BASE_JOB, ("lathe_bar", "right"), ("sitting", "work"))
    )
    yield interrupted.began_before_this_sitting(
        job_of(("lathe_speed", "right"), *BASE_JOB, ("sitting", "work"))
    )


@KEPT.case
def whether_its_tool_was_looked_at() -> Iterator[object]:
    made = made_of()
    look: Given = ("tool_boring", "right")
    bored = next(one for one in made.passes if one.operation == operations.ROUGH_BORE)
    faced = made.passes[0]
    for given in ((look, ("sitting", "work")), (("sitting", "work"), look), (("sitting", "work"),), (look,)):
        job = job_of(*BASE_JOB, *given)
        yield interrupted.tool_looked_at(job, bored), interrupted.tool_looked_at(job, faced)
    yield interrupted.tool_looked_at(job_of(look, *BASE_JOB, ("sitting", "work")), bored)
    yield dict(interrupted.CHECKED_BY)


@KEPT.case
def touching_off_again() -> Iterator[object]:
    yield interrupted.touch_off(())
    yield interrupted.touch_off(("outside: touch off",))
    for target in (
        "bore: go to 0 turns 60 dial, makes 30.50",
        "bore: go to 1 turn 60 dial, makes 30.50",
        "bore: go to 60 dial, makes 30.50",
        "bore: go to 8 turns 60 div, makes 30.50, dial at 20",
        "bore: go to 3.5 div from zero, makes 30.50",
        "outside: go to 33.00 from zero, diameter",
        "outside: go to 33.00, radius, makes 66.00",
    ):
        yield interrupted.set_to(target)
    rough: Given = ("rough_outside", "done", "face: go to 0.00", "outside: go to 44.00, diameter", "tool 1")
    job = job_of(
        *BASE_JOB,
        rough,
        ("finish_outside", "done", "outside: go to 36.60, diameter"),
        ("rough_bore", "done", "bore: go to 30.00"),
    )
    yield interrupted.last_cut(job)
    yield interrupted.last_cut(
        job_of(*BASE_JOB, rough, ("more_outside_2", "done", "outside: go to 36.50, diameter"))
    )
    some: Given = ("rough_outside", "some", "passes 2", "outside: go to 43.00, diameter")
    yield interrupted.last_cut(
        job_of(*BASE_JOB, some, ("rough_outside_from_3", "done", "outside: go to 41.00, diameter"))
    )
    yield interrupted.last_cut(
        job_of(*BASE_JOB, some, ("rough_outside_from_2", "done", "outside: go to 41.00, diameter"))
    )
    yield interrupted.last_cut(
        job_of(*BASE_JOB, (*some[:2], *some[3:]), ("rough_outside_from_2", "done", "outside: go to 40.00"))
    )
    yield interrupted.last_cut(job_of(*BASE_JOB, ("finish_outside", "done", "bore: go to 40.00")))


# the bar


@KEPT.case
def what_the_bar_measures() -> Iterator[object]:
    made = made_of()
    yield bar_steps.measure_step("bar_measured", made, SHOP)
    said = replace(SHOP, bars=(*SHOP.bars[:2], replace(SHOP.bars[2], outside_mm=45.3), *SHOP.bars[3:]))
    yield bar_steps.measure_step("bar_measured_2", made, said)
    with speaking("inch"):
        yield bar_steps.measure_step("bar_measured", made_of(DECIDED, built_in("inch")), built_in("inch"))
    for told in (
        (),
        (("lathe_bar", "right"),),
        (("lathe_bar", "right"), ("sitting", "work")),
        (("lathe_speed", "right"), ("sitting", "work"), ("lathe_bar", "right")),
        (("rough_outside", "done"), ("sitting", "work")),
        (("rough_outside", "done"), ACCEPTED),
    ):
        yield bar_steps.begun(job_of(*BASE_JOB, *told))


CORE = Tool(
    number=5,
    kind="face_grooving",
    name="face-grooving tool",
    blade_mm=2.0,
    smallest_groove_mm=20.0,
    largest_groove_mm=40.0,
    depth_mm=12.0,
)
TUBE = Bar(plastic="acetal", diameter_mm=40.0, length_mm=80.0, colour="white", kind="tube", bore_mm=30.0)


@KEPT.case
def a_bar_with_a_bore() -> Iterator[object]:
    shop = replace(SHOP, bars=(TUBE, *SHOP.bars))
    made = made_of(DECIDED, shop)
    yield bar_steps.bored(made), bar_steps.bored(made_of())
    yield bar_steps.bore_step(made)
    narrow = replace(made, order=replace(made.order, bar=replace(TUBE, bore_mm=2.0)))
    yield bar_steps.bore_step(narrow).mask
    drilled = replace(made, order=replace(made.order, opening=Opening(drills_mm=(10.0,), hole_mm=10.0)))
    yield bar_steps.bored(drilled)
    stage = cut.cut(job_of(*BASE_JOB), shop, DECIDED)
    yield from list(only(driven(stage, {"bar_measured": "40.20 mm"}), "bar_measured", "bar_bore"))[:6]


@KEPT.case
def a_bar_that_leads_to_another() -> Iterator[object]:
    near = Bar(plastic="acetal", diameter_mm=37.5, length_mm=200.0, colour="white")
    shop = replace(SHOP, bars=(near, *SHOP.bars))
    for first, second in (("36.10 mm", "45.20 mm"), ("37.60 mm", "45.20 mm"), ("36.10 mm", "43.60 mm")):
        job = job_of(*BASE_JOB, ("bar_measured", first), ("bar_measured_2", second))

        def plan(asked: Words, job: Job = job) -> tuple[Plan | None, str]:
            return planning.planned(job, shop, DECIDED, asked)

        stage = bar_steps.bar_asked(job, shop, plan, ("as said",))
        every = list(driven(stage, {"bar_measured": first, "bar_measured_2": second}))
        yield from (
            f"{one.key} {one.title} {one.consequence} {one.asks_shop}"
            for one in every
            if isinstance(one, Step)
        )
    gone = list(driven(bar_steps.bar_asked(job_of(*BASE_JOB), shop, lambda _: (None, "no bar"))))
    yield gone
    begun = job_of(*BASE_JOB, ("rough_outside", "done"))
    made = made_of()
    yield [
        one for one in driven(bar_steps.bar_asked(begun, shop, lambda _: (made, ""))) if isinstance(one, Step)
    ]
    measured = job_of(*BASE_JOB, ("bar_measured", "45.20 mm"), ("rough_outside", "done"))
    asked = driven(bar_steps.bar_asked(measured, shop, lambda _: (made, "")), CUT)
    yield [(one.key, one.asks_shop, one.goes_by) for one in asked if isinstance(one, Step)]


@KEPT.case
def a_bar_as_it_is() -> Iterator[object]:
    bar = SHOP.bars[2]
    for told in (
        (),
        (("bar_measured", "45.30 mm"),),
        (("bar_measured", "45.30 mm"), ("bar_measured_2", "45.10 mm")),
        (("bar_measured", "50.00 mm"),),
        (("bar_measured", "45.30 mm"), ACCEPTED),
        (("bar_bore", "30.20 mm"),),
    ):
        found = bar_steps.as_it_is(job_of(*BASE_JOB, *told), bar)
        yield found.outside_mm, found.bore_mm, found.length_mm
    yield bar_steps.as_it_is(job_of(*BASE_JOB, ("bar_measured", "45.30 mm")), bar, ()).outside_mm
    for bore in ("30.20 mm", "31.50 mm", "28.50 mm", "31.51 mm", "28.49 mm"):
        yield bar_steps.as_it_is(job_of(*BASE_JOB, ("bar_bore", bore)), TUBE).bore_mm
    yield bar_steps.as_it_is(job_of(*BASE_JOB, ("bar_bore", "30.20 mm")), TUBE, ("bar_measured",)).bore_mm
    for said in (
        *("bar 45 mm|colour black|left 120.5 mm", "bar 45 mm|colour white|left 120.5 mm"),
        *("bar 36 mm|colour black|left 99 mm", "bar 45 mm|colour black|left 0.9 mm"),
        *(
            "bar 45 mm|colour black|left 1.1 mm",
            "bar 45 mm|colour black",
            "bar 45 mm|colour black|left 190 mm",
        ),
    ):
        job = job_of(*BASE_JOB, ("rough_outside", "done", *said.split("|")), ANOTHER, ACCEPTED)
        yield said, bar_steps.as_it_is(job, bar).length_mm


@KEPT.case
def what_is_left_of_the_bar() -> Iterator[object]:
    made = made_of()
    yield bar_steps.left_words(made)
    sawn = replace(made.order.stock, sawn_mm=made.order.stock.used_mm + 30.0)
    cored = made_of(DECIDED, replace(SHOP, tools=(*SHOP.tools, CORE)))
    yield bar_steps.left_words(replace(cored, order=replace(cored.order, stock=sawn)))
    step = cut_steps.cannot_turn("why")
    yield (
        bar_steps.shortening(step, made, known=True).consequence,
        bar_steps.shortening(step, made, known=False).consequence,
    )


# the plan


@KEPT.case
def which_plan_there_is() -> Iterator[object]:
    made = made_of()
    text = kept_words(made.order)[0]
    kept: Given = ("lathe_speed", "right", text)
    rough: Given = ("rough_outside", "done")
    for name, told in {
        "nothing": (),
        "checked": (kept,),
        "an earlier sitting": (kept, ("sitting", "work")),
        "begun in an earlier sitting": (kept, rough, ("sitting", "work")),
        "no order": (("lathe_speed", "right"), ("lathe_bar", "right")),
        "the newer": (("lathe_bar", "right", "order old"), kept),
        "the newer, the other way": (kept, ("lathe_bar", "right", "order new")),
        "for another ring": (kept, ACCEPTED),
    }.items():
        job = job_of(*BASE_JOB, *told)
        yield name, len(planning.kept_order(job)), planning.cut_without_order(job)
    yield (
        planning.cut_without_order(job_of(*BASE_JOB, rough)),
        planning.cut_without_order(job_of(*BASE_JOB, kept, rough)),
    )
    other = replace(DECIDED, spares=1)
    for decided, order in (
        (DECIDED, text),
        (other, text),
        (replace(DECIDED, plastic="pa66"), text),
        (DECIDED, "order {}"),
        (DECIDED, "order x"),
    ):
        found, why = planning.planned(job_of(*BASE_JOB, ("lathe_speed", "right", order)), SHOP, decided)
        yield why, (found.warnings, found.order.bar.plastic, found.order.spares) if found else None
    slow = replace(SHOP, lathes=(replace(SHOP.lathes[0], name="another lathe"),))
    found, _ = planning.planned(job_of(*BASE_JOB, kept), slow, DECIDED)
    assert found is not None
    yield found.order.lathe.name
    early, _ = planning.planned(job_of(*BASE_JOB, rough), SHOP, DECIDED)
    assert early is not None
    yield early.order.opening, made.order.opening


@KEPT.case
def which_equipment_is_taken() -> Iterator[object]:
    large = replace(SHOP.lathes[0], name="large lathe")
    fine = tuple(replace(one, tool_set="fine") for one in SHOP.tools)
    shop = replace(SHOP, lathes=(*SHOP.lathes, large), tools=(*SHOP.tools, *fine))
    for told in (
        (),
        (("lathe", "large lathe"), ("tool_set", "fine"), ("bar", "acetal black 45 mm")),
        (("lathe", "gone"), ("tool_set", "gone"), ("bar", "as it fits")),
        (("bar", "gone"),),
    ):
        job = job_of(*told, *BASE_JOB)
        yield [
            (
                one.lathe.name,
                one.tools[0].tool_set,
                one.bar.diameter_mm,
                one.spares,
                one.offsets_mm,
                one.expansion_per_k,
            )
            for one in planning.set_ups(job, shop, replace(DECIDED, spares=1), ())
        ]
    yield planning.planned(job_of(("bar", "gone"), *BASE_JOB), shop, DECIDED)
    yield planning.expansion(SHOP, "ptfe"), planning.expansion(SHOP, "unheard of")
    measured = job_of(*BASE_JOB, ("bar_measured", "45.40 mm"))
    yield [one.bar.outside_mm for one in planning.set_ups(measured, SHOP, DECIDED, ("bar_measured",))]


@KEPT.case
def offsets_of_the_ring_before() -> Iterator[object]:
    def after(*given: Given) -> dict[int, float]:
        return planning.offsets(job_of(*BASE_JOB, *given, ANOTHER))

    yield after(
        ("last_outside", "done", "offset 0.030 mm", "tool 1"),
        ("last_bore", "done", "offset -0.020 mm", "tool 2"),
    )
    for offset in ("0.100 mm", "-0.100 mm", "0.101 mm", "-0.101 mm"):
        yield offset, after(("last_outside", "done", f"offset {offset}", "tool 1"))
    yield after(("last_outside", "done", "tool 1")), after(("last_outside", "done", "offset 0.030 mm"))
    yield after(("last_outside", "done", "offset 0.030 mm", "tool 1"), ("sitting", "work"))
    yield planning.offsets(job_of(*BASE_JOB, ("last_outside", "done", "offset 0.030 mm", "tool 1")))


@KEPT.case
def sizes_on_whole_steps() -> Iterator[object]:
    made = made_of()
    yield planning.step_words(made)
    for bore, outside in (
        (35.196, 36.43),
        (35.1959, 36.43),
        (35.19, 36.436),
        (35.19, 36.4361),
        (35.184, 36.43),
        (35.1841, 36.43),
    ):
        ring = replace(made.order.ring, bore_mm=bore, outside_diameter_mm=outside)
        yield bore, outside, planning.step_words(replace(made, order=replace(made.order, ring=ring)))
    with speaking("inch"):
        yield planning.step_words(replace(made, order=replace(made.order, ring=ring)))
    solid = replace(made, passes=tuple(one for one in made.passes if one.operation != operations.FINISH_BORE))
    yield (
        planning.step_words(solid),
        planning.step_words(replace(solid, order=replace(made.order, ring=ring))),
    )
    lands = replace(DECIDED, lands_mm=0.012)
    yield made_of(lands).stock_words, planning.accepted_ring(DECIDED)
    coarse = replace(SHOP.lathes[0], cross=replace(SHOP.lathes[0].cross, step_mm=0.05))
    yield made_of(DECIDED, replace(SHOP, lathes=(coarse,))).stock_words


@KEPT.case
def the_plan_of_a_job() -> Iterator[object]:
    for told in (
        (),
        (accepted(at_hand="new"),),
        (accepted(at_hand="made"),),
        (accepted(at_hand="pressed"),),
        (accepted(at_hand="drawer"),),
        (accepted(plastic="peek"),),
    ):
        found, why = plan_of_job(job_of(*told), SHOP)
        yield found is not None, why
    found, why = plan_of_job(job_of(ACCEPTED), SHOP)
    assert found is not None and not why
    yield found[0].order.ring, found[1]


# acts at the lathe


@KEPT.case
def one_act_at_the_lathe() -> Iterator[object]:
    made = made_of()
    rough = made.of(operations.ROUGH_OUTSIDE)
    for act, passes in (
        ("rough_outside", rough),
        ("rough_outside_from_2", rough[1:2]),
        ("rest", made.of(operations.REST)),
        ("finish_outside", made.of(operations.FINISH_OUTSIDE)),
        ("part", made.of(operations.PART)),
        ("dress", made.of(operations.DRESS)),
        ("drill", ()),
    ):
        yield cut_steps.action(act, passes, made, ("before",), ("said first",), None, made.order.boring)
    found = replan(made, operation=operations.FINISH_OUTSIDE, reading_mm=36.62)
    yield cut_steps.action("last_outside", made.of(operations.FINISH_OUTSIDE)[-1:], made, (), (), found)
    two = made_of(replace(DECIDED, spares=2))
    yield cut_steps.action("dress", two.of(operations.DRESS), two, ()).choices
    spare = tuple(one for one in two.passes if one.ring == 3 and one.operation == operations.PART)
    yield (
        cut_steps.laid_apart(two, spare),
        cut_steps.laid_apart(two, two.of(operations.PART)[:1]),
        cut_steps.laid_apart(two, ()),
    )
    same = tuple(one for one in two.passes if one.ring == 2 and one.operation == operations.PART)
    yield cut_steps.laid_apart(two, same)


@KEPT.case
def how_it_is_said_that_it_is_done() -> Iterator[object]:
    made = made_of()
    for many in (0, 1, 2, 3):
        yield cut_steps.done_words(many, made, None), cut_steps.done_words(many, made, made.order.parting)
    yield cut_steps.next_words(made, made.order.chamfer), cut_steps.next_words(made, None)
    one = made.of(operations.ROUGH_OUTSIDE)[0]
    yield (
        cut_steps.kept("drill", (replace(one, tool=None),), made, None),
        cut_steps.kept("drill", (replace(one, rpm=None),), made, None),
    )
    yield cut_steps.kept("rough_outside", (), made, None), cut_steps.kept("dress", (), made, None)
    yield cut_steps.set_up_words(made), cut_steps.counted(3, ("x",))
    belt = replace(made.order.lathe, speed_names=tuple(f"step {n}" for n in range(1, 8)))
    belted = replace(made, order=replace(made.order, lathe=belt))
    for passes in (
        made.of(operations.PART),
        made.of(operations.ROUGH_OUTSIDE),
        made.of(operations.REST),
        made.of(operations.DRESS),
        (replace(one, operation=operations.CORE),),
        (),
    ):
        yield cut_steps.caution_places("x", made, passes), cut_steps.caution_places("x", belted, passes)
    yield (
        cut_steps.caution_places("x", belted, made.passes[1:2]),
        cut_steps.bar_picture(made, ()),
        cut_steps.bar_picture(made, made.passes[5:]),
    )


@KEPT.case
def passes_recorded_as_they_are_made() -> Iterator[object]:
    made = made_of()
    rough = made.of(operations.ROUGH_OUTSIDE)
    some = {"rough_outside": "some", "rough_outside_from_2": "some", "rough_outside_from_3": "done"}
    every = driven(
        cut_steps.turned("rough_outside", rough, made, ("before",), ("first",), then=made.order.boring), some
    )
    yield from (
        one
        if isinstance(one, str)
        else f"{one.key} {one.rests_on} {one.consequence} {[(c.text, c.with_it) for c in one.choices]}"
        for one in every
        if isinstance(one, str | Step)
    )
    two = made_of(replace(DECIDED, spares=2))
    own = tuple(one for one in two.passes if one.ring == 2 and one.operation != operations.DRESS)
    job = job_of(*BASE_JOB)
    yield from driven(cut_steps.turned("spare_2", own, two, ("part",), ("first",), look=job))
    yield (
        [cut_steps.end_of_tool("spare_2", own, start) for start in range(len(own))],
        cut_steps.end_of_tool("rough_bore", own, 0),
    )


@KEPT.case
def the_tool_before_an_act_of_a_spare() -> Iterator[object]:
    two = made_of(replace(DECIDED, spares=2))
    own = tuple(one for one in two.passes if one.ring == 2 and one.operation != operations.DRESS)
    for told in (
        (),
        (("spare_2", "done"),),
        (("spare_2", "done"), ("tool_spare_2", "right")),
        (("tool_spare_2", "right"), ("spare_2", "done")),
    ):
        job = job_of(*BASE_JOB, ("part", "done"), *told)
        yield told
        yield from driven(cut_steps.looked_at(job, "spare_2", own[0], two, ("part",)))
    parting = [one for one in own if one.operation == operations.PART]
    yield from driven(cut_steps.looked_at(job_of(*BASE_JOB), "spare_2", parting[-1], two, ("part",)))


# roughing


@KEPT.case
def roughed_with_a_core() -> Iterator[object]:
    made = made_of()
    start = roughing.Cutting(made, DECIDED, keys.RING, 0.1, job_of(*BASE_JOB), True)
    yield from only(driven(roughing.roughed(start)), "rest")
    cored = made_of(DECIDED, replace(SHOP, tools=(*SHOP.tools, CORE)))
    yield [one.operation for one in cored.passes][:6], cored.order.opening
    yield from only(
        driven(roughing.roughed(replace(start, plan=cored))), "core", "tool_core", "rough_outside"
    )
    yield from list(only(driven(roughing.roughed(start), {"rest": "moved"}), "fresh_ring"))[-6:]
    tube = made_of(DECIDED, replace(SHOP, bars=(TUBE, *SHOP.bars)))
    yield from only(driven(roughing.roughed(replace(start, plan=tube))), "rough_outside")


@KEPT.case
def the_work_cools() -> Iterator[object]:
    made = made_of()
    yield roughing.rest_step(made, "rough_bore")
    cooling = roughing.cooling_of(made)
    assert cooling is not None
    yield cooling, cooling.outside_um(0.0), cooling.wall_um(0.0)
    unknown = replace(made, order=replace(made.order, expansion_per_k=None))
    yield roughing.cooling_of(unknown), roughing.rest_step(unknown, "rough_bore")
    with speaking("inch"):
        yield roughing.rest_step(made, "rough_bore").choices


# readings on the work


@KEPT.case
def readings_on_the_work() -> Iterator[object]:
    for key, expected in (("outside_reading", 36.6), ("second_outside_reading", 5.0)):
        yield cut_readings.outside_reading(SHOP, key, expected, ("before",))
    yield cut_readings.wall_reading(SHOP, "wall_reading", 0.72, ("before",))
    inch = built_in("inch")
    yield cut_readings.outside_reading(inch, "outside_reading", 36.6, ())
    yield cut_readings.wall_reading(inch, "wall_reading", 0.72, ())
    made = made_of()
    for operation in (operations.FINISH_OUTSIDE, operations.FINISH_BORE, operations.ROUGH_OUTSIDE):
        yield (
            operation,
            [one.measure for one in made.of(operation)],
            tuple(cut_readings.measured_at(made, operation, n) for n in range(3)),
        )


def read_as(*walls: float, within: float = 0.02, places: tuple[str, ...] = ()) -> Readings:
    """Walls as they were read on the bar."""
    job = job_of(*((f"wall_reading_each_{n}", f"{wall:.3f} mm") for n, wall in enumerate(walls, 1)))
    where = places or tuple(f"{n}" for n in range(1, len(walls) + 1))
    return Readings(job.answers, judge(list(walls), within_mm=within), where)


@KEPT.case
def what_readings_come_to() -> Iterator[object]:
    for name, read in {
        "four alike": read_as(0.720, 0.722, 0.721, 0.723),
        "one far off": read_as(0.720, 0.722, 0.721, 0.800),
        "read again there": read_as(0.720, 0.722, 0.721, 0.800, 0.723, places=("1", "2", "3", "4", "4")),
        "one reading": read_as(0.720, places=("again",)),
        "two readings": read_as(0.720, 0.724, places=("again", "again")),
    }.items():
        for then in ("again", "mean"):
            yield name, then
            yield from driven(
                cut_readings.taken_as(read, "wall_reading", "finish_bore"), {"odd_wall_reading": then}
            )
    yield from only(
        driven(
            cut.cut(job_of(*BASE_JOB), SHOP, DECIDED),
            CUT
            | {"wall_reading": "one by one"}
            | {f"wall_reading_each_{n}": "0.720 mm" for n in range(1, 5)},
        ),
        "wall_reading_each_1",
        "last_bore",
    )


@KEPT.case
def corrected_by_a_reading() -> Iterator[object]:
    made = made_of()
    yield cut_readings.odd_step("finish_bore", "wall: 0.10 mm is no wall of it", ("wall_reading",))
    yield (
        cut_readings.afresh_step("finish_bore"),
        cut_readings.afresh_step("finish_bore", "odd_wall_reading").rests_on,
    )
    for reading in (36.62, 36.43, 36.36, 40.0):
        stage = cut_readings.corrected(made, operations.FINISH_OUTSIDE, reading, ("outside_reading",))
        end = list(only(driven(stage)))
        yield reading, [one for one in end if not str(one).startswith("= Corr")]
    found = replan(made, operation=operations.FINISH_OUTSIDE, reading_mm=36.36)
    yield found.words, found.ways_out, found.same_wall_bore_mm
    for bore in (35.12, None):
        yield cut_readings.past_step(
            "past_outside", found, ("outside_reading",), bore_mm=bore, then=("then this",)
        )
    yield cut_readings.past_step("past_bore", found, (), bore_mm=None)
    with speaking("inch"):
        yield cut_readings.past_step("past_outside", found, (), bore_mm=35.12).choices


@KEPT.case
def what_a_surface_should_measure() -> Iterator[object]:
    at = roughing.Cutting(made_of(), DECIDED, keys.RING, 0.1, job_of(*BASE_JOB), True)
    for surface in (cut.THE_OUTSIDE, cut.THE_BORE):
        yield (
            surface.expected(at, 35.0),
            surface.expected(at, 0.0),
            surface.operation,
            surface.reading,
            surface.within_mm,
            surface.then(at.plan),
        )
    yield cut_steps.NEXT_BAR, cut.NOT_MEASURED


@pytest.mark.parametrize("name", KEPT.cases)
def test_what_is_asked_and_said_at_the_lathe(name: str) -> None:
    KEPT.check(name)


if __name__ == "__main__":
    KEPT.write()
