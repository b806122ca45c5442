"""The bars in stock: as they are, others, another one, or one that is used up or shorter.

Invariant: a bar that is not named stays as it is.
"""

from __future__ import annotations

from dataclasses import replace

from bench.asking import names
from bench.asking.questions import choice, length
from bench.job.asking import Stage, word
from bench.shop.changes import Change
from bench.shop.groups import BARS
from bench.shop.shop import Shop
from rules.bars import Bar
from rules.lengths import plainly, short
from rules.tables import plastics

AS_LISTED, OTHERS, ANOTHER, SHORTER = "as_listed", "others", "another", "shorter"
COLOURS = ("white", "black", "natural", "grey", "another colour")
FIRST = Bar(plastic="acetal", diameter_mm=36.0, length_mm=200.0, colour="white")
"""What is offered where a bar is keyed. Common practice, no source."""
MOST = 9


def bars_said(shop: Shop) -> Stage[Change]:
    """The bars as they are said."""
    known = BARS in shop.said
    ways = (
        (AS_LISTED, "these, as they stand" if known else "just these"),
        *(((ANOTHER, "these and another"), (SHORTER, "one is shorter, or used up")) if known else ()),
        *(() if known else ((OTHERS, "others: I key them"),)),
    )
    asked = choice(names.BARS_ARE, "Bars to turn rings from", *ways, say=bar_lines(shop.bars))
    way = yield from word(asked)
    if way == SHORTER:
        return Change(BARS, (yield from shortened(shop.bars, inch=shop.works_in == "inch")))
    if way not in (OTHERS, ANOTHER):
        return Change(BARS, shop.bars)
    new = yield from keyed(shop)
    return Change(BARS, (*(shop.bars if known else ()), *new))


def bar_lines(bars: tuple[Bar, ...]) -> tuple[str, ...]:
    """The bars by plastic, with their thicknesses."""
    across: dict[str, list[str]] = {}
    for bar in bars:
        across.setdefault(bar.plastic, []).append(plainly(bar.diameter_mm).partition(" ")[0])
    return tuple(f"{plastic}: {', '.join(sizes)} {short()}" for plastic, sizes in across.items())


def keyed(shop: Shop) -> Stage[tuple[Bar, ...]]:
    """Bars keyed one after another, at least one."""
    own, inch = plastics(shop.materials.get("plastics")), shop.works_in == "inch"
    found: list[Bar] = []
    last = FIRST
    for n in range(1, MOST + 1):
        if found:
            asked = choice(names.nth(names.BAR_MORE, n), "Another bar?", ("no", "no more"), ("yes", "yes"))
            if (yield from word(asked)) != "yes":
                break
        kinds = tuple((key, plastic.name) for key, plastic in own.items() if plastic.advised)
        plastic = yield from word(
            choice(names.nth(names.BAR_PLASTIC, n), f"Bar {n}: which plastic?", *kinds, usual=last.plastic)
        )
        across = yield from across_said(n, last, inch=inch)
        long = yield from long_said(
            names.nth(names.BAR_LENGTH, n), f"Bar {n}: how long is it?", last, 1.0, inch=inch
        )
        colours = tuple((one, one) for one in COLOURS)
        colour = yield from word(choice(names.nth(names.BAR_COLOUR, n), f"Bar {n}: its colour", *colours))
        last = Bar(plastic=plastic, diameter_mm=across, length_mm=long, colour=colour)
        found.append(last)
    return tuple(found)


def across_said(n: int, last: Bar, *, inch: bool) -> Stage[float]:
    """How thick a bar is, mm."""
    return length(
        names.nth(names.BAR_ACROSS, n),
        f"Bar {n}: how thick is it?",
        last.diameter_mm,
        inch=inch,
        whole=3,
        places=1 + 1 * inch,
        low_mm=3.0,
        high_mm=300.0,
        why="As it measures: bar stock runs oversize.",
    )


def long_said(key: str, title: str, now: Bar, least: float, *, inch: bool) -> Stage[float]:
    """What is left of a bar: to whole mm, or tenths of an inch."""
    return length(key, title, now.length_mm, inch=inch, whole=4, places=0, low_mm=least, high_mm=4000.0)


def shortened(bars: tuple[Bar, ...], *, inch: bool) -> Stage[tuple[Bar | None, ...]]:
    """One bar with what is left of it; None where it is used up."""
    pairs = tuple(
        (str(at), f"{bar.plastic} {bar.colour} {plainly(bar.diameter_mm)}, {plainly(bar.length_mm)} long")
        for at, bar in enumerate(bars)
    )
    at = int((yield from word(choice(names.BAR_WHICH, "Which bar?", *pairs))))
    long = yield from long_said(
        names.BAR_LEFT, "How much of it is left? 0 where it is used up", bars[at], 0.0, inch=inch
    )
    left = replace(bars[at], length_mm=long) if long >= 1.0 else None
    return (*bars[:at], left, *bars[at + 1 :])
