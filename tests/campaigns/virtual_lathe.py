"""How often the wall comes out right on a lathe with hidden errors, with and without correction.

    python -m tests.campaigns.virtual_lathe [--long]

The short form is part of the tests; the long form turns 20,000 rings of every kind.
"""

from __future__ import annotations

import argparse
import json
import random
from collections import Counter
from dataclasses import dataclass, field, replace
from typing import Any

from bench.sheet.turning import plan_json
from bench.shop.shop import built_in
from rules.bars import Bar
from rules.checks import OutOfRange
from rules.equipment import Axis, Lathe
from rules.ring import Ring
from rules.turning.correction import replan
from rules.turning.order import SetUp
from rules.turning.passes import Plan
from rules.turning.planning import plan
from tests.grooving import DEEP_CORING
from tests.independent.virtual_lathe import Correct, VirtualLathe, drawn_truth

WITHIN_MM = 0.01
AXES = (
    Axis(shows="diameter", step_mm=0.01, backlash_mm=0.05, direction="outward"),
    Axis(shows="radius", step_mm=0.005, backlash_mm=0.05, direction="outward"),
    Axis(
        shows="diameter",
        step_mm=0.01,
        division_mm=0.02,
        divisions_per_turn=100,
        backlash_mm=0.05,
        direction="inward",
    ),
)


@dataclass
class Tally:
    """What came of the runs."""

    runs: int = 0
    right: int = 0
    readings: int = 0
    verdicts: Counter[str] = field(default_factory=Counter)
    worst_mm: float = 0.0

    @property
    def share(self) -> float:
        """Share of the rings whose wall lies within the limit."""
        return self.right / self.runs


class Corrector:
    """Keys every reading into the program, optionally with a planted fault."""

    def __init__(self, made: Plan, tally: Tally, fault: str) -> None:
        self.made = made
        self.tally = tally
        self.fault = fault

    def __call__(self, operation: str, reading: float) -> dict[str, Any]:
        if self.fault == "wrong sign":
            promised = next(
                one for one in self.made.of(operation) if one.measure and one.n not in self.made.read_after
            )
            after, ring = promised.material_diameter_after_mm or 0.0, self.made.order.ring
            expected = after if operation == "finish_outside" else (ring.outside_diameter_mm - after) / 2.0
            reading = 2.0 * expected - reading
        if self.fault == "wall taken for a diameter" and operation == "finish_bore":
            reading = reading + (reading - self.made.order.ring.wall_mm) / 2.0
        done = replan(self.made, operation=operation, reading_mm=reading)
        self.tally.verdicts[f"{operation}: {done.verdict}"] += 1
        self.tally.readings += 1
        self.made = done.plan
        return as_data(self.made)


def as_data(made: Plan) -> dict[str, Any]:
    """The plan as it leaves the program: through JSON text."""
    data: dict[str, Any] = json.loads(json.dumps(plan_json(made), allow_nan=False))
    return data


def drawn_plan(draw: random.Random) -> tuple[Plan, Lathe]:
    """A ring for the built-in shop, on one of three lathes."""
    shop = built_in()
    lathe = replace(shop.lathes[0], cross=draw.choice(AXES))
    outside, wall = round(draw.uniform(26.0, 40.0), 2), round(draw.uniform(0.45, 0.75), 2)
    ring = Ring(
        outside_diameter_mm=outside,
        bore_mm=round(outside - 2.0 * wall, 2),
        height_mm=round(draw.uniform(0.8, 2.0), 2),
    )
    kind = draw.choice(("bar", "blank", "tube"))
    bar = Bar(
        plastic=draw.choice(("acetal", "pa66")),
        diameter_mm=outside + 2.0,
        length_mm=100.0,
        kind=kind,
        outside_mm=outside + draw.uniform(0.8 if kind == "blank" else 2.0, 3.0),
        bore_mm=draw.uniform(10.0, ring.bore_mm - 1.5) if kind == "tube" else 0.0,
    )
    tools = (*shop.tools, DEEP_CORING) if draw.random() < 0.3 else shop.tools
    return plan(ring=ring, set_up=SetUp(lathe=lathe, tools=tools, bar=bar)), lathe


def run(*, runs: int, seed: int, corrected: bool = True, fault: str = "") -> Tally:
    """Turn `runs` rings; `fault` plants one."""
    draw, tally = random.Random(seed), Tally()
    for _ in range(runs):
        made, lathe = drawn_plan(draw)
        drawn = drawn_truth(draw, made.order.turning.number, made.order.boring.number)
        truth = replace(drawn, bar_by=draw.uniform(-0.05, 0.05))
        if fault == "last pass from the wrong side":
            truth = replace(truth, last_from_the_wrong_side=True)
        machine = VirtualLathe(truth, draw, lathe.cross.shows == "radius")
        correct: Correct | None = Corrector(made, tally, fault) if corrected else None
        tally.runs += 1
        try:
            off = abs(machine.turn(as_data(made), correct) - made.order.ring.wall_mm)
        except OutOfRange:
            tally.verdicts["refused"] += 1
            continue
        tally.right += off <= WITHIN_MM
        tally.worst_mm = max(tally.worst_mm, off)
    return tally


FAULTS = ("wrong sign", "wall taken for a diameter", "last pass from the wrong side")


def said(name: str, tally: Tally) -> str:
    """One line of figures."""
    return (
        f"{name}: {tally.right} of {tally.runs} within {WITHIN_MM} mm ({100 * tally.share:.1f} %), worst "
        f"{tally.worst_mm:.3f} mm, {tally.readings} readings, {dict(sorted(tally.verdicts.items()))}"
    )


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--long", action="store_true")
    runs = 20_000 if parser.parse_args().long else 2_000
    print(said("with correction", run(runs=runs, seed=7)))
    print(said("without correction", run(runs=runs, seed=7, corrected=False)))
    for fault in FAULTS:
        print(said(f"fault, {fault}", run(runs=runs // 4, seed=7, fault=fault)))


if __name__ == "__main__":
    main()
