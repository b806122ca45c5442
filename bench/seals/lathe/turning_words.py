"""The sentences of a page at the lathe, from the passes of its plan.

Invariant: whoever reads the page alone knows which tool, which surface, how far, how long, which figure, and
what to measure. This is their grammar; a word in capitals stands for what is put in:

    page     OPERATION: TOOL, SPEED, FEED       "Rough the bore: tool 2, 1000 rpm, 0.15 mm a turn"; another
             FEED within the page stands before its target: "feed 0.04 mm a turn"
    tool     tool NUMBER, or the KIND where tools have no numbers: "the boring bar"
    setting  a sentence each, before the target that it belongs to:
             "touch off on the SURFACE (DIAMETER): set the read-out to FIGURE, WHICH"
             "touch off on the SURFACE (DIAMETER), moving in: dial to D; turned in it counts up"
             "touch off on the outside with the blade's side nearer the middle (DIAMETER): ..."
             "touch off on the face: carriage to zero"
             "TOOL cuts LENGTH larger than it shows: allowed for; do not set it again, unless the read-out was
             set for another tool since: then touch off ..."
             "come to every figure moving WAY; past it, back OTHER WAY by over LENGTH and come again"
             "spindle stopped: ..." and "spindle off at the switch: belt over", as the head of the page says
             "point at the face: tailstock to zero", before each drill; for a spare "the hole goes on;
             spindle stopped: rule across the face, point against it: tailstock to zero"
    length   turn along: go to FIGURE, length   the end of every pass of the outside, from the face
             bore along: go to FIGURE, length   and of the bore
             off the floor, back in to FIGURE, makes DIAMETER: the bore of the foot   where its facing begins
             floor along: go to FIGURE, length  how deep the floor lies that a glass stands on
             groove along: go to FIGURE, length how deep a groove of the core is; the slide stands still
             edge along: ...                    where the point of the chamfer tool stands
    target   WHAT: go to FIGURE, WHICH          "outside: go to 33.00, diameter"
             WHAT is outside, bore, foot bore, floor, core, lower edge, chamfer, part, centre drill, drill of
             SIZE; WHICH is diameter, radius or length, with "from zero, ..., makes DIAMETER" where it counts
             from a touched surface
    dial     WHAT: go to T turns D div, makes DIAMETER
             T and D are always both said, from the zero that was set, "before 0" where they are counted back
             from it. Where the dial runs against its figures, "T turns R dial": R stands at its mark, after T
             whole turns. Where nobody said how many div one turn has, D alone, and the dial is set to 0:
             "dial to 0, counted as D div".
             The carriage alike: "turn along: go to T turns D div, makes LENGTH"
    inch     FIGURE stands in the unit of its slide, DIAMETER and LENGTH in that of the shop; where not all is
             mm each carries its unit: "outside: go to 1.3070 in, diameter", "makes 33.20 mm"
    measure  the page of a reading says what is measured, with what, where, and that the spindle is stopped

Where a line is too narrow a target loses clauses from its end, then WHAT, never FIGURE or WHICH: it is then
the surface of the page's OPERATION. Without "WHAT: go to" nothing is gone to: "face: 0.30 off; ...", of a
dial "face: 0.30 (0 turns 6 div) off; ...",
"core: face it down, ...".
"""

from __future__ import annotations

from collections.abc import Sequence

from bench.job import keys
from bench.job.steps import Target, Words
from rules.lengths import length
from rules.turning import operations
from rules.turning.cutting_words import BELT_OVER, BURRS_OFF, speed_set, speed_words, tool_in
from rules.turning.passes import SURFACE_OF, Pass, Plan
from rules.turning.readout import BORE, OUTSIDE
from rules.turning.tool_choice import tool_of, tools_of

