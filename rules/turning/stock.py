"""Which bar, how far it stands out, what the rings use up and what is left.

Invariant: used = first facing + each ring's height, dressing and blade + facing between rings; used + left
= the
bar. A bar that is too thin, too short or that no grip holds is refused with what is missing. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from rules.equipment import Bar, Grip, Lathe

FIRST_FACING_MM = 0.30
NEXT_FACING_MM = 0.20
CLEAR_OF_JAWS_MM = 3.0
"""Between the last parting cut and the jaws. Common practice, no source."""
SKIN_MM = 1.0
"""A bar is at least this much over the outside, on the diameter: out of true and roughing.

Common practice.
"""


class StockWrong(ValueError):
    """No bar will do; the message says what is missing."""


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
            f"let it stand out {self.stick_out_mm:.1f} mm",
            f"{rings} {self.used_mm:.2f} mm of it; {self.left_mm:.1f} mm are left",
        ]
        if self.left_mm < self.stick_out_mm + self.grip.length_mm:
            said.append("what is left is too short for another such set-up")
        return tuple(said)


def used_for(*, rings: int, each_mm: float) -> float:
    """Length that goes for a number of rings in one set-up."""
    return FIRST_FACING_MM + rings * each_mm + (rings - 1) * NEXT_FACING_MM


def use_of_bar(
    *,
    bar: Bar,
    lathe: Lathe,
    outside_diameter_mm: float,
    height_mm: float,
    dressing_mm: float,
    blade_mm: float,
    rings: int,
) -> StockUse:
    """What the rings take from this bar. Raises StockWrong when it is too thin, too short or not held."""
    least = outside_diameter_mm + SKIN_MM
    if bar.diameter_mm < least - 1e-9:
        raise StockWrong(
            f"bar is {bar.diameter_mm:.2f} mm thick; the outside of {outside_diameter_mm:.2f} mm needs "
            f"{least:.2f} mm or more"
        )
    holding = [grip for grip in lathe.grips if grip.smallest_mm <= bar.diameter_mm <= grip.largest_mm]
    if not holding:
        raise StockWrong(
            f"no grip of the {lathe.name} holds a bar of {bar.diameter_mm:.2f} mm; add one to shop.toml"
        )
    grip = min(holding, key=lambda one: one.largest_mm - one.smallest_mm)
    each = height_mm + dressing_mm + blade_mm
    used = used_for(rings=rings, each_mm=each)
    stick_out = used + CLEAR_OF_JAWS_MM
    if bar.length_mm < stick_out + grip.length_mm - 1e-9:
        raise StockWrong(
            f"bar is {bar.length_mm:.1f} mm long; {rings} ring{'s' if rings > 1 else ''} and the "
            f"{grip.name} need "
            f"{stick_out + grip.length_mm:.1f} mm: fewer spares or another bar"
        )
    return StockUse(
        grip=grip,
        rings=rings,
        each_mm=round(each, 6),
        used_mm=round(used, 6),
        stick_out_mm=round(stick_out, 6),
        left_mm=round(bar.length_mm - used, 6),
    )


def choose_bar(
    *,
    bars: Iterable[Bar],
    plastic: str,
    lathe: Lathe,
    outside_diameter_mm: float,
    height_mm: float,
    dressing_mm: float = 0.10,
    blade_mm: float = 1.0,
    rings: int = 1,
) -> Bar:
    """The thinnest bar of the plastic that will do, of those the shortest.

    Raises StockWrong with what is missing.
    """
    of_plastic = sorted(
        (bar for bar in bars if bar.plastic == plastic), key=lambda bar: (bar.diameter_mm, bar.length_mm)
    )
    if not of_plastic:
        raise StockWrong(f"no bar of {plastic} in stock; add it to shop.toml or choose another plastic")
    reasons = []
    for bar in of_plastic:
        try:
            use_of_bar(
                bar=bar,
                lathe=lathe,
                outside_diameter_mm=outside_diameter_mm,
                height_mm=height_mm,
                dressing_mm=dressing_mm,
                blade_mm=blade_mm,
                rings=rings,
            )
        except StockWrong as why:
            reasons.append(str(why))
            continue
        return bar
    raise StockWrong(f"no bar of {plastic} will do: {reasons[-1]}")
