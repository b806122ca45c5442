"""Faults planted in the pages at the lathe, each to be caught by the repairer who reads only the page."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager, nullcontext
from dataclasses import dataclass
from unittest.mock import patch

from rules.equipment import Axis
from rules.turning import readout
from rules.turning.run import Run
from tests.campaigns.page_repairer import Spoil, Tally, as_it_is, run
from tests.independent.page_shops import PageShop, drawn

SHORTER_MM = 1.0
MOST_SHOPS = 12


def without_lengths(lines: list[str]) -> list[str]:
    """No page says how far along the bar."""
    return [re.sub(r"(turn|bore|groove|edge) along: go to [\w. -]*", "", line) for line in lines]


def another_tool(shop: PageShop) -> Spoil:
    """The numbers of the boring bar and of the chamfer tool are taken for each other."""
    number = {kind: f"tool {number}" for number, kind in shop.tools.items()}
    other = {number["boring"]: number["chamfer"], number["chamfer"]: number["boring"]}

    def spoiled(lines: list[str]) -> list[str]:
        return [re.sub(r"\btool \d+\b", lambda found: other.get(found[0], found[0]), line) for line in lines]

    return spoiled


def without_inch(lines: list[str]) -> list[str]:
    """The unit of every figure in inch is dropped."""
    return [re.sub(r"(\d\.\d+) in\b", r"\1", line) for line in lines]


@contextmanager
def no_rule() -> Iterator[None]:
    """No page says from which side one comes to a figure."""
    with patch.object(readout.CrossFrame, "backlash_words", lambda frame: ""):
        yield


@contextmanager
def mm_as_inch() -> Iterator[None]:
    """A read-out in inch is told the figure in mm."""
    own = readout.figure

    def wrong(axis: Axis, value_mm: float) -> str:
        return f"{value_mm:.3f} in" if axis.unit == "inch" else own(axis, value_mm)

    with patch.object(readout, "figure", wrong):
        yield


@contextmanager
def too_short(act: str) -> Iterator[None]:
    """How far to turn, or to bore, is said too small."""
    own = Run.along_text
    assert isinstance(own, property) and own.fget is not None
    said = own.fget

    def wrong(run_of: Run) -> str:
        text = str(said(run_of))
        shorter = readout.carriage_words(run_of.order.lathe.carriage, run_of.along_mm - SHORTER_MM)
        return f"{act} along: {shorter}" if text.startswith(act) else text

    with patch.object(Run, "along_text", property(wrong)):
        yield


@dataclass(frozen=True)
class Planted:
    """A fault, and the shops in which it can show."""

    where: Callable[[PageShop], bool]
    spoil: Callable[[PageShop], Spoil] = lambda shop: as_it_is
    product: Callable[[], AbstractContextManager[None]] = nullcontext
    by_wall: bool = False
    """Whether only a wall off its band counts as caught."""


def inch_figures(shop: PageShop) -> bool:
    """Whether its cross slide shows inch."""
    return shop.cross.unit == "in" and not shop.cross.division


FAULTS = {
    "lengths removed": Planted(lambda shop: True, spoil=lambda shop: without_lengths),
    "no backlash rule": Planted(
        lambda shop: bool(shop.cross.division) and shop.cross.stated_lost > 0.1, product=no_rule, by_wall=True
    ),
    "mm said as inch": Planted(inch_figures, product=mm_as_inch),
    "unit dropped": Planted(inch_figures, spoil=lambda shop: without_inch),
    "bore too shallow": Planted(lambda shop: True, product=lambda: too_short("bore")),
    "outside too short": Planted(lambda shop: True, product=lambda: too_short("turn")),
    "another tool": Planted(lambda shop: shop.numbered, spoil=another_tool),
}


def caught(name: str) -> tuple[int, Tally]:
    """How many shops it takes until a planted fault is caught, and what was seen; 0 where none shows it."""
    fault = FAULTS[name]
    seeds = [seed for seed in range(200) if fault.where(drawn(seed))][:MOST_SHOPS]
    tally = Tally()
    with fault.product():
        for many, seed in enumerate(seeds, 1):
            tally = run([seed], spoil=fault.spoil(drawn(seed)))
            if tally.off or (tally.faults and not fault.by_wall):
                return many, tally
    return 0, tally
