"""How a bar is held: what each kind of grip can hold, how far out, and what it does to the work.

Invariant: no grip is named that cannot hold the piece; what stands out unsupported is never longer than is
safe where its length cannot be chosen. Lengths in mm. Common practice, no source, unless said.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rules.bars import ARBOR, COLLET, GENERAL, SOFT_JAWS, STEP_COLLET, THREE_JAW, Bar, Grip
from rules.equipment import Lathe
from rules.lengths import length

FAR_OUT_DIAMETERS = 3.0
"""What stands out more than this many of its diameters has to be supported.

Source: the safety page of a bench lathe's manual, opened in excerpt: support stock that extends from the
chuck more than three times its own diameter. Here it is cut lighter, and a billet is sawn shorter.
"""
SHORT_DIAMETERS = 1.0
"""A grip without length of its own holds a piece no longer than this many diameters. Own judgement."""
THIN_TUBE = 1.0 / 6.0
"""Three jaws squeeze a tube out of round whose wall is thinner than this part of it. Own judgement."""


@dataclass(frozen=True, slots=True)
class Holding:
    """What a kind of grip is good for."""

    says: str
    """What it does to the work, and what to look at; empty where nothing is said."""
    turned_first: int
    """Rank for a piece that was turned before, the best first."""
    short_only: bool = False
    """Only for pieces about as long as they are thick."""
    light: bool = False
    """Roughing is halved."""


HOLDING = {
    SOFT_JAWS: Holding("soft jaws, bored in place to its size: run true, no marks", 0),
    STEP_COLLET: Holding("step collet: pushed home against the step, no marks", 1, short_only=True),
    COLLET: Holding("collet: runs true, no marks; only at its own size", 2),
    ARBOR: Holding(
        "stuck by its clean face: light cuts, and kept cool, as warmth lets it go; part clear of the glue",
        3,
        short_only=True,
        light=True,
    ),
    GENERAL: Holding("", 4),
    THREE_JAW: Holding("three jaws mark it: what they grip is no part of a ring", 5),
}


def grips_for(lathe: Lathe, bar: Bar) -> list[Grip]:
    """The grips that hold this piece: for one turned before those first that keep it true and unmarked, else
    the one made for the narrowest range.
    """
    size = bar.diameter_mm
    holding = [
        grip
        for grip in lathe.grips
        if grip.smallest_mm <= size <= grip.largest_mm
        and not (HOLDING[grip.kind].short_only and bar.length_mm - grip.length_mm > SHORT_DIAMETERS * size)
    ]

    def rank(grip: Grip) -> tuple[float, ...]:
        facts = HOLDING[grip.kind]
        first = facts.turned_first if bar.was_turned else (facts.short_only and facts.turned_first)
        return (first, grip.largest_mm - grip.smallest_mm)

    return sorted(holding, key=rank)


def goes_through(lathe: Lathe, bar: Bar) -> bool | None:
    """Whether the bar goes through the spindle; None where the hole is not said."""
    if not lathe.spindle_hole_mm:
        return None
    return max(bar.start_mm, bar.diameter_mm) < lathe.spindle_hole_mm


def longest_safe_mm(bar: Bar) -> float:
    """How far a piece may stand out unsupported."""
    return FAR_OUT_DIAMETERS * bar.diameter_mm


def held_words(grip: Grip, bar: Bar) -> tuple[str, ...]:
    """What is looked at when this piece is gripped so."""
    said = [HOLDING[grip.kind].says] if HOLDING[grip.kind].says else []
    wall = (bar.start_mm - bar.bore_mm) / 2.0
    if bar.bore_mm and grip.kind in (GENERAL, THREE_JAW) and wall < THIN_TUBE * bar.start_mm:
        said.append(f"wall {length(wall, 1)}: jaws squeeze it out of round; a plug in its bore, or soft jaws")
    return tuple(said)


def lacking_words(lathe: Lathe, bar: Bar) -> str:
    """What would hold a piece that no grip holds."""
    kinds: Sequence[str] = ("soft jaws", "a three-jaw chuck") if bar.was_turned else ("a three-jaw chuck",)
    return f"no grip of the {lathe.name} holds {bar.diameter_mm:.2f} mm; {' or '.join(kinds)} for it would"
