"""The one gate for numbers: finite, inside its range, or refused in one line of plain words.

Invariant: no function of `rules` computes with a value that is not a finite number.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from decimal import ROUND_HALF_UP, Decimal
from typing import TypeVar

Item = TypeVar("Item")
_NOISE_MM = 1e-9
"""Of sums in floating point."""


Limited = tuple[str, float, float, float, str]
"""A value to check: name, value, lowest, highest, unit (empty for a count)."""


class OutOfRange(ValueError):
    """A value that cannot be used, the one refusal of `rules`.

    The message gives name, value, limit and unit, then what to do.
    """


def plain(value: float, places: int = 4) -> str:
    """A number as a person writes it: at most `places` decimals, no exponent, no trailing zeros.

    >>> plain(33.20), plain(0.00004)
    ('33.2', '0')
    """
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def to_places(value: float, places: int) -> float:
    """A number rounded, halves up, the same whether a half came out of mm, of inches or of a sum: the one
    rule by which every page rounds.

    >>> to_places(26.875, 2), to_places(0.4874999999999, 3), to_places(-0.125, 2)
    (26.88, 0.488, -0.13)
    """
    clean = Decimal(repr(round(float(value), 7)))
    return float(clean.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP))


def fixed(value: float, places: int = 2) -> str:
    """The same as text, always with so many decimals.

    >>> fixed(33.205), fixed(0.4875, 3)
    ('33.21', '0.488')
    """
    return f"{to_places(value, places):.{places}f}"


def span(low: float, high: float) -> str:
    """Two whole figures as a person reads them, one where they are alike.

    >>> span(18.2, 33.4), span(18.2, 18.4)
    ('18 to 33', '18')
    """
    ends = dict.fromkeys(f"{value:.0f}" for value in (low, high))
    return " to ".join(ends)


def hundredth(value_mm: float) -> float:
    """A length to 0.01 mm.

    >>> hundredth(33.2049999999999), hundredth(33.205), hundredth(33.2049)
    (33.21, 33.21, 33.2)
    """
    return to_places(value_mm, 2)


def size_text(value_mm: float) -> str:
    """A size in hundredths; with up to four decimals where it is no whole hundredth,
    as a step in inches is not.

    >>> size_text(32.04), size_text(32.036), size_text(32.0548)
    ('32.04', '32.036', '32.0548')
    """
    short, long = fixed(value_mm), plain(value_mm)
    return long if len(long) > len(short) else short


def sizes_near(wanted_mm: float, *, low_mm: float, high_mm: float, steps_mm: Sequence[float]) -> list[float]:
    """Sizes from low to high on the first of the steps that has any there,
    the nearest to the wanted one first.

    At most three; none when not even the last step has one.

    >>> sizes_near(26.61, low_mm=26.6135, high_mm=26.656, steps_mm=(0.05, 0.01))
    [26.65]
    """
    here = min(max(wanted_mm, low_mm), high_mm)
    for step in steps_mm:
        middle = round(here / step)
        near = {round(count * step, 4) for count in range(middle - 1, middle + 2)}
        inside = [size for size in near if low_mm - _NOISE_MM <= size <= high_mm + _NOISE_MM]
        if inside:
            return sorted(inside, key=lambda size: abs(size - wanted_mm))
    return []


def number(
    name: str, value: float, *, low: float, high: float, unit: str, advice: str = "measure it again"
) -> float:
    """`value` as a float when it is a finite number from `low` to `high`, both included; raises OutOfRange.

    >>> number("case bore", 33.2, low=5, high=80, unit="mm")
    33.2
    """
    of = f" {unit}" if unit else ""
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise OutOfRange(f"{name}: {value!r} is not a number; key a number{' in' + of if of else ''}")
    if not math.isfinite(value):
        raise OutOfRange(f"{name}: {value} is not a finite number; key a number{' in' + of if of else ''}")
    if not low <= value <= high:
        raise OutOfRange(
            f"{name}: {plain(value)}{of} is outside {plain(low)} to {plain(high)}{of}; {advice}".strip()
        )
    return float(value)


def numbers(*rows: Limited, advice: str) -> None:
    """Check several values at once; raises OutOfRange for the first that is not finite or in its range."""
    for name, value, low, high, unit in rows:
        number(name, value, low=low, high=high, unit=unit, advice=advice)


def one_of(name: str, word: str, words: Collection[str]) -> str:
    """`word` when it is one of `words`; raises OutOfRange with all of them.

    >>> one_of("theme", "day", ("day", "night"))
    'day'
    """
    if word not in words:
        raise OutOfRange(f"{name}: {word!r} is not known; known are {', '.join(words)}")
    return word


def named_each(name: str, names: Sequence[str], things: int) -> None:
    """Names are one for each of so many things, all different, or none at all; else raises OutOfRange."""
    if names and (len(names) != things or len(set(names)) < things or not all(map(str.strip, names))):
        raise OutOfRange(f"{name}: {len(names)} names for {things}; give each its own, or leave them all out")


def known(name: str, key: str, table: Mapping[str, Item]) -> Item:
    """The entry `key` of a table; raises OutOfRange with the list of keys when it is not there."""
    return table[one_of(name, key, table)]
