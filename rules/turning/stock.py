"""How far the bar stands out of the chuck, how much of it the rings use and how much is left.

Invariant: used = first facing + each ring's height, dressing and blade + facing between
rings; used + left = the bar, or sawn off + the saw's cut + left. A bar that is too thin, too short or that no
grip holds is refused with what is missing. Lengths in mm.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules.bars import RAW, Bar, Grip
from rules.checks import OutOfRange
from rules.equipment import Lathe
from rules.lengths import bare, length
from rules.turning.holding import (
    HOLDING,
    SHORT_DIAMETERS,
    goes_through,
    grips_for,
    lacking_words,
    longest_safe_mm,
)

FIRST_FACING_MM = 0.30
NEXT_FACING_MM = 0.20
CLEAR_OF_JAWS_MM = 3.0
"""Between the last parting cut and the jaws. Common practice, no source."""
SKIN_MM = 1.0
"""A bar is at least this much larger than the outside, on the diameter: for runout and roughing.

Common practice.
"""
TURNED_SKIN_MM = 0.7
"""One that was turned before: for the finishing passes and one that makes it run true. Own judgement."""
OVERSIZE_MM = 0.5
"""How much thicker than the size it goes by a bar usually is. EN 15860 has rod of this size 0.2 to 1.2 mm
over, from memory.
"""
SAW_MM = 2.0
"""Width of the saw's cut and what is not square beside it. Own judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StockUse:
    """What one set-up does to a bar."""

    grip: Grip
    rings: int
    each_mm: float
    """Height, dressing and blade of one ring."""
    used_mm: float
    stick_out_mm: float
    left_mm: float
    """Length of the bar that is left, without the stub of a piece that was sawn off."""
    sawn_mm: float = 0.0
    """Length of the piece that is sawn off first; 0 where none is."""

    def words(self, bar: Bar) -> tuple[str, ...]:
        """Sentences for the person who takes the bar from the rack."""
        rings = "1 ring uses" if self.rings == 1 else f"{self.rings} rings use"
        said = [f"bar: {bar.plastic}, {bar.colour}, {size_of(bar)}, held in the {self.grip.name}"]
        if self.sawn_mm:
            said.append(f"it does not go through the spindle: saw off {length(self.sawn_mm, 0)} first")
            said.append(
                f"{rings} {length(self.used_mm)} of that; {length(self.left_mm, 1)} of the bar are left, "
                f"and a stub of {length(self.sawn_mm - self.used_mm, 1)}"
            )
            return tuple(said)
        said.append(f"{rings} {length(self.used_mm)} of it; {length(self.left_mm, 1)} are left")
        if self.left_mm < self.stick_out_mm + self.grip.length_mm:
            said.append("what is left is too short for another such set-up")
        return tuple(said)


def size_of(bar: Bar) -> str:
    """Its size as it is taken from the rack, with what it measures and its own bore."""
    named = "" if bar.kind == RAW else f" {bar.kind.replace('_', '-')}"
    size = f"{length(bar.diameter_mm)}{named}"
    if bar.outside_mm and abs(bar.outside_mm - bar.diameter_mm) > 1e-9:
        size += f", measures {bare(bar.outside_mm)}"
    return size + (f", bore {bare(bar.bore_mm)}" if bar.bore_mm else "")


def unless_through(bar: Bar, lathe: Lathe, stock: StockUse) -> tuple[str, ...]:
    """What is done with a long bar where nobody has said how wide the hole through the spindle is."""
    out = bar.length_mm - stock.grip.length_mm
    if goes_through(lathe, bar) is not None or out <= longest_safe_mm(bar):
        return ()
    piece = stock.stick_out_mm + stock.grip.length_mm
    return (f"if it does not go through the spindle, saw off {length(piece, 0)} first",)


def usual_size_mm(bar: Bar) -> float:
    """What a bar that was not measured usually measures."""
    return bar.outside_mm or bar.diameter_mm + (0.0 if bar.was_turned else OVERSIZE_MM)


def used_for(*, rings: int, each_mm: float) -> float:
    """Length that goes for a number of rings in one set-up."""
    return FIRST_FACING_MM + rings * each_mm + (rings - 1) * NEXT_FACING_MM


def piece_of(*, bar: Bar, lathe: Lathe, grip: Grip, needed_mm: float) -> tuple[float, float]:
    """How far out it stands, and the length of a piece sawn off first, 0 where none is; raises OutOfRange.

    What does not go through the spindle stands out with all its length but what is gripped.
    """
    if bar.length_mm < needed_mm + grip.length_mm - 1e-9:
        raise OutOfRange(
            f"bar: {bar.length_mm:.1f} mm is too short, this set-up and the {grip.name} need "
            f"{needed_mm + grip.length_mm:.1f} mm; make fewer spares or take another bar"
        )
    short, safe = HOLDING[grip.kind].short_only, longest_safe_mm(bar)
    if goes_through(lathe, bar) is not False and not short:
        return needed_mm, 0.0
    whole = bar.length_mm - grip.length_mm
    if whole <= (bar.diameter_mm * SHORT_DIAMETERS if short else safe):
        return whole, 0.0
    if needed_mm > safe:
        raise OutOfRange(
            f"bar: {needed_mm:.1f} mm would stand out unsupported, {safe:.0f} mm are safe (three diameters); "
            "make fewer spares or take a thicker bar"
        )
    return needed_mm, needed_mm + grip.length_mm


def use_of_bar(*, bar: Bar, lathe: Lathe, outside_diameter_mm: float, each_mm: float, rings: int) -> StockUse:
    """What the rings take from this bar; `each_mm` is height, dressing and blade of one.

    Raises OutOfRange when the bar is too thin, too short or not held.
    """
    least = outside_diameter_mm + (TURNED_SKIN_MM if bar.was_turned else SKIN_MM)
    if bar.start_mm < least - 1e-9:
        raise OutOfRange(
            f"bar: {bar.start_mm:.2f} mm is too thin for an outside of {outside_diameter_mm:.2f} mm; "
            f"take one of {least:.2f} mm or more"
        )
    holding = grips_for(lathe, bar)
    if not holding:
        raise OutOfRange(f"bar: {lacking_words(lathe, bar)}")
    grip, used = holding[0], used_for(rings=rings, each_mm=each_mm)
    stick_out, sawn = piece_of(bar=bar, lathe=lathe, grip=grip, needed_mm=used + CLEAR_OF_JAWS_MM)
    return StockUse(
        grip=grip,
        rings=rings,
        each_mm=round(each_mm, 6),
        used_mm=round(used, 6),
        stick_out_mm=round(stick_out, 6),
        left_mm=round(bar.length_mm - (sawn + SAW_MM if sawn else used), 6),
        sawn_mm=round(sawn, 6),
    )
