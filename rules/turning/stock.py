"""How far the bar stands out of the chuck, how much of it the rings use and how much is left.

Invariant: used = first facing + each ring's height, dressing and blade + facing between
rings; used + left = the bar. A bar that is too thin, too short or that no grip holds is
refused with what is missing. Lengths in mm.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules.checks import OutOfRange
from rules.equipment import Bar, Grip, Lathe

FIRST_FACING_MM = 0.30
NEXT_FACING_MM = 0.20
CLEAR_OF_JAWS_MM = 3.0
"""Between the last parting cut and the jaws. Common practice, no source."""
SKIN_MM = 1.0
"""A bar is at least this much larger than the outside, on the diameter: for runout and roughing.

Common practice.
"""


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

    def words(self, bar: Bar) -> tuple[str, ...]:
        """Sentences for the person who takes the bar from the rack."""
        rings = "1 ring uses" if self.rings == 1 else f"{self.rings} rings use"
        said = [
            f"bar: {bar.plastic}, {bar.colour}, {bar.diameter_mm:.2f} mm, held in the {self.grip.name}",
            f"{rings} {self.used_mm:.2f} mm of it; {self.left_mm:.1f} mm are left",
        ]
        if self.left_mm < self.stick_out_mm + self.grip.length_mm:
            said.append("what is left is too short for another such set-up")
        return tuple(said)


def used_for(*, rings: int, each_mm: float) -> float:
    """Length that goes for a number of rings in one set-up."""
    return FIRST_FACING_MM + rings * each_mm + (rings - 1) * NEXT_FACING_MM


def grips_for(lathe: Lathe, diameter_mm: float) -> list[Grip]:
    """The grips that hold a bar of this diameter, the one made for the narrowest range first."""
    holding = [grip for grip in lathe.grips if grip.smallest_mm <= diameter_mm <= grip.largest_mm]
    return sorted(holding, key=lambda grip: grip.largest_mm - grip.smallest_mm)


def use_of_bar(*, bar: Bar, lathe: Lathe, outside_diameter_mm: float, each_mm: float, rings: int) -> StockUse:
    """What the rings take from this bar; `each_mm` is height, dressing and blade of one.

    Raises OutOfRange when the bar is too thin, too short or not held.
    """
    least = outside_diameter_mm + SKIN_MM
    if bar.diameter_mm < least - 1e-9:
        raise OutOfRange(
            f"bar: {bar.diameter_mm:.2f} mm is too thin for an outside of {outside_diameter_mm:.2f} mm; "
            f"take one of {least:.2f} mm or more"
        )
    holding = grips_for(lathe, bar.diameter_mm)
    if not holding:
        raise OutOfRange(
            f"bar: no grip of the {lathe.name} holds {bar.diameter_mm:.2f} mm; add one to shop.toml"
        )
    grip, used = holding[0], used_for(rings=rings, each_mm=each_mm)
    stick_out = used + CLEAR_OF_JAWS_MM
    if bar.length_mm < stick_out + grip.length_mm - 1e-9:
        raise OutOfRange(
            f"bar: {bar.length_mm:.1f} mm is too short, "
            f"{rings} ring{'s' if rings > 1 else ''} and the {grip.name} "
            f"need {stick_out + grip.length_mm:.1f} mm; make fewer spares or take another bar"
        )
    return StockUse(
        grip=grip,
        rings=rings,
        each_mm=round(each_mm, 6),
        used_mm=round(used, 6),
        stick_out_mm=round(stick_out, 6),
        left_mm=round(bar.length_mm - used, 6),
    )
