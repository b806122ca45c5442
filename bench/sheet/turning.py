"""The turning plan as text to stand beside the lathe, and as data.

Invariant: both follow from the plan alone;
the same plan gives the same text and the same data, byte for byte.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable
from itertools import groupby
from typing import Any

from bench.sheet.turned_ring import foot_lines, ring_json
from rules.bars import Bar
from rules.cautions import caution
from rules.equipment import NEEDED_KINDS
from rules.lengths import bare, length, short, size, translated
from rules.turning import operations
from rules.turning.cutting_words import (
    BURRS_OFF,
    OPERATION_NAMES,
    WAYS_OUT_OUTSIDE,
    speed_set,
    speed_words,
    ways_out_of_bore,
)
from rules.turning.duration import ASSUMED, ShopPace, duration
from rules.turning.grades import grade_words
from rules.turning.holding import held_words
from rules.turning.order import DRESSING_MM
from rules.turning.passes import OUTSIDE_LIMIT_MM, WALL_LIMIT_MM, Pass, Plan
from rules.turning.readout import beside, divisions
from rules.turning.savings import saving_words
from rules.turning.stock import StockUse, unless_through
from rules.turning.tool_choice import tool_of

COLUMNS = 100
"""Width of the text."""
FEW = 4
"""Under so many roughing passes each has a line of its own."""
BELT = {True: ("belt_fingers",), False: ()}
"""The caution of a lathe whose speeds are steps of a belt."""
MEASURE_WORDS = {
    "outside": "spindle stopped: measure the outside, key it",
    "wall": f"spindle stopped: {BURRS_OFF}; wall at four places over the open end; key it",
}


def plan_json(plan: Plan) -> dict[str, Any]:
    """The plan as one object, every key always there, None where it says nothing; mm, rpm, minutes.

    `target_mm` is the figure shown: a diameter or radius, or the travel from the touched surface of
    `zero_diameter_mm` (dials, and read-outs that grow inward), or the distance from the face (length).
    """
    order = plan.order
    return {
        "ring": ring_json(order.ring),
        "rings": order.rings,
        "plastic": order.data.plastic,
        "lathe": order.lathe.name,
        "tools": {kind: getattr(order, kind).number for kind in NEEDED_KINDS},
        "bar": _bar_json(order.bar, order.stock),
        "opening": {
            "hole_mm": order.opening.hole_mm,
            "drills_mm": list(order.opening.drills_mm),
            "core_mm": order.opening.core_mm,
            "face_grooving": order.opening.tool.number if order.opening.tool else None,
        },
        "savings": list(saving_words(order)),
        "blade_mm": order.parting.blade_mm,
        "dressing_mm": DRESSING_MM,
        "bore_depth_mm": round(order.bore_depth_mm, 6),
        "tolerance": tolerance_words(plan),
        "set_up": list(plan.set_up_words),
        "warnings": list(plan.warnings),
        "minutes": plan.minutes,
        "cutting_minutes": plan.cutting_minutes,
        "bench_minutes": round(duration(plan).minutes, 1),
        "passes": [_pass_json(plan, one) for one in plan.passes],
    }


def _bar_json(bar: Bar, stock: StockUse) -> dict[str, Any]:
    return {
        "diameter_mm": bar.diameter_mm,
        "kind": bar.kind,
        "start_mm": bar.start_mm,
        "bore_mm": bar.bore_mm,
        "colour": bar.colour,
        "stick_out_mm": stock.stick_out_mm,
        "used_mm": stock.used_mm,
        "left_mm": stock.left_mm,
        "sawn_mm": stock.sawn_mm,
        "grip": stock.grip.name,
    }


def _pass_json(plan: Plan, one: Pass) -> dict[str, Any]:
    axis = {"cross": plan.order.lathe.cross, "long": plan.order.lathe.carriage}.get(one.axis or "")
    dial = axis is not None and axis.is_dial and one.target_mm is not None
    return {
        "n": one.n,
        "operation": one.operation,
        "tool": one.tool,
        "rpm": one.rpm,
        "axis": one.axis,
        "reading_text": one.reading_text,
        "along_mm": one.along_mm,
        "along_text": one.along_text or None,
        "shows": one.shows,
        "target_mm": one.target_mm,
        "cut_depth_mm": one.cut_depth_mm,
        "material_diameter_after_mm": one.material_diameter_after_mm,
        "minutes": one.minutes,
        "ring": one.ring,
        "feed_mm": one.feed_mm,
        "zero_diameter_mm": one.zero_diameter_mm,
        "offset_mm": one.offset_mm,
        "divisions": divisions(axis, one.target_mm) if dial and axis and one.target_mm is not None else None,
        "measure": one.measure or None,
        "before": list(one.before),
        "cautions": list(one.cautions),
    }


def tolerance_words(plan: Plan) -> str:
    """The limits of the ring and the ISO 286 grade that they hold."""
    order = plan.order
    grade = grade_words(size_mm=order.ring.outside_diameter_mm, width_um=2000.0 * OUTSIDE_LIMIT_MM)
    outside, wall = limit_words()
    return f"{outside}, holds ISO 286 {grade}; {wall}"


def limit_words() -> tuple[str, str]:
    """How far outside and wall may be off."""
    return f"outside +-{length(OUTSIDE_LIMIT_MM, 3)}", f"wall +-{length(WALL_LIMIT_MM, 3)}"


def plan_text(plan: Plan, pace: ShopPace = ASSUMED) -> str:
    """The sheet beside the lathe as plain text, lines of at most 100 characters."""
    return "\n".join(wrapped for line in plan_lines(plan, pace) for wrapped in wrap(line)) + "\n"


def plan_lines(plan: Plan, pace: ShopPace = ASSUMED) -> list[str]:
    """The sheet in lines of any length; roughing stands as a list of figures, finishing pass by pass."""
    ring, order = plan.order.ring, plan.order
    lines = [
        "TURNING PLAN",
        f"outside {bare(ring.outside_diameter_mm)}  bore {size(ring.bore_mm)}  "
        f"wall {bare(ring.wall_mm, 3)}  height {bare(ring.height_mm)}  "
        f"chamfer {bare(ring.chamfer_mm)} entry, {bare(ring.lower_chamfer_mm)} lower outside "
        f"({short()})",
        *foot_lines(ring),
        "; ".join(limit_words()),
        f"{order.data.plastic}, {order.rings} in one set-up, on the {order.lathe.name}",
        "",
        *caution_lines(
            (*BELT[bool(order.lathe.speed_names)], *(key for one in plan.passes for key in one.cautions))
        ),
        "",
        *_before_lines(plan),
        "",
    ]
    for (operation, number), found in groupby(plan.passes, key=lambda one: (one.operation, one.ring)):
        group = list(found)
        lines.append(
            _headline(
                OPERATION_NAMES[operation] + (f", ring {number}" if order.rings > 1 else ""), plan, group
            )
        )
        lines += _roughing(plan, group) if operation in operations.ROUGHING else _each(plan, group)
    return [
        *lines,
        "",
        pace.words(plan),
        *(f"to save time: {saved}" for saved in saving_words(order)),
        "outside past its size: " + "; ".join(WAYS_OUT_OUTSIDE),
        "bore past its size: " + "; ".join(ways_out_of_bore(order.ring)),
    ]


def _before_lines(plan: Plan) -> list[str]:
    order = plan.order
    held = (
        *held_words(order.stock.grip, order.bar),
        *unless_through(order.bar, order.lathe, order.stock),
    )
    said = (*map(translated, (*plan.stock_words, *held)), *plan.set_up_words)
    warned = (f"  ! {translated(word)}" for word in plan.warnings)
    return ["before you start", *(f"  - {word}" for word in said), *warned]


def _before(plan: Plan, one: Pass, along: str) -> list[str]:
    """What is set before a pass: tool, speed, zero, and how far it goes along the bar."""
    lathe = plan.order.lathe
    over = (speed_set(lathe, one.rpm),) if one.rpm and plan.new_speed(one) else ()
    return [f"      - {word}" for word in (*over, *one.before, along) if word]


def _each(plan: Plan, group: list[Pass]) -> list[str]:
    """Every pass in a line of its own."""
    lines, axis = [], plan.order.lathe.cross
    for at, one in enumerate(group):
        deep = one.cut_depth_mm is not None and one.operation != operations.DRESS
        lines += _before(plan, one, one.along_text if at == 0 else "")
        depth = f"  ({beside(axis, one.cut_depth_mm or 0.0, 3)} deep)" if deep else ""
        lines.append(f"{one.n:>4}  {one.reading_text}{depth}")
        lines += [f"      = {MEASURE_WORDS[one.measure]}"] if one.measure else []
    return lines


def _roughing(plan: Plan, group: list[Pass]) -> list[str]:
    """All roughing passes of one surface as one list of figures; of a dial each in its line."""
    first, last, axis = group[0], group[-1], plan.order.lathe.cross
    if len(group) < FEW or first.shows == "dial":
        return _each(plan, group)
    figures = "  ".join(one.figure_text for one in group)
    most, least = (beside(axis, one.cut_depth_mm or 0.0, 3) for one in (first, last))
    deep = f"({most} deep, falling to {least})"
    return [
        *_before(plan, first, first.along_text),
        f"{first.n:>4}  to {last.n}, {first.shows}:  {figures}  {deep}",
    ]


def _headline(head: str, plan: Plan, group: list[Pass]) -> str:
    one = group[0]
    tool = f", {tool_of(plan.order, one.tool)}" if one.tool else ""
    speed = f", {speed_words(plan.order.lathe, one.rpm)}" if one.rpm else ""
    feed = f", {length(one.feed_mm)} a turn" if one.feed_mm else ""
    return f"{head}{tool}{speed}{feed}"


def caution_lines(keys: Iterable[str]) -> list[str]:
    """The cautions of a plan, each once, a line of any length each."""
    return [f"! {caution(key).title}: {' '.join(caution(key).lines)}" for key in dict.fromkeys(keys)]


def wrap(line: str) -> list[str]:
    """A line as lines of a sheet."""
    if len(line) <= COLUMNS:
        return [line]
    indent = " " * (len(line) - len(line.lstrip()) + 2)
    return textwrap.wrap(line, COLUMNS, subsequent_indent=indent, drop_whitespace=True)
