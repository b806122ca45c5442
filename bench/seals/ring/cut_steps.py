"""The steps at the lathe as data: passes grouped by tool, and where there are none.

Invariant: a step of turning names tool, speed and where to go, as this lathe shows it.
"""

from __future__ import annotations

from collections.abc import Sequence

from bench.job import keys
from bench.job.steps import Choice, Picture, Step, Words
from rules.equipment import Tool
from rules.turning import operations
from rules.turning.correction import Correction
from rules.turning.cutting_words import speed_words, tool_words
from rules.turning.duration import duration
from rules.turning.passes import Pass, Plan
from rules.turning.readout import BORE, OUTSIDE

MEASURED = (keys.BAR_MEASURED, keys.nth(keys.BAR_MEASURED, 2))
"""What the bar measures; the second is asked where the first showed that another bar is taken."""
BASE: Words = (keys.RING, keys.ATTEMPT, keys.LATHE, keys.TOOL_SET, keys.BAR, keys.BAR_BORE, *MEASURED)
"""What everything at the lathe rests on."""
FEW = 4
"""Up to so many passes are written one below the other."""

TITLES = {
    operations.ROUGH_OUTSIDE: "Face, then rough the outside",
    operations.DRILL: "Centre and drill",
    operations.CORE: "Cut out the core",
    operations.ROUGH_BORE: "Rough the bore",
    operations.REST: "Let the work cool",
    operations.FINISH_OUTSIDE: "Finish the outside, all but the last pass",
    keys.last(OUTSIDE): "Last pass outside",
    operations.FINISH_BORE: "Finish the bore, all but the last pass",
    keys.last(BORE): "Last pass in the bore",
    operations.CHAMFER: "Chamfers",
    operations.PART: "Part off",
    operations.DRESS: "Dress the parted face",
}

CUT_BY = (
    (OUTSIDE, operations.ROUGH_OUTSIDE, operations.FINISH_OUTSIDE),
    (BORE, operations.ROUGH_BORE, operations.FINISH_BORE),
)
"""The surfaces, each with its roughing and its finishing."""


def action(
    key: str,
    passes: Sequence[Pass],
    made: Plan,
    rests: str,
    first: Words = (),
    learned: Correction | None = None,
    then: Tool | None = None,
) -> Step:
    """Passes that one tool makes without stopping to ask: done when acknowledged at standstill.

    `then` is the tool of the next step, named here since the page that asks for it does not name it.
    """
    last = passes[-1] if passes else None
    decided = [last.reading_text.replace(" mm", "")] if last else []
    if last and last.tool is not None:
        decided += [f"tool {last.tool}", f"rpm {last.rpm:g}" if last.rpm else "rpm unknown"]
    if learned is not None:
        decided += [f"offset {learned.offset_mm:.3f} mm", f"tool {learned.tool}"]
    if key == operations.ROUGH_OUTSIDE:
        decided += set_up_words(made)
    if key == operations.DRESS:
        decided.append(f"planned {duration(made).minutes:.1f} min")
    return Step(
        key=key,
        stage="cut",
        kind="action",
        title=title_of(key) + set_words(passes, made),
        say=(*pass_words(passes), *next_words(made, then)),
        consequence=first,
        choices=(Choice("done", "done, spindle stopped", with_it=tuple(dict.fromkeys(decided))),),
        rests_on=(*BASE, rests),
        cautions=caution_places(key),
        picture=bar_picture(made, last),
        why="The last two passes are alike, so that the deflection of work and tool cancels out."
        if all(one.operation in operations.FINISHING for one in passes)
        else "In this order the work stays stiff and cool.",
    )


def set_up_words(made: Plan) -> Words:
    """Lathe, bar and what is left of it, kept with the first act at the lathe: the sheet names them."""
    bar = made.order.bar
    left = f"left {made.order.stock.left_mm:.1f} mm"
    return (f"lathe {made.order.lathe.name}", f"bar {bar.diameter_mm:g} mm", f"colour {bar.colour}", left)


def title_of(key: str) -> str:
    """The title of a group of passes."""
    if (nth := keys.spare_number(key)) is not None:
        return f"Spare ring {nth - 1} from the same set-up"
    return TITLES.get(key) or ("Another pass outside" if OUTSIDE in key else "Another pass in the bore")


def next_words(made: Plan, tool: Tool | None) -> Words:
    """The tool that is put in next, where there is one."""
    return (
        (f"Then, spindle stopped, chuck key out: {tool_words(made.order.lathe, tool)} in.",) if tool else ()
    )


def set_words(passes: Sequence[Pass], made: Plan) -> str:
    """Tool and spindle speed of a group of passes."""
    turning = [one for one in passes if one.rpm]
    if not turning:
        return ""
    tools = dict.fromkeys(f"tool {one.tool}" for one in turning if one.tool is not None)
    speeds = dict.fromkeys(speed_words(made.order.lathe, one.rpm) for one in turning if one.rpm)
    return ": " + ", ".join((*tools, *speeds))


def pass_words(passes: Sequence[Pass]) -> Words:
    """What to do, one line for each act; many roughing passes of one surface stand in one line."""
    lines: list[str] = []
    for operation in dict.fromkeys(one.operation for one in passes):
        group = [one for one in passes if one.operation == operation]
        lines += dict.fromkeys(text for one in group for text in (*one.before, one.along_text) if text)
        if len(group) <= FEW:
            lines += [one.reading_text for one in group]
            continue
        targets = ", ".join(one.figure_text for one in group)
        lines.append(
            f"{group[0].reading_text.split(':')[0]}, {group[0].shows}, {len(group)} passes: {targets}"
        )
    return tuple(lines)


def caution_places(key: str) -> Words:
    """Where the danger is in a group of passes."""
    if key == operations.PART or keys.spare_number(key) is not None:
        return ("parting",)
    if key == operations.CORE:
        return ("coring",)
    return ("swarf",) if key not in (operations.REST, operations.DRESS) else ()


def bar_picture(made: Plan, last: Pass | None) -> Picture:
    """Numbers of the picture of the bar with the present pass on it."""
    order = made.order
    now = last.material_diameter_after_mm if last and last.material_diameter_after_mm else 0.0
    return Picture(
        "bar",
        (
            ("bar_mm", order.bar.start_mm),
            ("outside_mm", order.ring.outside_diameter_mm),
            ("bore_mm", order.ring.bore_mm),
            ("height_mm", order.ring.height_mm),
            ("bored_mm", order.bore_depth_mm),
            ("stick_out_mm", order.stock.stick_out_mm),
            ("now_mm", now),
        ),
    )


def cannot_turn(why: str) -> Step:
    """No plan fits bar, lathe and tools."""
    return Step(
        key=keys.CANNOT_TURN,
        stage="cut",
        kind="result",
        title="This ring cannot be turned with what the shop has.",
        say=(why, "Change shop.toml, or the ring with / and another size."),
        choices=(
            Choice("keep", "keep the job as it is", goto="jobs"),
            Choice("closed", "close the job, with this reason"),
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
    choices=(Choice("done", "begin"),),
    rests_on=(
        keys.PAST_OUTSIDE,
        keys.PAST_BORE,
        *map(keys.odd, (operations.FINISH_OUTSIDE, operations.FINISH_BORE)),
    ),
    why="The offsets of the tools are kept: the next ring starts with them.",
)
