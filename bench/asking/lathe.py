"""The lathe: its slides, speeds, what holds a bar, drills, and whether tools show numbers.

Invariant: names stay as they are in the file, or are usual ones; a keypad types none.
"""

from __future__ import annotations

from dataclasses import replace

from bench.asking import names
from bench.asking.questions import NO_MORE, choice, count, length, listed, number_said
from bench.asking.slides import slide_said
from bench.job.asking import Stage, word
from bench.shop.changes import Change
from bench.shop.groups import LATHE
from bench.shop.shop import Shop
from rules.bars import Grip
from rules.equipment import Lathe

BUILT_IN, OWN = "small bench lathe", "bench lathe"
"""Names of a lathe that is assumed, and of one that is said without a name of its own."""
BELT, LEVER, SCALE, BLIND = "belt", "lever", "scale", "blind"
SPEEDS_BY = (
    (BELT, "steps of a belt"),
    (LEVER, "a lever or knob with numbers"),
    (SCALE, "stepless, a scale or display shows it"),
    (BLIND, "stepless, nothing shows it"),
)
GRIPS = {
    "three-jaw chuck": Grip(name="three-jaw chuck", smallest_mm=3.0, largest_mm=80.0, length_mm=20.0),
    "four-jaw chuck": Grip(name="four-jaw chuck", smallest_mm=5.0, largest_mm=80.0, length_mm=20.0),
    "collet": Grip(name="collet", smallest_mm=3.0, largest_mm=16.0, length_mm=15.0),
    "step collet": Grip(name="step collet", smallest_mm=16.0, largest_mm=40.0, length_mm=8.0),
    "soft jaws": Grip(name="soft jaws", smallest_mm=10.0, largest_mm=60.0, length_mm=15.0),
}
"""What may hold a bar, and over what. Common practice, no source."""
MOST_SPEEDS = 12


def lathe_said(shop: Shop) -> Stage[Change]:
    """One lathe as it is said; of several, which."""
    at = 0
    if len(shop.lathes) > 1:
        pairs = tuple((str(n), lathe.name) for n, lathe in enumerate(shop.lathes))
        at = int((yield from word(choice(names.WHICH, "Which lathe?", *pairs))))
    now, inch = shop.lathes[at], shop.works_in == "inch"
    cross = yield from slide_said(names.CROSS, now.cross, inch=inch)
    carriage = yield from slide_said(names.CARRIAGE, now.carriage, like=cross, inch=inch)
    said = yield from speeds_said(replace(now, cross=cross, carriage=carriage))
    said = replace(said, grips=(yield from grips_said(said.grips, inch=inch)))
    drill_mm = yield from length(
        names.DRILLS_TO,
        "Largest drill that the tailstock takes",
        said.largest_drill_mm,
        inch=inch,
        whole=2,
        places=1 + 1 * inch,
        low_mm=1.0,
        high_mm=60.0,
    )
    said = replace(said, largest_drill_mm=drill_mm)
    numbered = choice(
        names.NUMBERED,
        "A tool in the post: is there a number on it?",
        ("yes", "yes, every tool has its number"),
        ("no", "no"),
        usual="yes" if said.numbered_tools else "no",
        why="Where there is one, it is looked at after each change of tools.",
    )
    said = replace(said, numbered_tools=(yield from word(numbered)) == "yes")
    if said != now and said.name == BUILT_IN and LATHE not in shop.said:
        said = replace(said, name=OWN)
    return Change(LATHE, (*shop.lathes[:at], said, *shop.lathes[at + 1 :]))


