"""What a person reads at the lathe, from the text of a page alone, with expressions of its own.

Imports nothing of the program: the sentences are those that its pages show.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from tests.independent.page_text import Seen

MM_PER_IN = 25.4
LEN = r"-?\d+(?:\.\d+)?(?: in| mm)?"
DIAL = r"(?:(?:\d+ turns? )?[\d.]+ div|\d+ turns? [\d.]+ dial)(?: before 0)?"
FIGURE = rf"(?:{DIAL}|{LEN}(?: from zero)?)"
KINDS = "turning tool|boring bar|chamfer tool|parting blade|face-grooving tool"
TOOL = rf"(?:tool \d+|the (?:{KINDS}))"
TITLE = re.compile(rf"([^:]+): (?:(?P<tool>{TOOL}), )?(?P<rpm>[\d.]+) rpm")
SAID = re.compile(
    "|".join(
        (
            rf"(?P<face>face: (?P<face_off>{LEN})(?: \({DIAL}\))? off; carriage to zero)",
            r"(?P<touch_face>touch off on the face(?P<blade> with the side of the blade nearer the chuck)?: "
            r"carriage to zero)",
            r"(?P<touch_edge>touch off on the bore's open edge: carriage to zero)",
            r"(?P<touch>touch off on the (?P<surface>outside|bore)(?P<where>[^(]*?) "
            rf"\((?P<there>{LEN})\)(?:: (?:set the read-out to|the read-out must show) (?P<shown>{LEN})"
            r"(?:, (?P<shown_which>diameter|radius))?|, moving (?:in|out): dial to (?P<mark>[\d.]+)"
            rf"(?:, counted as (?P<counted>{DIAL}))?; turned (?:in|out) it counts (?P<counts>up|down)"
            r"(?: from (?P<turn>\d+))?))",
            r"(?P<rule>come to every figure moving (?P<way>in|out)(?:, the dial counting (?:up|down))?"
            r"; past it, back (?:in|out) "
            rf"by (?:over (?P<over>{LEN})|more than the backlash) and come again)",
            rf"(?P<kept>(?:{TOOL}) cuts (?:{LEN} (?:larger|smaller) than it shows: allowed for;"
            r"|as it shows:) do not set it again"
            r"(?P<unless>, unless the read-out was set for another tool since: then)?)",
            rf"(?P<change>spindle stopped: fit (?P<new_tool>{TOOL})(?: \([^)]*\))?, tight)",
            r"(?P<speed>(?:spindle stopped: set|belt over, to) (?P<rpm>[\d.]+) rpm(?: \((?P<step>[^)]*)\))?)",
            rf"(?P<along>(?P<act>turn|bore|floor|groove|edge) along: go to (?P<far>{FIGURE})"
            rf"(?:, length|, makes (?P<far_makes>{LEN}))?(?:, {LEN} a turn)?)",
            rf"(?P<from_foot>off the floor, back in to {FIGURE}, makes (?P<inner>{LEN}): the bore of)",
            r"(?P<goes>(?:(?P<what>outside|foot bore|floor|bore|core|lower edge|chamfer|part|centre drill|"
            rf"drill of (?P<drill>[\d./ ]+ (?:mm|in))): )?go to (?P<figure>{FIGURE})"
            rf"(?:, (?P<which>diameter|radius|length)| ?, makes (?P<makes>{LEN}))*)",
            rf"(?P<shorten>core: face it down, (?P<long>{LEN}) long)",
            rf"(?P<dress>dress: parted face [^,]*, (?:to (?P<high>{LEN}) high"
            rf"|until the foot is (?P<thick>{LEN})))",
            r"(?P<rest>rest: spindle stopped, (?P<minutes>[\d.]+) minutes)",
        )
    )
)
THEN = re.compile(r"  then (\S.*)")
THEN_MORE = re.compile(r"       (\S.*)")
MAKES = re.compile(rf"(?P<figure>{FIGURE})(?: makes (?P<makes>{LEN}))?")


@dataclass(frozen=True)
class Figure:
    """A figure on a read-out or a dial, with what is said of it."""

    mm: float = 0.0
    """A figure of a read-out, in mm of what it shows; of a dial: nothing."""
    divisions: float | None = None
    """Of a dial without its whole turns, or what stands at its mark; None on a read-out."""
    turns: int | None = None
    """None where they are not said."""
    which: str = ""
    makes_mm: float | None = None
    mark: float | None = None
    """What stands at the mark of the dial, where that is said instead of what is counted."""


@dataclass(frozen=True)
class Said:
    """One sentence, by its name in the expression, with what it says."""

    name: str
    words: dict[str, str]
    figure: Figure | None = None


def mm(text: str) -> float:
    """A length as it is read: without a unit in mm."""
    number, _, unit = text.partition(" ")
    return float(number) * (MM_PER_IN if unit == "in" else 1.0)


def inches_of(text: str) -> float:
    """A drill by its marking, mm."""
    number, _, unit = text.rpartition(" ")
    if unit == "mm":
        return float(number)
    parts = [piece.split("/") for piece in number.split()]
    return MM_PER_IN * sum(float(top[0]) / (float(top[1]) if len(top) > 1 else 1.0) for top in parts)


def figure_of(text: str, *, which: str = "", makes: str = "") -> Figure:
    """A figure from its words."""
    made = mm(makes) if makes else None
    if " di" not in text:
        return Figure(mm(text.removesuffix(" from zero")), which=which, makes_mm=made)
    words = text.split()
    back = -1 if text.endswith(" before 0") else 1
    turns = back * int(words[0]) if "turn" in text else None
    stands = "dial" in words
    number = float(words[words.index("dial" if stands else "div") - 1])
    divisions, mark = back * number, number if stands else None
    return Figure(divisions=divisions, turns=turns, which=which, makes_mm=made, mark=mark)


def title_of(text: str) -> tuple[str, str, str]:
    """Operation, tool and speed at the head of a page; nothing where no tool or speed stands there."""
    found = TITLE.match(text)
    return (found[1], found["tool"] or "", found["rpm"]) if found else ("", "", "")


def sentences(text: str) -> Iterator[Said]:
    """What a page says, in its order."""
    for found in SAID.finditer(text):
        words = {name: value for name, value in found.groupdict().items() if value is not None}
        name = next(one for one in words if words[one] == found[0])
        figure = None
        if name == "goes":
            which, makes = words.get("which", ""), words.get("makes", "")
            figure = figure_of(words["figure"], which=which, makes=makes)
        elif name == "along":
            figure = figure_of(words["far"], makes=words.get("far_makes", ""))
        yield Said(name, words, figure)


def listed(page: Seen) -> Iterator[Said]:
    """The targets of a short list, line after line."""
    rows: list[list[str]] = []
    for line in page.lines[1:-1]:
        found = THEN.fullmatch(line) or (THEN_MORE.fullmatch(line) if rows else None)
        if found:
            rows.append(re.split(r"\s{2,}", found[1].strip()))
        elif rows:
            break
    for row in rows:
        for text in row:
            if one := MAKES.fullmatch(text):
                figure = figure_of(one["figure"], makes=one["makes"] or "")
                yield Said("goes", {"figure": one["figure"]}, figure)


TARGETS = ("goes", "face", "shorten", "dress", "rest")


def targets(said: list[Said]) -> list[Said]:
    """What one goes to or does, without what is set for it."""
    return [one for one in said if one.name in TARGETS]


MANY = re.compile(r"all (\d+) made|(both) made|(done)|(cool)")


def how_many(page: Seen) -> int:
    """How many passes the page says that it holds; 0 where it does not say it."""
    found = MANY.search(page.choices.get(1, ""))
    if found is None:
        return 0
    return int(found[1]) if found[1] else 2 if found[2] else 1
