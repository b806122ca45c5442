"""A turning order as one short text, so that a job keeps the lathe, tools and bar that it was planned for.

Invariant: `from_text(to_text(order))` is the order itself, whatever the shop file says by then.
"""

from __future__ import annotations

import json
from dataclasses import asdict, replace
from typing import Any

from bench.job import keys
from bench.job.remembered import remembered
from bench.job.steps import Words
from rules.bars import GENERAL, RAW, Bar, Grip
from rules.checks import OutOfRange
from rules.equipment import Axis, Lathe, Tool
from rules.ring import Ring
from rules.turning.opening import Opening, usual_opening
from rules.turning.order import Order, parted_mm
from rules.turning.schedule import CuttingData
from rules.turning.stock import use_of_bar

TOOLS = ("turning", "boring", "chamfer", "parting")
UNSAID = (
    *(("speed_names", ()), ("shows_speed", True), ("numbered_tools", True), ("drills_mm", ())),
    *(("spindle_hole_mm", 0.0), ("smallest_groove_mm", 0.0), ("largest_groove_mm", 0.0), ("depth_mm", 0.0)),
    *(("kind", GENERAL), ("kind", RAW), ("outside_mm", 0.0), ("bore_mm", 0.0), ("bore_deep_mm", 0.0)),
    ("drill_unit", "mm"),
    *(("foot_mm", 0.0), ("foot_bore_mm", 0.0), ("corner_mm", 0.0)),
)
"""What is not written of a lathe, a tool, a grip or a bar of which nothing special is said."""
SAID = "direction"
"""Kept with an order in which a dial says which way its figures grow; else they grow as the slide goes in."""
UNUSABLE = "the plan kept with the job cannot be used"
INSTEAD = "this one is worked out from the shop: look whether it goes on from what is cut"
KEPT_WITH = (keys.LATHE_SPEED, keys.LATHE_BAR)
"""The checks with which an order is kept, the last before anything turns."""
NO_ORDER = (ValueError, TypeError, KeyError, AttributeError, ArithmeticError)
"""What is raised of a text that is well formed and no order; OutOfRange is a ValueError too."""
LONGEST = 12_000
"""Characters as they are written in the file, whose lines take 16 KiB."""


def kept_words(order: Order) -> Words:
    """The order as a decided value; none for a shop of so many words
    that a line of the file cannot hold it.
    """
    text = to_text(order)
    return (f"order {text}",) if len(json.dumps(text)) <= LONGEST else ()


@remembered
def to_text(order: Order) -> str:
    """The order as one line of JSON, about two kilobytes; how much of the bar goes follows from the rest."""
    facts = {**asdict(order), **({"dials": SAID} if order.lathe.cross.is_dial else {})}
    del facts["stock"]
    if order.opening == usual_opening(order.boring, order.lathe.drill_unit):
        del facts["opening"]
    return json.dumps(_bare(facts), separators=(",", ":"), allow_nan=False, ensure_ascii=False)


def _bare(said: Any) -> Any:
    """The same without what is not written."""
    if isinstance(said, dict):
        return {key: _bare(value) for key, value in said.items() if (key, value) not in UNSAID}
    return [_bare(one) for one in said] if isinstance(said, (list, tuple)) else said


def from_text(text: str) -> Order:
    """The order that a text keeps; raises OutOfRange when it is none or holds what cannot be."""
    try:
        return _order(json.loads(text))
    except OutOfRange as why:
        raise OutOfRange(f"{UNUSABLE} ({why}); {INSTEAD}") from why
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError, ArithmeticError) as why:
        raise OutOfRange(f"{UNUSABLE}, it is no turning order; {INSTEAD}") from why


def _order(raw: dict[str, Any]) -> Order:
    said = raw.pop("dials", "") == SAID
    ring, lathe, bar = Ring(**raw["ring"]), _lathe(raw["lathe"], said=said), Bar(**raw["bar"])
    tools = {kind: Tool(**raw[kind]) for kind in TOOLS}
    facts: dict[str, Any] = {
        **raw,
        **tools,
        "ring": ring,
        "opening": _opening(raw.get("opening"), tools["boring"], lathe.drill_unit),
        "lathe": lathe,
        "bar": bar,
        "data": CuttingData(**raw["data"]),
        "stock": use_of_bar(
            bar=bar,
            lathe=lathe,
            outside_diameter_mm=ring.outside_diameter_mm,
            each_mm=parted_mm(ring, tools["parting"]),
            rings=1 + int(raw["spares"]),
        ),
        "offsets_mm": tuple((int(number), float(offset)) for number, offset in raw["offsets_mm"]),
    }
    return Order(**facts)


def _opening(raw: dict[str, Any] | None, boring: Tool, unit: str) -> Opening:
    """How the hole is opened, as it is kept; one drill where nothing is."""
    if raw is None:
        return usual_opening(boring, unit)
    more: dict[str, Any] = {
        name: tuple(map(float, raw[name])) for name in ("drills_mm", "grooves_mm") if name in raw
    }
    facts: dict[str, Any] = {**raw, **more, "tool": Tool(**raw["tool"]) if raw.get("tool") else None}
    return Opening(**facts)


def _lathe(raw: dict[str, Any], *, said: bool) -> Lathe:
    cross = Axis(**raw["cross"])
    return Lathe(
        **{
            **raw,
            "cross": replace(cross, direction="inward") if cross.is_dial and not said else cross,
            "carriage": Axis(**raw["carriage"]),
            "speeds_rpm": tuple(raw["speeds_rpm"]),
            "speed_names": tuple(raw.get("speed_names", ())),
            "drills_mm": tuple(raw.get("drills_mm", ())),
            "grips": tuple(Grip(**grip) for grip in raw["grips"]),
        }
    )
