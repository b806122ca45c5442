"""Random rings and workshops for the tests of turning."""

from __future__ import annotations

import random
import tomllib
from contextlib import suppress
from itertools import count
from pathlib import Path

import rules
from rules.bars import ARBOR, COLLET, SOFT_JAWS, STEP_COLLET, THREE_JAW, Bar, Grip
from rules.checks import OutOfRange
from rules.equipment import Axis, Lathe, Tool
from rules.ring import Ring
from rules.turning.order import SetUp
from rules.turning.planning import plan
from tests.independent.plan_opening import Stock
from tests.independent.plan_replay import Workshop

PLASTICS = ("acetal", "pa6", "pa66", "pa12", "ptfe", "peek", "uhmwpe", "pvdf", "pvc", "mystery")


def cross_axis(draw: random.Random) -> Axis:
    """A read-out or a dial, diameter or radius, growing either way."""
    shows, direction = draw.choice(("diameter", "radius")), draw.choice(("outward", "inward"))
    backlash = draw.choice((0.0, 0.05, 0.2))
    if draw.random() < 0.5:
        step = draw.choice((0.001, 0.002, 0.005, 0.01))
        return Axis(shows=shows, step_mm=step, direction=direction, backlash_mm=backlash)
    division = draw.choice((0.01, 0.02, 0.025, 0.05))
    per_turn = draw.choice((0, 40, 100))
    step = division / draw.choice((1, 2))
    return Axis(
        shows=shows,
        step_mm=step,
        division_mm=division,
        divisions_per_turn=per_turn,
        direction=direction,
        backlash_mm=backlash,
    )


def carriage_axis(draw: random.Random) -> Axis:
    """The carriage."""
    direction = draw.choice(("to_chuck", "from_chuck"))
    if draw.random() < 0.5:
        return Axis(shows="length", step_mm=draw.choice((0.005, 0.01)), direction=direction)
    return Axis(shows="length", step_mm=0.02, division_mm=0.02, divisions_per_turn=50, direction=direction)


def lathe(draw: random.Random) -> Lathe:
    """A lathe with speeds, drills, a spindle and grips of its own."""
    stepless = draw.random() < 0.4
    slowest = draw.choice((50.0, 130.0, 300.0))
    speeds: tuple[float, ...] = (
        (slowest, draw.choice((1500.0, 2345.0, 4000.0)))
        if stepless
        else tuple(round(slowest * 1.4**k) for k in range(draw.randint(2, 9)))
    )
    drills = sorted(draw.sample(range(6, 50), draw.randint(1, 8)))
    return Lathe(
        name="drawn",
        cross=cross_axis(draw),
        carriage=carriage_axis(draw),
        speeds_rpm=speeds,
        stepless=stepless,
        largest_rpm=draw.uniform(slowest, 3500.0),
        largest_drill_mm=draw.choice((10.0, 13.0, 16.0, 25.0)),
        drills_mm=tuple(half / 2.0 for half in drills) if draw.random() < 0.4 else (),
        spindle_hole_mm=draw.choice((0.0, 0.0, 15.0, 26.0, 80.0)),
        grips=grips(draw),
    )


def grips(draw: random.Random) -> tuple[Grip, ...]:
    """A chuck, and what else there is."""
    more = draw.sample((SOFT_JAWS, COLLET, STEP_COLLET, ARBOR), draw.randint(0, 3))
    return (
        Grip(
            name="chuck",
            smallest_mm=3.0,
            largest_mm=120.0,
            length_mm=draw.uniform(10.0, 30.0),
            kind=THREE_JAW,
        ),
        *(
            Grip(
                name=kind,
                smallest_mm=draw.uniform(3.0, 20.0),
                largest_mm=draw.uniform(25.0, 80.0),
                length_mm=0.0 if kind == ARBOR else draw.uniform(3.0, 15.0),
                kind=kind,
            )
            for kind in more
        ),
    )


def tools(draw: random.Random) -> tuple[Tool, ...]:
    """A set with one tool of each kind, some with others that cut a core out."""
    smallest = draw.uniform(3.0, 8.0)
    cores = draw.choice((0, 0, 1, 3))
    return (
        Tool(number=11, kind="turning", nose_radius_mm=draw.choice((0.1, 0.2, 0.4))),
        Tool(
            number=12,
            kind="boring",
            smallest_bore_mm=smallest,
            longest_reach_mm=draw.uniform(12.0, 30.0),
            shank_mm=draw.uniform(0.5, 0.95) * smallest,
        ),
        Tool(number=13, kind="chamfer"),
        Tool(number=14, kind="parting", blade_mm=draw.choice((0.8, 1.0, 1.5, 2.0))),
        *(
            Tool(
                number=20 + at,
                kind="face_grooving",
                blade_mm=draw.choice((2.0, 3.0, 4.0)),
                smallest_groove_mm=(low := draw.uniform(10.0, 45.0)),
                largest_groove_mm=low + draw.uniform(2.0, 20.0),
                depth_mm=draw.uniform(3.0, 15.0),
            )
            for at in range(cores)
        ),
    )


