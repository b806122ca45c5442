"""What is asked and said of the straight ring until seat and glass are measured, function by function, as it
was read once and found true.

python -m tests.seals.test_ring_measured writes `ring_measured.md` anew; look at the difference before that.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import Any

import pytest

from bench.file.entry import Entry, Head
from bench.job import keys
from bench.job.asking import Stage
from bench.job.job import Answer, Job, replay
from bench.job.steps import Step, Words
from bench.seals.ring import measure, measure_steps, no_glass, no_glass_steps, seat
from bench.seals.ring.materials import glass_step, metal_step, plastic_step
from bench.shop.shop import built_in
from bench.stages.common import Readings
from bench.version import MADE_BY
from rules.instrument import Instrument
from rules.lengths import speaking
from rules.measuring.reading import Summary, judge
from rules.sizing.glass_order import StockGlass
from rules.tables import Glass, Metal, Plastic
from tests.whole.test_every_step import rendered, section

MARKS = (keys.SITTING, keys.ATTEMPT, keys.LEARNED, keys.LOOKED_IN)
MOST = 60
SHOP = built_in()
Given = tuple[str, ...]


def job_of(*given: Given) -> Job:
    """The job of a file with these answers and marks, a key and its words each, in this order."""
    entries = [
        Entry(
            n=n,
            at=f"2026-03-02T{9 + n // 60:02}:{n % 60:02}:00+00:00",
            kind="mark" if one[0] in MARKS else "answer",
            key=one[0],
            value=one[1:],
        )
        for n, one in enumerate(given, 1)
    ]
    return replay(Head(format=1, id="0f0f0f0f", job="7001", made_by="ringwright 1"), entries)


def size_of(mean_mm: float, u_mm: float = 0.04, oval_mm: float = 0.02, n: int = 2) -> Summary:
    """A diameter as measured."""
    return Summary(
        mean_mm=mean_mm,
        n=n,
        range_mm=oval_mm,
        ovality_mm=oval_mm,
        u_mm=u_mm / 2.0,
        dof=9.0,
        expanded_mm=u_mm,
        components=(),
    )


def told(thing: Any) -> str:
    """A thing by what it says, an entry of a table by its name there."""
    if isinstance(thing, Glass | Metal | Plastic):
        return f"{type(thing).__name__} {thing.key}"
    if is_dataclass(thing):
        kept = [one for one in fields(thing) if getattr(thing, one.name) != one.default]
        said = ", ".join(f"{one.name}={told(getattr(thing, one.name))}" for one in kept)
        return f"{type(thing).__name__}({said})"
    if isinstance(thing, tuple | list | set | frozenset):
        return f"[{'; '.join(map(told, thing))}]"
    return f"{thing:.9g}" if isinstance(thing, float) else repr(thing)


def driven(stage: Stage[Any], answers: Mapping[str, str | Words] | None = None) -> Iterator[object]:
    """What a stage asks, and what it comes to. Where a key has no answer the usual is given, or the first
    choice; a number that has neither stays open, and the stage with it.
    """
    said = answers or {}
    try:
        step = next(stage)
        for n in range(101, 101 + MOST):
            given = said.get(step.key, step.usual or (step.choices[0].word if step.choices else ""))
            if step.kind == "safety":
                given = ("right", *step.decided)
            elif isinstance(given, str):
                choice = step.choice(given)
                given = (given, *(choice.with_it if choice else ()))
            yield step
            yield f"> {told(given)}"
            if not given[0] and not step.optional:
                return
            step = stage.send(Answer(n, "2026-03-02T11:00:00+00:00", step.key, given))
    except StopIteration as end:
        yield f"= {told(end.value)}"
        return
    raise AssertionError("it goes round")


def only(stage: Iterable[object], *shown: str) -> Iterator[object]:
    """The same with these steps in full, of all others their key and title."""
    for one in stage:
        yield f"{one.key}: {one.title}" if isinstance(one, Step) and one.key not in shown else one


def changed(step: Step, before: dict[str, dict[str, str]]) -> str:
    """A step, a line each field; of one that was asked before in its case what is another now."""
    key, *lines = rendered(step).split("\n")
    fields: dict[str, str] = {}
    for line in lines:
        name = line.split(":")[0]
        fields[name] = f"{fields[name]}\n{line}" if name in fields else line
    was = before.get(key, {})
    gone = (f"{name}: (as usual)" for name in was if name not in fields)
    said = (text for name, text in fields.items() if was.get(name) != text)
    before[key] = fields
    return "\n".join((key, *said, *gone))


class Kept:
    """Cases by their names, and what each says, kept beside the file of tests."""

    def __init__(self, file: str) -> None:
        self.path = Path(file.replace("test_", "")).with_suffix(".md")
        self.cases: dict[str, Callable[[], Iterable[object]]] = {}

    def case(self, work: Callable[[], Iterable[object]]) -> Callable[[], Iterable[object]]:
        """Takes in a case."""
        self.cases[work.__name__] = work
        return work

    def said(self, name: str) -> str:
        """All that one says, no line of it a heading."""
        before: dict[str, dict[str, str]] = {}
        text = "\n".join(
            (one or "-")
            if isinstance(one, str)
            else changed(one, before)
            if isinstance(one, Step)
            else told(one)
            for one in self.cases[name]()
        )
        return re.sub(r"(?m)^#", " #", text.replace(MADE_BY, "this program")).strip("\n")

    @cached_property
    def text(self) -> str:
        """What was kept."""
        return self.path.read_text(encoding="utf-8")

    def check(self, name: str) -> None:
        """It says what was kept, line by line."""
        assert self.said(name).split("\n") == section(self.text, f"## {name}").split("\n")

    def write(self) -> None:
        """Keeps what they say now."""
        parts = (f"\n## {name}\n\n{self.said(name)}\n" for name in self.cases)
        self.path.write_text(
            f"# {self.path.stem.replace('_', ' ').capitalize()}\n{''.join(parts)}", encoding="utf-8"
        )


KEPT = Kept(__file__)
READ = {"case_bore_1": "36.42 mm", "case_bore_2": "36.44 mm", "glass_1": "35.31 mm", "glass_2": "35.30 mm"}
READ |= {"seat_depth": "1.60 mm"}
SEAT = seat.Seat(size_of(36.43), ("seat_way", "case_bore_1", "case_bore_2"))


@KEPT.case
def the_questions() -> Iterator[object]:
    every = (measure_steps, no_glass_steps)
    yield from (one for module in every for one in vars(module).values() if isinstance(one, Step))


@KEPT.case
def why_it_is_not_this_ring() -> Iterator[object]:
    yield from (measure_steps.not_this_ring(one, "bench") for one in measure_steps.NOT_THIS_RING)


@KEPT.case
def what_things_are_made_of() -> Iterator[object]:
    yield from (make(SHOP) for make in (glass_step, plastic_step, metal_step))


@KEPT.case
def the_first_stage() -> Iterator[object]:
    yield from driven(measure.measure(job_of(), SHOP), READ)


@KEPT.case
def the_first_stage_of_an_oval_acrylic_glass() -> Iterator[object]:
    said = READ | {"glass_material": "acrylic", "glass_1": "35.20 mm", "glass_2": "35.34 mm"}
    said |= {"glass_3": "35.25 mm", "glass_4": "35.28 mm", "glass_edge": "0.55 mm", "temperature": "24 C"}
    stage = measure.measure(job_of(), SHOP)
    yield from only(driven(stage, said), "glass_1", "glass_2", "glass_3", "glass_4", "glass_edge")


@KEPT.case
def the_first_stage_where_it_is_not_this_ring() -> Iterator[object]:
    yield from only(driven(measure.measure(job_of(), SHOP), {"bench": "pit"}), "not_this_ring")
    for held in ("foot", "spring"):
        yield from only(driven(measure.bench_check(), {"hold": held}), "not_this_ring")
    for held, then in (("spring", "anyway"), ("behind", ""), ("front", "")):
        yield from only(driven(measure.bench_check(), {"hold": held, "not_this_ring": then}))
    yield from only(driven(measure.bench_check(), {"bench": "dressed"}))


@KEPT.case
def a_seat_depth_out_of_the_ordinary() -> Iterator[object]:
    for first in ("0.59 mm", "0.60 mm", "3.50 mm", "3.51 mm"):
        said = {"seat_depth": first, "seat_depth_again": first}
        yield from only(driven(measure.seat_depth(("gap 0.560 mm",)), said), *[""] * 0)
    other = {"seat_depth": "0.50 mm", "seat_depth_again": "1.50 mm", "seat_depth_again_2": "1.51 mm"}
    yield from driven(measure.seat_depth(("gap 0.560 mm",)), other)


@KEPT.case
def readings_corrected_late() -> Iterator[object]:
    late = job_of(("seat_depth", "1.60 mm"), ("seat_depth_late", "1.40 mm"), ("glass_edge_late", "1.2 mm"))
    yield tuple(measure.corrected_late(late, key) for key in (keys.SEAT_DEPTH, keys.GLASS_EDGE))
    for after in (("seat_depth_late", "as before"), ("seat_depth", "1.50 mm"), ("measure_again", "done")):
        newer = job_of(("seat_depth", "1.60 mm"), ("seat_depth_late", "1.40 mm"), after)
        yield after, measure.corrected_late(newer, keys.SEAT_DEPTH)
    stage = measure.measure(late, SHOP)
    yield list(driven(stage, READ | {"glass_edge": "1.5 mm"}))[-1]


@KEPT.case
def how_closely_the_glass_is_asked() -> Iterator[object]:
    read = (("glass_1", "35.30 mm"), ("glass_2", "35.35 mm"))
    coarse = Instrument(name="worn calliper", kind="calliper", resolution_mm=0.05, limit_of_error_mm=0.06)
    near = (("glass_1", "35.30 mm"), ("glass_2", "35.33 mm"))
    for told in ((), read, (*read, ("ring", "accept")), (*near, ("ring", "accept"))):
        for acrylic in (False, True):
            asked = measure.glass_diameter(
                job_of(*told), SHOP.instruments[0], SHOP.instruments[:2], SEAT.size, acrylic=acrylic
            )
            yield (
                asked.within_mm,
                asked.between_mm,
                asked.differs,
                asked.step.how,
                asked.step.consequence,
                asked.places,
            )
    yield measure.glass_diameter(job_of(), coarse, (coarse,), SEAT.size, acrylic=False).within_mm


# the seat


@KEPT.case
def the_seat_by_readings() -> Iterator[object]:
    oval = {"case_bore_1": "36.40 mm", "case_bore_2": "36.52 mm", "case_bore_3": "36.47 mm"}
    yield from driven(seat.seat_measured(job_of(), SHOP), oval | {"case_bore_4": "36.46 mm"})
    settled = job_of(("case_bore_1", "36.40 mm"), ("case_bore_2", "36.52 mm"), ("ring", "accept"))
    yield from only(driven(seat.seat_measured(settled, SHOP), oval))
    with speaking("inch"):
        said = {"case_bore_1": "1.4340 in", "case_bore_2": "1.4345 in"}
        yield from only(
            driven(seat.seat_measured(job_of(), built_in("inch")), said), "case_bore_1", "seat_way"
        )


@KEPT.case
def the_seat_by_a_plug() -> Iterator[object]:
    plug = {"seat_way": "stepped plug", "plug_enters": "36.420 mm"}
    yield from driven(seat.seat_measured(job_of(), SHOP), plug | {"plug_stays_out": "36.440 mm"})
    for out, again in (("36.420 mm", "36.430 mm"), ("36.921 mm", "36.919 mm"), ("36.400 mm", "36.400 mm")):
        said = plug | {"plug_stays_out": out, "plug_stays_out_again": again}
        yield from only(driven(seat.by_plug(), said), "plug_stays_out_again")
    yield from only(driven(seat.by_plug(), plug | {"plug_stays_out": "36.920 mm"}))


@KEPT.case
def instruments_for_a_seat() -> Iterator[object]:
    calliper, micrometer, ball = SHOP.instruments
    gauge = replace(micrometer, name="bore gauge", kind="bore_gauge")
    for tools in ((calliper,), (micrometer,), (calliper, micrometer), (ball,), (gauge, calliper, micrometer)):
        shop = replace(SHOP, instruments=tools)
        yield ", ".join(one.name for one in tools)
        yield seat.beside(shop)
        (asked, *_) = (one for one in driven(seat.seat_measured(job_of(), shop)) if isinstance(one, Step))
        yield asked.title, [each.text for each in asked.choices]
    named = job_of(("seat_way", "micrometer"))
    yield seat.chosen_before(named, SHOP, ()), seat.chosen_before(named, SHOP, (micrometer,))
    yield seat.chosen_before(job_of(("seat_way", "stepped plug")), SHOP, ())
    yield list(
        driven(
            seat.instrument("glass_way", "Glass measured with", (calliper, gauge)),
            {"glass_way": "bore gauge"},
        )
    )[-1]
    yield list(
        driven(seat.instrument("glass_way", "Glass measured with", (calliper, gauge)), {"glass_way": "gone"})
    )[-1]


@KEPT.case
def accepted_and_close() -> Iterator[object]:
    read = (("glass_1", "35.30 mm"), ("glass_2", "35.33 mm"))
    for told in (
        read,
        (*read, ("ring", "accept")),
        (*read, ("ring", "accept"), ("glass_10", "35.31 mm")),
        (*read, ("ring", "accept"), ("glass_11", "35.31 mm")),
        (*read, ("ring", "accept"), ("measure_again", "done")),
        (("measure_again", "done"), *read, ("ring", "accept")),
        (("glass_1", "not here"), ("glass_2", "35.33 mm"), ("glass_6", "35.36 mm")),
    ):
        job = job_of(*told)
        close = [seat.as_close(job, "glass", within) for within in (0.029, 0.03, 0.031)]
        yield " ".join(one[0] for one in told), seat.accepted(job, "glass"), *close


@KEPT.case
def a_diameter_in_words() -> Iterator[object]:
    for unit in ("mm", "inch"):
        with speaking(unit):
            yield seat.said_of("seat", size_of(36.4306, 0.0404, 0.0206))
            yield seat.gap_words(0.5625, 0.02), seat.gap_words(0.5625, 0.0), seat.gap_words(0.5625, 0.002)
    yield seat.as_written(replace(size_of(36.43049, 0.04049, 0.02049), range_mm=0.12345))
    answers = tuple(
        Answer(n, "", f"glass_{n}", words)
        for n, words in enumerate((("35.30 mm",), ("35.32 mm",), ("35.314 mm", "by micrometer")), 1)
    )
    values = [35.30, 35.32, 35.314]
    taken = Readings(answers, judge(values, within_mm=0.03), ("12", "3", "3"))
    yield seat.summary(taken, SHOP.instruments[0], SHOP.instruments)
    yield seat.summary(taken, SHOP.instruments[0], SHOP.instruments, ground=True)
    off = Readings(answers, judge([35.30, 35.32, 35.314], within_mm=0.01), ("12", "3", "3"))
    yield seat.summary(off, SHOP.instruments[0], SHOP.instruments)


# no glass yet


@KEPT.case
def no_glass_to_measure() -> Iterator[object]:
    yield from driven(measure.measure(job_of(), SHOP), READ | {"glass_1": "not here"})


@KEPT.case
def a_glass_to_order() -> Iterator[object]:
    for said in (
        {"old_wall": "0.56 mm", "old_height": "1.30 mm"},
        {"glass_wanted": "35.45 mm"},
        {"glass_wanted": "35.40 mm"},
        {"glass_wanted": "36.43 mm"},
        {"glass_wanted": "34.00 mm"},
        {"glass_wanted": "36.20 mm"},
    ):
        yield said
        yield from only(driven(no_glass.order(SHOP, SEAT, 1.6), said), "glass_order")


@KEPT.case
def why_a_glass_is_not_offered() -> Iterator[object]:
    for unit in ("mm", "inch"):
        with speaking(unit):
            for glass, wall in (
                (36.43, 0.5),
                (36.44, 0.5),
                (36.40, 0.2),
                (34.03, 0.9),
                (34.02, 0.9),
                (35.9, None),
            ):
                yield glass, no_glass.why_not(36.43, glass, wall)
    yield tuple(no_glass.wall_for(SHOP, SEAT.size, 1.6, glass) for glass in (35.3, 36.42, 36.43, 30.0))
    coarse = replace(SHOP, instruments=SHOP.instruments[:1], turning_spread_mm=0.05)
    yield no_glass.wall_for(coarse, size_of(36.43, 0.2, 0.3), 0.9, 35.4)


@KEPT.case
def glasses_as_choices() -> Iterator[object]:
    offers = (StockGlass(35.4, 0.556), StockGlass(35.0, 0.785))
    lesser = replace(SHOP, tester=replace(SHOP.tester, largest_bar=10.0), glass_step_mm=0.05)
    yield from (no_glass.order_step(SHOP, SEAT, offers, 1.26, wall) for wall in (None, 0.562))
    yield no_glass.order_step(lesser, SEAT, (), 1.26, None).consequence
    yield from (
        no_glass.strong_enough(shop, some) for shop in (SHOP, lesser) for some in (offers, offers[1:], ())
    )
    with speaking("inch"):
        yield no_glass.order_step(SHOP, SEAT, offers, 1.26, 0.562)
        yield no_glass_steps.comes_step("35.40 mm")
        yield no_glass.strong_enough(SHOP, offers)


ORDERED = (("glass_order", "35.40 mm", "wall 0.56 mm"), ("glass_comes", "come"))


@KEPT.case
def a_glass_that_was_ordered() -> Iterator[object]:
    for told in ((), ORDERED[:1], ORDERED, ORDERED[::-1]):
        job = job_of(*told)
        yield no_glass.ordered_mm(job), no_glass.said_of_order(job)
    seen = (("old_wall", "0.56 mm"), ("old_height", "not measured"))
    yield from (
        no_glass.old_ring_seen(job_of(*told)) for told in ((), seen, (*seen, ("old_height", "1.30 mm")))
    )
    for mean in (35.40, 35.45, 35.4501, 35.35, 35.3499):
        step = no_glass.as_ordered(job_of(*ORDERED), SHOP, SEAT, size_of(mean), ("glass_1",), 1.6)
        yield mean
        yield from only(driven(step))


@KEPT.case
def a_glass_of_another_size() -> Iterator[object]:
    job = job_of(*ORDERED)
    for wall in (0.52, 0.40, 0.399, 0.65, 0.651, None):
        yield no_glass.differs_step(job, 35.4, size_of(35.5), wall, ("glass_1", "glass_2"))
    yield no_glass.differs_step(job_of(("glass_order", "35.40 mm")), 35.4, size_of(35.5), 0.5, ()).say
    yield from only(
        driven(
            no_glass.as_ordered(job, SHOP, SEAT, size_of(35.6), ("glass_1",), 1.6), {"glass_differs": "back"}
        ),
        "glass_comes",
    )
    yield from only(
        driven(measure.measure(job, SHOP), READ | {"glass_differs": "back"}), "glass_1", "glass_differs"
    )


@pytest.mark.parametrize("name", KEPT.cases)
def test_what_is_asked_until_all_is_measured(name: str) -> None:
    KEPT.check(name)


if __name__ == "__main__":
    KEPT.write()
