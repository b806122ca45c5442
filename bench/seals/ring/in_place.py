"""A ring that is in its place when a reading is corrected: judged where it is, by what it measured before.

Invariant: it is neither measured nor pressed again, and nothing that was tested with it stands: who leaves it
in looks at it and makes its tests again.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from bench.job import keys
from bench.job.job import Job
from bench.job.kept import HOME
from bench.job.steps import Choice, Picture, Step, Words
from bench.seals.ring.decided import Decided
from bench.seals.ring.hand_steps import AT_HAND, DRAWER, MADE, PRESSED
from bench.seals.ring.larger_glass import kept_for_a_glass, usual_first

HOW_IT_STANDS = "The glass is in as it was pressed: how does it stand?"
IS_IN = Choice(PRESSED, "yes: pressed in for this job, measured before that")


def is_home(job: Job) -> bool:
    """Whether a ring of this attempt was pressed home, and nothing else was said of it since."""
    pressed = job.newest(keys.FIT_OUTCOME)
    return pressed is not None and pressed.word == HOME and pressed.n > job.newest_n(keys.ATTEMPT)


def asked_at_hand(job: Job) -> Step:
    """Whether there is a ring already; one kept for a larger glass is the usual one, one that is in its place
    may be meant too.
    """
    asked = AT_HAND
    if is_home(job):
        asked = replace(asked, choices=(*asked.choices, IS_IN))
    if kept_for_a_glass(job):
        asked = replace(asked, usual=MADE, choices=usual_first(asked, MADE))
    return asked


def since_pressed(job: Job, home: Choice) -> Choice:
    """Home since it was pressed, not since it was looked at again."""
    pressed = job.newest(keys.FIT_OUTCOME)
    if pressed is None or pressed.word != HOME or len(pressed.words) < 2:
        return home
    return replace(home, stamp=False, with_it=(pressed.words[1], *home.with_it))


def measured_before(job: Job, decided: Decided) -> tuple[tuple[str, Words], ...]:
    """Walls and height of the ring in its place as they were keyed, as those of a ring that is there."""
    wall, height = (keys.HAND_WALL, keys.HAND_HEIGHT) if decided.at_hand else (keys.WALL, keys.RING_HEIGHT)
    since = job.newest_n(keys.AT_HAND if decided.at_hand else keys.RING)
    is_wall, is_height = keys.readings_of(wall), keys.readings_of(height)
    walls: dict[str, Words] = {}
    heights: list[Words] = []
    for one in job.answers:
        if one.n > since and is_wall.fullmatch(one.key):
            walls[f"{keys.HAND_WALL}{one.key.removeprefix(wall)}"] = one.words
        if one.n > since and is_height.fullmatch(one.key):
            heights.append(one.words)
    return (*walls.items(), *((keys.HAND_HEIGHT, words) for words in heights[-1:]))


def said_of(what: str) -> str:
    """What a ring that is there is called."""
    said = {PRESSED: "The ring that is in", DRAWER: "The ring of the drawer"}
    return said.get(what, "The ring you have")


def taking(what: str, *, fits: bool) -> str:
    """What taking it means."""
    if what == PRESSED:
        return "leave it in; its tests are made again" if fits else "leave it in all the same"
    return "use it: on to the press" if fits else "press it all the same"


def pressed_section(decided: Decided, walls_mm: Sequence[float]) -> Picture:
    """The numbers of the section with the glass pressed home, the wall as measured."""
    ring, gap = decided.ring, decided.gap
    bore = ring.outside_diameter_mm - 2.0 * math.fsum(walls_mm) / len(walls_mm)
    return Picture(
        "section",
        (
            ("case_bore_mm", gap.case_bore_mm),
            ("glass_mm", gap.glass_mm),
            ("outside_mm", ring.outside_diameter_mm),
            ("bore_mm", bore),
            ("height_mm", ring.height_mm),
            ("chamfer_mm", ring.chamfer_mm),
            ("lower_chamfer_mm", ring.lower_chamfer_mm),
            ("pressed", 1.0),
        ),
    )