def speeds_said(now: Lathe) -> Stage[Lathe]:
    """How its speeds are set, and which they are."""
    is_by = (SCALE if now.shows_speed else BLIND) if now.stepless else BELT if now.speed_names else LEVER
    by = yield from word(choice(names.SPEEDS_BY, "How is the speed set?", *SPEEDS_BY, usual=is_by))
    if by in (SCALE, BLIND):
        low = yield from speed_said(names.SLOWEST, "Slowest speed of the spindle", min(now.speeds_rpm))
        high = yield from speed_said(names.FASTEST, "Fastest speed of the spindle", max(now.speeds_rpm))
        speeds: tuple[float, ...] = (min(low, high), max(low, high))
    else:
        speeds = yield from steps_said(now)
    kept = by == is_by and speeds == now.speeds_rpm
    if kept:
        return now
    as_named = now.speed_names if len(now.speed_names) == len(speeds) else step_names(len(speeds))
    return replace(
        now,
        speeds_rpm=speeds,
        largest_rpm=now.largest_rpm if speeds == now.speeds_rpm else max(speeds),
        stepless=by in (SCALE, BLIND),
        shows_speed=by != BLIND,
        speed_names=as_named if by == BELT else (),
    )


def speed_said(key: str, title: str, usual: float) -> Stage[float]:
    """One speed with a usual one, rpm."""
    said = yield from number_said(count(key, title, usual, digits=5, unit="rpm", low=10, high=20000))
    return usual if said is None or round(usual) == said else said


def steps_said(now: Lathe) -> Stage[tuple[float, ...]]:
    """The speeds of belt or lever: those there are, or each keyed, slowest first."""
    if not now.stepless:
        known = choice(
            names.SPEEDS_ARE,
            f"Its speeds: {listed(now.speeds_rpm, 'rpm')}?",
            ("as_listed", "yes"),
            ("keyed", "no: I key them"),
            say=(" ".join(f"{speed:g}" for speed in now.speeds_rpm) + " rpm",),
        )
        if (yield from word(known)) == "as_listed":
            return now.speeds_rpm
    found: list[float] = []
    for n in range(1, MOST_SPEEDS + 1):
        title = "Slowest speed" if n == 1 else f"Speed {n}, the next faster"
        usual: float | str = NO_MORE if found else min(now.speeds_rpm)
        key = names.nth(names.SPEED, n)
        said = yield from number_said(count(key, title, usual, digits=5, unit="rpm", low=10, high=20000))
        if said is None:
            break
        found.append(said)
    return tuple(sorted(set(found)))


def step_names(many: int) -> tuple[str, ...]:
    """Names of belt steps by their order."""
    ends = {1: "step 1, slowest", many: f"step {many}, fastest"}
    return tuple(ends.get(n, f"step {n}") for n in range(1, many + 1))


def grips_said(now: tuple[Grip, ...], *, inch: bool) -> Stage[tuple[Grip, ...]]:
    """What holds a bar: each that is there, then others."""
    found: list[Grip] = []
    asked_of = {grip.name for grip in now}
    for n, grip in enumerate(now, 1):
        found += yield from grip_said(names.nth(names.HOLDS, n), grip, inch=inch)
    for n in range(1, len(GRIPS) + 1):
        left = [name for name in GRIPS if name not in asked_of]
        if not left:
            break
        pairs = (("no", "no"), *((name, name) for name in left))
        more = yield from word(
            choice(names.nth(names.HOLDS_MORE, n), "Anything else that holds a bar?", *pairs)
        )
        if more not in GRIPS:
            break
        asked_of.add(more)
        found += yield from grip_said(names.nth(names.HOLDS_TO, n), GRIPS[more], inch=inch)
    return tuple(found)


def grip_said(key: str, grip: Grip, *, inch: bool) -> Stage[list[Grip]]:
    """The thickest bar that a grip holds; none where 0 is keyed."""
    to_mm = yield from length(
        key,
        f"{grip.name}: the thickest bar it holds; 0 where there is none".capitalize(),
        grip.largest_mm,
        inch=inch,
        whole=3,
        places=1,
        low_mm=0.0,
        high_mm=300.0,
    )
    if to_mm == 0.0:
        return []
    return [replace(grip, largest_mm=to_mm, smallest_mm=min(grip.smallest_mm, to_mm))]
