"""A person who sees nothing but the text of the pages, and goes from the first page at the lathe to the
measured ring. Imports nothing of the program.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import ClassVar

from tests.independent.page_hands import Hands
from tests.independent.page_lathe import Lathe, Slide
from tests.independent.page_measuring import Measuring
from tests.independent.page_reader import MM_PER_IN, Said, how_many, listed, sentences, targets, title_of
from tests.independent.page_text import FURTHER, Seen, flat, seen
from tests.independent.page_work import Work

MOST_PAGES = 260
STUCK = 4
"""A page that comes back so often unchanged is one that the person cannot answer."""
OUT = re.compile(
    r"([\d./]+) (mm|in) standing out; fit (tool \d+|the [a-z -]+?); set ([\d.]+) rpm(?: \(([^)]*)\))?"
)
NEXT = re.compile(r"chuck key out, fit (tool \d+|the [a-z-]+ [a-z-]+)")
SAW = re.compile(r"saw off ([\d.]+ (?:mm|in)) first")


@dataclass
class Person(Measuring):
    """The person, and what they remember from page to page."""

    hands_of: ClassVar[type[Hands]] = Hands
    """What hands the person has."""
    next_tool: str = ""
    speed: tuple[str, str] = ("", "")

    def __post_init__(self) -> None:
        self.piece = self.shop.pieces[0]
        self.gripped(10.0)

    def gripped(self, out: float) -> None:
        """The piece in the chuck."""
        slide = Slide(self.shop.cross, self.truth.lost, self.draw)
        work = Work(
            outside_start=self.piece.outside,
            bore_start=self.piece.bore,
            bore_deep=(self.piece.bore_deep or self.piece.length) if self.piece.bore else 0.0,
            chuck_at=out,
            ends_at=self.piece.length,
            expansion=1.1e-4,
            warm_by=self.truth.warm_rough,
        )
        old = getattr(self, "hands", None)
        lathe = Lathe(work, slide, self.truth, self.draw, self.shop.remembers)
        self.hands = self.hands_of(lathe, self.shop, self.draw)
        if old is not None:
            self.hands.lacks, self.hands.seen, work.faults = old.lacks, old.seen, old.lathe.work.faults
            self.hands.wanted_outside = old.wanted_outside

    def run(self) -> None:
        """Page after page, until the ring is measured or nothing goes on."""
        before, same = "", 0
        for _ in range(MOST_PAGES):
            page = seen(self.window.painted())
            same = same + 1 if page.text == before else 0
            before = page.text
            if same >= STUCK:
                self.ended = f"stuck: {page.text[:160]}"
                return
            answer = next((do for words, do in self.pages() if words in page.text), self.act)
            answer(page)
            if self.ended:
                return
        self.ended = "no end of it"

    def pages(self) -> tuple[tuple[str, Callable[[Seen], None]], ...]:
        """Pages by words that stand on them."""
        return (
            ("what does it measure, where it will be cut", self.bar),
            ("Its own bore: what does it measure", lambda page: self.key_mm(page, self.piece.bore)),
            ("tie, hanging hair: how many on", lambda page: self.window.type("0")),
            ("Eye protection: where is it", lambda page: self.choose(page, "on my face")),
            ("chuck key: where is it", self.set_up),
            ("Bar held, none out behind", self.bar_out),
            ("on which step is the belt", self.belt),
            ("key the number that its", lambda page: self.window.type(f"{float(self.speed[0]):.0f}")),
            ("next tool tight, on centre height", self.look),
            ("Outside on the bar, measured with the", self.outside),
            ("Wall over the open end with the", self.wall),
            ("Wall of the ring at place", self.ring_wall),
            ("Height of the ring", lambda page: self.end("measured")),
            ("Already past its size", self.past),
            ("cannot come from this cut", lambda page: self.end(f"impossible: {page.text[:200]}")),
            ("This ring cannot be turned", lambda page: self.end(f"refused: {page.text[:200]}")),
        )

    def whole(self, page: Seen) -> Seen:
        """The page with what stands behind "more" where it says so."""
        if not page.more:
            return page
        behind = self.behind()
        return Seen(behind.text, "", page.choices, page.lines, page.more, page.unit, page.decimals)

    def behind(self) -> Seen:
        """What * 1 Enter shows, scrolled to its end."""
        self.window.key("list")
        why = seen(self.window.painted()).choice("why this is asked")
        self.window.type(why)
        found: list[str] = []
        for _ in range(80):
            lines = [line.rstrip() for line in self.window.painted()][1:-1]
            more = any(FURTHER in line for line in lines)
            new = [line for line in lines if FURTHER not in line]
            while new and not new[-1]:
                new.pop()
            over = next((n for n in range(min(len(found), len(new)), 0, -1) if found[-n:] == new[:n]), 0)
            found += new[over:]
            if not more:
                break
            self.window.key("next")
        self.window.key("previous")
        self.hands.seen["read behind more"] += 1
        return Seen(flat(found), "", {}, tuple(found), False)

    def set_up(self, page: Seen) -> None:
        """How far it stands out, the first tool and speed."""
        found = OUT.search(page.text)
        if found is None:
            self.end(f"no set-up: {page.text[:160]}")
            return
        out = sum(float(top) / float(below or 1) for top, _, below in [found[1].partition("/")])
        out *= MM_PER_IN if found[2] == "in" else 1.0
        if out > self.piece.length - 3.0:
            self.hands.lack(f"{out:.1f} mm cannot stand out of {self.piece.length:.1f}")
        grip = re.search(r"Grip the bar in the ([a-z -]+);", self.whole(page).text)
        if grip is None or grip[1] not in {one[0] for one in self.shop.grips}:
            self.hands.lack("no grip of the shop is named")
        self.gripped(out + self.draw.uniform(-0.4, 0.4))
        self.speed = (found[4], found[5] or "")
        self.hands.set_speed(*self.speed)
        self.hands.mount(found[3])
        self.choose(page, "in its holder")

    def bar_out(self, page: Seen) -> None:
        """How far it stands out, read off a rule."""
        out = self.hands.lathe.work.chuck_at
        self.window.type(str(round(out * 16.0 / MM_PER_IN if "sixteenths" in page.text else out)))

    def belt(self, page: Seen) -> None:
        """The step as it is called, or the number that stands in its name."""
        if page.choices:
            self.choose(page, self.speed[1])
        else:
            self.window.type("".join(re.findall(r"\d", self.speed[1])))

    def look(self, page: Seen) -> None:
        """The tool that the page before named is put in, and looked at."""
        if not self.next_tool:
            self.hands.lack("no page names the next tool")
        self.hands.mount(self.next_tool)
        if page.choices:
            self.choose(page, self.next_tool.removeprefix("the "))
        else:
            self.window.type(self.next_tool.removeprefix("tool "))

    def past(self, page: Seen) -> None:
        """Past its size: the way that keeps the wall, else the end."""
        self.hands.seen["past its size"] += 1
        if page.choice("keeps the wall"):
            self.choose(page, "keeps the wall")
        else:
            self.end(f"past: {page.text[:160]}")

    def act(self, page: Seen) -> None:
        """A page at the lathe: what it says is done, then recorded."""
        said = self.said(page)
        if not targets(said):
            self.end(f"not understood: {page.text[:160]}")
            return
        name, tool, rpm = title_of(page.text)
        surface = next((one for one in ("outside", "bore", "core") if one in name.lower()), "")
        only = page.choice("only ") if self.shop.one_by_one else ""
        if rpm:
            step = re.search(rf"{re.escape(rpm)} rpm \(([^)]*)\)", page.text)
            self.hands.set_speed(rpm, step[1] if step else "")
        self.hands.lathe.work.warm_by = min(
            self.hands.lathe.work.warm_by + self.draw.uniform(0.0, 2.0), self.truth.warm_rough
        )
        for one in said:
            if tool and one.name in ("goes", "face") and self.hands.kind_of(tool) != self.hands.lathe.tool:
                self.hands.lack(f"{tool} is named, another is in the post")
            self.hands.do(one, surface)
            if only and one.name in ("goes", "face"):
                break
        if "burrs off both edges" in page.text:
            self.hands.burrs = False
        named = NEXT.search(" ".join(page.choices.values()))
        self.next_tool = named[1] if named else self.next_tool
        self.hands.seen["recorded one by one"] += bool(only)
        self.window.type(only or "1")

    def said(self, page: Seen) -> list[Said]:
        """The sentences of a page, from behind "more" where it says that there is more."""
        whole = self.whole(page)
        said = list(sentences(whole.text))
        if whole is page:
            what = next((one.words["what"] for one in reversed(said) if "what" in one.words), "")
            said += [replace(one, words={**one.words, "what": what}) for one in listed(page)]
        many = how_many(page)
        if many and many != len(targets(said)):
            self.hands.lack(f"{many} passes, {len(targets(said))} figures: {page.text[:80]}")
        if whole is not page:
            behind = {one.words["figure"] for one in said if "figure" in one.words}
            shown = {one.words["figure"] for one in sentences(page.text) if "figure" in one.words}
            if shown - behind:
                self.hands.lack("the page says another figure than stands behind more")
        return said
