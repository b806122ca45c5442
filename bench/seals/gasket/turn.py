"""Stage three of a flat gasket that is turned: outside, bore, parted off, dressed flat.

Invariant: no act at the lathe is reached, or looked back at, before every check was answered in this sitting;
every page begins with touching off, so a zero of before is never trusted.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.steps import Choice, Picture, Step, Words
from bench.seals.gasket import own_keys
from bench.seals.gasket.decided import GasketDecided
from bench.seals.gasket.kind import AGAIN, BASE, BEGIN, WORD
from bench.seals.gasket.planning import AT_THE_LATHE as RESTS, planned
from bench.seals.lathe.bar_numbers import bar_numbers
from bench.seals.lathe.bar_outside import outside_mask
from bench.seals.lathe.cut_checks import lathe_checks, tool_change
from bench.seals.lathe.turning_words import set_words, targets, title_of
from bench.shop.groups import AT_THE_LATHE, SAY_IT, TO_CUT
from bench.stages.guard import LATHE_CHECKS, guarded, still_at_the_lathe
from rules.lengths import plainly, translated
from rules.turning import operations
from rules.turning.passes import Pass, Plan
from rules.turning.stock import usual_size_mm
from rules.turning.tool_choice import tools_of

if TYPE_CHECKING:
    from bench.shop.shop import Shop

TOGETHER = {
    operations.FACE: operations.ROUGH_OUTSIDE,
    operations.CENTRE: operations.DRILL,
    operations.SHORTEN_CORE: operations.CORE,
}
"""Operations that stand on the page of another."""
OFF = frozenset((own_keys.turned(operations.DRESS), BEGIN.measured, BEGIN.attempt))
"""Steps that are done with the gasket off the lathe."""
CAUTIONS = {
    operations.PART: ("parting",),
    operations.CORE: ("coring",),
    operations.REST: (),
    operations.DRESS: (),
}
"""Where the danger is, by the operation; elsewhere it is swarf."""
MOVED = "moved"


def turned(job: Job, shop: Shop, decided: GasketDecided) -> Stage[GasketDecided | None]:
    """Turn it; None where another is begun, or none can be turned."""
    plastic = decided.question.material.key
    made, why = planned(job, shop, decided.sizes, plastic)
    if made is None:
        yield from word(cannot_turn(why))
        return None
    yield from word(replace(bar_step(made), goes_by=AT_THE_LATHE, asks_shop=TO_CUT))
    made, why = planned(job, shop, decided.sizes, plastic)
    if made is None:
        yield from word(cannot_turn(why))
        return None
    still = still_at_the_lathe(job, acts(made), off_the_lathe)
    left = still and begun_before(job)
    checks = lathe_checks(made, shop.pace.words(made), base=RESTS, asked_again=still)
    for step in checks:
        yield from word(replace(step, goes_by=AT_THE_LATHE))
    if left and (yield from word(STANDS)) == MOVED:
        yield from word(AGAIN.another)
        return None
    asked = LATHE_CHECKS if checks[-1].key == keys.LATHE_SPEED else LATHE_CHECKS[:-1]
    yield from guarded(acts(made), asked, lambda step: not off_the_lathe(step), by=AT_THE_LATHE)
    return decided


def off_the_lathe(step: Step) -> bool:
    """Whether a step is done with the gasket off the lathe."""
    return step.key in OFF


def begun_before(job: Job) -> bool:
    """Whether something was cut before work was left."""
    first = job.fresh(own_keys.turned(operations.ROUGH_OUTSIDE), RESTS)
    return first is not None and first.n < job.newest_n(keys.SITTING)


def grouped(made: Plan) -> Iterator[tuple[str, tuple[Pass, ...]]]:
    """The passes page by page: the operation that names the page, and its passes."""
    run: list[Pass] = []
    act = ""
    for one in made.passes:
        now = TOGETHER.get(one.operation, one.operation)
        if run and now != act:
            yield act, tuple(run)
            run = []
        act = now
        run.append(one)
    if run:
        yield act, tuple(run)


def acts(made: Plan) -> Stage[None]:
    """Everything that is done to the bar, each tool looked at before it cuts."""
    rests: Words = RESTS
    tools = {one.number: one for one in tools_of(made.order)}
    before = made.order.turning.number
    for act, passes in grouped(made):
        number = next((one.tool for one in passes if one.tool is not None), None)
        if number is not None and number != before:
            look = tool_change(own_keys.tool_for(act), made.order.lathe, tools[number], (*RESTS, *rests[-1:]))
            yield from word(look)
            rests, before = (*RESTS, look.key), number
        step = act_step(act, passes, made, rests)
        yield from word(step)
        rests = (*RESTS, step.key)


def act_step(act: str, passes: tuple[Pass, ...], made: Plan, rests: Words) -> Step:
    """One page at the lathe."""
    first = passes[0]
    return Step(
        key=own_keys.turned(act),
        stage="cut",
        kind="action",
        title=title_of(act) + set_words(passes, made),
        targets=targets(passes, made, looked=True),
        choices=(Choice("done", "done, spindle stopped", with_it=kept(act, made)),),
        rests_on=rests,
        cautions=CAUTIONS.get(act, ("swarf",)),
        picture=None if act == operations.DRESS else drawn(made, first),
        why="Both faces seal: the faced one as it comes, the parted one dressed until four places are alike."
        if act in (operations.PART, operations.DRESS)
        else "In this order the work stays stiff and cool.",
    )


def drawn(made: Plan, first: Pass) -> Picture:
    """The bar as it stands before a pass."""
    return Picture("bar", tuple(bar_numbers(made, first).items()), of=WORD)


def kept(act: str, made: Plan) -> Words:
    """Lathe and bar, kept with the first act."""
    if act != operations.ROUGH_OUTSIDE:
        return ()
    bar = made.order.bar
    return (f"lathe {made.order.lathe.name}", f"bar {bar.diameter_mm:g} mm", f"colour {bar.colour}")


def bar_step(made: Plan) -> Step:
    """What the bar measures outside; on 1 Enter only where that was said of it."""
    bar = made.order.bar
    size = bar.diameter_mm
    return Step(
        key=own_keys.BAR_IS,
        stage="cut",
        kind="number",
        title=f"{bar.plastic} {bar.colour} {plainly(size)}: what does it measure, where it will be cut?",
        mask=outside_mask(size),
        usual=f"{usual_size_mm(bar):.2f} mm" if bar.outside_mm or bar.was_turned else "",
        say=tuple(map(translated, made.stock_words[1:])),
        rests_on=BASE,
        waits_for="a gasket to be turned",
        why="The first touch, and how deep the first cut goes, follow from what it is.",
        how=("A calliper does, at its thickest place.",),
    )


STANDS = Step(
    key=own_keys.BAR_STANDS,
    stage="cut",
    kind="choice",
    title="Work was left at the lathe: is the bar still tight and where it was?",
    choices=(
        Choice("still", "still tight, and not moved"),
        Choice(MOVED, "it has moved: begin another gasket"),
    ),
    rests_on=(*RESTS, keys.SITTING),
    why="A bar that was gripped again runs out: what was turned before no longer runs true with it.",
)


def cannot_turn(why: str) -> Step:
    """No plan fits bar, lathe and tools."""
    return Step(
        key=own_keys.CANNOT_TURN,
        stage="cut",
        kind="result",
        title="This gasket cannot be turned with what the shop has.",
        say=(translated(why), f"Is it there all the same? {SAY_IT}."),
        choices=(
            Choice("way", "make it in another way: from sheet", goto=own_keys.WAY),
            Choice("keep", "keep the job as it is", goto="jobs"),
            Choice("closed", "close the job, with this reason"),
            Choice("shop", "my shop: say what else it has", goto="shop"),
        ),
        rests_on=BASE,
        waits_for="bar or tool",
        goes_by=AT_THE_LATHE,
        asks_shop=TO_CUT,
        why="It is better to know of a bar too thin, or a gasket too thin to part, before the lathe runs.",
    )
