"""Hands at the lathe that do, sentence by sentence, what a page at the lathe says, and note what it lacks.

Imports nothing of the program.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from tests.independent.page_reader import Said, inches_of, mm
from tests.independent.page_settings import Settings
from tests.independent.page_work import MadeRing

CUTS = {"outside": "turning", "bore": "boring", "core": "face_grooving", "chamfer": "chamfer"}
CUTS |= {"lower edge": "chamfer", "part": "parting"}
ACT = {"outside": "turn", "bore": "bore", "core": "groove", "lower edge": "edge"}
"""Which length belongs to a surface."""
LOST_IF_UNSAID_MM = 0.5
"""So far back one goes by "more than the backlash"."""
UNSURE_MM = (0.4, 6.0)
"""Where no length is said it is guessed: never on purpose."""


@dataclass
class Hands(Settings):
    """What is done, sentence by sentence."""

    rule: dict[int, float] = field(default_factory=dict)
    """Direction to how far back one goes before a figure is come to again."""
    far: dict[str, float] = field(default_factory=dict)
    rings: list[MadeRing] = field(default_factory=list)
    dressed_to: float = 0.0
    burrs: bool = False

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