TITLES = {
    operations.ROUGH_OUTSIDE: "Face, then rough the outside",
    operations.DRILL: "Centre and drill",
    operations.CORE: "Cut out the core",
    operations.ROUGH_FOOT: "Bore through, as wide as the foot",
    operations.ROUGH_BORE: "Rough the bore",
    operations.REST: "Let the work cool",
    operations.FINISH_OUTSIDE: "Finish the outside",
    keys.last(OUTSIDE): "Last pass outside",
    operations.FINISH_BORE: "Finish the bore",
    keys.last(BORE): "Last pass in the bore",
    operations.CHAMFER: "Chamfers",
    operations.PART: "Part off",
    operations.DRESS: "Dress the parted face",
}

SLIDES = {"cross": "cross slide", "long": "carriage", "tailstock": "tailstock"}
"""The slides by their axis."""


def title_of(act: str) -> str:
    """The title of a group of passes."""
    if (nth := keys.spare_number(act)) is not None:
        return f"Spare ring {nth - 1} from the same set-up"
    return TITLES.get(act) or ("Another pass outside" if OUTSIDE in act else "Another pass in the bore")


def set_words(passes: Sequence[Pass], made: Plan) -> str:
    """Tool, spindle speed and feed of a group of passes, as it begins."""
    first = next((one for one in passes if one.rpm), None)
    if first is None or first.rpm is None:
        return ""
    said = (tool_of(made.order, first.tool), speed_words(made.order.lathe, first.rpm), fed_words(passes))
    return ": " + ", ".join(filter(None, said))


def fed_words(passes: Sequence[Pass]) -> str:
    """The first feed of these passes; empty where none has one."""
    return next((f"{length(one.feed_mm)} a turn" for one in passes if one.feed_mm), "")


def targets(passes: Sequence[Pass], made: Plan, *, looked: bool) -> tuple[Target, ...]:
    """What one goes to, pass by pass, each with what is set before it.

    `looked`: which tool stands in the post was just looked at, so that it need not be said again.
    """
    found: list[Target] = []
    lathe, along, fed = made.order.lathe, "", fed_words(passes)
    changes = {tool_in(lathe, tool) for tool in tools_of(made.order)}
    for at, one in enumerate(passes):
        before = [text for text in one.before if not (looked and text in changes)]
        if one.rpm and made.new_speed(one) and (at > 0 or lathe.speed_names):
            said = speed_set(lathe, one.rpm) if at > 0 else BELT_OVER
            before.insert(sum(text in changes for text in before), said)
        rule = rule_of(one, made)
        before += [rule] if rule and rule not in (*before, *said_before(found)) else []
        before += [one.along_text] if one.along_text != along else []
        before += [f"feed {feed}"] if (feed := fed_words([one]) or fed) != fed else []
        along, fed = one.along_text, feed
        if not found or found[-1].words != one.reading_text:
            found.append(target_of(one, tuple(filter(None, before))))
    return tuple(found)


def said_before(found: Sequence[Target]) -> Words:
    """What was set before the targets so far."""
    return tuple(text for one in found for text in one.before)


def rule_of(one: Pass, made: Plan) -> str:
    """Which way one comes to the figures of a surface; empty where nothing is lost in the screw."""
    surface = SURFACE_OF.get(one.operation, "")
    return made.order.frame(surface).backlash_words() if surface else ""


def target_of(one: Pass, before: Words) -> Target:
    """A pass as it is gone to, after what is set before it."""
    figure = figure_of(one)
    return Target(one.reading_text, figure, before, SLIDES.get(one.axis or "", "") if figure else "")


def figure_of(one: Pass) -> str:
    """The figure that a pass goes to, as it is read; empty where it goes to none."""
    _, goes, rest = one.reading_text.partition(": go to ")
    return rest.split(", ")[0].removesuffix(" from zero") if goes else ""


def only_first(goes: Sequence[Target]) -> str:
    """How it is said that the first pass alone is made: by its name where it goes to no figure, as the one
    that stands large is then of the next.
    """
    first = "this one" if goes[0].figure else goes[0].words.partition(":")[0]
    return f"only {first}, spindle stopped"


def after_words(passes: Sequence[Pass]) -> Words:
    """What comes between these passes and the reading that follows."""
    last = passes[-1] if passes else None
    burrs = last is not None and (last.measure == "wall" or last.operation == operations.DRESS)
    return (f"Then {BURRS_OFF}.",) if burrs else ()
