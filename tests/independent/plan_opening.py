"""What is wrong with how a plan opens the hole and holds the bar: drills, cores, own bores, billets.

It imports nothing of the project: the plan is its JSON object, the workshop plain numbers.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

SMALL = 1e-6
LEAST_CORE = 6.0
SAFE_DIAMETERS = 3.0


@dataclass(frozen=True)
class Stock:
    """The piece that is to be turned and what there is to open and hold it, in plain numbers."""

    diameter: float
    outside: float
    bore: float
    bore_deep: float
    """How deep the bore is; 0 right through."""
    length: float
    spindle_hole: float
    """0 where it is not known."""
    grips: dict[str, tuple[float, float, float, bool]] = field(default_factory=dict)
    """Smallest, largest, length, and whether it holds short pieces only, by name."""
    drills: tuple[float, ...] = ()
    cores: dict[int, tuple[float, float, float, float]] = field(default_factory=dict)
    """Smallest and largest first groove, depth and blade of the face-grooving tools, by number."""
    bars: dict[int, float] = field(default_factory=dict)
    """Smallest bore of the boring bars, by number."""


class Hole:
    """The end of the bar while rings are cut from it: what stands round which hole."""

    def __init__(self, stock: Stock, deep: float) -> None:
        self.stock = stock
        self.deep = deep
        self.bore = 0.0
        self.core = 0.0
        self.grooves = 0
        self.must_shorten = False

    def face(self) -> list[str]:
        """The end is cleaned: a fresh ring begins."""
        found = ["the core of the ring before stands in the way"] if self.must_shorten else []
        through = not self.stock.bore_deep or self.stock.bore_deep >= self.deep
        self.bore, self.core, self.grooves = self.stock.bore if through else 0.0, 0.0, 0
        return found

    def drill(self, one: dict[str, Any]) -> list[str]:
        """A drill from the tailstock."""
        size = one["material_diameter_after_mm"]
        found = [] if any(abs(size - there) < SMALL for there in self.stock.drills) else [f"no drill {size}"]
        if size <= self.bore + SMALL:
            found.append(f"drill {size} in a hole of {self.bore}")
        self.bore = max(self.bore, size)
        return found

    def groove(self, one: dict[str, Any], outer: float, ring: dict[str, Any]) -> list[str]:
        """One groove in the face; a core is left inside."""
        smallest, largest, depth, blade = self.stock.cores.get(one["tool"], (0.0, -1.0, 0.0, 0.0))
        found = []
        if not self.grooves and not smallest - SMALL <= outer <= largest + SMALL:
            found.append(f"first groove {outer} outside {smallest} to {largest}")
        if self.grooves and not self.core < outer < self.core + 2.0 * blade:
            found.append(f"groove {outer} does not meet the one before")
        if one["along_mm"] > depth + SMALL:
            found.append(f"groove {one['along_mm']} deep with a tool for {depth}")
        if outer >= ring["bore_mm"]:
            found.append(f"groove {outer} cuts into the ring")
        self.bore = self.bore if self.grooves else outer
        self.core = outer - 2.0 * blade
        self.grooves += 1
        return found

    def enter(self, one: dict[str, Any]) -> list[str]:
        """A boring bar goes in."""
        room = (self.bore - self.core) / 2.0 if self.core else self.bore
        needs = self.stock.bars.get(one["tool"], 1e9)
        found = [] if room >= needs - SMALL else [f"a boring bar for {needs} in room of {room}"]
        if self.core and self.core < LEAST_CORE - SMALL:
            found.append(f"core of {self.core}")
        return found

    def part(self) -> None:
        """The ring drops; a core stays."""
        self.must_shorten = bool(self.core)


def held_faults(plan: dict[str, Any], stock: Stock, used: float) -> list[str]:
    """What is wrong with how the bar is held, and with what is said to be left."""
    bar, out = plan["bar"], plan["bar"]["stick_out_mm"]
    found = (
        [f"a bar with a bore of {stock.bore} for this ring"] if stock.bore >= plan["ring"]["bore_mm"] else []
    )
    smallest, largest, length, short = stock.grips.get(bar["grip"], (0.0, -1.0, 0.0, False))
    if not smallest <= stock.diameter <= largest:
        found.append(f"grip {bar['grip']} holds no {stock.diameter}")
    piece = bar["sawn_mm"] or stock.length
    if piece > stock.length + SMALL or out + length > piece + SMALL:
        found.append(f"{out} out of a piece of {piece}, {length} gripped")
    if short and out > stock.diameter + SMALL:
        found.append(f"{out} out of a grip for short pieces")
    if stock.spindle_hole and max(stock.diameter, stock.outside) >= stock.spindle_hole:
        if out > SAFE_DIAMETERS * stock.diameter + SMALL:
            found.append(f"billet stands out {out}")
        if abs(out + length - piece) > SMALL:
            found.append(f"a billet of {piece} with {out} out and {length} gripped")
    elif bar["sawn_mm"]:
        found.append("sawn though it goes through")
    left = stock.length - (bar["sawn_mm"] + 2.0 if bar["sawn_mm"] else used)
    if abs(left - bar["left_mm"]) > SMALL or abs(used - bar["used_mm"]) > SMALL:
        found.append(f"stock: used {used}, left {left}")
    return found
