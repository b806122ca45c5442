"""The steps at the lathe as data: passes grouped by tool, and where there are none.

Invariant: a step of turning names tool, speed and where to go, as this lathe shows it, in the sentences of
`bench.seals.lathe.turning_words`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bench.job import keys
from bench.job.asking import Stage, word, words
from bench.job.job import Job
from bench.job.remembered import remembered
from bench.job.steps import Choice, Picture, Step, Words
from bench.job.values import named
from bench.seals.lathe.bar_numbers import bar_numbers
from bench.seals.lathe.cut_checks import tool_change
from bench.seals.lathe.turning_words import after_words, only_first, set_words, targets, title_of
from bench.shop.groups import SAY_IT
from rules.equipment import Tool
from rules.lengths import length, translated
from rules.turning import operations
from rules.turning.correction import Correction
from rules.turning.cutting_words import tool_short, tool_words
from rules.turning.duration import duration
from rules.turning.passes import Pass, Plan
from rules.turning.readout import BORE, OUTSIDE
from rules.turning.tool_choice import put_in, put_in_after

MEASURED = (keys.BAR_MEASURED, keys.nth(keys.BAR_MEASURED, 2))
"""What the bar measures; the second is asked where the first showed that another bar is taken."""
BASE: Words = (keys.RING, keys.ATTEMPT, keys.LATHE, keys.TOOL_SET, keys.BAR, keys.BAR_BORE, *MEASURED)
"""What everything at the lathe rests on."""
CUT_BY = (
    (OUTSIDE, operations.ROUGH_OUTSIDE, operations.FINISH_OUTSIDE),
    (BORE, operations.ROUGH_BORE, operations.FINISH_BORE),
)
"""The surfaces, each with its roughing and its finishing."""


MOVED = "moved"
"""Word of a bar that is no longer held as it was."""
STILL_TIGHT = "bar still tight and not moved"
MOVED_WORDS = "it has moved: begin a new ring"
SOME = "some"
"""Word of an act of which not all passes are made yet; how many are stands behind it."""


def turned(
    key: str,
    passes: tuple[Pass, ...],
    made: Plan,
    rests: Words,
    first: Words = (),
    learned: Correction | None = None,
    then: Tool | None = None,
    look: Job | None = None,
) -> Stage[str]:
    """Passes recorded at standstill, all at once or as they are made; gives the key of the last act.

    `then` is the tool of the next step, named here since the page that asks for it does not name it;
    `look`: the job of a spare, whose passes take several tools, each looked at.
    """
    cut = 0
    while True:
        end = end_of_tool(key, passes, cut)
        if look is not None:
            rests = yield from looked_at(look, operations.going_on(key, cut), passes[cut], made, rests)
            then = put_in_after(made, passes[end - 1])
        step = action(operations.going_on(key, cut), passes[cut:end], made, rests, first, learned, then)
        if end < len(passes):
            only = step.choices[0]
            step = replace(
                step, choices=(replace(only, word=SOME, with_it=counted(end - cut, only.with_it)),)
            )
        given = yield from words(step)
        if given[0] != SOME:
            return step.key
        cut, rests, first = cut + int(named(given, "passes") or 1), (step.key,), ()


def end_of_tool(key: str, passes: Sequence[Pass], start: int) -> int:
    """Where the passes end that one page shows: all, but of a spare those of one tool."""
    if keys.spare_number(key) is None:
        return len(passes)
    same = (at for at in range(start, len(passes)) if passes[at].tool != passes[start].tool)
    return next(same, len(passes))


def looked_at(job: Job, act: str, one: Pass, made: Plan, rests: Words) -> Stage[Words]:
    """Look at the tool that is put in before an act of a spare; gives what the act then rests on.

    What was turned before a look was asked for counts without one.
    """
    tool, key = put_in(made, one), operations.look_before(act)
    if tool is None or (job.fresh(act, (*BASE, *rests)) is not None and job.newest(key) is None):
        return rests
    yield from word(tool_change(key, made.order.lathe, tool, (*BASE, *rests)))
    return (key,)


def laid_apart(made: Plan, passes: Sequence[Pass]) -> str:
    """By what a spare is known from the others, said as it is parted; nothing elsewhere."""
    parted = next((one.ring for one in passes if one.operation == operations.PART and one.ring > 1), None)
    if parted is None:
        return ""
    less = made.order.ring.bore_mm - made.order.bore_of(parted)
    return f"; laid apart as spare {parted - 1}" + (f", bore {length(less)} tighter" if less > 0.0 else "")


def counted(many: int, decided: Words) -> Words:
    """What is kept with an act of which so many passes are made."""
    return (f"passes {many}", *decided)


@remembered
def action(
    key: str,
    passes: tuple[Pass, ...],
    made: Plan,
    rests: Words,
    first: Words = (),
    learned: Correction | None = None,
    then: Tool | None = None,
) -> Step:
    """Passes that one tool makes without stopping to ask: done when acknowledged at standstill."""
    act = operations.begun(key)
    goes = targets(passes, made, looked=True)
    done = done_words(len(goes), made, then) + laid_apart(made, passes)
    choices = [Choice("done", done, with_it=kept(act, passes, made, learned))]
    if len(goes) > 1:
        only = kept(act, passes[:1], made, learned)
        choices.append(Choice(SOME, only_first(goes), with_it=counted(1, only)))
    return Step(
        key=key,
        stage="cut",
        kind="action",
        title=title_of(act) + set_words(passes, made),
        targets=goes,
        consequence=(*first, *after_words(passes)),
        choices=tuple(choices),
        rests_on=(*BASE, *rests),
        cautions=caution_places(act, made, passes),
        picture=bar_picture(made, passes) if act != operations.DRESS else None,  # it is off the bar
        why="The last two passes are alike, so that the deflection of work and tool cancels out."
        if passes and all(one.operation in operations.FINISHING for one in passes)
        else "In this order the work stays stiff and cool.",
    )


def done_words(many: int, made: Plan, then: Tool | None) -> str:
    """How it is said that all passes are made, and which tool comes next."""
    done = {0: "done", 1: "done", 2: "both made"}.get(many, f"all {many} made")
    change = f"; chuck key out, fit {tool_short(made.order.lathe, then)}" if then else ""
    return f"{done}, spindle stopped{change}"


def kept(act: str, passes: Sequence[Pass], made: Plan, learned: Correction | None) -> Words:
    """What is decided by passes that are made: the figure of the last, its tool and speed."""
    last = passes[-1] if passes else None
    decided = [last.reading_text.replace(" mm", "")] if last else []
    if last and last.tool is not None:
        decided += [f"tool {last.tool}", f"rpm {last.rpm:g}" if last.rpm else "rpm unknown"]
    if learned is not None:
        decided += [f"offset {learned.offset_mm:.3f} mm", f"tool {learned.tool}"]
    if act == operations.ROUGH_OUTSIDE:
        decided += set_up_words(made)
    if act == operations.DRESS:
        decided.append(f"planned {duration(made).minutes:.1f} min")
        decided += [f"tighter {made.order.tighter_mm:.4f} mm"] if made.order.spares > 1 else []
    return tuple(dict.fromkeys(decided))


def set_up_words(made: Plan) -> Words:
    """Lathe, bar and what is left of it, kept with the first act at the lathe: the sheet names them."""
    bar = made.order.bar
    left = f"left {made.order.stock.left_mm:.1f} mm"
    return (f"lathe {made.order.lathe.name}", f"bar {bar.diameter_mm:g} mm", f"colour {bar.colour}", left)


def next_words(made: Plan, tool: Tool | None) -> Words:
    """The tool that is put in next, where there is one."""
    return (
        (f"Then, spindle stopped, chuck key out: fit {tool_words(made.order.lathe, tool)}.",) if tool else ()
    )


def caution_places(act: str, made: Plan, passes: Sequence[Pass]) -> Words:
    """Where the danger is in a group of passes."""
    belt = ("belt",) if passes and made.order.lathe.speed_names and made.new_speed(passes[0]) else ()
    cut = {one.operation for one in passes}
    if operations.PART in cut:
        return ("parting", *belt)
    if operations.CORE in cut:
        return ("coring", *belt)
    return ("swarf", *belt) if cut - {operations.REST, operations.DRESS} else ()


def bar_picture(made: Plan, passes: Sequence[Pass]) -> Picture:
    """Numbers of the picture of the bar as it stands before these passes, and where the first one ends."""
    first = passes[0] if passes else None
    return Picture("bar", tuple(bar_numbers(made, first).items()))


def cannot_turn(why: str) -> Step:
    """No plan fits bar, lathe and tools."""
    return Step(
        key=keys.CANNOT_TURN,
        stage="cut",
        kind="result",
        title="This ring cannot be turned with what the shop has.",
        say=(
            translated(why),
            f"Is it there all the same? {SAY_IT[0].upper()}{SAY_IT[1:]}. Or another size: / to the ring.",
        ),
        choices=(
            Choice("keep", "keep the job as it is", goto="jobs"),
            Choice("closed", "close the job, with this reason"),
            Choice("shop", "my shop: say what else it has", goto="shop"),
        ),
        rests_on=BASE,
        waits_for="bar or tool",
        why=(
            "It is better to know of a bar too thin or too short, or a tool that does not go in, "
            "before the lathe runs."
        ),
    )


NEXT_BAR = Step(
    key=keys.FRESH_RING,
    stage="cut",
    kind="action",
    title="The spoiled piece comes off: a new ring is begun",
    say=(
        "Part it off behind what was turned, or stop, take the bar out and saw it off.",
        "The plan of the next ring counts on as much bar as was planned to be left.",
    ),
    choices=(Choice("done", "begin"),),
    rests_on=(
        keys.PAST_OUTSIDE,
        keys.PAST_BORE,
        keys.TOUCH_OFF,
        operations.REST,
        *map(keys.odd, (operations.FINISH_OUTSIDE, operations.FINISH_BORE)),
    ),
    why="Offsets that last passes were made by are kept, up to 0.10 mm: the next ring starts with them.",
)
