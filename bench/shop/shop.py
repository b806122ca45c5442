"""The shop: what stands on this bench, from shop.toml or the built-in small shop.

Invariant: a `Shop` that exists can be worked with: at least one lathe, a turning, a boring, a chamfer and a
parting tool in every tool set, tool numbers unique in their set. A missing file is the built-in shop.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from bench.file.slug import SHOP
from bench.keypad import MOST_WINDOW_MS, WINDOW_MS
from bench.shop import sections
from bench.shop.file import ShopTable, ShopWrong, read
from rules.checks import OutOfRange, numbers, one_of
from rules.equipment import (
    TOOL_KINDS,
    Axis,
    Bar,
    Grip,
    Lathe,
    Press,
    Tester,
    Tool,
)
from rules.instrument import Instrument
from rules.lengths import INCH, LENGTH_UNITS, MM
from rules.limits import GLASS_STEP_MM, HAND_SCALE_PCT, MM_PER_INCH, RANGES
from rules.tables import plastics

__all__ = ["Shop", "ShopWrong", "built_in", "load"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """Everything the shop file says."""

    lathes: tuple[Lathe, ...]
    tools: tuple[Tool, ...]
    bars: tuple[Bar, ...]
    instruments: tuple[Instrument, ...]
    press: Press
    tester: Tester
    turning_spread_mm: float = 0.010
    """Standard deviation of what this bench turns, on the diameter, once corrected."""
    hand_scale_pct: float = HAND_SCALE_PCT
    """How softly the hand tells too easy from home and home from too tight, points of squeeze."""
    glass_step_mm: float = GLASS_STEP_MM
    """From one stock size of a glass to the next, on the diameter."""
    bounce_ms: int = WINDOW_MS
    bell: bool = True
    theme: str = "day"
    shop_name: str = ""
    tester_number: str = ""
    divers_equipped: bool = False
    works_in: str = "mm"
    materials: Mapping[str, Mapping[str, Any]] = field(default_factory=dict, hash=False)
    """Own "plastics", "metals" and "glasses" in the shape of the tables: the `own` of `rules.tables`."""
    is_built_in: bool = False

    def __post_init__(self) -> None:
        numbers(
            ("turning spread", self.turning_spread_mm, 0.0005, 0.1, "mm"),
            ("softness of the hand", self.hand_scale_pct, *RANGES["softness of the hand"]),
            ("glass step", self.glass_step_mm, 0.01, 1.0, "mm"),
            ("bounce", self.bounce_ms, 0, MOST_WINDOW_MS, "ms"),
            advice="correct it",
        )
        one_of("theme", self.theme, ("day", "night"))
        one_of("works in", self.works_in, LENGTH_UNITS)
        if not self.lathes or not self.instruments:
            raise OutOfRange("the shop needs at least one lathe and one instrument")
        for what, names in (("lathe", self.lathes), ("instrument", self.instruments)):
            twice = [one.name for one in names if sum(one.name == other.name for other in names) > 1]
            if twice:
                raise OutOfRange(f"{what} {twice[0]!r} stands twice; give each a name of its own")
        seen: set[tuple[str, int]] = set()
        for tool in self.tools:
            if (tool.tool_set, tool.number) in seen:
                raise OutOfRange(f"tool number {tool.number} stands twice in the set {tool.tool_set!r}")
            seen.add((tool.tool_set, tool.number))
        for name in self.tool_sets:
            missing = set(TOOL_KINDS) - {tool.kind for tool in self.tools_of(name)}
            if missing:
                raise OutOfRange(f"the tool set {name!r} lacks a tool for: {', '.join(sorted(missing))}")
        if not self.tools:
            raise OutOfRange("the shop needs a tool set: turning, boring, chamfer and parting")

    @property
    def tool_sets(self) -> tuple[str, ...]:
        """Names of the tool sets, in the order of the file."""
        return tuple(dict.fromkeys(tool.tool_set for tool in self.tools))

    def lathe_named(self, name: str) -> Lathe | None:
        """The lathe of that name; None when the shop no longer has it."""
        return next((lathe for lathe in self.lathes if lathe.name == name), None)

    def tools_of(self, name: str) -> tuple[Tool, ...]:
        """The tools of one set."""
        return tuple(tool for tool in self.tools if tool.tool_set == name)

    def bars_of(self, plastic: str) -> tuple[Bar, ...]:
        """The bars of one plastic, thinnest first."""
        return tuple(
            sorted((bar for bar in self.bars if bar.plastic == plastic), key=lambda bar: bar.diameter_mm)
        )


def _small_lathe() -> Lathe:
    return Lathe(
        name="small bench lathe",
        cross=Axis(shows="diameter", step_mm=0.01, backlash_mm=0.05, direction="outward"),
        carriage=Axis(shows="length", step_mm=0.01, backlash_mm=0.05, direction="to_chuck"),
        speeds_rpm=(150.0, 250.0, 420.0, 720.0, 1000.0, 1500.0, 2000.0),
        largest_rpm=2000.0,
        grips=(
            Grip(name="three-jaw chuck", smallest_mm=3.0, largest_mm=80.0, length_mm=20.0),
            Grip(name="collet", smallest_mm=3.0, largest_mm=16.0, length_mm=15.0),
        ),
    )


def built_in(works_in: str = MM) -> Shop:
    """The small shop that is used until there is a shop file, in mm or in inch."""
    return in_inch(_built_in()) if works_in == INCH else _built_in()


def in_inch(shop: Shop) -> Shop:
    """The shop as one that works in inch has it: slides, gauges, bars and drills in inch."""
    lathe = shop.lathes[0]
    cross, carriage = (
        replace(axis, step_mm=0.0005 * MM_PER_INCH, backlash_mm=0.002 * MM_PER_INCH, unit=INCH)
        for axis in (lathe.cross, lathe.carriage)
    )
    steps = {"calliper": 0.0005, "micrometer": 0.0001, "ball_micrometer": 0.0001}
    bars = {30.0: 1.25, 36.0: 1.5, 45.0: 1.75}
    return replace(
        shop,
        works_in=INCH,
        lathes=(replace(lathe, cross=cross, carriage=carriage, drill_unit=INCH),),
        instruments=tuple(
            replace(one, resolution_mm=steps[one.kind] * MM_PER_INCH, unit=INCH) for one in shop.instruments
        ),
        bars=tuple(
            replace(bar, diameter_mm=round(bars[bar.diameter_mm] * MM_PER_INCH, 3)) for bar in shop.bars
        ),
    )


def _built_in() -> Shop:
    return Shop(
        lathes=(_small_lathe(),),
        tools=(
            Tool(number=1, kind="turning", name="keen right-hand turning tool", nose_radius_mm=0.2),
            Tool(
                number=2,
                kind="boring",
                name="boring bar",
                smallest_bore_mm=8.0,
                longest_reach_mm=20.0,
                shank_mm=6.0,
                nose_radius_mm=0.2,
            ),
            Tool(number=3, kind="chamfer", name="45 degree chamfer tool"),
            Tool(number=4, kind="parting", name="parting blade", blade_mm=1.0),
        ),
        bars=(
            Bar(plastic="acetal", diameter_mm=30.0, length_mm=200.0, colour="white"),
            Bar(plastic="acetal", diameter_mm=36.0, length_mm=200.0, colour="white"),
            Bar(plastic="acetal", diameter_mm=45.0, length_mm=150.0, colour="black"),
            Bar(plastic="pa66", diameter_mm=36.0, length_mm=200.0, colour="natural"),
            Bar(plastic="pa66", diameter_mm=45.0, length_mm=150.0, colour="natural"),
        ),
        instruments=(
            Instrument(name="calliper", kind="calliper", resolution_mm=0.01, limit_of_error_mm=0.03),
            Instrument(name="micrometer", kind="micrometer", resolution_mm=0.001, limit_of_error_mm=0.004),
            Instrument(
                name="ball micrometer", kind="ball_micrometer", resolution_mm=0.001, limit_of_error_mm=0.004
            ),
        ),
        press=Press(name="hand press", largest_force_n=None),
        tester=Tester(
            name="air tester",
            largest_bar=3.0,
        ),
        is_built_in=True,
    )


def one_of_units(top: ShopTable) -> str:
    """The unit that the shop works in, mm where it is not said."""
    try:
        return one_of("works in", top.text("works_in", MM), LENGTH_UNITS)
    except OutOfRange as why:
        raise top.wrong(str(why), "works_in") from why


def load(folder: Path) -> Shop:
    """The shop of this folder; without a shop.toml the built-in one. What the file leaves out is built in.

    Raises ShopWrong with file, line and reason.
    """
    path = folder / SHOP
    if not path.exists():
        return built_in()
    top = read(path)
    works_in = one_of_units(top)
    usual = built_in(works_in)
    press, tester = top.section("press"), top.section("tester")
    shop = top.build(
        lambda: Shop(
            lathes=tuple(sections.lathe(one, works_in) for one in sections.list_of(top, "lathe"))
            or usual.lathes,
            tools=tuple(sections.tool(one) for one in sections.list_of(top, "tool")) or usual.tools,
            bars=tuple(sections.bar(one) for one in sections.list_of(top, "bar")) or usual.bars,
            instruments=tuple(sections.instrument(one) for one in sections.list_of(top, "instrument"))
            or usual.instruments,
            press=sections.press(press) if press else usual.press,
            tester=sections.tester(tester) if tester else usual.tester,
            materials=sections.materials(top),
            turning_spread_mm=sections.length(top, "turning_spread", usual.turning_spread_mm),
            hand_scale_pct=top.number("hand_scale_pct", usual.hand_scale_pct),
            glass_step_mm=sections.length(top, "glass_step", usual.glass_step_mm),
            bounce_ms=top.whole("bounce_ms", usual.bounce_ms),
            bell=top.yes("bell", usual.bell),
            theme=top.text("theme", usual.theme),
            shop_name=top.text("shop_name", usual.shop_name),
            tester_number=top.text("tester_number", usual.tester_number),
            divers_equipped=top.yes("divers_equipped", usual.divers_equipped),
            works_in=works_in,
        )
    )
    of_known_plastics(top, shop)
    return shop


def of_known_plastics(top: ShopTable, shop: Shop) -> None:
    """Raises ShopWrong for a bar of a plastic that neither the table nor the shop knows."""
    known = plastics(own=shop.materials["plastics"])
    for bar in sections.list_of(top, "bar"):
        try:
            one_of("plastic", bar.text("plastic"), known)
        except OutOfRange as why:
            raise bar.wrong(str(why), "plastic") from why
