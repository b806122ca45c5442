"""One function for each kind of section in shop.toml.

Invariant: a function reads every word its section may hold and refuses the rest with the line.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from bench.shop.file import ShopTable
from rules import tables
from rules.equipment import (
    USUAL_DRILL_MM,
    USUAL_GAUGE_STEP_BAR,
    USUAL_GRIP_MM,
    USUAL_NOSE_MM,
    Axis,
    Bar,
    Grip,
    Instrument,
    Lathe,
    Press,
    Tester,
    Tool,
)
from rules.limits import MM_PER_INCH


def list_of(section: ShopTable, key: str) -> list[ShopTable]:
    """The list of sections under a key, empty when it is not there."""
    return section.sections(key) or []


def lathe(one: ShopTable) -> Lathe:
    """A lathe with its slides and grips; the section of the carriage may be headed [lathe.long] as well."""
    cross, carriage = one.section("cross"), one.section("carriage") or one.section("long")
    if cross is None or carriage is None:
        raise one.wrong("a lathe needs the sections [lathe.cross] and [lathe.carriage]")
    return one.build(
        lambda: Lathe(
            name=one.text("name"),
            cross=axis(cross, "diameter", "outward"),
            carriage=axis(carriage, "length", "to_chuck"),
            speeds_rpm=one.numbers("speeds_rpm"),
            largest_rpm=one.number("largest_rpm"),
            stepless=one.yes("stepless", False),
            largest_drill_mm=one.number("largest_drill_mm", USUAL_DRILL_MM),
            grips=tuple(grip(each) for each in list_of(one, "grip")),
            speed_names=one.texts("speed_names"),
            shows_speed=one.yes("shows_speed", True),
            numbered_tools=one.yes("numbered_tools", True),
        )
    )


def axis(one: ShopTable, shows: str, direction: str) -> Axis:
    """One slide; without a step of its own a dial is set to whole divisions, and the figures of a dial on
    the cross slide grow inward where nothing is said.
    """
    if direction == "outward" and _length(one, "division"):
        direction = "inward"
    return one.build(
        lambda: Axis(
            shows=one.text("shows", shows),
            step_mm=_length(one, "step") or _length(one, "division") or 0.01,
            division_mm=_length(one, "division"),
            divisions_per_turn=one.whole("divisions_per_turn", 0),
            backlash_mm=_length(one, "backlash"),
            unit=one.text("unit", "mm"),
            direction=one.text("direction", direction),
        )
    )


def _length(one: ShopTable, name: str) -> float:
    """A length of a slide given in mm or in inch, 0 when it is not there; given twice it is refused."""
    in_mm, in_inch = one.number(f"{name}_mm", 0.0), one.number(f"{name}_in", 0.0)
    if in_mm and in_inch:
        raise one.wrong(f"give {name}_mm or {name}_in, not both", f"{name}_in")
    return in_mm or round(in_inch * MM_PER_INCH, 6)


def grip(one: ShopTable) -> Grip:
    """A collet or chuck."""
    return one.build(
        lambda: Grip(
            name=one.text("name"),
            smallest_mm=one.number("smallest_mm"),
            largest_mm=one.number("largest_mm"),
            length_mm=one.number("length_mm", USUAL_GRIP_MM),
        )
    )


def tool(one: ShopTable) -> Tool:
    """A tool."""
    return one.build(
        lambda: Tool(
            number=one.whole("number"),
            kind=one.text("kind"),
            name=one.text("name", ""),
            tool_set=one.text("set", "bench"),
            blade_mm=one.number("blade_mm", 0.0),
            smallest_bore_mm=one.number("smallest_bore_mm", 0.0),
            longest_reach_mm=one.number("longest_reach_mm", 0.0),
            shank_mm=one.number("shank_mm", 0.0),
            nose_radius_mm=one.number("nose_radius_mm", USUAL_NOSE_MM),
        )
    )


def bar(one: ShopTable) -> Bar:
    """A bar in stock."""
    return one.build(
        lambda: Bar(
            plastic=one.text("plastic"),
            diameter_mm=one.number("diameter_mm"),
            length_mm=one.number("length_mm"),
            colour=one.text("colour", "not said"),
        )
    )


def instrument(one: ShopTable) -> Instrument:
    """A measuring instrument."""
    return one.build(
        lambda: Instrument(
            name=one.text("name"),
            kind=one.text("kind"),
            resolution_mm=one.number("resolution_mm"),
            limit_of_error_mm=one.number("limit_of_error_mm"),
            unit=one.text("unit", "mm"),
        )
    )


def press(one: ShopTable) -> Press:
    """The glass press."""
    return one.build(
        lambda: Press(
            name=one.text("name", "hand press"),
            largest_force_n=one.number("largest_force_n") if one.has("largest_force_n") else None,
        )
    )


def tester(one: ShopTable) -> Tester:
    """The air tester."""
    return one.build(
        lambda: Tester(
            name=one.text("name", "air tester"),
            largest_bar=one.number("largest_bar"),
            gauge_step_bar=one.number("gauge_step_bar", USUAL_GAUGE_STEP_BAR),
        )
    )


def materials(top: ShopTable) -> Mapping[str, Mapping[str, Any]]:
    """The shop's own plastics, metals and glasses in the shape of the tables, checked by their reader."""
    found: dict[str, Mapping[str, Any]] = {}
    for key, kind in (("plastic", tables.Plastic), ("metal", tables.Metal), ("glass", tables.Glass)):
        section = top.section(key)
        found[f"{key}s" if key != "glass" else "glasses"] = _checked(section, kind) if section else {}
    return found


def _checked(section: ShopTable, kind: type[Any]) -> Mapping[str, Any]:
    for key, entry in section.table.items():
        try:
            tables.read(kind, {key: entry})
        except ValueError as why:
            named = str(why).split(":")[0].removeprefix(f"{key}.")
            inner = section.section(key) if isinstance(entry, dict) else None
            raise (inner or section).wrong(str(why), named if inner else key) from why
    return dict(section.table)
