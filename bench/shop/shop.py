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
from bench.languages import ENGLISH, LANGUAGES, instead_of
from bench.shop import sections, usual
from bench.shop.file import ShopTable, ShopWrong, parsed, read
from bench.shop.groups import GROUPS
from bench.shop.lately import NOTHING_YET, Lately
from bench.shop.lines import serial_lines
from bench.shop.serial_line import SerialLine
from rules.bars import Bar
from rules.checks import OutOfRange, numbers, one_of
from rules.equipment import NEEDED_KINDS, Lathe, Tool
from rules.instrument import Instrument
from rules.lengths import INCH, LENGTH_UNITS, MM
from rules.limits import GLASS_STEP_MM, HAND_SCALE_PCT, RANGES
from rules.press_and_tester import Press, Tester
from rules.tables import plastics
from rules.turning.duration import ASSUMED, ShopPace

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
    theme: str = "terminal"
    """Colours: as the terminal says where it does, or day or night in any case."""
    shop_name: str = ""
    tester_number: str = ""
    divers_equipped: bool = False
    works_in: str = "mm"
    learn_from_jobs: bool = True
    """Whether the sizing goes by how the rings finished here came out."""
    papers_in: str = ENGLISH
    """Language of the customer's papers, by its word."""
    lines: tuple[SerialLine, ...] = ()
    """Gauges on serial lines."""
    materials: Mapping[str, Mapping[str, Any]] = field(default_factory=dict, hash=False)
    """Own "plastics", "metals" and "glasses" in the shape of the tables: the `own` of `rules.tables`."""
    is_built_in: bool = False
    pace: ShopPace = ASSUMED
    """How long turning takes here: of the finished jobs beside the file, not of the file."""
    lately: Lately = NOTHING_YET
    """What the finished jobs beside the file say, for the page of the shop alone: no job is walked by it."""
    demo: bool = False
    """Everything is only tried: a hold may be hurried. No file says so, the program alone."""
    said: frozenset[str] = field(default=frozenset(GROUPS), compare=False)
    """The groups that this shop has said; only `load` finds some that it has not."""

    def __post_init__(self) -> None:
        numbers(
            ("turning spread", self.turning_spread_mm, 0.0005, 0.1, "mm"),
            ("softness of the hand", self.hand_scale_pct, *RANGES["softness of the hand"]),
            ("glass step", self.glass_step_mm, 0.01, 1.0, "mm"),
            ("bounce", self.bounce_ms, 0, MOST_WINDOW_MS, "ms"),
            advice="correct it",
        )
        one_of("theme", self.theme, ("terminal", "day", "night"))
        one_of("works in", self.works_in, LENGTH_UNITS)
        if self.papers_in not in LANGUAGES:
            raise OutOfRange(
                f"papers in: {self.papers_in!r} is no language of the papers; {instead_of(self.papers_in)}"
            )
        if not self.lathes or not self.instruments:
            raise OutOfRange("the shop needs at least one lathe and one instrument")
        for what, names in (("lathe", self.lathes), ("instrument", self.instruments)):
            twice = [one.name for one in names if sum(one.name == other.name for other in names) > 1]
            if twice:
                raise OutOfRange(sections.NAME_TWICE.format(what=what, name=twice[0]))
        seen: set[tuple[str, int]] = set()
        for tool in self.tools:
            if (tool.tool_set, tool.number) in seen:
                raise OutOfRange(sections.NUMBER_TWICE.format(number=tool.number, in_set=tool.tool_set))
            seen.add((tool.tool_set, tool.number))
        for name in self.tool_sets:
            missing = set(NEEDED_KINDS) - {tool.kind for tool in self.tools_of(name)}
            if missing:
                raise OutOfRange(
                    f"the tool set {name!r} lacks a tool for: {', '.join(sorted(missing))}; add one"
                )
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
            sorted(
                (bar for bar in self.bars if bar.plastic == plastic),
                key=lambda bar: (bar.start_mm, -bar.bore_mm),
            )
        )


def built_in(works_in: str = MM) -> Shop:
    """The small shop that is used until there is a shop file, in mm or in inch."""
    found = usual.in_inch if works_in == INCH else usual.in_mm
    return Shop(
        **found(),
        works_in=works_in,
        press=Press(name="hand press", largest_force_n=None),
        tester=Tester(name="air tester", largest_bar=3.0),
        is_built_in=True,
    )


def one_of_units(top: ShopTable) -> str:
    """The unit that the shop works in, mm where it is not said."""
    try:
        return one_of("works in", top.text("works_in", MM), LENGTH_UNITS)
    except OutOfRange as why:
        raise top.wrong(str(why), "works_in") from why


def load(folder: Path) -> Shop:
    """The shop of this folder; without a shop.toml the built-in one. What the file leaves out is built in,
    and not said.

    Raises ShopWrong with file, line and reason.
    """
    path = folder / SHOP
    return from_file(read(path)) if path.exists() else replace(built_in(), said=frozenset())


def shop_of(raw: bytes, name: str) -> Shop:
    """The shop that the bytes of a file say; raises ShopWrong with name, line and reason."""
    return from_file(parsed(raw, name))


def from_file(top: ShopTable) -> Shop:
    """The shop that a file says; raises ShopWrong with file, line and reason."""
    works_in = one_of_units(top)
    assumed = built_in(works_in)
    sections.each_once(top)
    press, tester = top.section("press"), top.section("tester")
    shop = top.build(
        lambda: Shop(
            lathes=tuple(sections.lathe(one, works_in) for one in sections.list_of(top, "lathe"))
            or assumed.lathes,
            tools=tuple(sections.tool(one) for one in sections.list_of(top, "tool")) or assumed.tools,
            bars=tuple(sections.bar(one) for one in sections.list_of(top, "bar")) or assumed.bars,
            instruments=tuple(sections.instrument(one) for one in sections.list_of(top, "instrument"))
            or assumed.instruments,
            press=sections.press(press) if press else assumed.press,
            tester=sections.tester(tester) if tester else assumed.tester,
            materials=sections.materials(top),
            turning_spread_mm=sections.length(top, "turning_spread", assumed.turning_spread_mm),
            hand_scale_pct=top.number("hand_scale_pct", assumed.hand_scale_pct),
            glass_step_mm=sections.length(top, "glass_step", assumed.glass_step_mm),
            bounce_ms=top.whole("bounce_ms", assumed.bounce_ms),
            bell=top.yes("bell", assumed.bell),
            theme=top.text("theme", assumed.theme),
            shop_name=top.text("shop_name", assumed.shop_name),
            tester_number=top.text("tester_number", assumed.tester_number),
            divers_equipped=top.yes("divers_equipped", assumed.divers_equipped),
            works_in=works_in,
            learn_from_jobs=top.yes("learn_from_jobs", assumed.learn_from_jobs),
            papers_in=top.text("papers_in", assumed.papers_in),
            lines=serial_lines(top, works_in),
            said=frozenset(group for group in GROUPS if top.table.get(group)),
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
