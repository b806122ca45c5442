"""The bar as it is, before the first touch: which it is, what it measures, how it is held, what is left.

Invariant: a ring that is begun is not asked for again; a figure counts only for a bar it can be of.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.mask import Mask
from bench.job.steps import Step, Words
from bench.job.values import named, named_text, number
from bench.seals.lathe.bar_outside import THINNER_MM, as_measured, outside_mask
from bench.seals.ring.cut_steps import BASE, MEASURED
from bench.seals.ring.known import saving_words
from bench.seals.ring.size_steps import bar_name, bar_said
from bench.shop.groups import AT_THE_LATHE, TO_CUT
from rules.bars import Bar
from rules.lengths import length, translated
from rules.turning import operations
from rules.turning.holding import held_words
from rules.turning.passes import Plan
from rules.turning.stock import unless_through, usual_size_mm

if TYPE_CHECKING:
    from bench.shop.shop import Shop

SHORTER = "Note it: * my shop."
SHORTEST_MM = 1.0
"""No bar is shorter: a plan then refuses it as too short."""
RESTS: Words = (keys.RING, keys.ATTEMPT, keys.LATHE, keys.TOOL_SET, keys.BAR)
"""What the figures of a bar rest on: for another ring it may be another bar."""
FIGURES: Words = (*MEASURED, keys.BAR_BORE)
"""Everything that is measured of a bar."""
Planned = Callable[[Words], tuple[Plan | None, str]]
"""The plan by the answers with these keys alone, or the reason why there is none."""


def bar_asked(job: Job, shop: Shop, planned: Planned, said: Words = ()) -> Stage[tuple[Plan | None, str]]:
    """Ask what the bar of a plan measures, then plan again; so of another bar that this leads to.

    `said`: what else stands on the first of these pages.
    """
    made, why = planned(())
    for at, key in enumerate(MEASURED, 1):
        if made is None:
            break
        bar = made.order.bar
        steps = (measure_step(key, made, shop), *((bore_step(made),) if bored(made) else ()))
        if begun(job) and job.fresh(key, RESTS) is None:
            return made, why
        ask_first = () if begun(job) else TO_CUT
        for step in steps:
            step = replace(step, consequence=(*step.consequence, *said), goes_by=AT_THE_LATHE)
            yield from word(replace(step, asks_shop=ask_first))
            said = ()
        made, why = planned((*MEASURED[:at], keys.BAR_BORE))
        if made is not None and bar_name(made.order.bar) == bar_name(bar):
            break
    return made, why


def begun(job: Job) -> bool:
    """Whether something is cut already, or the checks of this sitting keep a plan."""
    checked = (job.fresh(key, BASE) for key in (keys.LATHE_BAR, keys.LATHE_SPEED))
    now = any(one is not None and one.n > job.newest_n(keys.SITTING) for one in checked)
    return now or job.fresh(operations.ROUGH_OUTSIDE, BASE) is not None


def bored(made: Plan) -> bool:
    """Whether the bar's own bore is used."""
    order = made.order
    return bool(order.bar.bore_mm) and not (order.opening.drills_mm or order.opening.tool)


def measure_step(key: str, made: Plan, shop: Shop) -> Step:
    """What the bar measures outside: the first touch rests on it, so nothing stands on 1 Enter but what was
    said of it as measured.
    """
    bar, stock = made.order.bar, made.order.stock
    known = next((one for one in shop.bars if bar_name(one) == bar_name(bar)), bar)
    size = known.diameter_mm
    return Step(
        key=key,
        stage="cut",
        kind="number",
        title=f"{bar_said(bar)}: what does it measure, where it will be cut?",
        mask=outside_mask(size),
        usual=f"{usual_size_mm(known):.2f} mm" if known.outside_mm or known.was_turned else "",
        say=(
            *stock.words(known)[1:],
            *held_words(stock.grip, bar),
            *unless_through(bar, made.order.lathe, stock),
        ),
        consequence=tuple(f"{text[0].upper()}{text[1:]}." for text in saving_words(made.order)),
        rests_on=RESTS,
        why=translated(
            "Bar stock runs over its size, by 0.2 to 1.2 mm in EN 15860 (from memory). The first touch, and "
            "how deep the first cut goes, follow from what it is."
        ),
        how=("A calliper does, at its thickest place. Another bar: from the list.",),
    )


def bore_step(made: Plan) -> Step:
    """What its own bore measures."""
    bore = made.order.bar.bore_mm
    return Step(
        key=keys.BAR_BORE,
        stage="cut",
        kind="number",
        title="Its own bore: what does it measure, at its narrowest?",
        mask=Mask(2, 2, "mm", max(1.0, bore - THINNER_MM), bore + THINNER_MM),
        usual=f"{bore:.2f} mm",
        rests_on=RESTS,
        why="Boring begins there: nothing is bored twice, and no air is cut.",
    )


def as_it_is(job: Job, bar: Bar, asked: Words = FIGURES) -> Bar:
    """A bar of the shop with what was measured of it, and as long as rings before it in this job left it;
    `asked`: the answers that count.
    """
    found = replace(bar, length_mm=_length_left(job, bar))
    for outside in _figures(job, (key for key in MEASURED if key in asked)):
        found = as_measured(found, outside)
    for bore in _figures(job, (key for key in (keys.BAR_BORE,) if key in asked)):
        if bar.bore_mm and abs(bore - bar.bore_mm) <= THINNER_MM:
            found = replace(found, bore_mm=bore)
    return found


def _figures(job: Job, asked: Iterable[str]) -> Iterator[float]:
    for key in asked:
        answer = job.fresh(key, RESTS)
        if answer is not None:
            yield number(answer.word)


def _length_left(job: Job, bar: Bar) -> float:
    before = job.before_attempt(operations.ROUGH_OUTSIDE)
    words: Words = before.words if before else ()
    same = (named(words, "bar"), named_text(words, "colour")) == (bar.diameter_mm, bar.colour)
    left = named(words, "left")
    return min(bar.length_mm, max(left, SHORTEST_MM)) if same and left is not None else bar.length_mm


def shortening(step: Step, made: Plan, *, known: bool) -> Step:
    """The last act at the lathe with what is left of the bar; where the bars are `known`, how that is said to
    the shop, as none is shortened by itself.
    """
    said = (SHORTER,) if known else ()
    return replace(step, consequence=(*step.consequence, *left_words(made), *said))


def left_words(made: Plan) -> Words:
    """What is left of the bar once the rings are parted."""
    stock, core = made.order.stock, made.order.opening.core_mm
    stub = f", and a stub of {length(stock.sawn_mm - stock.used_mm, 0)}" if stock.sawn_mm else ""
    said = [f"Bar left: about {length(stock.left_mm, 0)}{stub}."]
    if core:
        said.append(f"The core of {length(core, 1)} stands on it: shortened before the next ring.")
    return tuple(said)
