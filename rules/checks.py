"""The one gate for numbers: finite, inside its range, or refused in one line of plain words.

Invariant: no function of `rules` computes with a value that is not a finite number.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import TypeVar

Entry = TypeVar("Entry")


class OutOfRange(ValueError):
    """A value that cannot be used; the message gives its name, value, limit, unit and what to do."""


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
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise OutOfRange(f"{name}: {value!r} is not a number; key a number in {unit}")
    if not math.isfinite(value):
        raise OutOfRange(f"{name}: {value} is not a finite number; key a number in {unit}")
    if not low <= value <= high:
        raise OutOfRange(
            f"{name}: {plain(value)} {unit} is outside {plain(low)} to {plain(high)} {unit}; {advice}".strip()
        )
    return float(value)


def known(name: str, key: str, table: Mapping[str, Entry]) -> Entry:
    """The entry `key` of a table; raises OutOfRange with the list of keys when it is not there."""
    if key not in table:
        raise OutOfRange(f"{name}: {key!r} is not in the table; known are {', '.join(table)}")
    return table[key]
