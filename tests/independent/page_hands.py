"""Hands at the lathe that do, sentence by sentence, what a page at the lathe says, and note what it lacks.

Imports nothing of the program.
"""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import dataclass, field

from tests.independent.page_lathe import Lathe
from tests.independent.page_reader import Figure, Said, figure_of, inches_of, mm
from tests.independent.page_shops import PageShop
from tests.independent.page_work import MadeRing

KIND_OF = {
    "the turning tool": "turning",
    "the boring bar": "boring",
    "the chamfer tool": "chamfer",
    "the parting blade": "parting",
    "the face-grooving tool": "face_grooving",
}
CUTS = {"outside": "turning", "bore": "boring", "core": "face_grooving", "chamfer": "chamfer"}
CUTS |= {"lower edge": "chamfer", "part": "parting"}
ACT = {"outside": "turn", "bore": "bore", "core": "groove", "lower edge": "edge"}
"""Which length belongs to a surface."""
LOST_IF_UNSAID_MM = 0.5
"""So far back one goes by "more than the backlash"."""
CLEAR_MM = 0.25
"""What a page says of a size is no further from what follows from its own figures."""
UNSURE_MM = (0.4, 6.0)
"""Where no length is said it is guessed: never on purpose."""


@dataclass
class Hands:
    """One person at one lathe."""

    lathe: Lathe
    shop: PageShop
    draw: random.Random
    wanted_outside: float = 0.0
    """The ring's outside, mm."""
    lacks: list[str] = field(default_factory=list)
    """What a page did not say, or said against the lathe or itself."""
    seen: Counter[str] = field(default_factory=Counter)
    rule: dict[int, float] = field(default_factory=dict)
    """Direction to how far back one goes before a figure is come to again."""
    far: dict[str, float] = field(default_factory=dict)
    rings: list[MadeRing] = field(default_factory=list)
    dressed_to: float = 0.0
    burrs: bool = False
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

    def mount(self, tool: str) -> None:
        """A tool is put in."""
        if kind := self.kind_of(tool):
            self.lathe.mount(kind)
            self.seen["tool put in"] += 1

    def set_speed(self, rpm: str, step: str) -> None:
        """A speed is set that the lathe has."""
        speeds, named = self.shop.speeds, self.shop.step_names
        wanted = float(rpm)
        there = speeds[0] <= wanted <= speeds[-1] if self.shop.stepless else wanted in speeds
        if not there or (named and step != named[speeds.index(wanted)]):
            self.lack(f"no speed {rpm} {step}")

    def do(self, said: Said, surface: str) -> None:
        """One sentence; `surface`: that of the page, where a figure names none."""
        words, work = said.words, self.lathe.work
        if not self.lathe.tool and said.name != "change":
            self.lack("no tool stands in the post")
            return
        match said.name:
            case "face":
                work.faced(mm(words["face_off"]))
                self.lathe.zero_along(work.face)
                self.with_tool("turning", "face")
            case "touch_face" | "touch_edge":
                self.lathe.zero_along(work.face)
            case "touch":
                self.touch(words)
            case "rule":
                over = mm(words["over"]) if "over" in words else LOST_IF_UNSAID_MM
                self.rule[1 if words["way"] == "in" else -1] = 1.2 * over + 0.02
            case "change":
                self.mount(words["new_tool"])
            case "speed":
                self.set_speed(words["rpm"], words.get("step", ""))
            case "along":
                assert said.figure is not None
                self.far[words["act"]] = self.length(said.figure)
            case "kept":
                self.seen["a tool's offset kept"] += 1
                self.keeps = "unless" in words and (self.shop.remembers or self.set_for == self.lathe.tool)
            case "goes":
                self.go(said, words.get("what", "") or surface)
            case "rest":
                work.warm_by = self.draw.uniform(0.0, 1.0)
            case "dress":
                self.dressed_to = mm(words["high"])
            case "shorten":
                work.core = 0.0
                self.with_tool("turning", "core")

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
        """Divisions in all."""
        turn = self.lathe.cross.facts.per_turn if per_turn is None else per_turn
        return (figure.turns or 0) * turn + (figure.divisions or 0.0)

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

    def go(self, said: Said, what: str) -> None:
        """To a figure, and the cut that is made there."""
        figure, lathe = said.figure, self.lathe
        assert figure is not None
        try:
            if what.startswith(("centre", "drill")):
                self.drill(said)
            elif what in ("chamfer", "part"):
                self.with_tool(CUTS[what], what)
                self.along_only(what, lathe.along(self.length(figure)))
            elif what in ACT:
                self.with_tool(CUTS[what], what)
                way = -1 if what == "bore" else 1
                lathe.cross.go(self.screw_for(figure, what, way), way, self.rule.get(way))
                self.cut(what, lathe.along(self.far_of(ACT[what])), way)
            else:
                self.lack(f"no surface for {said.words['figure']}")
        except KeyError:
            self.lack(f"{what}: nothing was set to count from")

    def far_of(self, act: str) -> float:
        """How far along; guessed where no page says it."""
        if act not in self.far:
            self.lack(f"how far to {act} is not said")
            return self.draw.uniform(*UNSURE_MM)
        return self.far[act]

    def cut(self, what: str, upto: float, way: int) -> None:
        """One pass on a surface."""
        lathe, work = self.lathe, self.lathe.work
        if what == "core":
            assert self.shop.groover is not None
            blade, smallest, largest, deep = self.shop.groover
            outer = 2.0 * lathe.tip()
            if upto - work.face > deep or (not work.core and not smallest - 0.1 <= outer <= largest + 0.1):
                self.lack("the face-grooving tool is not made for this groove")
            work.groove(outer, blade, upto)
        elif what == "lower edge":
            work.chamfer_behind(upto, lathe.edge())
        else:
            work.cut(lathe.edge(), upto, outside=what == "outside", give=lathe.truth.spring)
            self.burrs = True
        lathe.draw_back(way)
        self.seen["passes"] += 1

    def drill(self, said: Said) -> None:
        """From the tailstock: its own scale, in the unit that is said."""
        assert said.figure is not None
        tip = self.lathe.work.face + said.figure.mm + self.draw.uniform(-0.2, 0.2)
        if "drill" not in said.words:
            return
        size = inches_of(said.words["drill"])
        if not any(abs(size - one) < 0.02 for one in self.shop.drills):
            self.lack(f"the shop has no drill of {size:.2f} mm")
        self.lathe.work.drill(size + min(abs(self.draw.gauss(0.0, 0.04)), 0.10), tip)
        self.seen["drilled"] += 1

    def along_only(self, what: str, at: float) -> None:
        """What the carriage alone does: the edge broken, the ring parted."""
        if what == "chamfer":
            return
        work, blade = self.lathe.work, self.shop.blade
        if self.behind is not None and not at - blade <= work.face + self.behind <= at:
            self.lack("the chamfer tool touched the ring, not what is cut away")
        self.rings.append(work.part(at, blade, self.wanted_outside))
        self.behind = None
