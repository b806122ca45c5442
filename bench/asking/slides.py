"""Cross slide and carriage: read-out or dial, what it counts, its step, backlash and direction.

Invariant: what is said makes a usable slide, whatever stood there before.
"""

from __future__ import annotations

import math

from bench.asking import names
from bench.asking.questions import choice, count, length, number_said
from bench.job.asking import Stage, word
from rules.equipment import CARRIAGE_DIRECTIONS, CROSS_DIRECTIONS, DIAL_DIRECTIONS, Axis
from rules.limits import MM_PER_INCH

NAMED = {names.CROSS: "Cross slide", names.CARRIAGE: "Carriage"}
MOVING = {names.CROSS: "away from the middle", names.CARRIAGE: "towards the chuck"}
LARGEST_DIVISION_MM = 0.5
LARGEST_STEP_MM = 0.05
"""A coarser division is set between its marks by eye."""
USUAL_STEP_MM, USUAL_STEP_IN = 0.01, 0.0005
USUAL_DIVISION_MM, USUAL_DIVISION_IN = 0.02, 0.001
USUAL_TURN = 100
"""Of a hand dial that nothing is known of. Common practice, no source."""
DIAL_BACKLASH_MM = 0.10
"""Of a hand dial that nothing is known of. Common practice, no source."""


def slide_said(slide: str, now: Axis, *, like: Axis | None = None, inch: bool) -> Stage[Axis]:
    """One slide as it is said; `like`: the other one, said before, whose unit is the usual one.

    Both lists of what shows it begin with what is known of the slide itself, so that they stand alike.
    """
    ways = CROSS_DIRECTIONS if slide == names.CROSS else CARRIAGE_DIRECTIONS
    is_dial = yield from dial_said(slide, now.is_dial)
    usual_inch = like.unit == "inch" if like else inch or now.unit == "inch"
    in_inch = yield from inch_said(slide, usual_inch)
    shows = now.shows
    if slide == names.CROSS:
        shows = yield from counts_said(now)
    fineness = dial_fineness if is_dial else readout_fineness
    step, division, turn = yield from fineness(slide, now, inch=in_inch)
    backlash = yield from backlash_said(slide, now, dial=is_dial, inch=in_inch)
    grows = yield from word(
        choice(
            names.of(slide, names.FIGURES),
            f"{NAMED[slide]}, moved {MOVING[slide]}: the figures",
            (ways[0], "grow"),
            (ways[1], "get smaller"),
            usual=usual_way(slide, now, dial=is_dial),
        )
    )
    return Axis(
        shows=shows,
        step_mm=step,
        division_mm=division,
        divisions_per_turn=turn,
        backlash_mm=backlash,
        unit="inch" if in_inch else "mm",
        direction=grows,
    )


def usual_way(slide: str, now: Axis, *, dial: bool) -> str:
    """Which way the figures grow, where nothing better is known than how the slide is shown."""
    if slide == names.CARRIAGE or now.is_dial == dial:
        return now.direction
    return (DIAL_DIRECTIONS if dial else CROSS_DIRECTIONS)[0]


def dial_said(slide: str, usual: bool) -> Stage[bool]:
    """Whether a dial shows where a slide stands, or a read-out."""
    said = yield from word(
        choice(
            names.of(slide, names.SHOWN_BY),
            f"{NAMED[slide]}: what shows where it stands?",
            ("readout", "a digital read-out"),
            ("dial", "the dial of its handwheel"),
            usual="dial" if usual else "readout",
            why="Every figure to go to is given as this lathe shows it.",
        )
    )
    return said == "dial"


def inch_said(slide: str, usual: bool) -> Stage[bool]:
    """Whether a slide is marked in inch."""
    title = f"{NAMED[slide]}: marked in mm or inch?"
    units = (("mm", "mm"), ("inch", "inch"))
    asked = choice(names.of(slide, names.MARKED_IN), title, *units, usual="inch" if usual else "mm")
    return (yield from word(asked)) == "inch"


def counts_said(now: Axis) -> Stage[str]:
    """Diameter or radius."""
    return word(
        choice(
            names.of(names.CROSS, names.COUNTS),
            "Cross slide: what does it count?",
            ("diameter", "the diameter: 1.00 on it is 1.00 on the diameter"),
            ("radius", "the radius: 1.00 on it is 2.00 on the diameter"),
            usual=now.shows,
            why="Taken wrong, every cut is twice or half as deep.",
        )
    )


def fine_length(
    slide: str, what: str, title: str, usual_mm: float, high_mm: float, *, inch: bool, why: str = ""
) -> Stage[float]:
    """A step or a division, mm."""
    return length(
        names.of(slide, what),
        f"{NAMED[slide]}: {title}",
        usual_mm,
        inch=inch,
        whole=1,
        places=3,
        low_mm=0.0005,
        high_mm=high_mm,
        rests_on=(names.of(slide, names.MARKED_IN),),
        why=why,
    )


def readout_fineness(slide: str, now: Axis, *, inch: bool) -> Stage[tuple[float, float, int]]:
    """Step of a read-out, mm, its division and the divisions of a turn, which it has not."""
    usual = USUAL_STEP_IN * MM_PER_INCH if inch else USUAL_STEP_MM
    if (now.unit == "inch") == inch and not now.is_dial:
        usual = now.step_mm
    title, why = "smallest step that the read-out shows", "Figures to go to are whole steps of it."
    step = yield from fine_length(
        slide, names.SMALLEST_STEP, title, usual, LARGEST_STEP_MM, inch=inch, why=why
    )
    return step, 0.0, 0


def dial_fineness(slide: str, now: Axis, *, inch: bool) -> Stage[tuple[float, float, int]]:
    """Step that is set on a dial and its division, mm, and how many make a turn."""
    kept = (now.unit == "inch") == inch and now.is_dial
    usual = USUAL_DIVISION_IN * MM_PER_INCH if inch else USUAL_DIVISION_MM
    usual = now.division_mm if kept else usual
    title = "one division of the dial, as it counts it"
    why = (
        "From one mark to the next, as the dial is marked: on a dial of the radius what the slide moves. "
        "A whole turn by so many divisions gives it, and the plan counts in it."
    )
    division = yield from fine_length(
        slide, names.DIVISION, title, usual, LARGEST_DIVISION_MM, inch=inch, why=why
    )
    turn = yield from number_said(
        count(
            names.of(slide, names.TURN),
            f"{NAMED[slide]}: divisions in one turn of the handwheel",
            float(now.divisions_per_turn or USUAL_TURN),
            digits=4,
            low=2,
            high=1000,
            why="Figures to go to are turns and divisions. Count the marks once round, or move the slide one "
            "turn against a rule and divide by one division.",
        )
    )
    between = division / math.ceil(division / LARGEST_STEP_MM - 1e-9)
    step_mm = now.step_mm if kept and division == now.division_mm else round(between, 6)
    return step_mm, division, int(turn or USUAL_TURN)


def backlash_said(slide: str, now: Axis, *, dial: bool, inch: bool) -> Stage[float]:
    """Backlash of the screw, mm."""
    usual = now.backlash_mm if now.is_dial == dial else DIAL_BACKLASH_MM if dial else 0.0
    return length(
        names.of(slide, names.BACKLASH),
        f"{NAMED[slide]}: backlash, what is turned on reversing before it moves",
        usual,
        inch=inch,
        whole=1,
        places=2,
        low_mm=0.0,
        high_mm=2.0,
        rests_on=(names.of(slide, names.MARKED_IN),),
        why="Figures are come to from one side, by more than this.",
    )
