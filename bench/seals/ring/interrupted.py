"""Turning that was interrupted: how much was cut, and touching off again.

Invariant: a zero of cross slide or carriage is never trusted over a break.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from bench.job import keys
from bench.job.job import Answer, Job
from bench.job.steps import Choice, Step, Words
from bench.job.values import named
from bench.seals.ring.cut_steps import BASE, CUT_BY, MOVED, MOVED_WORDS, SOME, STILL_TIGHT
from rules.turning import operations
from rules.turning.passes import Pass, Plan
from rules.turning.readout import BORE, OUTSIDE

LAST_CHECKS = (keys.LATHE_BAR, keys.LATHE_SPEED)
"""The checks behind which turning begins."""
RECORDED_BY = {
    operations.FACE: (operations.ROUGH_OUTSIDE,),
    operations.CENTRE: (operations.DRILL,),
    operations.FLOOR: (operations.ROUGH_BORE,),
    operations.LOWER_CHAMFER: (operations.CHAMFER,),
    operations.FINISH_OUTSIDE: (keys.last(OUTSIDE), keys.PAST_OUTSIDE),
    operations.FINISH_BORE: (keys.last(BORE), keys.PAST_BORE),
}
"""The acts after which nothing is left of an operation, where it is not an act of its own."""
CHECKED_BY = {
    operations.CORE: keys.TOOL_CORE,
    **dict.fromkeys((operations.ROUGH_FOOT, operations.ROUGH_BORE, operations.FLOOR), keys.TOOL_BORING),
    operations.FINISH_OUTSIDE: keys.TOOL_TURNING,
    operations.FINISH_BORE: keys.TOOL_BORING_AGAIN,
    operations.CHAMFER: keys.TOOL_CHAMFER,
    operations.PART: keys.TOOL_PARTING,
}
"""Where the tool of an operation is looked at before it cuts."""
OFFSET_ALLOWED = "Not the size a micrometer reads there: the tool's own offset is allowed for."
NOT_KEYED = (
    "CHECK  passes made before the break and not keyed are not known here: measure the diameter that "
    "stands, on the next page key 2 Enter for each that was made, and touch off at the last of them, "
    "never at the first."
)


def began_before_this_sitting(job: Job) -> bool:
    """Whether the checks of this ring were answered before work was left: it may have been cut since."""
    begun = max(map(job.newest_n, BASE))
    checked = (one.n for one in job.answers if one.key in LAST_CHECKS and one.n > begun)
    return min(checked, default=job.last_n + 1) < job.newest_n(keys.SITTING)


def next_pass(job: Job, made: Plan) -> Pass | None:
    """The pass that comes next, by what was recorded before this sitting; None where none is left.

    Of a surface that is measured on the way it may be one before it, by the same tool at the same speed.
    """
    begun, sitting = max(map(job.newest_n, BASE)), job.newest_n(keys.SITTING)
    given = {one.key: one for one in job.answers if begun < one.n < sitting}
    gone: Counter[str] = Counter()
    for key, answer in given.items():
        some = answer.word == SOME
        gone[operations.begun(key)] += int(named(answer.words, "passes") or 1) if some else len(made.passes)
    for one in made.passes:
        by = (keys.spare(one.ring),) if one.ring > 1 else RECORDED_BY.get(one.operation, (one.operation,))
        if one.rpm and not any(gone[act] > 0 for act in by):
            return one
        gone.subtract(by)
    return None


def tool_looked_at(job: Job, one: Pass) -> bool:
    """Whether the tool of this pass was looked at before the break, so that nothing ahead asks for it."""
    begun, sitting = max(map(job.newest_n, BASE)), job.newest_n(keys.SITTING)
    own = CHECKED_BY.get(one.operation)
    return own is None or any(answer.key == own and begun < answer.n < sitting for answer in job.answers)


def last_cut(job: Job) -> Words:
    """The figure each surface was last cut to in this ring, as it was written with the answer."""
    found = []
    for name, rough, finish in CUT_BY:
        acts = (rough, finish, keys.last(name), keys.more(name, 1), keys.more(name, 2))
        done = [answer for act in acts for answer in parts_of(job, act)]
        newest = max(done, key=lambda answer: answer.n, default=None)
        words = [text for text in newest.words[1:] if text.startswith(f"{name}: ")] if newest else []
        found += [f'{name}: touch off, {set_to(text)}; last cut with "{text}"' for text in words[:1]]
    return tuple(found)


def set_to(target: str) -> str:
    """To what the slide is set where a surface was last cut to this target, as its sentence says it.

    >>> set_to("bore: go to 8 turns 20 dial, makes 30.50")
    'set the dial to 20, counted as 8 turns 20 dial'
    >>> set_to("bore: go to 8 turns 60 div, makes 30.50, dial at 20")
    'set the dial to 20, counted as 8 turns 60 div'
    >>> set_to("outside: go to 33.00, diameter")
    'set the read-out to 33.00, diameter'
    >>> set_to("bore: go to 3.5 div from zero, makes 30.50")
    'count the dial from there as 3.5 div from zero'
    """
    figure, *more = target.partition(": go to ")[2].split(", ")
    dial = re.fullmatch(r"(?:\d+ turns? ([\d.]+)|[\d.]+) (?:div|dial)", figure)
    if dial is not None:
        at = next((text.removeprefix("dial at ") for text in more if text.startswith("dial at ")), dial[1])
        return f"set the dial to {at or 0}, counted as {figure}"
    if " di" in figure:
        return f"count the dial from there as {figure}"
    which = (f", {text}" for text in more if text in ("diameter", "radius"))
    return f"set the read-out to {figure.removesuffix(' from zero')}{''.join(which)}"


def parts_of(job: Job, act: str) -> Iterator[Answer]:
    """What was recorded of an act: at once, or as its passes were made."""
    cut = 0
    while (answer := job.fresh(operations.going_on(act, cut), BASE)) is not None:
        yield answer
        if answer.word != SOME:
            return
        cut += int(named(answer.words, "passes") or 1)


def touch_off(last_cut: Words) -> Step:
    """After an interruption the zeros of cross slide and carriage are not trusted."""
    return Step(
        key=keys.TOUCH_OFF,
        stage="cut",
        kind="action",
        title="Work interrupted: touch off again",
        say=(
            "Spindle stopped. Look whether the bar is still tight and has not moved.",
            "Touch off on the finished face: set the carriage to 0.",
            "Before the first pass, on each surface with its own tool:",
            *(last_cut or ("nothing is recorded yet: touch off, set the diameter that stands, as measured",)),
            *((OFFSET_ALLOWED,) if last_cut else ()),
        ),
        consequence=(NOT_KEYED,),
        choices=(Choice("done", f"touched off; {STILL_TIGHT}"), Choice(MOVED, MOVED_WORDS)),
        rests_on=(*BASE, keys.SITTING),
        cautions=("lathe",),
        why="A read-out that was switched off, or a bar that was moved, "
        "shows figures that are no longer true.",
    )
