"""The measuring tools: what each reads to, or that there is none; others that are there.

Invariant: an instrument keeps its name and kind; its limit of error follows what it reads to, unless that
stays as it was.
"""

from __future__ import annotations

from dataclasses import replace

from bench.asking import names
from bench.asking.questions import choice
from bench.job.asking import Stage, word
from bench.shop.changes import Change
from bench.shop.groups import INSTRUMENTS
from bench.shop.shop import Shop
from rules.instrument import Instrument
from rules.lengths import in_unit, short

NONE = "none"
TO = {
    "0.001": (0.001, 0.004, "mm", "thousandths, 0.001 mm"),
    "0.005": (0.005, 0.010, "mm", "0.005 mm"),
    "0.01": (0.01, 0.010, "mm", "hundredths, 0.01 mm"),
    "0.02": (0.02, 0.03, "mm", "0.02 mm"),
    "0.05": (0.05, 0.05, "mm", "0.05 mm"),
    "0.0001 in": (0.00254, 0.004, "inch", "ten-thousandths, 0.0001 in"),
    "0.0005 in": (0.0127, 0.03, "inch", "0.0005 in"),
    "0.001 in": (0.0254, 0.03, "inch", "thousandths, 0.001 in"),
}
"""What may be read to: mm, limit of error in mm, unit, in words. Common practice, no source."""
CALLIPER_ERROR_MM = 0.03
"""The least limit of error of a calliper, whatever it shows. Common practice, no source."""
READ_BY = {
    "calliper": ("0.01", "0.02", "0.05", "0.0005 in", "0.001 in"),
    "plug": ("0.001", "0.01"),
    "bore_gauge": ("0.001", "0.005", "0.01", "0.0001 in", "0.0005 in"),
    "depth_gauge": ("0.01", "0.02", "0.0005 in", "0.001 in"),
    "micrometer": ("0.001", "0.01", "0.0001 in", "0.001 in"),
    "ball_micrometer": ("0.001", "0.01", "0.0001 in", "0.001 in"),
}
"""What each kind may read to."""
MORE = {
    "micrometer": "micrometer",
    "ball_micrometer": "ball micrometer",
    "bore_gauge": "bore gauge",
    "depth_gauge": "depth gauge",
}
NAMED = {"calliper": "calliper", "plug": "plug", **MORE}


def instruments_said(shop: Shop) -> Stage[Change]:
    """Each instrument, then others."""
    inch = shop.works_in == "inch"
    found: list[Instrument | None] = []
    kinds = {tool.kind for tool in shop.instruments}
    for n, tool in enumerate(shop.instruments, 1):
        found.append((yield from instrument_said(tool, n, inch=inch, there=INSTRUMENTS in shop.said)))
    for n in range(len(found) + 1, len(found) + len(MORE) + 1):
        left = tuple((kind, name) for kind, name in MORE.items() if kind not in kinds)
        if not left:
            break
        asked = choice(names.nth(names.READS_MORE, n), "Another measuring tool?", ("no", "no"), *left)
        kind = yield from word(asked)
        if kind not in MORE:
            break
        kinds.add(kind)
        new = as_read(
            Instrument(name=MORE[kind], kind=kind, resolution_mm=0.01, limit_of_error_mm=0.01),
            first_of(kind, inch=inch),
        )
        said = yield from instrument_said(new, n, inch=inch, there=False)
        found += [said] if said is not None else []
    return Change(INSTRUMENTS, tuple(found))


def instrument_said(now: Instrument, n: int, *, inch: bool, there: bool) -> Stage[Instrument | None]:
    """What one reads to, None where there is none; `there`: it stands in the file, in its own unit."""
    same_unit = there or (now.unit == "inch") == inch
    usual = read_to(now) if same_unit else first_of(now.kind, inch=inch)
    offered = dict.fromkeys((usual, *(to for to in READ_BY[now.kind] if to in TO)))
    pairs = (*((to, words_of(to, now)) for to in offered), (NONE, "there is none"))
    step = choice(
        names.nth(names.READS_TO, n),
        f"{now.name.capitalize()}: what does it read to?",
        *pairs,
        usual=usual,
        why="A reading is keyed with just these decimals, and is as good as the tool that gave it.",
    )
    said = yield from word(step)
    if said == NONE:
        return None
    return now if said == read_to(now) and same_unit else as_read(now, said)


def read_to(tool: Instrument) -> str:
    """The word for what an instrument reads to; its own where it is none of the usual."""
    same = (to for to, (mm, _, unit, _) in TO.items() if mm == tool.resolution_mm and unit == tool.unit)
    return next(same, "as it is")


def words_of(to: str, now: Instrument) -> str:
    """What it reads to, in words."""
    return (
        TO[to][3]
        if to in TO
        else f"{in_unit(now.resolution_mm, now.unit):.4g} {short(now.unit)}, as it stands in the file"
    )


def first_of(kind: str, *, inch: bool) -> str:
    """What a kind usually reads to, in this unit."""
    return next(to for to in READ_BY[kind] if to.endswith(" in") is inch or kind == "plug")


def as_read(tool: Instrument, to: str) -> Instrument:
    """The instrument as one that reads to this."""
    if to not in TO:
        return tool
    mm, error, unit, _ = TO[to]
    least = CALLIPER_ERROR_MM if tool.kind in ("calliper", "depth_gauge") else 0.0
    return replace(tool, resolution_mm=mm, limit_of_error_mm=max(error, least), unit=unit)
