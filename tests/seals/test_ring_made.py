"""What is asked, kept and said of the straight ring once it is turned, function by function, as it was read
once and found true.

python -m tests.seals.test_ring_made writes `ring_made.md` anew; read the difference before keeping it.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from bench.job.steps import Step
from bench.seals.lathe.turning_facts import kept_words
from bench.seals.ring import (
    by_hand,
    customer,
    drawer,
    drawing,
    late,
    lessons,
    made,
    off_band,
    past,
    record,
    remake,
    sheet,
    spare_walls,
    spares,
    text,
    too_high,
)
from bench.seals.ring.decided import decided_from
from bench.seals.ring.drawing import for_words
from bench.seals.ring.kind import ENDINGS, REASONS
from bench.seals.ring.seal import RING
from bench.sheet.data import sheet_data
from bench.shop.shop import built_in
from rules.lengths import speaking
from rules.sizing.decision import ring_decision
from rules.sizing.sizing import size as sized
from rules.sizing.squeeze import Gap
from tests.bench.test_said_on_the_sheet import RING as RING_DATA, data as sheet_of
from tests.seals.test_ring_cut import DECIDED, made_of, turned_to
from tests.seals.test_ring_measured import SHOP, Given, Kept, driven, job_of, only
from tests.seals.test_ring_sized import (
    ACCEPTED,
    ANOTHER,
    QUESTION,
    READ,
    SPARE,
    accepted,
    decided_now,
    pressed,
    tried,
)

KEPT = Kept(__file__)
WALLS: tuple[Given, ...] = tuple((f"wall_{n}", f"0.62{n} mm") for n in range(1, 5))
DRESSED: Given = ("dress", "done", "planned 48.2 min", "tighter 0.0200 mm")
TURNED: tuple[Given, ...] = (
    (
        *("rough_outside", "done", "outside: go to 36.83, diameter", "tool 1", "rpm 420"),
        *("lathe small bench lathe", "bar 45 mm", "colour black", "left 147.2 mm"),
    ),
    ("part", "done"),
    DRESSED,
)
FILE: tuple[Given, ...] = (*READ, ACCEPTED, *TURNED)
MEASURE = {f"wall_{n}": f"0.62{n} mm" for n in range(1, 5)} | {"ring_height": "1.44 mm"}


# measured and pressed


@KEPT.case
def a_ring_is_measured_and_pressed() -> Iterator[object]:
    yield from driven(made.made_and_fitted(job_of(*FILE), SHOP, DECIDED), MEASURE)


@KEPT.case
def a_ring_is_measured_in_inch() -> Iterator[object]:
    with speaking("inch"):
        said = {f"wall_{n}": "0.0244 in" for n in range(1, 5)} | {"ring_height": "1.44 mm"}
        yield from only(
            driven(made.made_and_fitted(job_of(*FILE), built_in("inch"), DECIDED), said),
            "wall_1",
            "ring_height",
        )


@KEPT.case
def walls_off_the_band() -> Iterator[object]:
    for wall in ("0.570 mm", "0.680 mm"):
        for then in ("another", "press"):
            said = MEASURE | {f"wall_{n}": wall for n in range(1, 5)} | {"off_band": then}
            yield from list(
                only(driven(made.made_and_fitted(job_of(*FILE), SHOP, DECIDED), said), "off_band")
            )[-7:]
    live = (*FILE, *WALLS, ("ring_height", "1.44 mm"))
    read = tuple(one[0] for one in WALLS)
    off, fine = (judged(wall) for wall in (0.57, 0.62))
    for told in (
        (),
        (pressed("home"),),
        (("off_band", "press"), pressed("home")),
        (("off_band", "press"), ("wall_1", "0.6 mm"), pressed("home")),
    ):
        job = job_of(*live, *told)
        yield [off_band.off_band(job, one, keys_read) for one in (off, fine) for keys_read in (read, ())]


def judged(wall_mm: float) -> Any:
    """A wall all round against the gap, read with a ball micrometer."""
    return ring_decision(
        walls_mm=[wall_mm] * 4, wall_u_mm=0.0046, gap_mm=0.5625, gap_u_mm=0.0266, band=DECIDED.band
    )


@KEPT.case
def a_ring_too_high() -> Iterator[object]:
    told: tuple[Given, ...]
    ring = DECIDED.ring
    for height in (1.479, 1.48, 1.481):
        yield height, too_high.is_too_high(job_of(*FILE), ring, height, ("ring_height",))
    live = (*FILE, ("ring_height", "1.60 mm"))
    for told in ((pressed("home"),), (("too_high", "press"), pressed("home")), (("too_high", "press"),)):
        yield too_high.is_too_high(job_of(*live, *told), ring, 1.6, ("ring_height",))
    said = MEASURE | {"ring_height": "1.60 mm", "ring_height_2": "1.60 mm", "too_high": "press"}
    yield from list(
        only(driven(made.made_and_fitted(job_of(*FILE), SHOP, DECIDED), said), "too_high", "ring_height_2")
    )[-9:]
    step = made.height_step(ring, judged(0.62), ())
    for told in (
        (),
        (("too_high", "dressed"),),
        (("too_high", "press"),),
        (("too_high", "dressed"), ("dress_lower", "done")),
    ):
        yield too_high.after_dressing(job_of(*FILE, *told), step).rests_on
    with speaking("inch"):
        yield too_high.too_high_step(ring, 1.6, ("ring_height",))


@KEPT.case
def a_ring_that_was_there_is_pressed() -> Iterator[object]:
    there = replace(DECIDED, at_hand="new", walls_mm=(0.62, 0.621), highest_mm=1.3)
    yield from only(
        driven(made.made_and_fitted(job_of(*FILE), SHOP, there), {"ring_height": "1.30 mm"}),
        "dress_lower",
        "ring_height",
    )
    fits = replace(there, highest_mm=None)
    yield from only(driven(made.made_and_fitted(job_of(*FILE), SHOP, fits)))
    stays = replace(there, at_hand="pressed")
    yield from driven(made.made_and_fitted(job_of(*FILE, pressed("home")), SHOP, stays))


@KEPT.case
def the_press_is_checked() -> Iterator[object]:
    decision = judged(0.62)
    for told in (
        (),
        (("dial_ring", "yes"),),
        (("dial_ring", "no"),),
        (("fit_ready", "right"), pressed("home")),
        (pressed("home"), ("fit_ready", "right")),
    ):
        yield made.press_check(job_of(*FILE, *told), decision, DECIDED, (0.62, 0.622))
    soft = replace(DECIDED, force_words="")
    yield made.press_check(job_of(*FILE), decision, soft, (0.62,)).consequence
    yield made.fit_outcome(decision, (0.62, 0.6215))


@KEPT.case
def pressed_and_not_home() -> Iterator[object]:
    decided = decided_now()
    for outcome, more in (
        ("too_easy", {}),
        ("shaved", {"fit_cause": "tilt"}),
        ("chipped", {"fit_cause": "none", "remake": "measure"}),
        ("bezel_moved", {"remake": "hand_back"}),
    ):
        job = job_of(
            *FILE,
            ("fit_ready", "right"),
            pressed(outcome),
            *(("fit_cause", cause) for key, cause in more.items() if key == "fit_cause"),
        )
        stage = made.made_and_fitted(job, SHOP, decided)
        said = MEASURE | {"fit_outcome": outcome} | more
        every = list(only(driven(stage, said), "fit_cause", "remake", "measure_again"))
        yield from every[next(at for at, one in enumerate(every) if str(one).startswith("fit_outcome")) :]
    over = job_of(*FILE, ("fit_ready", "right"), pressed("shaved"), pressed("home"))
    yield from list(driven(made.made_and_fitted(over, SHOP, decided), MEASURE))[-5:]
    wrong = job_of(
        *FILE, ("fit_ready", "right"), pressed("shaved"), pressed("home"), ("fit_correction", "keyed_wrong")
    )
    asked = [
        one for one in driven(made.made_and_fitted(wrong, SHOP, decided), MEASURE) if isinstance(one, Step)
    ]
    yield asked[-1].key, asked[-1].rests_on


# another ring


@KEPT.case
def what_comes_after_a_ring() -> Iterator[object]:
    two = job_of(*READ, accepted(spares="2"), *TURNED, pressed("too_easy"))
    for outcome in ("too_easy", "would_not_start", "shaved", "chipped", "bezel_moved"):
        span = tried(outcome, ("fit_cause", "none")).attempt_spans()[0]
        one = lessons.tried_in(span, 1)
        assert one is not None
        following = remake.next_ring(decided_now(), one, 0.002)
        yield remake.remake_step(job_of(*FILE, pressed(outcome)), one, following)
        yield remake.remake_step(two, one, None).say
        if outcome == "chipped":
            yield remake.remake_step(two, one, following)
    easy = lessons.tried_in(tried("too_easy").attempt_spans()[0], 1)
    assert easy is not None
    yield remake.remake_step(two, easy, remake.next_ring(decided_now(), easy, 0.002))
    impossible = replace(decided_now(), question=replace(QUESTION, glass_mm=36.2))
    yield remake.next_ring(impossible, easy, 0.002), remake.worked_out(None)
    with speaking("inch"):
        yield remake.remake_step(two, easy, remake.next_ring(decided_now(), easy, 0.002))


@KEPT.case
def whether_its_cause_is_asked() -> Iterator[object]:
    for told in (
        (pressed("too_easy"),),
        (pressed("shaved"),),
        (pressed("shaved"), ("remake", "ring")),
        (pressed("shaved"), ("fit_cause", "none"), ("remake", "ring")),
        (("remake", "ring"), pressed("shaved")),
        (),
    ):
        yield (
            " ".join(one[0] for one in told),
            [one.key for one in driven(remake.cause_of(job_of(*FILE, *told))) if isinstance(one, Step)],
        )


# corrected late


@KEPT.case
def corrected_after_it_was_begun() -> Iterator[object]:
    yield from late.late_steps()
    for said in (
        {},
        {"seat_depth_late": "1.50 mm"},
        {"seat_depth_late": "1.20 mm", "height_wanted_late": "1.00 mm"},
        {"glass_edge_late": "1.10 mm"},
    ):
        yield said
        yield from [
            one
            for one in driven(late.lowered(job_of(*FILE), DECIDED), said)
            if isinstance(one, str) or getattr(one, "key", "") == "dress_lower"
        ]
    was = job_of(*FILE, ("dress_lower", "done", "height 1.30 mm"))
    for decided, job in (
        (DECIDED, was),
        (replace(DECIDED, highest_mm=1.3), job_of(*FILE)),
        (replace(DECIDED, highest_mm=1.2), was),
        (replace(DECIDED, highest_mm=1.6), job_of(*FILE)),
        (DECIDED, job_of(*FILE, pressed("home"))),
        (DECIDED, job_of(*FILE, ("dress_lower", "done", "height 1.30 mm"), pressed("home"))),
    ):
        yield from only(driven(late.lowered(job, decided)), "dress_lower")
    with speaking("inch"):
        yield late.dress_lower(DECIDED.ring, 1.2, before_mm=1.45)


@KEPT.case
def how_high_it_may_be() -> Iterator[object]:
    for key, value in (
        ("height_wanted", 1.2),
        ("height_wanted", 2.0),
        ("seat_depth", 1.5),
        ("seat_depth", 3.0),
        ("glass_edge", 0.1),
    ):
        yield key, value, late.highest_mm(DECIDED, key, value)
    cut = job_of(
        *FILE,
        ("dress_lower", "done", "height 1.30 mm"),
        ("dress_lower", "done"),
        ("dress_lower", "done", "height 1.25 mm"),
    )
    yield (
        late.dressed_mm(cut),
        late.dressed_mm(job_of(*FILE, ("dress_lower", "done", "height 1.30 mm"), ("part", "done"))),
    )
    yield (
        late.was_pressed(cut),
        late.was_pressed(job_of(*FILE, pressed("shaved"))),
        late.was_pressed(job_of(pressed("home"), *FILE)),
    )


@KEPT.case
def what_would_do_instead() -> Iterator[object]:
    bought = (*READ, accepted(at_hand="new"))
    jobs = {
        "not begun": job_of(*READ, ACCEPTED),
        "begun": job_of(*READ, ACCEPTED, TURNED[0]),
        "turned": job_of(*FILE),
        "dressed lower": job_of(*FILE, ("dress_lower", "done", "height 1.20 mm")),
        "home": job_of(*FILE, *WALLS, ("ring_height", "1.44 mm"), pressed("home")),
        "shaved": job_of(*FILE, pressed("shaved")),
        "bought": job_of(*bought),
        "turned before": job_of(*READ, accepted(at_hand="made")),
        "none": job_of(*READ),
    }
    asked = (
        ("seat_depth", "1.50 mm"),
        ("seat_depth", "1.30 mm"),
        ("glass_edge", "0.35 mm"),
        ("glass_edge", "not measured"),
        ("case_bore_1", "36.45 mm"),
        ("friction", "0.10"),
        ("plastic", "pa66"),
    )
    for name, job in jobs.items():
        for key, value in asked:
            yield (
                name,
                key,
                value,
                tuple((one.text, str(one.answers)) for one in late.instead(job, SHOP, key, value)),
            )
    now = late.piece(jobs["dressed lower"])
    assert now is not None
    yield now.decided.ring.height_mm, now.begun, now.made
    for value in ("0.45 mm", "0.46 mm", "1.45 mm", "1.44 mm"):
        yield value, [one.text for one in late.dressed_instead(DECIDED, "height_wanted", value)]
    thick = replace(DECIDED, ring=replace(DECIDED.ring, chamfer_mm=0.5, lower_chamfer_mm=0.3))
    yield [
        [one.text for one in late.dressed_instead(thick, "height_wanted", value)]
        for value in ("0.79 mm", "0.80 mm", "0.81 mm")
    ]


# spares


@KEPT.case
def spares_of_a_set_up() -> Iterator[object]:
    for number in ("0", "1", "2"):
        cut = (*READ, accepted(spares=number), *TURNED)
        for told in ((), (pressed("too_easy", "0.630 0.632"),)):
            yield number, spares.spares_cut(job_of(*cut, *told).answers)
    coarse = (*READ, accepted(spares="2"), ("dress", "done", "tighter 0.0500 mm"))
    yield spares.spares_cut(job_of(*coarse).answers)
    plain = (*READ, accepted(spares="2"), ("dress", "done"))
    yield (
        spares.spares_cut(job_of(*plain).answers),
        spares.spares_cut(job_of(*READ, accepted(spares="2")).answers),
    )
    later = (*READ, ("dress", "done"), accepted(spares="2"))
    yield spares.spares_cut(job_of(*later).answers)
    yield from only(driven(spare_walls.spare_walls(job_of(*plain), SHOP)), "spare_wall_1", "spare_wall_2")
    yield list(driven(spare_walls.spare_walls(job_of(*READ), SHOP)))


SPARES = (*READ, accepted(spares="2"), *TURNED, pressed("too_easy"))


@KEPT.case
def spares_that_are_left() -> Iterator[object]:
    taken = accepted(bore="35.17 mm")
    for name, told in {
        "none tried": (),
        "the tighter tried": (SPARE, ANOTHER, taken),
        "not that size": (SPARE, ANOTHER, accepted(bore="35.165 mm")),
        "nearly that size": (SPARE, ANOTHER, accepted(bore="35.174 mm")),
        "another outside": (SPARE, ANOTHER, accepted(bore="35.17 mm", outside="36.44 mm")),
        "another turned": (("remake", "ring"), ANOTHER, ACCEPTED, *TURNED),
        "another accepted": (("remake", "ring"), ANOTHER, ACCEPTED),
        "both tried": (
            SPARE,
            ANOTHER,
            taken,
            pressed("shaved"),
            ("remake", "spare", "bore 35.19 mm", "outside 36.43 mm"),
            ANOTHER,
            ACCEPTED,
        ),
        "one that is there": (("remake", "measure"), ANOTHER, accepted(at_hand="made", bore="35.185 mm")),
        "one judged in its place": (("remake", "measure"), ANOTHER, accepted(at_hand="pressed")),
    }.items():
        job = job_of(*SPARES, *told)
        yield (
            name,
            [one.word for one in spares.spares_left(job)],
            spares.spares_data(job),
            spares.is_spare(job, decided_from((job.newest("ring") or job.answers[0]).words)),
        )
    kept = (
        *READ,
        accepted(spares="1"),
        ("wall_reading", "0.560 mm"),
        ("past_bore", "larger_glass"),
        ("part", "done"),
        DRESSED,
        ANOTHER,
    )
    for wall in ("35.31 mm", "35.19 mm"):
        job = job_of(*kept, accepted(at_hand="made", bore=wall))
        yield wall, [one.word for one in spares.spares_left(job)], spares.kept_wall_mm(job.attempt_spans()[0])
    for told in (
        (("past_bore", "larger_glass"), DRESSED),
        (("wall_reading", "x"), ("past_bore", "larger_glass"), DRESSED),
        (("wall_reading", "0.5 mm"), ("past_bore", "fresh"), DRESSED),
        (("wall_reading", "0.5 mm"), DRESSED, ("past_bore", "larger_glass")),
        (
            ("wall_reading", "0.5 mm"),
            ("second_wall_reading", "0.51 mm"),
            ("past_bore", "larger_glass"),
            ("wall_reading", "0.7 mm"),
            DRESSED,
        ),
    ):
        yield spares.kept_wall_mm(job_of(*told).answers)


@KEPT.case
def spares_as_choices() -> Iterator[object]:
    following = sized(QUESTION)
    yield spares.spare_choices(job_of(*SPARES), following)
    off = sized(replace(QUESTION, glass_mm=35.38))
    yield spares.spare_choices(job_of(*SPARES), off)
    shut = sized(replace(QUESTION, case_bore_u_mm=0.4, glass_u_mm=0.3, ovality_mm=0.5))
    yield spares.spare_choices(job_of(*SPARES), shut)
    for words in (
        ("spare", "bore 35.17 mm"),
        ("spare", "outside 36.43 mm"),
        ("spare", "bore 35.17 mm", "outside 36.43 mm"),
    ):
        yield spares.spare_sizes(words)
    for word in ("ring", "spare", "spare_tighter"):
        found = spares.spare_tried(job_of(("remake", word)).answers)
        yield word, found and found.word


# what is left in the drawer


@KEPT.case
def what_a_job_leaves_in_the_drawer() -> Iterator[object]:
    over: Given = ("hand_back", "done", "stands over")
    read = (*WALLS, ("ring_height", "1.43 mm"))
    for name, told in {
        "turned": FILE,
        "spares, the job over": (*SPARES, over),
        "turned, the job over": (*FILE, over),
        "measured, another begun": (*FILE, *read, ANOTHER),
        "measured and dressed, another begun": (
            *FILE,
            *read,
            ("dress_lower", "done", "height 1.30 mm"),
            ANOTHER,
        ),
        "spoiled": (*FILE, ("spoiled", "yes"), ANOTHER),
        "pressed": (*FILE, ("fit_ready", "right"), ANOTHER),
        "not turned": (*READ, ACCEPTED, ANOTHER),
        "spares": SPARES,
        "spares measured": (
            *READ,
            accepted(spares="2"),
            ("spare_wall_1", "0.500 mm"),
            *TURNED,
            ("spare_wall_1", "0.619 mm"),
            ("spare_wall_2", "not measured"),
        ),
        "a spare taken": (*SPARES, SPARE, ANOTHER, accepted(bore="35.17 mm")),
        "a bought one": (*READ, accepted(at_hand="new", walls="0.610 0.612 mm", height="1.40 mm"), ANOTHER),
        "one of the drawer": (
            *READ,
            ("at_hand", "7009 spare-1", "from 7009 spare-1"),
            accepted(at_hand="drawer", **{"from": "7009 spare-1", "walls": "0.6 mm"}),
            ANOTHER,
        ),
        "one that is there": (
            *FILE,
            *WALLS,
            ANOTHER,
            accepted(at_hand="made", walls="0.622 mm"),
            ("fit_ready", "right"),
        ),
    }.items():
        found = drawer.in_drawer(job_of(*told))
        yield name, found.bar, found.taken
        yield from found.lying
    yield (
        drawer.is_over(job_of(*FILE, over)),
        drawer.is_over(job_of(*FILE)),
        drawer.in_drawer(job_of(("ring", "accept"))),
    )


@KEPT.case
def pieces_of_the_drawer_one_by_one() -> Iterator[object]:
    over = job_of(
        *FILE, *WALLS, ("hand_back", "done", "stands finished: tested"), ("hand_back", "done", "stands over")
    )
    yield drawer.is_over(over)
    span = job_of(*FILE, *WALLS, ("ring_height", "1.44 mm"), ("ring_height_2", "1.42 mm")).answers
    since = next(one.n for one in span if one.key == "dress")
    yield drawer.height_measured(span, since, DECIDED), drawer.height_measured(span, 99, DECIDED)
    yield drawer.height_measured((), 0, replace(DECIDED, at_hand="new"))
    dress = next(one for one in span if one.key == "dress")
    yield (
        drawer.finished_at(span, since, dress),
        drawer.finished_at((), since, dress),
        drawer.finished_at(span, 99, dress),
    )
    before = job_of(("hand_wall_1", "0.6 mm"), ACCEPTED).answers
    yield drawer.finished_at(before, before[1].n, before[1])
    for key in ("fit_ready", "fit_outcome", "wall_1"):
        for n in (0, 1):
            yield key, n, drawer.pressed_after(job_of((key, "x")).answers, n)
    chosen: Given = ("at_hand", "7009 spare-1", "from 7009 spare-1")
    ring = accepted(at_hand="drawer", **{"from": "7009 spare-1"})
    for told in (
        (chosen,),
        (chosen, ring),
        (chosen, ring, ("fit_ready", "right")),
        (chosen, ring, ("fit_ready", "right"), ANOTHER),
        (chosen, ("at_hand", "none")),
    ):
        job = job_of(*told)
        yield drawer.taken(job), drawer.taken_before(job)
    rough = TURNED[0]
    for told in (
        (rough, ACCEPTED),
        (rough,),
        (ACCEPTED,),
        (rough[:-1], ACCEPTED),
        ((*rough[:-3], rough[-1]), ACCEPTED),
    ):
        yield drawer.bar_left(job_of(*told), job_of(*told).answers)


# for those that learn


@cache
def turned_file() -> tuple[Given, ...]:
    """A ring turned to the end, as its file keeps it."""
    return (*turned_to("dress"), DRESSED, *WALLS)


@KEPT.case
def a_ring_as_it_came_out() -> Iterator[object]:
    given = turned_file()
    for name, told in {
        "turned": given,
        "pressed": (*given, ("fit_ready", "right"), pressed("shaved"), ("fit_cause", "tilt")),
        "leaked": (*given, pressed("home"), ("leak_cause", "none")),
        "given up": (*given, ("off_band", "another")),
        "pressed all the same": (*given, ("off_band", "press")),
        "another begun": (*given, ANOTHER, *READ[1:], ACCEPTED),
        "accepted": (*READ, ACCEPTED),
        "there already": (*READ, accepted(at_hand="new", lands="0.012 mm"), *WALLS),
        "walls land": (*READ, accepted(lands="0.012 mm", chance="")),
        "accepted again": (*given[:-4], accepted(bore="35.00 mm")),
    }.items():
        yield name
        yield from past.past_rings(job_of(*told))
    yield past.past_rings(job_of(*READ, ("ring", "accept"))), past.past_rings(job_of(*READ))


@KEPT.case
def what_is_learned_piece_by_piece() -> Iterator[object]:
    for told in (WALLS, WALLS[:3], (*WALLS[1:], WALLS[0]), (*WALLS, ("wall_2", "0.700 mm"))):
        answers = job_of(("x", "y"), *told).answers
        yield past.walls_read(answers, 1), past.walls_read(answers, 2)
    for told in (
        (("off_band", "another"),),
        (("off_band", "press"),),
        (("past_outside", "fresh"),),
        (("past_outside", "smaller_bore"),),
        (("past_bore", "larger_glass"),),
        (("past_bore", "fresh"), ("off_band", "another")),
    ):
        answers = job_of(("x", "y"), *told).answers
        yield past.given_up(answers, 1), past.given_up(answers, 2)
    order = kept_words(made_of().order)[0]
    for words in ((order,), ("order {", "x"), ("order []",), ("order 3",), ()):
        answers = job_of(("x", "y"), ("lathe_speed", "right", *words)).answers
        found = past.order_kept(answers, 1)
        yield len(found), len(past.order_kept(answers, 2)), past.line_of(found, DECIDED)
    two = job_of(
        ("x", "y"),
        ("lathe_bar", "right", 'order {"lathe": {"name": "a"}}'),
        ("lathe_speed", "right", 'order {"lathe": 3, "boring": 4}'),
    ).answers
    yield (
        past.order_kept(two, 1),
        past.line_of(past.order_kept(two, 1), DECIDED),
        past.line_of({"lathe": {"name": "a"}}, DECIDED),
    )
    for tool in (
        {"number": 2, "kind": "boring", "name": "bar", "nose_radius_mm": 0.2},
        {"number": 2, "kind": "boring"},
        {"number": 2, "nose_radius_mm": "x"},
        None,
    ):
        yield past.tool_text(tool)
    tools = {"turning": {"number": 1, "name": "t"}, "boring": {"number": 2, "name": "b"}}
    for told in (
        (("last_outside", "done", "offset 0.030 mm"), ("last_bore", "done", "offset -0.020 mm")),
        (("last_outside", "done"),),
        (),
    ):
        answers = job_of(("x", "y"), *told).answers
        yield (
            past.tools_off(answers, 1, tools),
            past.tools_off(answers, 2, tools),
            past.tools_off(answers, 1, {}),
        )


@KEPT.case
def readings_that_repeat() -> Iterator[object]:
    for told in (
        (("glass_1", "35.30 mm"), ("glass_2", "35.32 mm")),
        (("glass_1", "35.30 mm"), ("glass_2", "35.32 mm"), ("glass_material", "acrylic")),
        (
            ("glass_1", "35.30 mm"),
            ("glass_2", "35.32 mm"),
            ("glass_material", "sapphire"),
            ("glass_way", "micrometer"),
        ),
        (("glass_1", "35.30 mm"), ("glass_2", "35.36 mm")),
        (("glass_1", "35.30 mm"), ("glass_2", "35.361 mm")),
        (("glass_1", "35.30 mm"), ("glass_2", "35.32 mm", "by micrometer")),
        (("glass_1", "35.30 mm"), ("glass_2", "35.32 mm", "by micrometer", "stands measure: glass")),
        (("glass_1", "not here"), ("glass_2", "35.32 mm")),
        (("glass_1", "35.10 mm"), ("glass_1", "35.30 mm"), ("glass_2", "35.32 mm")),
        (("case_bore_1", "36.40 mm"), ("case_bore_1", "36.42 mm"), ("case_bore_1", "36.41 mm")),
        (("case_bore_4", "36.40 mm"), ("case_bore_4", "36.42 mm"), ("seat_way", "stepped_plug")),
        (("case_bore_5", "36.40 mm"), ("case_bore_5", "36.42 mm")),
    ):
        job = job_of(*told)
        yield past.repeats(job, job.answers)


# the sheet


@KEPT.case
def the_data_of_a_ring() -> Iterator[object]:
    home = (*turned_to("dress"), DRESSED, *WALLS, ("ring_height", "1.44 mm"), pressed("home"))
    for name, told in {
        "nothing": READ,
        "accepted": (
            *READ,
            accepted(
                bezel="may stay stretched",
                stays_wider="0.041 mm",
                ten_years_low="22.0 MPa",
                ten_years_high="36.0 MPa",
                gap="0.5700 mm",
                shut="a and b",
            ),
        ),
        "home": home,
        "home, a wall read again": (*home, ("wall_1", "0.630 mm")),
        "home, the seat read again": (*home, ("case_bore_1", "36.45 mm")),
        "a smaller bore": (
            *READ,
            ACCEPTED,
            ("outside_reading", "36.360 mm"),
            ("past_outside", "smaller_bore", "bore 35.12 mm"),
            *TURNED,
        ),
        "another begun": (*FILE, ("spoiled", "yes"), ANOTHER, ("case_bore_1", "36.43 mm")),
        "bought": (*READ, accepted(at_hand="new"), pressed("home")),
        "a pattern": (*READ, accepted(used_wall="0.610 mm", used_height="1.20 mm", after="used")),
        "a spare": (
            *SPARES,
            SPARE,
            ANOTHER,
            accepted(bore="35.17 mm"),
            ("dress_lower", "done", "height 1.20 mm"),
        ),
    }.items():
        yield name
        for key, value in sheet.ring_data(job_of(*told)).items():
            yield f"{key}: {json.dumps(value)}"


@KEPT.case
def heights_and_outsides_as_read() -> Iterator[object]:
    ring = job_of(ACCEPTED).answers[0]
    for told in (
        (),
        (("ring_height", "1.44 mm"),),
        (("ring_height", "1.60 mm"),),
        (("ring_height", "1.60 mm"), ("ring_height_2", "1.62 mm")),
        (("ring_height", "1.60 mm"), ("ring_height_2", "1.66 mm")),
        (("ring_height", "1.50 mm"),),
        (("ring_height", "1.51 mm"),),
        (("ring_height", "1.60 mm"), ("ring_height_2", "1.70 mm"), ("ring_height", "1.44 mm")),
    ):
        now = job_of(ACCEPTED, *told).answers
        yield str([one[1] for one in told]), sheet.height_of(now, ring)
    early = job_of(("ring_height", "1.44 mm"), ACCEPTED).answers
    yield sheet.height_of(early, early[1]), sheet.height_of(early, None)
    there = job_of(accepted(at_hand="new"), ("ring_height", "1.30 mm")).answers
    yield sheet.height_of(there, there[0])
    lower = job_of(
        accepted(at_hand="new"), ("dress_lower", "done", "height 1.30 mm"), ("ring_height", "1.30 mm")
    ).answers
    yield (
        sheet.height_of(lower, lower[0]),
        sheet.planned_height(lower[0], lower),
        sheet.planned_height(None, lower),
    )
    before = job_of(("dress_lower", "done", "height 1.30 mm"), ACCEPTED).answers
    yield sheet.planned_height(before[1], before)
    read = job_of(
        ("outside_reading", "36.60 mm"),
        ("second_outside_reading_2", "36.50 mm"),
        ("outside_reading", "36.40 mm"),
    ).answers
    yield tuple(sheet.outside_read(read, n) for n in (1, 2, 3, 4))
    for outcome in ("home", "shaved"):
        yield sheet.fitting_of(job_of(pressed(outcome)).answers[0])
    yield sheet.fitting_of(None), sheet.fitting_of(job_of(("fit_outcome", "home")).answers[0])


@KEPT.case
def whether_a_reading_was_changed() -> Iterator[object]:
    job = job_of(ACCEPTED, ("glass_1", "35.3 mm"))
    ring, glass = job.answers
    for accepted_by, n in ((0, 2), (0, 1), (1, 1), (2, 1), (9, 1)):
        changed = replace(glass, n=n, accepted=accepted_by)
        now = replace(job, answers=(ring, changed), _newest={"glass_1": changed})  # type: ignore[arg-type]
        old = replace(job, answers=(ring, changed), _newest={"glass_1": glass})  # type: ignore[arg-type]
        yield accepted_by, n, tuple(bool(sheet.changed(one, ring, sheet.MEASURED_BY)) for one in (now, old))
    for key in (
        "case_bore_2",
        "seat_way",
        "temperature",
        "plug_enters",
        "measure_again",
        "seat_depth",
        "glass_order",
    ):
        yield key, bool(sheet.changed(job_of(ACCEPTED, (key, "x")), ring, sheet.MEASURED_BY))


@KEPT.case
def what_was_tried_and_turned() -> Iterator[object]:
    spans = job_of(*SPARES, SPARE, ANOTHER, accepted(bore="35.17 mm")).attempt_spans()
    yield sheet.turned_of(spans), sheet.turned_of(spans[1:]), sheet.turned_of(())
    ring = job_of(*SPARES, ("remake", "ring"), ANOTHER, ACCEPTED).attempt_spans()
    yield sheet.turned_of(ring)
    for told in (
        (ACCEPTED,),
        (ACCEPTED, ("spoiled", "yes")),
        (ACCEPTED, ("fresh_ring", "done")),
        (ACCEPTED, ("spoiled", "yes"), pressed("shaved")),
    ):
        for over in (True, False):
            yield sheet.attempt_of(2, job_of(*told).answers, over=over)


@KEPT.case
def what_the_workshop_keeps() -> Iterator[object]:
    given = (
        *turned_to("dress"),
        DRESSED,
        *WALLS,
        ("wall_2", "0.630 mm"),
        ("ring_height", "1.44 mm"),
        ("hand_seat", "lies"),
        ("temperature", "20 C"),
        ("glass_3", "1.3900 in"),
        ("seat_depth_late", "1.4 mm"),
        ("wall_reading_each_2", "0.720 mm"),
    )
    job = job_of(
        *given,
        ANOTHER,
        ("glass_1", "35.31 mm"),
        ("spare_2_from_3", "done", "part: go to 2.5"),
        ("rough_bore", "some", "x"),
    )
    kept = record.record(job.attempt_spans())
    for key, rows in kept.items():
        yield from (f"{key}: {json.dumps(row)}" for row in rows)
    for attempt in (1, 2):
        for unit in ("mm", "inch"):
            with speaking(unit):
                data = {"attempt": attempt, **kept, "turned": {"lathe": "small bench lathe", "bar_mm": 45.0}}
                yield from (
                    f"{one.heading}: {line}" for one in record.recorded(data) for line in one.sentences
                )
    yield (
        record.equipment_text({"lathe": None, "bar_mm": 45.0}),
        record.equipment_text({"lathe": "l", "bar_mm": None}),
    )
    act = {
        "attempt": 1,
        "act": "rough_outside",
        "said": "outside: go to 8 turns 20 dial, makes 30.50 mm",
        "tool": None,
        "tool_called": None,
        "rpm": None,
        "offset_mm": None,
    }
    yield (
        record.act_text(act, False),
        record.act_text({**act, "said": None, "tool": 4, "offset_mm": 0.01, "rpm": 420}, True),
    )
    yield record.act_text({**act, "act": "part", "tool_called": "the blade", "tool": 4}, False)
    yield [
        record.act_name(one)
        for one in (
            "spare_2",
            "chamfer",
            "last_bore",
            "more_outside_9",
            "more_bore_1",
            "more_bore_10",
            "hold",
            "drill",
        )
    ]
    yield (
        record.tools_called(job_of(("x", "y", "order {}")).answers),
        record.tools_called(()),
        record.whole(2.7),
        record.whole(None),
    )
    yield record.sentence(""), record.sentence("wall")


# drawn and told


@KEPT.case
def the_section() -> Iterator[object]:
    plain = {"on_the_ring": {"wall_mean_mm": None, "outside_final": False}}
    yield drawing.drawing(sheet_of(**plain))
    read = {"wall_mean_mm": 0.628, "outside_final": True, "outside_on_bar_mm": 34.1}
    yield drawing.drawing(sheet_of(on_the_ring=read, made={"height_mm": 1.11}))
    for name in RING_DATA:
        if name != "plastic":
            yield name, drawing.drawing(sheet_of(**plain, ring=RING_DATA | {name: None}))
    yield (
        drawing.drawing(sheet_of(**plain, ring=RING_DATA | {"wall_mm": 0.0})),
        drawing.drawing(sheet_of(**plain, ring=RING_DATA | {"height_mm": 0.0})),
    )
    found = drawing.drawing(sheet_of(**plain, ring=RING_DATA | {"chamfer_mm": 0.0, "lower_chamfer_mm": 0.0}))
    assert found is not None
    yield [(one.point, one.away) for one in found.leaders]
    plan = made_of()
    for gap in (None, DECIDED.gap):
        yield drawing.plan_drawing(plan, gap)
    with speaking("inch"):
        yield drawing.plan_drawing(plan, DECIDED.gap)
    yield for_words(Gap(case_bore_mm=36.0, case_bore_u_mm=0.0, glass_mm=35.0, glass_u_mm=0.004))


def customer_of(**changed: Any) -> dict[str, Any]:
    """The data of a sheet that the customer is told of."""
    usual: dict[str, Any] = {
        "at_hand": {"what": None},
        "fitted_at": None,
        "on_the_ring": {"wall_mean_mm": None, "outside_on_bar_mm": None, "outside_final": False},
    }
    usual["made"] = {"height_mm": None, "wall_mm": [], "decision": None, "shut": None}
    return sheet_of(**(usual | changed))


@KEPT.case
def what_the_customer_is_told() -> Iterator[object]:
    home = {"fitting": {"outcome": "home"}, "fitted_at": "2026-03-02T10:00:00+00:00"}
    on = {"wall_mean_mm": 0.628, "outside_on_bar_mm": 34.1, "outside_final": False}
    made_so = {"height_mm": 1.44, "wall_mm": [0.62, 0.63], "decision": "fits", "shut": None}
    ways: dict[str, dict[str, Any]] = {
        "chosen": {},
        "home": home,
        "home, moment not kept": {**home, "fitted_at": None},
        "not home": {"fitting": {"outcome": "shaved"}},
        "measured": {**home, "on_the_ring": on, "made": made_so},
        "measured at one place": {
            **home,
            "on_the_ring": on,
            "made": made_so | {"wall_mm": [0.62], "height_mm": None},
        },
        "a wall alone": {**home, "on_the_ring": on, "made": made_so | {"height_mm": None}},
        "its outside stayed": {**home, "on_the_ring": on | {"outside_final": True}},
        "its outside stayed, not read": {
            **home,
            "on_the_ring": on | {"outside_final": True, "outside_on_bar_mm": None},
        },
        "does not": {**home, "made": made_so | {"decision": "does_not"}},
        "undecided": {**home, "made": made_so | {"decision": "undecided"}},
        "undecided and shut": {**home, "made": made_so | {"decision": "undecided", "shut": "a and b"}},
        "fits and shut": {**home, "made": made_so | {"shut": "a and b"}},
        "a spare": {**home, "turned": {"colour": "black", "spare": True}},
        "new": {**home, "at_hand": {"what": "new"}},
        "drawer": {**home, "at_hand": {"what": "drawer"}},
        "made": {**home, "at_hand": {"what": "made"}, "turned": {"colour": "not said", "spare": False}},
        "no sizes": {"ring": RING_DATA | {"bore_mm": None}},
        "no outside": {"ring": RING_DATA | {"outside_diameter_mm": None}},
        "nothing": {"ring": RING_DATA | {"plastic": None}},
        "there, not named": {"ring": RING_DATA | {"plastic": None}, "at_hand": {"what": "new"}},
    }
    for name, changed in ways.items():
        data = customer_of(**changed)
        yield name
        yield from customer.for_customer(data)
        yield customer.in_one_line(data)


@KEPT.case
def what_the_sheet_says() -> Iterator[object]:
    wall = {"wall_mm": [0.62], "height_mm": None, "squeeze_pct": None}
    shut: dict[str, Any] = {
        "wall_mm": [],
        "height_mm": None,
        "squeeze_pct": 8.44,
        "squeeze_u_pct": 4.21,
        "shut": "a and b",
    }
    home = {"outcome": "home", "at": "2026-03-02T10:00:00+00:00"}
    for changed in (
        {"made": wall},
        {"made": shut | {"decision": "undecided"}},
        {"made": shut | {"decision": "does_not"}},
        {"made": shut | {"decision": "odd", "shut": None}},
        {"fitting": home},
        {"fitting": {"outcome": "odd", "at": None}},
        {"renewed": "crown_back"},
    ):
        yield text.made_text(sheet_of(**changed))
    drawer_ring = {"what": "drawer", "from": "7009 spare-1", "used_wall_mm": None}
    yield text.at_hand_text(drawer_ring), text.at_hand_text({**drawer_ring, "what": "pressed", "from": None})
    yield tuple(text.spares_text(left) for left in (0, 1, 2, 3))
    spare = {
        "colour": "black",
        "spare": True,
        "left_mm": 141.6,
        "spares_left": 1,
        "lathe": "l",
        "bar_mm": 45.0,
    }
    yield text.ring_text(sheet_of(turned=spare)).sentences
    yield (
        [(one.heading, one.drawn) for one in text.sections(sheet_of())],
        text.ring_text(sheet_of(attempt=2)).heading,
    )
    taken = {"mean_mm": 36.43, "u_mm": 0.04, "n": 2, "ovality_mm": 0.02}
    none = {"mean_mm": None, "u_mm": None, "n": 0, "ovality_mm": None}
    for seat, glass, believed in (
        (taken, none, None),
        (none, {**taken, "ovality_mm": 0.0}, 1.12),
        (none, none, None),
    ):
        measured = {"case_bore": seat, "glass": glass}
        yield text.measured_text(sheet_of(measured=measured, gap_believed_mm=believed))
        yield text.measured_text(sheet_of(measured=measured, gap_believed_mm=believed, made_by=None))
    low = {
        "ten_years_low_mpa": None,
        "ten_years_high_mpa": None,
        "bezel": "stays wider",
        "stays_wider_mm": None,
    }
    yield text.expected_text(low)
    yield tuple(text.bar_words(sheet_of(turned={"colour": colour})) for colour in ("black", "not said", None))
    last = {
        "attempt": 1,
        "bore_mm": 35.19,
        "wall_mm": 0.62,
        "outcome": "home",
        "tests": [{"sitting": "empty", "result": "odd"}],
    }
    yield text.attempt_text(last)
    yield ENDINGS, str(REASONS)


@KEPT.case
def a_ring_changed_by_hand() -> Iterator[object]:
    before = job_of(("seat_depth", "1.60 mm"), *READ)
    for name, said in {
        "as it was": {},
        "no such squeeze": {"squeeze": "9.5 %"},
        "just so": {"squeeze": "9.2 %"},
        "no squeeze": {"squeeze": ""},
        "a glass too large": {"glass": "36.43 mm", "squeeze": ""},
        "no glass": {"glass": "0.000 mm", "squeeze": ""},
        "a wall too thin": {"bore": "36.20 mm"},
        "spares": {"spares": "5"},
        "too high": {"height": "1.61 mm"},
        "just so high": {"height": "1.60 mm"},
        "there already": {"height": "1.61 mm", "at_hand": "new", "walls": "0.62 mm"},
        "no seat": {"seat": ""},
        "aimed too thin": {"lands": "0.420 mm"},
        "its walls": {"walls": "0.640 0.642 mm", "at_hand": "new"},
    }.items():
        job = job_of(accepted(**said))
        yield name, list(by_hand.expected(job.answers[0], before.answers))
    wanted = job_of(("seat_depth", "1.60 mm"), ("height_wanted", "1.70 mm")).answers
    proposed = job_of(
        ("seat_depth", "1.60 mm"), ("seat_depth_again", "1.50 mm"), ("height_wanted", "as proposed")
    ).answers
    for answers in (wanted, proposed, ()):
        yield list(by_hand.expected(job_of(accepted(height="1.55 mm")).answers[0], answers))
    for keyed in ("20 C", "30 C", "unknown"):
        for squeeze in ("9.5 %", "10.0 %"):
            answers = job_of(("temperature", keyed)).answers
            yield (
                keyed,
                squeeze,
                list(by_hand.expected(job_of(accepted(squeeze=squeeze)).answers[0], answers)),
            )


@KEPT.case
def what_was_pressed_changed_by_hand() -> Iterator[object]:
    for walls, more in (
        ("0.621 0.622 0.623 0.624", {}),
        ("0.621 0.622 0.623 0.700", {}),
        ("0.621 0.622 0.623 0.624", {"squeeze": "12.00 %"}),
        ("0.0 0.0", {}),
    ):
        kept = [f"walls {walls} mm", f"squeeze {more.get('squeeze', '9.65 %')}"]
        for told in ((ACCEPTED, *WALLS), (ACCEPTED,), (*WALLS, ACCEPTED), ()):
            job = job_of(*told, ("fit_outcome", "home", *kept))
            yield walls, len(told), list(by_hand.expected(job.answers[-1], job.answers[:-1]))
    bare_one = job_of(ACCEPTED, ("fit_outcome", "home"))
    yield (
        list(by_hand.expected(bare_one.answers[-1], bare_one.answers[:-1])),
        list(by_hand.expected(job_of(READ[1]).answers[0], ())),
    )


@KEPT.case
def the_whole_kind() -> Iterator[object]:
    yield RING.word, RING.name, RING.short, RING.accepted, RING.fitting, RING.reasons is REASONS
    yield [one.key for one in RING.alike(SHOP)]
    yield (
        RING.bought(job_of(accepted(at_hand="new"))),
        RING.bought(job_of(ACCEPTED)),
        RING.bought(job_of(accepted(at_hand="new"), ANOTHER)),
    )
    yield len(sheet_data(job_of(*FILE), finished=False))
    yield RING.again.measured, RING.again.another


@pytest.mark.parametrize("name", KEPT.cases)
def test_what_is_asked_and_said_of_a_ring_that_is_made(name: str) -> None:
    KEPT.check(name)


if __name__ == "__main__":
    KEPT.write()
