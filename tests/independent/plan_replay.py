"""Cuts a virtual bar by the data of a turning plan and says what is wrong with it.

It imports nothing of the project: it knows a plan only as the JSON object,
and the workshop only as plain numbers.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

SMALL = 1e-6


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
    bar_length: float
    spares: int


def work_diameter(one: dict[str, Any], shop: Workshop) -> float:
    """Diameter that a cross pass promises, worked out from the figure shown."""
    on_diameter = one["target_mm"] * (2.0 if shop.cross_shows_radius else 1.0)
    if one["zero_diameter_mm"] is None:
        return float(on_diameter + one["offset_mm"])
    sense = 1.0 if one["operation"].endswith("bore") else -1.0
    return float(one["zero_diameter_mm"] + sense * on_diameter + one["offset_mm"])


def faults(plan: dict[str, Any], shop: Workshop) -> list[str]:
    """Everything that is wrong with the plan; an empty list when it is right."""
    found: list[str] = []
    ring, passes = plan["ring"], plan["passes"]
    if [one["n"] for one in passes] != list(range(1, len(passes) + 1)):
        found.append("numbers")
    if abs(sum(one["minutes"] for one in passes) - plan["minutes"]) > 0.01:
        found.append("minutes do not add up")
    outside, bore, used, made = plan["bar"]["diameter_mm"], 0.0, 0.0, 0
    depths: dict[tuple[str, int], list[float]] = {}
    for one in passes:
        name, at = one["operation"], f"pass {one['n']}"
        if one["rpm"] is not None and not speed_is_there(one["rpm"], shop):
            found.append(f"{at}: the lathe lacks {one['rpm']} rpm")
        if name == "face":
            used += one["cut_depth_mm"]
            bore = 0.0
        elif name == "drill":
            bore = one["material_diameter_after_mm"]
        elif one["axis"] == "cross" and name != "lower_chamfer":
            after = work_diameter(one, shop)
            before = bore if name.endswith("bore") else outside
            depth = (after - before) / 2.0 if name.endswith("bore") else (before - after) / 2.0
            found += cut_faults(one, at, depth, after, shop)
            depths.setdefault((name.split("_")[1], one["ring"]), []).append(depth)
            bore, outside = (after, outside) if name.endswith("bore") else (bore, after)
        elif name == "part":
            kept = one["target_mm"] - plan["blade_mm"]
            wanted = ring["height_mm"] + plan["dressing_mm"]
            if not -SMALL <= kept - wanted < shop.long_step - SMALL:
                found.append(f"{at}: keeps {kept} instead of {wanted}")
            used += wanted + plan["blade_mm"]
            made += 1
            found += size_faults(one["ring"], outside, bore, ring, shop)
    found += length_faults(plan, shop)
    found += [f"depths of {key}: {fault}" for key, each in depths.items() for fault in depth_faults(each)]
    if made != 1 + shop.spares or made != plan["rings"]:
        found.append(f"{made} rings")
    if (
        abs(used - plan["bar"]["used_mm"]) > SMALL
        or abs(used + plan["bar"]["left_mm"] - shop.bar_length) > SMALL
    ):
        found.append(f"stock: used {used}")
    return found


def speed_is_there(rpm: float, shop: Workshop) -> bool:
    """Whether the lathe has the speed and may run it."""
    listed = shop.speeds[0] <= rpm <= shop.speeds[-1] if shop.stepless else rpm in shop.speeds
    return listed and rpm <= shop.largest_rpm


def cut_faults(one: dict[str, Any], at: str, depth: float, after: float, shop: Workshop) -> list[str]:
    """What is wrong with one pass of a diameter."""
    found = []
    steps = one["target_mm"] / shop.cross_step
    if abs(steps - round(steps)) > 1e-4:
        found.append(f"{at}: {one['target_mm']} is no whole number of steps")
    if abs(after - one["material_diameter_after_mm"]) > SMALL or abs(depth - one["cut_depth_mm"]) > SMALL:
        found.append(f"{at}: leaves {after} at depth {depth}, the plan says otherwise")
    limit = shop.boring_limit if one["operation"].endswith("bore") else shop.turning_limit
    if depth > limit + SMALL:
        found.append(f"{at}: {depth} is over the limit {limit}")
    if depth <= SMALL or (one["operation"].startswith("finish") and depth < shop.least - SMALL):
        found.append(f"{at}: {depth} is under the least {shop.least}")
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
        if kind not in ("outside", "bore"):
            continue
        needed, most = (all_rings, jaws - 1.0) if kind == "outside" else (each, each + 0.5)
        if not needed - SMALL <= one["along_mm"] <= most + shop.long_step + SMALL:
            found.append(
                f"pass {one['n']}: {kind} to {one['along_mm']} along the bar, not {needed} to {most}"
            )
    return found


def size_faults(number: int, outside: float, bore: float, ring: dict[str, Any], shop: Workshop) -> list[str]:
    """The ring that was parted off, against the one wanted: half a step on the diameter either way."""
    half = shop.cross_step * (1.0 if shop.cross_shows_radius else 0.5) + SMALL
    tighter = 0.02 if number == 3 else 0.0
    found = []
    if abs(outside - ring["outside_diameter_mm"]) > half:
        found.append(f"ring {number}: outside {outside}")
    if abs(bore - (ring["bore_mm"] - tighter)) > half:
        found.append(f"ring {number}: bore {bore}")
    return found