def bar(draw: random.Random, plastic: str, ring: Ring) -> Bar:
    """A bar as it came, a blank, a tube or a left-over; measured or not."""
    kind = draw.choice(("bar", "bar", "blank", "tube", "left_over"))
    thickness = ring.outside_diameter_mm + draw.uniform(0.7 if kind == "blank" else 1.0, 9.0)
    measured = draw.random() < 0.6
    bored = kind == "tube" or (kind == "left_over" and draw.random() < 0.5)
    through = kind == "tube" or draw.random() < 0.3
    return Bar(
        plastic=plastic,
        diameter_mm=thickness - (draw.uniform(0.0, 1.2) if measured else 0.0),
        length_mm=draw.uniform(15.0, 90.0) if kind in ("blank", "left_over") else draw.uniform(60.0, 300.0),
        kind=kind,
        outside_mm=thickness if measured else 0.0,
        bore_mm=draw.uniform(0.2, 1.02) * (ring.bore_mm - 1.0) if bored else 0.0,
        bore_deep_mm=0.0 if not bored or through else draw.uniform(2.0, 14.0),
    )


def drawn(seed: object) -> tuple[Ring, SetUp, Workshop]:
    """Arguments of `rules.turning.planning.plan`, which may refuse them, and the same in plain numbers."""
    draw = random.Random(str(seed))
    outside = round(draw.uniform(13.0, 60.0), 3)
    wall = draw.uniform(0.3, 1.0)
    ring = Ring(
        outside_diameter_mm=outside,
        bore_mm=round(outside - 2.0 * wall, 3),
        height_mm=round(draw.uniform(0.5, 4.0), 2),
        chamfer_mm=draw.choice((0.10, 0.15, 0.20)),
        lower_chamfer_mm=draw.choice((0.0, 0.10)),
    )
    set_up = SetUp(
        lathe=lathe(draw),
        tools=tools(draw),
        bar=bar(draw, draw.choice(PLASTICS), ring),
        spares=draw.choice((0, 0, 1, 2, 3)),
        offsets_mm=((11, round(draw.uniform(-0.06, 0.06), 3)), (12, 0.02)) if draw.random() < 0.3 else (),
    )
    return ring, set_up, workshop(set_up)


def job(seed: int) -> tuple[Ring, SetUp, Workshop]:
    """The first draw of a seed that can be turned."""
    for again in count():
        found = drawn(f"{seed}.{again}")
        with suppress(OutOfRange):
            plan(ring=found[0], set_up=found[1])
            return found
    raise AssertionError("the draws never end")


def stock(set_up: SetUp) -> Stock:
    """The piece and what there is for it, in plain numbers."""
    piece, turned_on = set_up.bar, set_up.lathe
    halves = [half / 2.0 for half in range(2, 200)]
    of_kind = {
        kind: [one for one in set_up.tools if one.kind == kind] for kind in ("boring", "face_grooving")
    }
    return Stock(
        diameter=piece.diameter_mm,
        outside=piece.outside_mm or piece.diameter_mm,
        bore=piece.bore_mm,
        bore_deep=piece.bore_deep_mm,
        length=piece.length_mm,
        spindle_hole=turned_on.spindle_hole_mm,
        grips={
            one.name: (one.smallest_mm, one.largest_mm, one.length_mm, one.kind in (STEP_COLLET, ARBOR))
            for one in turned_on.grips
        },
        drills=tuple(
            one for one in turned_on.drills_mm or halves if one <= turned_on.largest_drill_mm + 1e-9
        ),
        cores={
            one.number: (one.smallest_groove_mm, one.largest_groove_mm, one.depth_mm, one.blade_mm)
            for one in of_kind["face_grooving"]
        },
        bars={one.number: one.smallest_bore_mm for one in of_kind["boring"]},
    )


def workshop(set_up: SetUp) -> Workshop:
    """The plain numbers of a drawn job; limits straight from the data file."""
    turned_on = set_up.lathe
    path = Path(rules.__file__).parent / "data" / "turning.toml"
    rows = tomllib.loads(path.read_text(encoding="utf-8"))["plastics"]
    row = rows.get(set_up.bar.plastic, rows["other"])
    return Workshop(
        cross_step=turned_on.cross.step_mm,
        cross_shows_radius=turned_on.cross.shows == "radius",
        long_step=turned_on.carriage.step_mm,
        speeds=turned_on.speeds_rpm,
        stepless=turned_on.stepless,
        largest_rpm=turned_on.largest_rpm,
        turning_limit=row["largest_turning_depth"],
        boring_limit=row["largest_boring_depth"],
        least=row["least_depth"],
        stock=stock(set_up),
        spares=set_up.spares,
    )
