"""Read-outs and dials set and read as a page says it, on a virtual lathe; what the page lacks is noted.

Imports nothing of the program.
"""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import dataclass, field

from tests.independent.page_lathe import Lathe
from tests.independent.page_reader import Figure, figure_of, mm
from tests.independent.page_shops import PageShop

KIND_OF = {
    "the turning tool": "turning",
    "the boring bar": "boring",
    "the chamfer tool": "chamfer",
    "the parting blade": "parting",
    "the face-grooving tool": "face_grooving",
}
CLEAR_MM = 0.25
"""What a page says of a size is no further from what follows from its own figures."""


@dataclass
class Settings:
    """One person at one lathe: what was set, and how it is read."""

    lathe: Lathe
    shop: PageShop
    draw: random.Random
    wanted_outside: float = 0.0
    """The ring's outside, mm."""
    lacks: list[str] = field(default_factory=list)
    """What a page did not say, or said against the lathe or itself."""
    seen: Counter[str] = field(default_factory=Counter)
    behind: float | None = None
    """Where the chamfer tool touched, from the face."""
    keeps: bool = False
    """Whether the touch that is said next is for those alone whose read-out was set for another tool."""
    set_for: str = ""
    """The tool for which the read-out was set last."""
    _zero: dict[tuple[str, str], tuple[float, float]] = field(default_factory=dict)
    """Tool and surface to the size touched and the count there."""

    def lack(self, what: str) -> None:
        """Note what a page lacks, once."""
        if what not in self.lacks:
            self.lacks.append(what)

    def kind_of(self, tool: str) -> str:
        """The kind of a tool as a page names it; empty where the shop has none."""
        number = tool.removeprefix("tool ")
        kind = self.shop.tools.get(int(number), "") if number.isdigit() else KIND_OF.get(tool, "")
        if kind not in self.shop.tools.values():
            self.lack(f"the shop has no {tool}")
        return kind

    def with_tool(self, kind: str, what: str) -> None:
        """What is cut wants its own kind of tool."""
        if self.lathe.tool != kind:
            self.lack(f"{what} with a {self.lathe.tool} tool")

    def touch(self, words: dict[str, str]) -> None:
        """A tool touches off, and read-out or dial are set."""
        slide, work = self.lathe.cross, self.lathe.work
        if self.keeps:
            self.keeps = False
            return
        self.set_for = self.lathe.tool
        outside, there = words["surface"] == "outside", mm(words["there"])
        way, at = (1 if outside else -1), work.face + 0.4
        if " at " in words["where"]:
            self.behind = self.length(figure_of(words["where"].partition(" at ")[2].partition(",")[0]))
            at = work.face + self.behind
        truly = work.outside_at(at) if outside else work.bore_at(at)
        if abs(truly - there) > CLEAR_MM:
            self.lack(f"{words['surface']} said to be {there:.3f}, is {truly:.3f}")
        further = self.shop.groover[0] if "nearer the middle" in words["where"] and self.shop.groover else 0.0
        self.lathe.touch(truly, way, further=further)
        key = self.lathe.key
        if "shown" in words:
            figure = figure_of(words["shown"], which=words.get("shown_which", ""))
            if slide.facts.division:
                self.lack("a read-out is set where there is a dial")
                return
            slide.shows_now(key, self.on_display(figure))
            self._zero[self.lathe.tool, words["surface"]] = (there + 2.0 * further, 0.0)
            return
        counted = self.count(figure_of(words["counted"])) if "counted" in words else 0.0
        if not slide.facts.division or (words["counts"] == "up") != (way * slide.facts.grows > 0):
            self.lack("the dial is said to count the other way")
            return
        slide.counts(key, float(words["mark"]), counted, way)
        self.seen["dial counted against its figures"] += words["counts"] == "down"
        self._zero[self.lathe.tool, words["surface"]] = (there + 2.0 * further, counted)

    def on_display(self, figure: Figure) -> float:
        """A figure of the cross slide as its display counts, mm."""
        shows = self.lathe.cross.facts.shows
        if figure.which in ("", shows):
            return figure.mm
        return figure.mm * (2.0 if shows == "diameter" else 0.5)

    def count(self, figure: Figure, per_turn: int | None = None) -> float:
        """Divisions in all; a dial that runs backwards is short of a turn by what stands at its mark."""
        turn = self.lathe.cross.facts.per_turn if per_turn is None else per_turn
        divisions = figure.divisions or 0.0
        if figure.mark == divisions:  # not counted back from 0
            divisions = -divisions % turn
        return (figure.turns or 0) * turn + divisions

    def length(self, figure: Figure) -> float:
        """A figure of the carriage as a length from where it counts."""
        facts = self.shop.carriage
        if (figure.divisions is not None) != bool(facts.division):
            self.lack("the carriage does not show such a figure")
            return 0.0
        if figure.divisions is None:
            return figure.mm * facts.grows
        found = self.count(figure, facts.per_turn) * facts.division
        if figure.makes_mm is not None and abs(figure.makes_mm - found) > 0.02:
            self.lack(f"a length said to make {figure.makes_mm:.3f} makes {found:.3f}")
        return found

    def screw_for(self, figure: Figure, surface: str, way: int) -> float:
        """Where the screw stands at a figure of the cross slide; raises KeyError where nothing was set."""
        slide, key = self.lathe.cross, self.lathe.key
        if figure.divisions is None:
            if slide.facts.division:
                self.lack("a read-out's figure where there is a dial")
            return slide.screw_at(key, self.on_display(figure))
        count, turn = self.count(figure), slide.facts.per_turn
        screw = slide.zero[key] + way * count * slide.travel
        if figure.mark is not None and turn:
            off = (slide.mark_of(key, screw) - figure.mark + turn / 2) % turn - turn / 2
            screw -= slide.facts.grows * off * slide.travel
            if abs(off) > 0.02:
                self.lack("the dial shows another mark than is said")
        there, counted = self._zero[self.lathe.tool, "bore" if surface == "bore" else "outside"]
        found = there - 2.0 * way * (count - counted) * slide.travel
        if figure.makes_mm is not None and abs(found - figure.makes_mm) > CLEAR_MM:
            self.lack(f"{surface} said to make {figure.makes_mm:.3f}, makes {found:.3f}")
        return screw
