"""Typed numbers with their unit, read strictly.

Invariant: a text is one number with at most one known unit behind it, or it is refused; nothing is guessed.
Typed text never reaches the unit library: it gets a number and a unit that have already been read.
"""

from __future__ import annotations

import re
from functools import lru_cache
from importlib import resources
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pint import UnitRegistry

_LONGEST = 40
_NUMBER = re.compile(r"\+?(?P<digits>[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+) *(?P<unit>[^0-9+., ][^0-9+.,]*)?")
_LENGTHS = {"mm": "millimetre", "in": "inch", '"': "inch", "″": "inch"}
_PRESSURES = {"bar": "bar", "psi": "psi", "atm": "atmosphere", "mpa": "megapascal", "kpa": "kilopascal"}
_DEPTHS = {"m": "metre", "ft": "foot"}
WATERS = ("trade", "fresh", "sea")
"""How a depth becomes a pressure: 10 m = 1 bar, fresh water (0.979 bar), sea water (1.005 bar)."""


@lru_cache(maxsize=1)
def _registry() -> UnitRegistry[Any]:
    """The unit library on our own short list of units; loaded at the first unit that needs it."""
    from pint import UnitRegistry

    registry: UnitRegistry[Any] = UnitRegistry(None)
    registry.load_definitions(
        resources.files("bench").joinpath("data", "units.txt").read_text("utf-8").split("\n")
    )
    return registry


def _convert(value: float, unit: str, wanted: str) -> float:
    return float(_registry().convert(value, unit, wanted))


def split(text: str) -> tuple[float, str]:
    """A typed text as number and unit (lower case, empty when none); raises ValueError in plain words.

    Taken: digits, one decimal point or comma, any number of decimals, blanks before the unit.

    >>> split("1,161 in")
    (1.161, 'in')
    """
    bare = text.strip(" ")
    if not bare:
        raise ValueError("nothing was typed; key a number, for example 33.20")
    if len(bare) > _LONGEST:
        raise ValueError(f"{len(bare)} characters are too many for a number; key it again")
    found = _NUMBER.fullmatch(bare)
    if found is None:
        raise ValueError(
            f"{bare!r} is not one plain number; key digits and one decimal point, for example 33.20"
        )
    return float(found["digits"].replace(",", ".")), (found["unit"] or "").strip(" ").lower()


def number(text: str) -> float:
    """A typed number without a unit; raises ValueError."""
    value, unit = split(text)
    if unit:
        raise ValueError(f"{text.strip(' ')!r} carries a unit where none is taken; key the number alone")
    return value


def length_mm(text: str) -> float:
    """A typed length in mm; without a unit it is mm. Raises ValueError in plain words.

    >>> length_mm("33,20"), round(length_mm("1.161in"), 4)
    (33.2, 29.4894)
    """
    value, unit = split(text)
    if unit in ("", "mm"):
        return value
    if unit not in _LENGTHS:
        raise ValueError(f'{unit!r} is not a length taken here; use mm, in or "')
    return round(_convert(value, _LENGTHS[unit], "millimetre"), 9)


def pressure_bar(text: str, *, water: str = "trade") -> float:
    """A typed pressure in bar; without a unit it is bar, and m or ft count as depth of `water` (see WATERS).

    >>> pressure_bar("30 m"), round(pressure_bar("10 m", water="fresh"), 3), pressure_bar("3")
    (3.0, 0.979, 3.0)
    """
    if water not in WATERS:
        raise ValueError(f"water: {water!r} is not one of {', '.join(WATERS)}")
    value, unit = split(text)
    if unit in ("", "bar"):
        return value
    if unit in _DEPTHS:
        return _convert(value, f"{_DEPTHS[unit]}_{water}", "bar")
    if unit not in _PRESSURES:
        raise ValueError(f"{unit!r} is not a pressure taken here; use bar, atm, psi, MPa, kPa, m or ft")
    return _convert(value, _PRESSURES[unit], "bar")
