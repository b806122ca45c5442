"""What is asked and said of the straight ring while it is sized, function by function, as it was read once
and found true.

python -m tests.seals.test_ring_sized writes `ring_sized.md` anew; read the difference before keeping it.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from dataclasses import asdict, replace
from typing import Any

import pytest

from bench.job import keys
from bench.job.in_drawer import Lying
from bench.job.job import Job
from bench.job.learned import Learned, learned_words
from bench.job.past import PastRing, to_json
from bench.job.steps import Choice, Step
from bench.seals.ring import (
    aim,
    at_hand,
    causes,
    from_drawer,
    hand,
    hand_steps,
    in_place,
    in_this_shop,
    landing,
    larger_glass,
    lessons,
    size,
    size_steps,
    size_words,
)
from bench.seals.ring.decided import Decided, as_turned, decided_from, decided_words
from bench.seals.ring.measure import Measured
from bench.shop.shop import built_in
from rules.bars import Bar
from rules.learning.landing import Lands
from rules.learning.repeating import Repeating
from rules.lengths import speaking
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import size as sized
from rules.turning.order import SetUp
from rules.turning.planning import plan
from tests.seals.test_ring_measured import SHOP, Given, Kept, driven, job_of, only, size_of

KEPT = Kept(__file__)
MEASURED = Measured(
    seat=size_of(36.43),
    glass=size_of(35.305, 0.035, 0.01),
    oval_mm=0.02,
    glass_material=None,
    seat_depth_mm=1.6,
    glass_edge_mm=None,
    temperature_c=20.0,
    gap_keys=("temperature", "seat_way", "case_bore_1", "glass_way", "glass_1"),
    keys=("hold", "temperature", "case_bore_1", "glass_1", "seat_depth"),
)
QUESTION = SizingQuestion(
    case_bore_mm=36.43,
    glass_mm=35.305,
    seat_depth_mm=1.6,
    material="acetal",
    case_bore_u_mm=0.04,
    glass_u_mm=0.035,
    ovality_mm=0.02,
    turning_spread_mm=0.01,
)
STEEL = replace(QUESTION, case_metal="316L", case_wall_mm=1.5, case_height_mm=3.0)
ACCEPTED: Given = (
    *("ring", "accept", "outside 36.43 mm", "bore 35.19 mm", "height 1.45 mm", "chamfer 0.15 mm"),
    *("lower_chamfer 0.10 mm", "squeeze 9.3 %", "squeeze_low 5.840 %", "squeeze_high 12.220 %"),
    *("chance 93.1 %", "plastic acetal", "press unknown", "seat 36.430 mm", "seat_u 0.040 mm"),
    *("seat_oval 0.020 mm", "seat_n 2", "glass 35.305 mm", "glass_u 0.035 mm", "glass_oval 0.010 mm"),
    *("glass_n 2", "spares 0", "by ringwright 1"),
)
"""A ring with a wall of 0.62 mm in a gap of 0.5625 mm."""
READ: tuple[Given, ...] = (("sitting", "work"), ("case_bore_1", "36.43 mm"), ("glass_1", "35.305 mm"))
ANOTHER: Given = ("attempt", "ring")


def accepted(**said: str) -> Given:
    """The same with other words, or without one where its text is empty."""
    names = {word.partition(" ")[0]: word for word in ACCEPTED[2:]}
    names |= {name: f"{name} {text}" if text else "" for name, text in said.items()}
    return (*ACCEPTED[:2], *filter(None, names.values()))


def pressed(outcome: str, walls: str = "0.621 0.619 0.620 0.624") -> Given:
    """What happened under the press, with what was decided of the ring as made."""
    home = ("2026-03-02T10:00:00+00:00",) if outcome == "home" else ()
    kept = (f"walls {walls} mm", "squeeze 9.40 %", "squeeze_u 4.20 %", "decision undecided")
    return ("fit_outcome", outcome, *home, *kept)


def tried(outcome: str, *after: Given, walls: str = "0.621 0.619 0.620 0.624") -> Job:
    """A job whose first ring was tried, and whose second is to be sized."""
    return job_of(*READ, ACCEPTED, ("dress", "done"), pressed(outcome, walls), *after, ANOTHER)


def refused(work: Callable[[], object]) -> str:
    """Why something cannot be."""
    with pytest.raises(ValueError) as why:
        work()
    return f"! {why.value}"


# the questions


@KEPT.case
def the_questions() -> Iterator[object]:
    for module in (size_steps, hand_steps, causes, from_drawer):
        yield from (one for one in vars(module).values() if isinstance(one, Step))
    yield from (causes.fit_cause(one) for one in ("home", "too_easy", "shaved", "chipped", "bezel_moved"))


@KEPT.case
def the_equipment() -> Iterator[object]:
    for unit in ("mm", "inch"):
        with speaking(unit):
            yield from size_steps.equipment_steps(built_in(unit))
            yield size_steps.spares_step()
    bars = (
        Bar(plastic="acetal", diameter_mm=45.0, length_mm=90.0, colour="black", kind="tube", bore_mm=30.5),
        Bar(plastic="pa66", diameter_mm=36.5, length_mm=90.0, colour="natural", kind="left_over"),
    )
    yield from (size_steps.bar_name(one) for one in bars)
    yield from (size_steps.bar_said(one) for one in bars)
    sets = replace(SHOP, tools=(*SHOP.tools, *(replace(one, tool_set="fine") for one in SHOP.tools)))
    yield size_steps.equipment_steps(sets)[1]


# sizing


@KEPT.case
def a_ring_is_sized() -> Iterator[object]:
    yield from driven(size.size(job_of(), SHOP, MEASURED))


@KEPT.case
def a_ring_is_sized_in_a_known_case() -> Iterator[object]:
    said = {"case_metal": "316L", "case_wall": "1.5 mm", "case_height": "3.0 mm", "spares": "2"}
    said |= {"glass_thickness": "1.50 mm", "glass_against_old": "lesser", "ring_offset": "0.2 mm"}
    known = replace(MEASURED, glass_material="sapphire", glass_edge_mm=1.2, temperature_c=26.0)
    yield from only(driven(size.size(job_of(), SHOP, known), said), "ring", "case_wall", "case_height")


@KEPT.case
def a_ring_as_keyed() -> Iterator[object]:
    for said in (
        {"bore_wanted": "35.30 mm"},
        {"bore_wanted": "34.90 mm", "height_wanted": "1.20 mm"},
        {"outside_wanted": "36.50 mm"},
        {"plastic": "ptfe", "friction": "0.10"},
    ):
        yield said
        yield from list(driven(size.size(job_of(), SHOP, MEASURED), said))[-3:]


@KEPT.case
def no_ring_can_be() -> Iterator[object]:
    thin = replace(MEASURED, glass=size_of(36.2))
    yield from only(driven(size.size(job_of(), SHOP, thin)), "no_ring")
    yield from list(driven(size.size(job_of(), SHOP, MEASURED), {"bore_wanted": "36.20 mm"}))[-3:]
    wild = replace(MEASURED, seat=size_of(36.43, 9.0))
    yield from list(driven(size.size(job_of(), SHOP, wild)))[-3:]
    acrylic = replace(MEASURED, glass_material="acrylic")
    yield from list(driven(size.size(job_of(), SHOP, acrylic)))[-3:]
    yield from list(driven(size.size(job_of(), SHOP, acrylic), {"acrylic_anyway": "anyway"}))[-3:]


@KEPT.case
def a_question_from_what_was_measured() -> Iterator[object]:
    around = size.Around("acetal", "316L", 1.5, 3.0, 0.2, 0.15, "mineral", 1.4, "same")
    yield size.asked(SHOP, replace(MEASURED, glass_edge_mm=1.2, temperature_c=25.0), around, None)
    fewer = replace(around, metal=None, glass=None, glass_against_old="not_known")
    coarse = replace(SHOP, instruments=SHOP.instruments[:1], hand_scale_pct=3.0)
    yield size.asked(coarse, MEASURED, fewer, None)
    pressing = replace(SHOP, press=replace(SHOP.press, largest_force_n=450.0))
    yield [size.asked(one, MEASURED, fewer, None).press_force_n for one in (SHOP, pressing)]
    yield size.asked(SHOP, MEASURED, replace(fewer, glass_against_old="lesser"), None).old_glass
    yield refused(lambda: size.asked(SHOP, MEASURED, replace(fewer, metal="pewter"), None))
    learnt = lessons.Lessons()
    yield size.could_be(SHOP, MEASURED, replace(fewer, metal="pewter"), learnt, None)
    yield size.gauge_of(None), size.gauge_of(replace(QUESTION, glass_mm=36.2)), size.gauge_of(QUESTION)


@KEPT.case
def a_ring_after_one_that_was_tried() -> Iterator[object]:
    for outcome in ("too_easy", "shaved"):
        yield from only(driven(size.size(tried(outcome), SHOP, MEASURED)), "ring")
    cause = tried("shaved", ("fit_cause", "none"))
    yield [one.say for one in driven(size.size(cause, SHOP, MEASURED)) if isinstance(one, Step)][-1]
    again = tried("too_easy", ("measure_again", "done"), *READ[1:])
    yield [one.say for one in driven(size.size(again, SHOP, MEASURED)) if isinstance(one, Step)][-1]


SPARE: Given = (
    *("remake", "spare_tighter", "bore 35.17 mm", "outside 36.43 mm", "chamfer 0.20 mm"),
    "lower_chamfer 0.15 mm",
)


@KEPT.case
def a_spare_is_tried() -> Iterator[object]:
    yield from only(driven(size.size(tried("too_easy", SPARE), SHOP, MEASURED)), "ring")
    said = driven(size.size(tried("too_easy", SPARE), SHOP, MEASURED), {"bore_wanted": "35.10 mm"})
    yield [one.title for one in said if isinstance(one, Step)][-1]
    plain = SPARE[:4]
    stage = driven(size.size(tried("too_easy", plain), SHOP, MEASURED))
    yield next(one.choices[0].with_it for one in stage if isinstance(one, Step) and one.key == "ring")


LANDS = Lands(
    rings=6, of_line=4, mean_mm=0.012, sd_mm=0.0081, u_mm=0.006, dof=9.0, good_to_mm=0.015, assumed_mm=0.02,
    odd=("7003 ring 1",),
)  # fmt: skip
LEARNED = Learned(LANDS, seat=Repeating(5, 0.02, 5.0), glass=None)


@KEPT.case
def a_ring_by_how_those_before_came_out() -> Iterator[object]:
    job = job_of(*READ, ("learned", *learned_words(LEARNED)))
    yield from only(driven(size.size(job, SHOP, MEASURED)), "ring")
    yield landing.as_measured(MEASURED, LEARNED).seat, landing.as_measured(MEASURED, None) == MEASURED
    both = replace(LEARNED, seat=None, glass=Repeating(7, 0.015, 7.0))
    yield landing.as_measured(MEASURED, both).glass, landing.as_measured(MEASURED, both).seat == MEASURED.seat
    learned = landing.as_learned(QUESTION, LEARNED)
    yield learned.turning_spread_mm, learned.turning_dof, landing.as_learned(QUESTION, None) == QUESTION
    step = Step(key="ring", stage="size", kind="choice", title="?", why="Because.", choices=(
        Choice("accept", "it", with_it=("chance 90.0 %",)),
        Choice("there", "it", with_it=("chance 90.0 %", "at_hand new")),
        Choice("none", "it"),
    ))  # fmt: skip
    yield landing.with_landing(step, LEARNED)
    thin = replace(LANDS, mean_mm=-0.004, odd=(), rings=1, of_line=1)
    yield landing.with_landing(step, Learned(thin, glass=Repeating(7, 0.015, 7.0)))
    yield landing.with_landing(step, None) == step


@KEPT.case
def what_is_looked_up_first() -> Iterator[object]:
    step = Step(key="ring", stage="size", kind="choice", title="?")
    two = replace(SHOP, lathes=(*SHOP.lathes, replace(SHOP.lathes[0], name="large lathe")))
    named = job_of(("lathe", "large lathe"), ("seat_way", "stepped plug"), ("glass_way", "micrometer"))
    for job in (job_of(), named, job_of(("learned", "looked up"))):
        yield landing.looked_up_first(step, job, two, QUESTION).learns
    yield landing.looked_up_first(step, job_of(), two, sized(QUESTION).resolved.question).learns
    entry = replace(QUESTION, material=sized(QUESTION).resolved.joint.plastic)
    yield landing.looked_up_first(step, job_of(), two, entry).learns
    yield landing.looked_up_first(step, job_of(), two, replace(QUESTION, material=None)).learns
    yield landing.looked_up_first(step, job_of(), replace(two, learn_from_jobs=False), QUESTION).learns


# what a proposal says


@KEPT.case
def what_is_written_with_a_ring() -> Iterator[object]:
    for question in (
        QUESTION,
        STEEL,
        replace(STEEL, temperature_c=30.0),
        replace(QUESTION, seat_depth_mm=None),
    ):
        yield decided_words(MEASURED, sized(question), "2")
    weak = replace(STEEL, case_metal="gold18", case_wall_mm=0.5)
    yield decided_words(MEASURED, sized(weak), "1")
    narrow = replace(QUESTION, case_bore_u_mm=0.4, glass_u_mm=0.3, ovality_mm=0.5)
    yield decided_words(MEASURED, sized(narrow), "0")


@KEPT.case
def a_ring_read_back() -> Iterator[object]:
    yield decided_from(ACCEPTED[1:])
    more = accepted(
        gap="0.5700 mm",
        gap_u="0.0300 mm",
        to_20="0.0040 mm",
        squeeze_low="",
        squeeze_high="",
        spares="2",
        at_hand="new",
        walls="0.610 0.620 mm",
        highest="1.30 mm",
        lands="0.012 mm",
        shut="the bezel and the seal",
        press="120 to 300 N",
        foot="0.30 mm",
        corner="0.10 mm",
    )
    yield decided_from(more[1:])
    for name in (
        "outside",
        "bore",
        "height",
        "chamfer",
        "lower_chamfer",
        "seat",
        "seat_u",
        "glass",
        "glass_u",
    ):
        yield refused(lambda name=name: decided_from(accepted(**{name: ""})[1:]))  # type: ignore[misc]
    sizing = sized(QUESTION)
    job = job_of(accepted(chamfer="0.25 mm", lower_chamfer="0.05 mm"))
    yield as_turned(job, sizing).ring, as_turned(job_of(), sizing) == sizing


@KEPT.case
def what_a_proposal_says() -> Iterator[object]:
    for question in (
        QUESTION,
        STEEL,
        replace(QUESTION, lathe_step_mm=0.05),
        replace(QUESTION, lathe_step_mm=0.1, seat_depth_mm=None),
        replace(QUESTION, case_bore_u_mm=0.4, glass_u_mm=0.3, ovality_mm=0.5),
    ):
        sizing = sized(question)
        yield size_words.size_lines(sizing)
        yield size_words.consequences(MEASURED, sizing)
        yield size_words.window_gauge(sizing), size_words.section(MEASURED, sizing)
    with speaking("inch"):
        yield size_words.size_lines(sized(STEEL))
        yield size_words.consequences(MEASURED, sized(STEEL))
    yield from size_words.figures(sized(STEEL))


@KEPT.case
def a_rule_of_thumb_between_two_steps() -> Iterator[object]:
    sizing = sized(replace(QUESTION, lathe_step_mm=0.05))
    for better, nine, step in (
        (0.005, 0.0, 0.05),
        (0.004, 0.0, 0.05),
        (0.0, 0.006, 0.05),
        (0.3, 0.3, 0.01),
        (0.3, 0.3, 0.011),
    ):
        window = sizing.window
        then = replace(
            window, tenth_chance=window.ring_chance + better, nine_chance=window.ring_chance + nine
        )
        asked = replace(sizing.resolved, question=replace(sizing.resolved.question, lathe_step_mm=step))
        yield size_words.between_steps(replace(sizing, window=then, resolved=asked))
    other = replace(sizing, ring=replace(sizing.ring, bore_mm=35.0))
    yield size_words.between_steps(replace(other, window=replace(window, tenth_chance=1.0)))


@KEPT.case
def a_wall_read_with_a_calliper() -> Iterator[object]:
    plain = replace(SHOP, instruments=SHOP.instruments[:1])
    yield size_words.wall_by_calliper(SHOP, QUESTION, sized(QUESTION))
    wide = replace(QUESTION, turning_spread_mm=0.04)
    yield size_words.wall_by_calliper(plain, wide, sized(wide))
    step = size_words.ring_step(
        job_of(ANOTHER),
        measured=MEASURED,
        sizing=sized(QUESTION),
        spares="0",
        rests_on=("x",),
        said=("as said",),
    )
    yield step
    yield size_words.of_the_spare(step, 2, is_one=True)
    yield size_words.of_the_spare(step, 2, is_one=False) == step


# rings that were tried


@KEPT.case
def what_a_ring_tried_says() -> Iterator[object]:
    for outcome in ("home", "too_easy", "shaved", "chipped"):
        for after in ((), (("fit_cause", "none"),), (("fit_cause", "tilt"),), (("leak_cause", "none"),)):
            job = tried(outcome, *after)
            found = lessons.tried_in(job.attempt_spans()[0], 1)
            assert found is not None
            evidence = [one.outcome for one in found.evidence(0.002)]
            yield (
                outcome,
                str(after),
                found.cause,
                found.leaked,
                round(found.wall_mm, 6),
                found.n,
                str(evidence),
            )
    early = job_of(*READ, ACCEPTED, ("fit_cause", "tilt"), ("leak_cause", "none"), pressed("shaved"), ANOTHER)
    yield lessons.tried_in(early.attempt_spans()[0], 1)
    before = job_of(*READ, pressed("too_easy"), ACCEPTED, ANOTHER)
    yield lessons.tried_in(before.attempt_spans()[0], 1), lessons.tried_in((), 1)
    bare_walls = job_of(*READ, ACCEPTED, ("fit_outcome", "too_easy"))
    yield lessons.tried_in(bare_walls.attempt_spans()[0], 2)


@KEPT.case
def which_rings_count() -> Iterator[object]:
    keys_of_gap = MEASURED.gap_keys
    read_after = tried("too_easy", ("case_bore_1", "36.45 mm"))
    for name, job in {
        "none tried": job_of(*READ),
        "tried": tried("too_easy"),
        "read again": read_after,
        "another temperature": tried("too_easy", ("temperature", "25 C")),
        "all measured again": tried("too_easy", ("measure_again", "done"), *READ[1:]),
        "a spare": tried("too_easy", SPARE),
        "a spare, read again": tried("too_easy", ("measure_again", "done"), SPARE, *READ[1:]),
    }.items():
        learnt = lessons.lessons(job, keys_of_gap, 36.45, 35.305)
        yield name, learnt.numbers, learnt.past is not None, learnt.spare
        asked = learnt.asked(QUESTION, 0.002)
        yield len(asked.tried), asked.outside_mm
    far = lessons.lessons(read_after, keys_of_gap, 36.60, 35.305)
    for question in (QUESTION, replace(QUESTION, glass_mm=35.4)):
        yield far.past_words(sized(question))
    yield lessons.Lessons().past_words(sized(QUESTION))
    one = far.past
    assert one is not None
    for seat, glass in (
        (36.47, 35.34),
        (36.39, 35.27),
        (36.471, 35.3),
        (36.389, 35.3),
        (36.43, 35.341),
        (36.43, 35.269),
    ):
        yield seat, glass, lessons.is_the_same(one, seat, glass)


@KEPT.case
def what_rings_teach_of_the_gap() -> Iterator[object]:
    for outcome, walls in (
        ("too_easy", "0.621"),
        ("home", "0.620"),
        ("would_not_start", "0.600"),
        ("chipped", "0.64"),
    ):
        learnt = lessons.lessons(
            tried(outcome, ("fit_cause", "none"), walls=walls), MEASURED.gap_keys, 36.43, 35.305
        )
        sizing = sized(learnt.asked(QUESTION, 0.002))
        yield lessons.belief_words(sizing, learnt.numbers), lessons.gap_words(sizing, (1,))
        yield size_words.gap_words(sizing), decided_words(MEASURED, sizing, "0")[-4:]
    yield lessons.gap_words(sized(QUESTION), ()), lessons.gap_words(sized(QUESTION), (1, 2, 4))


# a ring that is there


def held(what: str, wall: float, height: float = 1.4, lies: str = "lies", chosen: Given = ()) -> hand.Hand:
    """A ring that is there, of this wall all round."""
    return hand.Hand(what, (wall,) * 4, height, lies, ("hand_wall_1",), SHOP.instruments[2], chosen)


@KEPT.case
def a_ring_that_is_there() -> Iterator[object]:
    for what in ("new", "made", "used", "pressed"):
        for wall, height, lies in (
            (0.62, 1.4, "lies"),
            (0.59, 1.4, "slack"),
            (0.70, 1.9, "lies"),
            (0.62, 1.4, "buckles"),
        ):
            found = hand.judge(held(what, wall, height, lies), MEASURED, QUESTION, 36.43)
            yield what, wall, lies, found.fits, found.verdict, found.highest_mm, found.checks, found.lines
    yield found.hand.said, found.hand.wall_mm
    yield hand.judge(held("new", 0.62), MEASURED, STEEL, 36.43).follows(MEASURED)
    for wall in (0.597, 0.598, 0.64, 0.641, 0.65, 0.66):
        one = hand.judge(held("new", wall), MEASURED, QUESTION, 36.43)
        yield wall, one.verdict, one.fits, one.decision.words
    exact = replace(
        held("new", 0.62), by=replace(SHOP.instruments[2], resolution_mm=0.001, limit_of_error_mm=0.001)
    )
    close = replace(QUESTION, case_bore_u_mm=0.004, glass_u_mm=0.004, ovality_mm=0.0)
    sharp = replace(MEASURED, seat=size_of(36.43, 0.004, 0.0), glass=size_of(35.305, 0.004, 0.0), oval_mm=0.0)
    for wall in (0.57, 0.60, 0.62, 0.64, 0.69):
        one = hand.judge(replace(exact, walls_mm=(wall,) * 4), sharp, close, 36.43)
        yield wall, one.verdict, one.fits, one.decision.words
    shut = replace(QUESTION, case_bore_u_mm=0.4, glass_u_mm=0.3, ovality_mm=0.5)
    for wall in (0.62, 0.50, 0.80):
        one = hand.judge(held("new", wall), MEASURED, shut, 36.43)
        yield wall, one.verdict, one.fits, one.follows(MEASURED)
    room = hand.judge(held("new", 0.62), MEASURED, QUESTION, 36.43)
    for height in (1.37, 1.38, 1.39):
        yield height, hand.judge(held("new", 0.62, height), MEASURED, QUESTION, 36.43).highest_mm
    yield hand.judge(
        held("new", 0.62, 3.0), MEASURED, replace(QUESTION, seat_depth_mm=None), 36.43
    ).highest_mm
    yield room.sizing.fit.nominal_squeeze_pct


@KEPT.case
def a_ring_that_is_there_is_used() -> Iterator[object]:
    job = job_of(accepted(chamfer="0.25 mm"))
    proposed = sized(QUESTION)
    for what, wall, lies, chosen in (
        ("new", 0.62, "slack", ()),
        ("made", 0.62, "lies", ()),
        ("pressed", 0.70, "lies", ()),
        ("new", 0.62, "buckles", ()),
        ("drawer", 0.62, "lies", ("7009 spare-1", "from 7009 spare-1", "chamfer 0.20 mm")),
    ):
        found = hand.judge(held(what, wall, 1.7, lies, chosen), MEASURED, QUESTION, 36.43)
        yield at_hand.hand_step(job, found, proposed, MEASURED, "2", ("seat",))
    named = job_of(("plastic", "acetal"))
    yield at_hand.used_words(named, hand.judge(held("new", 0.62), MEASURED, QUESTION, 36.43), MEASURED, "2")


@KEPT.case
def a_used_ring_as_a_pattern() -> Iterator[object]:
    proposed = sized(QUESTION)
    for wall, height in ((0.61, 1.2), (0.61, 1.9), (0.70, 1.2)):
        found = hand.judge(held("used", wall, height), MEASURED, QUESTION, 36.43)
        yield at_hand.hand_step(job_of(), found, proposed, MEASURED, "0", ("seat",))


@KEPT.case
def a_ring_that_is_there_is_measured() -> Iterator[object]:
    walls = {f"hand_wall_{n}": f"0.62{n} mm" for n in range(1, 5)} | {"hand_height": "1.40 mm"}
    for what in ("none", "new"):
        yield from driven(at_hand.ring_at_hand(job_of(), SHOP), walls | {"at_hand": what})
    home = job_of(ACCEPTED, pressed("home"))
    yield from only(driven(at_hand.ring_at_hand(home, SHOP), walls | {"at_hand": "pressed"}), "at_hand")
    yield from only(
        driven(at_hand.ring_at_hand(job_of(), SHOP), walls | {"at_hand": "used", "hand_seat": "slack"})
    )
    drawn = (
        Choice(
            "7009 spare-1", "drawer", with_it=("from 7009 spare-1", "walls 0.620 0.622 mm", "height 1.30 mm")
        ),
        Choice("7009 ring-2", "drawer", with_it=("from 7009 ring-2",)),
    )
    for one in drawn:
        yield from only(
            driven(at_hand.ring_at_hand(job_of(), SHOP, drawn), walls | {"at_hand": one.word}), "at_hand"
        )
    jaws = replace(SHOP, instruments=SHOP.instruments[:1])
    yield from only(driven(at_hand.ring_at_hand(job_of(), jaws), walls | {"at_hand": "new"}), "hand_wall_1")
    yield at_hand.as_cut(sized(QUESTION), ("x", "chamfer 0.30 mm")).ring
    yield at_hand.as_cut(sized(QUESTION), ("x", "lower_chamfer 0.20 mm")).ring


@KEPT.case
def a_ring_in_its_place() -> Iterator[object]:
    read = tuple((f"wall_{n}", f"0.62{n} mm") for n in range(1, 5))
    job = job_of(
        ("wall_1", "0.500 mm"),
        ACCEPTED,
        *read,
        ("wall_2", "0.630 mm"),
        ("ring_height", "1.44 mm"),
        ("ring_height_2", "1.43 mm"),
        pressed("home"),
    )
    yield in_place.measured_before(job, decided_from(ACCEPTED[1:]))
    there = job_of(("at_hand", "new"), ("hand_wall_1", "0.610 mm"), ("hand_height", "1.30 mm"), ACCEPTED)
    yield in_place.measured_before(there, decided_from(accepted(at_hand="new")[1:]))
    yield (
        in_place.is_home(job),
        in_place.is_home(tried("home")),
        in_place.is_home(tried("shaved")),
        in_place.is_home(job_of()),
    )
    yield in_place.asked_at_hand(job_of()).choices == in_place.asked_at_hand(tried("home")).choices
    kept = job_of(ACCEPTED, ("past_bore", "larger_glass"), ("dress", "done"), ANOTHER)
    yield in_place.asked_at_hand(kept)
    home = Choice("home", "home and level", stamp=True, with_it=("walls 0.6 mm",))
    for told in ((), (pressed("shaved"),), (pressed("home"),), (("fit_outcome", "home"),)):
        yield in_place.since_pressed(job_of(*told), home)
    for what in ("new", "made", "used", "pressed", "drawer"):
        yield in_place.said_of(what), in_place.taking(what, fits=True), in_place.taking(what, fits=False)
    yield in_place.pressed_section(decided_from(ACCEPTED[1:]), (0.61, 0.63))


# the drawer


def lying(piece: str = "spare-1", job: str = "7009", **said: Any) -> Lying:
    """A ring of the drawer."""
    usual: dict[str, Any] = {"outside_mm": 36.43, "wall_mm": 0.62, "height_mm": 1.4, "chamfer_mm": 0.15}
    usual |= {
        "lower_chamfer_mm": 0.1,
        "walls_mm": (0.62, 0.621),
        "plastic": "acetal",
        "at": "2026-02-20T10:00:00+00:00",
    }
    return Lying(job=job, piece=piece, **(usual | said))


LIKE = PastRing(
    job="7004", number=1, at="2026-01-05T10:00:00+00:00", plastic="acetal", outside_mm=36.4, bore_mm=35.2,
    height_mm=1.4, aimed_mm=0.6, seat_mm=36.41, glass_mm=35.31, walls_mm=(0.605, 0.607), outcome="home",
)  # fmt: skip
ASKED = ("plastic acetal", "seat 36.430 mm", "glass 35.305 mm")


def looked(*words: str, asked: Given = ASKED, after: tuple[Given, ...] = ()) -> Job:
    """A job whose sitting looked into the drawer and kept these words."""
    return job_of(("sitting", "work"), ("looked_in", "looked", *asked, *words), *after)


def kept_piece(name: str, piece: Lying) -> str:
    """A ring as the look into the drawer keeps it."""
    return f"{name} {json.dumps(asdict(piece))}"


@KEPT.case
def what_was_found_in_the_drawer() -> Iterator[object]:
    yield from_drawer.asks(MEASURED, "pa66")
    words = (
        kept_piece("lies", lying()),
        kept_piece("beside", lying("tighter-1")),
        f"like {to_json([LIKE])}",
        "gone 7009 ring-2",
    )
    yield from_drawer.found_in(looked(*words), ASKED)
    yield from_drawer.found_in(looked(*words), ("plastic pa66",))
    yield from_drawer.found_in(looked(*words, after=(("sitting", "work"),)), ASKED)
    yield from_drawer.found_in(looked(*words, after=(ANOTHER,)), ASKED)
    yield from_drawer.found_in(looked("lies {}", "lies x", "like [{}]", "like 3", "beside []"), ASKED)
    yield from_drawer.found_in(looked(kept_piece("lies", lying()), "like []"), ASKED)


@KEPT.case
def rings_that_may_be_offered() -> Iterator[object]:
    found = from_drawer.Found(
        (lying(), lying("ring-1", walls_mm=()), lying("ring-2", plastic="pa66"), lying("tighter-1"))
    )
    used = job_of(accepted(at_hand="drawer", **{"from": "7009 tighter-1"}), ("fit_ready", "dies_right"))
    for job in (job_of(), used):
        yield [one.ref for one in from_drawer.candidates(job, found, "acetal", None)]
    own = job_of(
        ("sitting", "work"),
        ACCEPTED,
        ("dress", "done"),
        *[(f"wall_{n}", "0.620 mm") for n in range(1, 5)],
        ANOTHER,
    )
    plastic = sized(QUESTION).resolved.joint.plastic
    nylon = sized(replace(QUESTION, material="pa66")).resolved.joint.plastic
    for gone in ((), ("7001 ring-1",)):
        kept = from_drawer.Found(gone=frozenset(gone))
        for of in (None, plastic, nylon):
            yield [(one.ref, one.again, one.free) for one in from_drawer.candidates(own, kept, "acetal", of)]
    month = job_of(ACCEPTED, ("dress", "done"), *[(f"wall_{n}", "0.620 mm") for n in range(1, 5)], ANOTHER)
    yield [one.again for one in from_drawer.candidates(month, from_drawer.Found(), "acetal", nylon)]


@KEPT.case
def rings_of_the_drawer_that_fit() -> Iterator[object]:
    pieces = (
        lying("ring-1", walls_mm=(0.61,)),
        lying("ring-2", outside_mm=36.49),
        lying("ring-3", outside_mm=36.491),
        lying("ring-4", outside_mm=36.37, walls_mm=(0.625,)),
        lying("ring-5", outside_mm=36.369),
        lying("ring-6", walls_mm=(0.70,)),
        lying("ring-7", walls_mm=(0.1,)),
        lying("ring-8", walls_mm=(0.615,), again=True, high_as_measured=True),
        lying("ring-9", walls_mm=(0.623,), high_as_measured=True),
    )
    found = from_drawer.offers(pieces, SHOP, MEASURED, QUESTION)
    yield [(one.piece.piece, one.chance) for one in found]
    yield [one.piece for one in pieces if from_drawer.offers((one,), SHOP, MEASURED, QUESTION)]
    yield from_drawer.offers(pieces, SHOP, MEASURED, None), from_drawer.offers((), SHOP, MEASURED, QUESTION)
    yield from_drawer.offers(pieces, SHOP, MEASURED, replace(QUESTION, glass_mm=36.2))
    for one in pieces[7:]:
        offer = from_drawer.DrawerOffer(one, 0.914)
        yield offer.choice, offer.said
    for job in (
        job_of(),
        job_of(("at_hand", "7009 ring-1", "from 7009 ring-1", "walls 0.6 mm", "stands open")),
        job_of(("at_hand", "new")),
        job_of(("at_hand", "7009 ring-1", "from 7009 ring-1"), ANOTHER),
    ):
        yield from_drawer.choices(job, found)
    with speaking("inch"):
        yield from_drawer.DrawerOffer(pieces[0], 0.5).said


@KEPT.case
def a_job_like_this_one() -> Iterator[object]:
    for like in (
        LIKE,
        replace(LIKE, walls_mm=(), outcome="off_band"),
        replace(LIKE, leaked=True),
        replace(LIKE, outcome="too_easy"),
    ):
        yield from_drawer.like_words(like, ())
    for beside in ((lying(walls_mm=()),), (lying("tighter-1", walls_mm=()), lying()), (lying("ring-2"),)):
        yield from_drawer.like_words(LIKE, beside)
    offered = (from_drawer.DrawerOffer(lying(), 0.9), from_drawer.DrawerOffer(lying("ring-2"), 0.8))
    yield from_drawer.said(offered, from_drawer.Found(like=LIKE)), from_drawer.said((), from_drawer.Found())


@KEPT.case
def the_drawer_beside_a_proposal() -> Iterator[object]:
    words = (kept_piece("lies", lying()), f"like {to_json([LIKE])}")
    step = Step(key="ring", stage="size", kind="choice", title="accept it?", say=("sizes",), choices=(
        Choice("accept", "accept it"), Choice("at_hand", "measure a ring I have", goto=keys.AT_HAND)
    ))  # fmt: skip
    for job in (job_of(), looked(*words), looked("gone 7009 spare-1")):
        through = from_drawer.looked_through(job, SHOP, MEASURED, "acetal", QUESTION)
        yield through.beside(step)
        yield through.judged(step, held("new", 0.62)) == step
        of = held("drawer", 0.62, chosen=("7009 spare-1", "from 7009 spare-1"))
        yield through.judged(step, of)
    yield from only(
        driven(
            size.size(looked(*words), SHOP, MEASURED), {"at_hand": "7009 spare-1", "hand_height": "1.40 mm"}
        ),
        "at_hand",
        "ring",
    )
    yield from_drawer.looked_through(job_of(), SHOP, MEASURED, "acetal", None).choices


@KEPT.case
def spares_that_are_still_there() -> Iterator[object]:
    spares = (Choice("spare_tighter", "t"), Choice("spare", "s"), Choice("other", "o"))
    two = job_of(
        ("sitting", "work"), accepted(spares="2"), ("dress", "done", "tighter 0.0200 mm"), pressed("too_easy")
    )
    yield [one.word for one in from_drawer.still_there(two, spares)]
    gone = job_of(
        ("sitting", "work"),
        accepted(spares="2"),
        ("dress", "done"),
        ("looked_in", "looked", "gone 7001 spare-1"),
    )
    yield [one.word for one in from_drawer.still_there(gone, spares)]
    yield from_drawer.still_there(job_of(ACCEPTED), spares)


# the ring and the lathe


@KEPT.case
def where_the_lathe_aims() -> Iterator[object]:
    for lands in ("", "0.012 mm", "-0.004 mm"):
        decided = decided_from(accepted(lands=lands)[1:])
        yield aim.aimed_at(decided).bore_mm, aim.aim_words(decided)
    made = plan(ring=decided.ring, set_up=SetUp(lathe=SHOP.lathes[0], tools=SHOP.tools, bar=SHOP.bars[2]))
    yield aim.as_accepted(made, decided.ring) is made
    yield aim.as_accepted(made, aim.aimed_at(decided)).order.ring.bore_mm


def decided_now(**said: Any) -> Decided:
    """The ring accepted, with what was asked for it in this shop."""
    return replace(decided_from(ACCEPTED[1:]), question=replace(QUESTION, **said))


@KEPT.case
def its_chance_in_this_shop() -> Iterator[object]:
    for said in (
        {},
        {"turning_spread_mm": 0.03},
        {"turning_spread_mm": 0.012},
        {"lathe_step_mm": 0.05},
        {"lathe_step_mm": 0.2},
    ):
        yield said, in_this_shop.chance_words(SHOP, decided_now(**said))
    yield in_this_shop.chance_words(SHOP, decided_now(turning_spread_mm=0.03, turning_dof=6.0))
    off = replace(decided_now(turning_spread_mm=0.03), ring=replace(decided_now().ring, bore_mm=35.22))
    yield in_this_shop.chance_words(SHOP, off)
    yield (
        in_this_shop.chance_words(SHOP, replace(off, at_hand="new")),
        in_this_shop.chance_words(SHOP, replace(off, question=None)),
    )
    with speaking("inch"):
        yield in_this_shop.chance_words(built_in("inch"), off)


@KEPT.case
def a_larger_glass() -> Iterator[object]:
    decided = decided_from(ACCEPTED[1:])
    step = Step(key="past_bore", stage="cut", kind="result", title="?", choices=(
        Choice("larger_glass", "-"), Choice("fresh", "a new ring")
    ))  # fmt: skip
    for wall, stock in ((0.60, 0.1), (0.56, 0.1), (0.61, 0.5), (0.59, 0.01)):
        yield wall, stock
        yield larger_glass.with_glass(step, decided, wall, stock)
    with speaking("inch"):
        yield larger_glass.with_glass(step, decided, 0.56, 0.1)
        yield larger_glass.with_glass(step, decided, 0.61, 0.5)
    yield [one.word for one in larger_glass.usual_first(step, "fresh")]
    way, dressed = ("past_bore", "larger_glass"), ("dress", "done")
    for told in (
        (way, dressed, ANOTHER),
        (way, dressed),
        (dressed, way, ANOTHER),
        (way, ANOTHER),
        (("past_bore", "fresh"), dressed, ANOTHER),
        (dressed, ANOTHER),
    ):
        yield larger_glass.kept_for_a_glass(job_of(ACCEPTED, *told))


@pytest.mark.parametrize("name", KEPT.cases)
def test_what_is_asked_and_said_of_its_size(name: str) -> None:
    KEPT.check(name)


if __name__ == "__main__":
    KEPT.write()
