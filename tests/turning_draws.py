"""Random rings and workshops for the tests of turning."""

from __future__ import annotations

import random
import tomllib
from pathlib import Path

import rules
from rules.bars import Bar, Grip
from rules.equipment import Axis, Lathe, Tool
from rules.ring import Ring
from rules.turning.order import SetUp
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
    """A lathe with speeds of its own."""
    stepless = draw.random() < 0.4
    slowest = draw.choice((50.0, 130.0, 300.0))
    speeds: tuple[float, ...] = (
        (slowest, draw.choice((1500.0, 2345.0, 4000.0)))
        if stepless
        else tuple(round(slowest * 1.4**k) for k in range(draw.randint(2, 9)))
    )
    return Lathe(
        name="drawn",
        cross=cross_axis(draw),
        carriage=carriage_axis(draw),
        speeds_rpm=speeds,
        stepless=stepless,
        largest_rpm=draw.uniform(slowest, 3500.0),
        grips=(Grip(name="chuck", smallest_mm=3.0, largest_mm=120.0, length_mm=draw.uniform(10.0, 30.0)),),
    )


def tools(draw: random.Random) -> tuple[Tool, ...]:
    """A set with one tool of each kind."""
    smallest = draw.uniform(3.0, 8.0)
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
    )


def job(seed: int) -> tuple[Ring, SetUp, Workshop]:
    """Arguments of `rules.turning.planning.plan` and the same workshop in plain numbers."""
    draw = random.Random(seed)
    outside = round(draw.uniform(13.0, 60.0), 3)
    wall = draw.uniform(0.3, 1.0)
    ring = Ring(
        outside_diameter_mm=outside,
        bore_mm=round(outside - 2.0 * wall, 3),
        height_mm=round(draw.uniform(0.5, 4.0), 2),
        chamfer_mm=draw.choice((0.10, 0.15, 0.20)),
        lower_chamfer_mm=draw.choice((0.0, 0.10)),
    )
    plastic, turned_on, spares = draw.choice(PLASTICS), lathe(draw), draw.choice((0, 0, 1, 2, 3))
    bar = Bar(
        plastic=plastic, diameter_mm=outside + draw.uniform(1.0, 9.0), length_mm=draw.uniform(90.0, 300.0)
    )
    set_up = SetUp(
        lathe=turned_on,
        tools=tools(draw),
        bar=bar,
        spares=spares,
        offsets_mm=((11, round(draw.uniform(-0.06, 0.06), 3)), (12, 0.02)) if draw.random() < 0.3 else (),
    )
    return ring, set_up, workshop(set_up)


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
        bar_length=set_up.bar.length_mm,
        spares=set_up.spares,
    )
