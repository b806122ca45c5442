"""The page that asks a shop that has said nothing whether it is as assumed, and the list of its parts.

Invariant: one answer ends it; what is assumed stands on the page.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from bench.asking import names
from bench.asking.bars import bar_lines
from bench.asking.lately import lately_picture, lately_why, lately_words
from bench.asking.measuring import NAMED
from bench.asking.questions import choice, listed
from bench.job.steps import Step
from bench.languages import LANGUAGES
from bench.shop.groups import BARS, GROUPS, INSTRUMENTS, LATHE, PAPERS, PRESS, TESTER, TOOLS, UNITS
from bench.shop.shop import Shop
from rules.equipment import Axis, Lathe, Tool
from rules.lengths import plainly, speaking

ALL, ASK, LATER, BACK = "as_assumed", "ask", "later", "back"
SHOP = "shop"
TITLES = {
    SHOP: "Is this your lathe, and your shop?",
    LATHE: "Is this your lathe?",
    TOOLS: "Are these your tools?",
    INSTRUMENTS: "Are these your measuring tools?",
    BARS: "Are these your bars?",
    PRESS: "Is this your press?",
    TESTER: "Is this your tester?",
}


def opening_step(shop: Shop, groups: Iterable[str]) -> Step:
    """Is it as assumed? Asked once for all groups that are needed and were not said."""
    asked = tuple(groups)
    lines = tuple(line for group in asked for line in in_words(shop, group))
    several = len(asked) > 1
    return choice(
        names.OPENING,
        TITLES[SHOP if several else asked[0]],
        (ALL, "yes, all as assumed"),
        (ASK, "no: ask me page by page"),
        (LATER, "go on: pages say it is assumed"),
        say=lines,
        why=(
            "Figures to go to, speeds and tools are given as they stand at your lathe. What you say is "
            "written to shop.toml and never asked again; * then my shop changes it."
        ),
    )


def part_step(shop: Shop) -> Step:
    """Which part of the shop is looked at or changed."""
    is_on = "on" if shop.learn_from_jobs else "off"
    learns = f"learning from finished rings: {'; '.join((is_on, *lately_words(shop.lately)))}"
    parts = ((group, f"{name}: {'; '.join(in_words(shop, group))}") for group, name in GROUPS.items())
    said = ((group, text + ("" if group in shop.said else " (assumed)")) for group, text in parts)
    return choice(
        names.PART,
        "My shop: what is to be changed?",
        *said,
        (UNITS, f"mm or inch: works in {shop.works_in}; {learns}"),
        (BACK, "nothing more: back"),
        (PAPERS, f"language of the customer's papers: {LANGUAGES[shop.papers_in].name}"),
        why=" ".join(
            ("It is written to shop.toml, which any editor changes as well.", *lately_why(shop.lately))
        ),
        picture=lately_picture(shop.lately),
    )


def learning_step(shop: Shop) -> Step:
    """Whether a ring is sized by how the rings finished here came out."""
    return choice(
        names.LEARNS,
        "Size rings by how those finished here came out?",
        ("yes", "yes: where walls land, and how far they spread"),
        ("no", "no: by what is assumed"),
        usual="yes" if shop.learn_from_jobs else "no",
        say=lately_words(shop.lately),
        why=(
            "Off the lathe walls lie a little beside what was aimed at, each shop in its own way. With rings "
            "finished here the aim allows for it, and chances are said for this shop. A ring accepted keeps "
            "what it was decided with."
        ),
    )


def units_step(shop: Shop) -> Step:
    """mm or inch."""
    return choice(
        names.WORKS_IN,
        "What does this shop measure in?",
        ("mm", "mm"),
        ("inch", "inch"),
        usual=shop.works_in,
        why="A gauge that stands on the other unit is then caught.",
    )


def papers_step(shop: Shop) -> Step:
    """In which language the customer's papers are printed."""
    return choice(
        names.PAPERS_IN,
        "Language of the customer's papers",
        *((one.word, one.known_as) for one in LANGUAGES.values()),
        usual=shop.papers_in,
        why=(
            "Pages and the workshop's sheet stay in English; a job may have a language of its own (usual "
            "values). Until a speaker has read a translation through, its papers say that the English holds."
        ),
    )


def in_words(shop: Shop, group: str) -> tuple[str, ...]:
    """A group of the shop in lines that fit a narrow window."""
    said: Mapping[str, Any] = {
        LATHE: lambda: lathe_lines(shop.lathes[0]),
        TOOLS: lambda: tool_lines(shop.tools_of(shop.tool_sets[0])),
        INSTRUMENTS: lambda: (", ".join(NAMED[one.kind] for one in shop.instruments),),
        BARS: lambda: ("; ".join(bar_lines(shop.bars)),),
        PRESS: lambda: (force_words(shop),),
        TESTER: lambda: (f"to {shop.tester.largest_bar:g} bar, gives {shop.tester.gives}",),
    }
    found: tuple[str, ...] = said[group]()
    return found


def lathe_lines(lathe: Lathe) -> tuple[str, ...]:
    """Slide and speeds."""
    joint = " to " if lathe.stepless else ", "
    speeds = joint.join(f"{one:g}" for one in lathe.speeds_rpm)
    return (
        slide_words(lathe.cross),
        f"{speeds} rpm" if lathe.stepless else listed(lathe.speeds_rpm, "rpm"),
    )


def slide_words(axis: Axis) -> str:
    """How a cross slide shows where it stands."""
    shown = axis.division_mm if axis.is_dial else axis.step_mm
    by = "dial, divisions of" if axis.is_dial else "read-out to"
    return f"{by} {by_unit(shown, axis.unit)}, {axis.shows}"


def by_unit(step_mm: float, unit: str) -> str:
    """A step in the unit that its slide is marked in."""
    with speaking(unit):
        return plainly(step_mm)


def tool_lines(tools: Iterable[Tool]) -> tuple[str, ...]:
    """Boring bar and blade, which decide what can be turned."""
    kept = tuple(tools)
    bore = min(tool.smallest_bore_mm for tool in kept if tool.kind == "boring")
    blade = min(tool.blade_mm for tool in kept if tool.kind == "parting")
    return (f"{len(kept)} tools, bores from {plainly(bore)}, blade {plainly(blade)}",)


def force_words(shop: Shop) -> str:
    """How far the press goes."""
    force = shop.press.largest_force_n
    if force is None:
        return f"{shop.press.name}, force not known"
    return f"{shop.press.name}, to {force:g} N, about {force / 9.81:.0f} kg"
