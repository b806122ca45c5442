"""The shop as the tables of shop.toml: each group as its sections hold it.

Invariant: what is written here loads again to an equal thing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from typing import Any

from bench.shop.groups import BARS, INSTRUMENTS, LATHE, PRESS, TESTER, TOOLS
from bench.shop.shop import Shop
from rules.bars import Bar
from rules.equipment import Axis, Lathe, Tool
from rules.limits import MM_PER_INCH

Table = dict[str, Any]
IN_INCH = ("step_mm", "division_mm", "backlash_mm")
"""Lengths of a slide that stand in inch where it is marked in inch."""


def things(shop: Shop, group: str) -> tuple[Any, ...]:
    """What of a group stands in the shop, in the order of the file."""
    found: Mapping[str, tuple[Any, ...]] = {
        LATHE: shop.lathes,
        TOOLS: shop.tools,
        BARS: shop.bars,
        INSTRUMENTS: shop.instruments,
        PRESS: (shop.press,),
        TESTER: (shop.tester,),
    }
    return found[group]


def is_list(group: str) -> bool:
    """Whether a group has a section for each of several things: [[bar]] against [press]."""
    return group not in (PRESS, TESTER)


def table(thing: Any) -> Table:
    """One thing as the words of its section."""
    if isinstance(thing, Lathe):
        return _lathe(thing)
    if isinstance(thing, Bar):
        return _said(thing)
    return _tool(thing) if isinstance(thing, Tool) else _plain(thing)


def _plain(thing: Any) -> Table:
    pairs = {field.name: getattr(thing, field.name) for field in fields(thing)}
    return {
        key: list(value) if isinstance(value, tuple) else value
        for key, value in pairs.items()
        if value is not None
    }


def _said(thing: Any) -> Table:
    """What is said of a thing beyond its usual values."""
    usual = {field.name: field.default for field in fields(thing)}
    return {key: value for key, value in _plain(thing).items() if value != usual[key]}


def _lathe(lathe: Lathe) -> Table:
    found = _plain(lathe)
    grips = [_said(grip) for grip in found.pop("grips")]
    del found["cross"], found["carriage"]
    return {**found, "cross": _axis(lathe.cross), "carriage": _axis(lathe.carriage), "grip": grips}


def _axis(axis: Axis) -> Table:
    found = _plain(axis)
    if not axis.is_dial:
        found.pop("division_mm")
        found.pop("divisions_per_turn")
    if axis.unit == "inch":
        return dict(_in_inch(name, value) for name, value in found.items())
    return found


def _in_inch(name: str, value: Any) -> tuple[str, Any]:
    """A length in inch, where it comes back as it was."""
    if name in IN_INCH:
        inches = round(value / MM_PER_INCH, 6)
        if round(inches * MM_PER_INCH, 6) == value:
            return f"{name.removesuffix('_mm')}_in", inches
    return name, value


def _tool(tool: Tool) -> Table:
    found = _plain(tool)
    name = found.pop("tool_set")
    if name != "bench":
        found["set"] = name
    return {key: value for key, value in found.items() if value != 0.0}
