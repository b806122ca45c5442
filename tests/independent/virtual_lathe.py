"""A lathe that cuts what its own hidden errors make of a plan's data.

It imports nothing of the project and reads only the plan's JSON object. Diameters and walls in mm.

The errors: the bar is not quite what was keyed of it; every tool sits off by a fixed amount on the diameter;
tool and work spring apart in proportion to the depth really cut; each cut scatters; the screw has backlash
that counts only when a figure is reached from the wrong side; the work is warm while it is cut and shrinks
afterwards.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

Plan = dict[str, Any]
Correct = Callable[[str, float], Plan]
"""What is asked after a reading: operation and reading in, the plan as it then stands out."""
SPRING_AT_DEPTH_MM = 0.1
MOST_SPRING = 3.0


@dataclass(frozen=True)
class Truth:
    """What the planner cannot see."""

    offsets: dict[int, float]
    """By tool number, on the diameter."""
    spring: float
    """On the diameter, at a cut 0.1 deep."""
    spread: float
    """Standard deviation of one cut, on the diameter."""
    backlash: float
    """Lost motion of the slide, on the radius."""
    warm_by: float
    expansion: float
    limit_of_wall: float
    """Largest error of the ball micrometer."""
    limit_of_outside: float
    bar_by: float = 0.0
    """How much thicker the bar is than was keyed, on the diameter."""
    last_from_the_wrong_side: bool = False
    """The passes that follow a reading are reached from the other side than the one measured."""


def drawn_truth(draw: random.Random, turning: int, boring: int) -> Truth:
    """Errors drawn over their ranges."""
    return Truth(
        offsets={turning: draw.uniform(-0.05, 0.05), boring: draw.uniform(-0.05, 0.05)},
        spring=draw.uniform(0.0, 0.03),
        spread=0.005,
        backlash=0.05,
        warm_by=10.0,
        expansion=1.1e-4,
        limit_of_wall=0.004,
        limit_of_outside=0.004,
    )


class VirtualLathe:
    """One set-up on the bar; `turn` carries out the plan and gives the wall of the cold ring."""

    def __init__(self, truth: Truth, draw: random.Random, shows_radius: bool) -> None:
        self.truth = truth
        self.draw = draw
        self.shows_radius = shows_radius
        self.outside = 0.0
        self.bore = 0.0
        self.was_read = False

    def turn(self, plan: Plan, correct: Correct | None) -> float:
        """Cut pass by pass; with `correct` every reading asked for changes the passes that follow."""
        self.outside = plan["bar"]["start_mm"] + self.truth.bar_by
        self.bore = plan["bar"]["bore_mm"]
        done = 0
        while True:
            left = [one for one in plan["passes"] if one["n"] > done]
            if not left or left[0]["operation"] in ("part", "chamfer", "lower_chamfer"):
                break
            one = left[0]
            done = one["n"]
            self._carry_out(one)
            if one["measure"] is not None and correct is not None:
                reading = self._read(one["measure"])
                self.was_read = True
                plan = correct(one["operation"], reading)
        return self.wall_cold()

    def wall_cold(self) -> float:
        """The wall once the ring has cooled."""
        return (self.outside - self.bore) / 2.0 * (1.0 - self.truth.expansion * self.truth.warm_by)

    def _carry_out(self, one: dict[str, Any]) -> None:
        if one["operation"] == "drill":
            self.bore = max(self.bore, one["material_diameter_after_mm"] + abs(self.draw.gauss(0.0, 0.05)))
        elif one["operation"] == "core":
            self.bore = max(self.bore, one["material_diameter_after_mm"] + self.draw.gauss(0.0, 0.05))
        elif one["axis"] == "cross":
            self._cut(one)

    def _cut(self, one: dict[str, Any]) -> None:
        is_bore = one["operation"].endswith("bore")
        sense = 1.0 if is_bore else -1.0
        aimed = one["target_mm"] * (2.0 if self.shows_radius else 1.0)
        if one["zero_diameter_mm"] is not None:
            touched = 0.0 if is_bore else self.truth.bar_by  # a dial is zeroed on the bar as it really is
            aimed = one["zero_diameter_mm"] + touched + sense * aimed
        edge = aimed + self.truth.offsets[one["tool"]] + self.draw.gauss(0.0, self.truth.spread)
        if self.truth.last_from_the_wrong_side and self.was_read:
            edge += sense * 2.0 * self.truth.backlash
        before = self.bore if is_bore else self.outside
        # The edge gives way in proportion to what it really cuts: depth = way to go / (1 + give).
        give = self.truth.spring / 2.0 / SPRING_AT_DEPTH_MM
        way = sense * (edge - before) / 2.0
        if way <= 0.0:
            return
        depth = max(way / (1.0 + give), way - MOST_SPRING * self.truth.spring / 2.0)
        after = before + sense * 2.0 * depth
        if is_bore:
            self.bore = after
        else:
            self.outside = after

    def _read(self, what: str) -> float:
        limit = self.truth.limit_of_wall if what == "wall" else self.truth.limit_of_outside
        true = (self.outside - self.bore) / 2.0 if what == "wall" else self.outside
        return round(true + self.draw.uniform(-limit, limit), 3)
