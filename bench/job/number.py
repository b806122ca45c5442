"""One number read strictly: fixed places, one unit, or a refusal in words.

Invariant: a number is never guessed and never corrected: typed text either fits the places of the instrument
exactly or is refused with the reason.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from bench.job.mask import LENGTHS, Mask

INCH_PLACES = (3, 4, 5)
"""Decimals a reading in inch must carry: a thousandth of an inch is 0.025 mm."""
MM_PLACES = (2, 3)
"""Decimals a reading in mm must carry."""

PLAIN = str.maketrans({"\u2212": "-", ",": ".", "\u00a0": " "})
"""A typeset minus, a decimal comma and a hard blank, made plain."""

INCH_UNITS = frozenset(("in", '"', "inch", "''", "”", "″"))
_READING = r"""(?P<sign>[+-]?)[ ]*
        (?P<number>[0-9]+(?:\.[0-9]*)?|\.[0-9]+)[ ]*
        (?P<unit>mm|inch|in|"|''|”|″|)"""
"""Compiled when the first number is read: the list of jobs reads none."""


@dataclass(frozen=True, slots=True)
class TypedNumber:
    """A number that was typed well."""

    value_text: str
    """As it was typed and its unit, such as "36.42 mm" or "1.161 in"."""

    value: float
    """In the unit of the mask."""

    converted: str = ""
    """When another unit was typed: the conversion in words, to be shown before it is accepted."""


@dataclass(frozen=True, slots=True)
class Refusal:
    """A number that was not understood or cannot be."""

    why: str


def read_number(text: str, mask: Mask, *, inch: bool = False) -> TypedNumber | Refusal:
    """Read an answer line or the text of a gauge; the ends of the range count as inside.

    A unit may be typed on: mm always for a length, inch (in or ") where `inch` says that the shop works in
    inch, or the mask is in inch. Exactly all digits without a point, or a point and all decimals.
    """
    found = re.fullmatch(_READING, _plain(text), re.VERBOSE | re.IGNORECASE)
    if found is None:
        return Refusal(f"not understood as one number: key {mask.shown} {mask.unit}")
    if found["sign"] == "-" and Decimal(found["number"]) != 0:
        return Refusal("below zero: set the gauge to zero and measure again")
    unit = "in" if found["unit"].lower() in INCH_UNITS else found["unit"].lower()
    if unit and mask.unit not in LENGTHS:
        return Refusal(f"{found['unit']} typed where {mask.unit} is asked")
    if unit == "in" or (unit and unit != mask.unit):
        return _read_length(found["number"], unit, mask, inch=inch or mask.unit == "in")
    placed = _placed(found["number"], mask)
    if isinstance(placed, Refusal):
        return placed
    return _in_range(float(placed), f"{placed} {mask.unit}".rstrip(), "", mask)


def _plain(text: str) -> str:
    """Take off what gauges wrap round a reading: STX, ETX, line ends, blanks; comma and minus made plain."""
    return text.strip("\x02\x03\r\n\t \u00a0").translate(PLAIN)


def _placed(number: str, mask: Mask) -> str | Refusal:
    """The number with its point, if it fits the places exactly."""
    whole, point, decimals = number.partition(".")
    if not mask.decimals:
        if point or len(whole.lstrip("0")) > mask.before:
            return Refusal(f"a whole number of at most {mask.before} digits: {mask.shown} {mask.unit}")
        return str(int(whole))
    if mask.nought and number == "0":
        return f"0.{'0' * mask.decimals}"
    if mask.fewer and not decimals and len(whole) + len(point) > 1 and len(whole) <= mask.before:
        point, decimals = ".", "0"  # a whole number; a digit alone may be half of one
    if mask.fewer and decimals and not whole:
        whole = "0"
    if not point:
        if len(whole) != mask.before + mask.decimals:
            return Refusal(
                f"{len(whole)} {'digit' if len(whole) == 1 else 'digits'} where "
                f"{mask.before + mask.decimals} are asked: "
                f"key {mask.shown} {mask.unit}, or the point as well"
            )
        whole, _, decimals = mask.pointed(whole).partition(".")
    if mask.fewer and whole and point and decimals:
        decimals = decimals.ljust(mask.decimals, "0")
    if not whole or len(decimals) != mask.decimals:
        if whole and 0 < len(decimals) < mask.decimals and mask.low <= float(number) <= mask.high:
            return Refusal(f"{number}? key {number}{'0' * (mask.decimals - len(decimals))} if that is meant")
        return Refusal(f"{mask.decimals} decimals are asked: key {mask.shown} {mask.unit}")
    whole = whole.lstrip("0") or "0"
    if len(whole) > mask.before:
        return Refusal(f"too large: key {mask.shown} {mask.unit}")
    return f"{whole}.{decimals}"


def _read_length(number: str, unit: str, mask: Mask, *, inch: bool) -> TypedNumber | Refusal:
    """A length typed with its unit, converted exactly where another one is asked."""
    from rules.limits import MM_PER_INCH

    if unit == "in" and not inch:
        return Refusal("inch typed, but this shop works in mm: set the gauge to mm and measure again")
    places = INCH_PLACES if unit == "in" else MM_PLACES
    whole, _, decimals = number.partition(".")
    if not whole or len(decimals) not in places:
        name = "inch" if unit == "in" else unit
        return Refusal(f"a reading in {name} needs a point and {places[0]} to {places[-1]} decimals")
    shown = f"{whole.lstrip('0') or '0'}.{decimals}"
    if unit == mask.unit:
        return _in_range(float(shown), f"{shown} {unit}", "", mask)
    per_inch = Decimal(str(MM_PER_INCH))
    length = Decimal(shown) * per_inch if unit == "in" else Decimal(shown) / per_inch
    said = f"{length:.3f} mm" if unit == "in" else f"{length:.4f} in"
    return _in_range(float(length), f"{shown} {unit}", f"{shown} {unit} = {said}", mask)


def _in_range(value: float, value_text: str, converted: str, mask: Mask) -> TypedNumber | Refusal:
    """Hold the value against what can be."""
    if not mask.low <= value <= mask.high:
        from rules.checks import plain

        side, limit = ("below", mask.low) if value < mask.low else ("above", mask.high)
        said = plain(limit) if mask.unit == "in" else f"{limit:g}"
        return Refusal(f"{value_text} cannot be: {side} {said} {mask.unit}; measure again")
    return TypedNumber(value_text, value, converted)
