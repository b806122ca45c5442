"""The one gate for numbers: finite, inside its range, or refused in one line of plain words.

Invariant: no function of `rules` computes with a value that is not a finite number.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping
from typing import TypeVar

Entry = TypeVar("Entry")


Row = tuple[str, float, float, float, str]
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


def hundredth(value_mm: float) -> float:
    """A length to 0.01 mm, the same whether a half step came out of mm or of inches.

    >>> hundredth(33.2049999999999), hundredth(33.205)
    (33.2, 33.2)
    """
    return round(round(value_mm, 7), 2)


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


def numbers(*rows: Row, advice: str) -> None:
    """Check several values at once; raises OutOfRange for the first that is not finite or outside its range."""
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


def known(name: str, key: str, table: Mapping[str, Entry]) -> Entry:
    """The entry `key` of a table; raises OutOfRange with the list of keys when it is not there."""
    return table[one_of(name, key, table)]
