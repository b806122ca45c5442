"""How the figures of an answer are said under "why": the sentences first, then each figure to its meaningful
digits.

Invariant: no figure has more digits than it is good for, none is in powers of ten, and what is not known is
said so.
"""

from __future__ import annotations

import math

from rules.checks import plain
from rules.lengths import MM, SHORT, bare, length, short, size as decided, spoken, translated
from rules.sizing import why
from rules.sizing.sizing import Sizing
from rules.sizing.why_inputs import FigureValue

NOT_KNOWN = "not known"
PART = "1"
"""Unit of what has none."""
NO_UNIT = (PART, "words", "yes or no", "-")
"""What stands in the table of reasons in place of a unit."""
YIELD = "yield_taken"
"""A value of the tables too, as it was chosen."""
WINDOW = ("window.bore_low_mm", "window.bore_high_mm")
"""Shown as they can be keyed, as on the page of the ring."""
THIN = ("ring.wall_mm", "interference", "squeezed_wall", "gap.measured_mm", "gap.believed_mm")
"""Always to the thousandth, as on every page."""
ESTIMATED = ("N", "MPa", "N/mm", "um", "um per N/mm", "points of squeeze")
"""Units of what the model estimates within a quarter: two digits say all that is known."""


def opened(sizing: Sizing, figure: str) -> tuple[str, str, str, str] | None:
    """A figure, how it is made, of what, and from where that is known, in words; None while it is not known.

    Raises OutOfRange for an unknown name.
    """
    found = why.opened(sizing, figure)
    if found.value is None:
        return None
    taken = [
        f"{words} {_as_shown(sizing, name, value, unit, tabled=bool(known) or name == YIELD)}"
        + (" (from memory)" if known.startswith("memory") else "")
        for name, (words, value, unit, known) in zip(found.reason.inputs, found.inputs, strict=True)
    ]
    known_by = dict.fromkeys(
        f"{words}: {known}" for words, _, _, known in found.inputs if known and known != found.grounds
    )
    return (
        f"{found.reason.name} {_as_shown(sizing, figure, found.value, found.reason.unit)}",
        translated(found.reason.formula),
        "; ".join(taken) or "a fixed value",
        "; ".join((found.grounds, *known_by)),
    )


def _as_shown(sizing: Sizing, figure: str, value: FigureValue, unit: str, *, tabled: bool = False) -> str:
    """A figure by its dotted name, or the name of what a formula takes."""
    works = sizing.window.works_mm
    if figure in WINDOW and works is not None:
        return f"{decided(works[WINDOW.index(figure)])} {short()}"
    if figure in THIN and isinstance(value, float):
        return length(value, 3)
    return said(value, unit, chance="chance" in figure, tabled=tabled)


def said(value: FigureValue, unit: str, *, chance: bool = False, tabled: bool = False) -> str:
    """A figure as a person reads it, with its unit; `tabled`: as its table gives it.

    >>> said(4731.2, "N"), said(0.84, "1", chance=True), said(None, "mm"), said(35.1538, "mm")
    ('4700 N', '84 %', 'not known', '35.15 mm')
    """
    if value is None:
        return NOT_KNOWN
    if isinstance(value, bool):
        return "yes" if value else "no"
    if not isinstance(value, float):
        return str(value)
    if unit == SHORT[MM]:
        return f"{_length(value)} {short()}"
    if chance:
        return f"{100.0 * value:.0f} %"
    if unit == "%":
        return f"{value:.1f} %"
    if unit == "1/K":
        return f"{digits(1e6 * value, 3)} millionths per K"
    text = digits(value, 2 if unit in ESTIMATED and not tabled else 4)
    return text if unit in NO_UNIT else f"{text} {unit}"


def digits(value: float, many: int) -> str:
    """A number to so many digits, never in powers of ten.

    >>> digits(4731.2, 2), digits(0.0127, 2), digits(2800.0, 4)
    ('4700', '0.013', '2800')
    """
    if not value:
        return "0"
    places = many - 1 - math.floor(math.log10(abs(value)))
    return plain(value, places) if places > 0 else f"{round(value, places):.0f}"


def _length(value_mm: float) -> str:
    """A size to the hundredth, a thin one to the thousandth, less than that to two digits."""
    if spoken() != MM:
        return bare(value_mm, 2 if abs(value_mm) >= 2.0 else 3)
    if abs(value_mm) >= 2.0:
        return bare(value_mm)
    text = bare(value_mm, 3) if abs(value_mm) >= 0.01 else digits(value_mm, 2)
    return bare(value_mm) if text == f"{bare(value_mm)}0" else text


def sentences(sizing: Sizing) -> tuple[str, ...]:
    """Why this ring, in four sentences: the outside, what seals, which bores work, and why this one."""
    ring, gap = sizing.ring, sizing.resolved.believed.mean_mm
    seat = sizing.resolved.joint.case_bore_mm
    as_seat = bare(ring.outside_diameter_mm) == bare(seat)
    outside = (
        f"The outside is that of the seat, {length(seat)}: pressed in, the seat holds the ring round."
        if as_seat
        else f"The outside is {length(ring.outside_diameter_mm)}, the seat {length(seat)}."
    )
    return (outside, _what_seals(sizing, gap), _which_bores(sizing), _why_this_one(sizing))


def _what_seals(sizing: Sizing, gap_mm: float) -> str:
    """Wall, gap, and what is pressed together."""
    wall, pressed = sizing.ring.wall_mm, sizing.fit.interference_mm
    start = (
        f"Between seat and glass there is room for {length(gap_mm, 3)}; "
        f"with a bore of {decided(sizing.ring.bore_mm)} the wall is {length(wall, 3)}"
    )
    if pressed <= 0.0:
        return f"{start}, no thicker: nothing is pressed together, and nothing seals."
    squeeze, band = sizing.fit.nominal_squeeze_pct, sizing.window.band
    does = (
        "it seals and holds the glass"
        if band.low_pct <= squeeze <= band.high_pct
        else "it may leak"
        if squeeze < band.low_pct
        else "it may be shaved, or crack glass or bezel"
    )
    return (
        f"{start}, thicker by {length(pressed, 3)} or {squeeze:.1f} % of it: "
        f"pressed together by so much {does}."
    )


def _which_bores(sizing: Sizing) -> str:
    """The window and what shuts it at each end."""
    window = sizing.window
    if window.works_mm is None:
        return f"No bore keeps to every limit: {window.binds_high} and {window.binds_low}."
    low, high = map(decided, window.works_mm)
    return (
        f"Bores from {low} to {high} {short()} work: a smaller one is too tight ({window.binds_low}), "
        f"a larger one too loose ({window.binds_high})."
    )


def _why_this_one(sizing: Sizing) -> str:
    """The chance, and whether another bore has a better one."""
    window, bore = sizing.window, sizing.ring.bore_mm
    rings = round(100.0 * window.ring_chance)
    if window.works_mm is None:
        return f"So this ring is the usual one; of a hundred such about {rings} keep to every limit."
    start = f"Of a hundred rings measured and turned as here about {rings} come out between the two"
    if window.target_bore_mm is None or decided(window.target_bore_mm) == decided(bore):
        return f"{start}; no other bore gives more."
    best = f"{100.0 * window.chance:.0f}"
    return f"{start}; with a bore of {decided(window.target_bore_mm)} {short()} about {best}."
