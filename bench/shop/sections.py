"""One function for each kind of section in shop.toml.

Invariant: a function reads every word its section may hold and refuses the rest with the line.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import permutations
from typing import Any

from bench.shop.file import ShopTable
from rules import tables
from rules.bars import GENERAL, RAW, USUAL_GRIP_MM, Bar, Grip
from rules.equipment import (
    CARRIAGE_DIRECTIONS,
    CARRIAGE_SHOWS,
    CROSS_DIRECTIONS,
    CROSS_SHOWS,
    DIAL_DIRECTIONS,
    USUAL_DRILL_MM,
    USUAL_NOSE_MM,
    Axis,
    Lathe,
    Tool,
)
from rules.instrument import Instrument
from rules.lengths import INCH, MM
from rules.limits import MM_PER_INCH
from rules.press_and_tester import TESTER_GIVES, USUAL_GAUGE_STEP_BAR, Press, Tester

ONE_OF_TWO = {
    "youngs_modulus_mpa": '{ value = 110000, unit = "MPa", source = "...", basis = "memory" }',
    "poisson_ratio": '{ value = 0.3, unit = "1", source = "...", basis = "memory" }',
}
"""What of metal and glass counts only together, each with an example."""
NAME_TWICE = "{what} {name!r} stands twice; give each a name of its own"
NUMBER_TWICE = "tool number {number} stands twice in the set {in_set!r}; give each its own"
IN_SET = "bench"
"""The set of a tool that names none."""


def each_once(top: ShopTable) -> None:
    """Refuse a name or number that stands twice, at the line where it does so again."""
    seen: set[tuple[object, ...]] = set()
    for what in ("lathe", "instrument"):
        for one in list_of(top, what):
            if (what, repr(name := one.table.get("name"))) in seen:
                raise one.wrong(NAME_TWICE.format(what=what, name=name), "name")
            seen.add((what, repr(name)))
    for one in list_of(top, "tool"):
        number, in_set = one.table.get("number"), one.table.get("set", IN_SET)
        if (repr(in_set), repr(number)) in seen:
            raise one.wrong(NUMBER_TWICE.format(number=number, in_set=in_set), "number")
        seen.add((repr(in_set), repr(number)))


def list_of(section: ShopTable, key: str) -> list[ShopTable]:
    """The list of sections under a key, empty when it is not there."""
    return section.sections(key) or []


def lathe(one: ShopTable, drills: str = MM) -> Lathe:
    """A lathe with its slides and grips; the section of the carriage may be headed [lathe.long] as well.

    drills: the unit of its drills where it is not said.
    """
    cross, carriage = one.section("cross"), one.section("carriage") or one.section("long")
    if cross is None or carriage is None:
        raise one.wrong("a lathe needs the sections [lathe.cross] and [lathe.carriage]")
    if not one.table.get("grip"):
        raise one.wrong("a lathe needs a section [[lathe.grip]] for each chuck or collet")
    return one.build(
        lambda: Lathe(
            name=one.text("name"),
            cross=axis(cross, CROSS_SHOWS, CROSS_DIRECTIONS),
            carriage=axis(carriage, CARRIAGE_SHOWS, CARRIAGE_DIRECTIONS),
            speeds_rpm=one.numbers("speeds_rpm"),
            largest_rpm=one.number("largest_rpm"),
            stepless=one.yes("stepless", False),
            largest_drill_mm=length(one, "largest_drill", USUAL_DRILL_MM),
            drills_mm=one.numbers("drills_mm") if one.has("drills_mm") else (),
            spindle_hole_mm=length(one, "spindle_hole", 0.0),
            grips=tuple(grip(each) for each in list_of(one, "grip")),
            drill_unit=one.text("drill_unit", drills),
            speed_names=one.texts("speed_names"),
            shows_speed=one.yes("shows_speed", True),
            numbered_tools=one.yes("numbered_tools", True),
        )
    )


def axis(one: ShopTable, shows: tuple[str, ...], directions: tuple[str, ...]) -> Axis:
    """One slide, what it may show and which way it may grow, the usual first."""
    division = length(one, "division", 0.0)
    if division and directions == CROSS_DIRECTIONS:
        directions = DIAL_DIRECTIONS
    return one.build(
        lambda: Axis(
            shows=one.one_of("shows", shows),
            step_mm=length(one, "step", 0.0) or division or 0.01,
            division_mm=division,
            divisions_per_turn=one.whole("divisions_per_turn", 0),
            backlash_mm=length(one, "backlash", 0.0),
            unit=unit(one, "step", "division"),
            direction=one.one_of("direction", directions),
        )
    )


def length(one: ShopTable, name: str, usual: float | None = None) -> float:
    """A length given in mm or in inch, as mm; without a usual value it must be there; given twice it is
    refused.
    """
    in_mm, in_inch = f"{name}_mm", f"{name}_in"
    if not one.has(in_inch):
        return one.number(in_mm, usual)
    if one.has(in_mm):
        raise one.wrong(f"give {in_mm} or {in_inch}, not both", in_inch)
    return round(one.number(in_inch) * MM_PER_INCH, 6)


def unit(one: ShopTable, *names: str) -> str:
    """The unit that is shown: as said, else that in which one of these lengths is given."""
    return one.text("unit", INCH if any(one.has(f"{name}_in") for name in names) else MM)


def grip(one: ShopTable) -> Grip:
    """A collet or chuck."""
    return one.build(
        lambda: Grip(
            name=one.text("name"),
            smallest_mm=length(one, "smallest"),
            largest_mm=length(one, "largest"),
            length_mm=length(one, "length", USUAL_GRIP_MM),
            kind=one.text("kind", GENERAL),
        )
    )


def tool(one: ShopTable) -> Tool:
    """A tool; what its kind needs has no usual value."""

    def needed(kind: str) -> float | None:
        return None if one.table.get("kind") == kind else 0.0

    return one.build(
        lambda: Tool(
            number=one.whole("number"),
            kind=one.text("kind"),
            name=one.text("name", ""),
            tool_set=one.text("set", IN_SET),
            blade_mm=length(one, "blade", needed("parting")),
            smallest_bore_mm=length(one, "smallest_bore", needed("boring")),
            longest_reach_mm=length(one, "longest_reach", needed("boring")),
            shank_mm=length(one, "shank", 0.0),
            nose_radius_mm=length(one, "nose_radius", USUAL_NOSE_MM),
            smallest_groove_mm=length(one, "smallest_groove", 0.0),
            largest_groove_mm=length(one, "largest_groove", 0.0),
            depth_mm=length(one, "depth", 0.0),
        )
    )


def bar(one: ShopTable) -> Bar:
    """A bar in stock."""
    return one.build(
        lambda: Bar(
            plastic=one.text("plastic"),
            diameter_mm=length(one, "diameter"),
            length_mm=length(one, "length"),
            colour=one.text("colour", "not said"),
            kind=one.text("kind", RAW),
            outside_mm=length(one, "outside", 0.0),
            bore_mm=length(one, "bore", 0.0),
            bore_deep_mm=length(one, "bore_deep", 0.0),
        )
    )


def instrument(one: ShopTable) -> Instrument:
    """A measuring instrument."""
    return one.build(
        lambda: Instrument(
            name=one.text("name"),
            kind=one.text("kind"),
            resolution_mm=length(one, "resolution"),
            limit_of_error_mm=length(one, "limit_of_error"),
            unit=unit(one, "resolution"),
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
            gives=one.text("gives", TESTER_GIVES[0]),
        )
    )


def materials(top: ShopTable) -> Mapping[str, Mapping[str, Any]]:
    """The shop's own plastics, metals and glasses in the shape of the tables, checked by their reader."""
    found: dict[str, Mapping[str, Any]] = {}
    for key, kind in (("plastic", tables.Plastic), ("metal", tables.Metal), ("glass", tables.Glass)):
        section = top.section(key)
        found[f"{key}s" if key != "glass" else "glasses"] = _checked(section, kind) if section else {}
    return found


def alone(section: ShopTable, key: str, this: str, other: str) -> None:
    """Refuse one of two properties that count only together."""
    inner = section.section(key)
    if inner is not None and this in inner.table and other not in inner.table:
        value = ONE_OF_TWO[other]
        raise inner.wrong(
            f"{this} is used only together with {other}; write {other} = {value} as well, "
            "or take this line out",
            this,
        )


def _checked(section: ShopTable, kind: type[Any]) -> Mapping[str, Any]:
    for key, entry in section.table.items():
        try:
            tables.read(kind, {key: entry})
        except ValueError as why:
            named = str(why).split(":")[0].removeprefix(f"{key}.")
            inner = section.section(key) if isinstance(entry, dict) else None
            raise (inner or section).wrong(str(why), named if inner else key) from why
        if kind is not tables.Plastic:
            for this, other in permutations(ONE_OF_TWO):
                alone(section, key, this, other)
    return dict(section.table)
