"""The tools of a set: the number on each, the boring bar's smallest bore and reach, the blade.

Invariant: a tool keeps its kind and name.
"""

from __future__ import annotations

from dataclasses import replace

from bench.asking import names
from bench.asking.questions import choice, count, length, number_said
from bench.job.asking import Stage, word
from bench.shop.changes import Change
from bench.shop.groups import TOOLS
from bench.shop.shop import Shop
from rules.equipment import Tool

MORE = (
    ("boring", "another boring bar"),
    ("parting", "another parting blade"),
    ("turning", "another turning tool"),
)
MOST_MORE = 4


def tools_said(shop: Shop) -> Stage[Change]:
    """One set as it is said; of several, which."""
    which = shop.tool_sets[0]
    if len(shop.tool_sets) > 1:
        pairs = tuple((name, name) for name in shop.tool_sets)
        which = yield from word(choice(names.WHICH, "Which set of tools?", *pairs))
    numbered, inch = shop.lathes[0].numbered_tools, shop.works_in == "inch"
    found: list[Tool] = []
    for n, tool in enumerate(shop.tools, 1):
        if tool.tool_set == which:
            tool = yield from tool_said(tool, n, numbered=numbered, inch=inch)
        found.append(tool)
    for n in range(len(found) + 1, len(found) + MOST_MORE + 1):
        asked = choice(names.nth(names.TOOL_MORE, n), "Another tool for rings?", ("no", "no"), *MORE)
        kind = yield from word(asked)
        if kind not in dict(MORE):
            break
        free = max(tool.number for tool in found) + 1
        like = next(tool for tool in found if tool.kind == kind and tool.tool_set == which)
        new = replace(like, number=free, name=f"{dict(MORE)[kind].removeprefix('another ')} {free}")
        found.append((yield from tool_said(new, n, numbered=numbered, inch=inch)))
    return Change(TOOLS, tuple(found))


def tool_said(now: Tool, n: int, *, numbered: bool, inch: bool) -> Stage[Tool]:
    """One tool; its number only where it shows one."""
    called = now.name or now.kind
    said = now
    if numbered:
        step = count(
            names.nth(names.TOOL_NUMBER, n),
            f"{called}: its number".capitalize(),
            float(now.number),
            digits=4,
            low=1,
            high=9999,
        )
        said = replace(said, number=int((yield from number_said(step)) or now.number))
    if now.kind == "boring":
        return (yield from boring_said(said, n, inch=inch))
    return (yield from blade_said(said, n, inch=inch)) if now.kind == "parting" else said


def boring_said(now: Tool, n: int, *, inch: bool) -> Stage[Tool]:
    """What a boring bar goes into, and how far it stands out."""
    called, places = (now.name or now.kind).capitalize(), 1 + 1 * inch
    bore = yield from length(
        names.nth(names.GOES_INTO, n),
        f"{called}: the smallest bore it goes into",
        now.smallest_bore_mm,
        inch=inch,
        whole=2,
        places=places,
        low_mm=1.0,
        high_mm=80.0,
    )
    reach = yield from length(
        names.nth(names.REACHES, n),
        f"{called}: how far it stands out of its holder",
        now.longest_reach_mm,
        inch=inch,
        whole=3,
        places=1,
        low_mm=1.0,
        high_mm=200.0,
    )
    return replace(now, smallest_bore_mm=bore, longest_reach_mm=reach, shank_mm=min(now.shank_mm, bore))


def blade_said(now: Tool, n: int, *, inch: bool) -> Stage[Tool]:
    """How wide a blade is."""
    blade_mm = yield from length(
        names.nth(names.BLADE, n),
        f"{now.name or now.kind}: width of the blade".capitalize(),
        now.blade_mm,
        inch=inch,
        whole=1,
        places=2,
        low_mm=0.2,
        high_mm=6.0,
    )
    return replace(now, blade_mm=blade_mm)
