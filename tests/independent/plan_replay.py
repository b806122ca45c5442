"""Cuts a virtual bar by the data of a turning plan and says what is wrong with it.

It imports nothing of the project: it knows a plan only as the JSON object,
and the workshop only as plain numbers.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from tests.independent.plan_opening import Hole, Stock, held_faults

SMALL = 1e-6
BEYOND = 0.5
CLEAR = 0.3
"""A bore reaches this much further than is parted off."""


@dataclass(frozen=True)
class Workshop:
    """What the plan was made for, in plain numbers."""

    cross_step: float
    cross_shows_radius: bool
    long_step: float
    speeds: tuple[float, ...]
    stepless: bool
    largest_rpm: float
    turning_limit: float
    boring_limit: float
    least: float
    stock: Stock
    spares: int


def work_diameter(one: dict[str, Any], shop: Workshop) -> float:
    """Diameter that a cross pass promises, worked out from the figure shown."""
    on_diameter = one["target_mm"] * (2.0 if shop.cross_shows_radius else 1.0)
    if one["zero_diameter_mm"] is None:
        return float(on_diameter + one["offset_mm"])
    sense = 1.0 if one["operation"].endswith("bore") else -1.0
    return float(one["zero_diameter_mm"] + sense * on_diameter + one["offset_mm"])


class Replay:
    """The bar while the passes of a plan are cut from it, and what was found wrong on the way."""

    def __init__(self, plan: dict[str, Any], shop: Workshop) -> None:
        self.plan, self.ring, self.shop = plan, plan["ring"], shop
        self.outside = shop.stock.outside
        self.hole = Hole(shop.stock, plan["bar"]["used_mm"] + CLEAR)
        self.used, self.made = 0.0, 0
        self.depths: dict[tuple[str, int], list[float]] = {}
        self.entered: set[tuple[str, int]] = set()

    def carry_out(self, one: dict[str, Any]) -> list[str]:
        """One pass or act."""
        name = one["operation"]
        if name == "face":
            self.used += one["cut_depth_mm"]
            return self.hole.face()
        if name == "shorten_core":
            self.hole.must_shorten = False
        elif name == "drill":
            return self.hole.drill(one)
        elif name == "core":
            return self.hole.groove(one, work_diameter(one, self.shop), self.ring)
        elif one["axis"] == "cross" and name != "lower_chamfer":
            return self.cut(one)
        elif name == "part":
            return self.part(one)
        return []

    def cut(self, one: dict[str, Any]) -> list[str]:
        """A pass over the outside or in the bore."""
        name, after, found = one["operation"], work_diameter(one, self.shop), []
        inside = name.endswith("bore")
        if inside and (name, one["ring"]) not in self.entered:
            self.entered.add((name, one["ring"]))
            found += self.hole.enter(one)
        depth = (after - self.hole.bore) / 2.0 if inside else (self.outside - after) / 2.0
        found += cut_faults(one, depth, after, self.shop)
        self.depths.setdefault((name.split("_")[1], one["ring"]), []).append(depth)
        self.hole.bore, self.outside = (after, self.outside) if inside else (self.hole.bore, after)
        return found

    def part(self, one: dict[str, Any]) -> list[str]:
        """A ring is parted off."""
        kept = one["target_mm"] - self.plan["blade_mm"]
        wanted = self.ring["height_mm"] + self.plan["dressing_mm"]
        off = not -SMALL <= kept - wanted < self.shop.long_step - SMALL
        self.used += wanted + self.plan["blade_mm"]
        self.made += 1
        sizes = size_faults(one["ring"], self.outside, self.hole.bore, self.ring, self.shop)
        self.hole.part()
        return [*([f"keeps {kept} instead of {wanted}"] if off else []), *sizes]


def faults(plan: dict[str, Any], shop: Workshop) -> list[str]:
    """Everything that is wrong with the plan; an empty list when it is right."""
    found: list[str] = []
    passes, replay = plan["passes"], Replay(plan, shop)
    if [one["n"] for one in passes] != list(range(1, len(passes) + 1)):
        found.append("numbers")
    if abs(sum(one["minutes"] for one in passes) - plan["minutes"]) > 0.01:
        found.append("minutes do not add up")
    for one in passes:
        if one["rpm"] is not None and not speed_is_there(one["rpm"], shop):
            found.append(f"pass {one['n']}: the lathe lacks {one['rpm']} rpm")
        found += [f"pass {one['n']}: {fault}" for fault in replay.carry_out(one)]
    found += length_faults(plan, shop)
    for key, each in replay.depths.items():
        found += [f"depths of {key}: {fault}" for fault in depth_faults(each)]
    if replay.made != 1 + shop.spares or replay.made != plan["rings"]:
        found.append(f"{replay.made} rings")
    return found + held_faults(plan, shop.stock, replay.used)


def speed_is_there(rpm: float, shop: Workshop) -> bool:
    """Whether the lathe has the speed and may run it."""
    listed = shop.speeds[0] <= rpm <= shop.speeds[-1] if shop.stepless else rpm in shop.speeds
    return listed and rpm <= shop.largest_rpm


def cut_faults(one: dict[str, Any], depth: float, after: float, shop: Workshop) -> list[str]:
    """What is wrong with one pass of a diameter."""
    found = []
    steps = one["target_mm"] / shop.cross_step
    if abs(steps - round(steps)) > 1e-4:
        found.append(f"{one['target_mm']} is no whole number of steps")
    if abs(after - one["material_diameter_after_mm"]) > SMALL or abs(depth - one["cut_depth_mm"]) > SMALL:
        found.append(f"leaves {after} at depth {depth}, the plan says otherwise")
    limit = shop.boring_limit if one["operation"].endswith("bore") else shop.turning_limit
    if depth > limit + SMALL:
        found.append(f"{depth} is over the limit {limit}")
    if depth <= SMALL or (one["operation"].startswith("finish") and depth < shop.least - SMALL):
        found.append(f"{depth} is under the least {shop.least}")
    return found


def depth_faults(depths: list[float]) -> list[str]:
    """Depths must never grow and the last two be equal."""
    found = [f"grow {a} {b}" for a, b in pairwise(depths) if b > a + SMALL]
    if len(depths) < 2 or abs(depths[-1] - depths[-2]) > SMALL:
        found.append(f"last two differ: {depths[-2:]}")
    return found


def length_faults(plan: dict[str, Any], shop: Workshop) -> list[str]:
    """Every cut along the bar reaches as far as the blade, and none comes near the jaws."""
    each = plan["ring"]["height_mm"] + plan["dressing_mm"] + plan["blade_mm"]
    all_rings = plan["rings"] * each + (plan["rings"] - 1) * 0.2
    jaws = plan["bar"]["stick_out_mm"] - 0.3
    found = []
    for one in plan["passes"]:
        kind = one["operation"].split("_")[-1]
        if kind not in ("outside", "bore", "core") or one["operation"] == "shorten_core":
            continue
        needed, most = {
            "outside": (all_rings, min(jaws - 1.0, all_rings + BEYOND)),
            "bore": (each, each + 0.5),
            "core": (each + CLEAR, each + 0.7),
        }[kind]
        if not needed - SMALL <= one["along_mm"] <= most + shop.long_step + SMALL:
            found.append(
                f"pass {one['n']}: {kind} to {one['along_mm']} along the bar, not {needed} to {most}"
            )
    return found


def size_faults(number: int, outside: float, bore: float, ring: dict[str, Any], shop: Workshop) -> list[str]:
    """The ring that was parted off, against the one wanted: half a step on the diameter either way."""
    half = shop.cross_step * (1.0 if shop.cross_shows_radius else 0.5) + SMALL
    step = shop.cross_step * (2.0 if shop.cross_shows_radius else 1.0)
    tighter = max(1, round(0.02 / step)) * step if number == 3 else 0.0  # one step of the slide at least
    found = []
    if abs(outside - ring["outside_diameter_mm"]) > half:
        found.append(f"ring {number}: outside {outside}")
    if abs(bore - (ring["bore_mm"] - tighter)) > half:
        found.append(f"ring {number}: bore {bore}")
    return found
