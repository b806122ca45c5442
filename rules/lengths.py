"""Lengths as they are said: in mm, or in inch where that is spoken.

Invariant: every length is computed and kept in mm; only its words follow the unit spoken, which whoever asks
for words sets around the asking. No number depends on it.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

from rules.checks import fixed, plain, size_text
from rules.limits import MM_PER_INCH

MM, INCH = "mm", "inch"
LENGTH_UNITS = (MM, INCH)
SHORT = {MM: "mm", INCH: "in"}
"""As they stand behind a figure."""
A_TENTH = {MM: "a tenth of a millimetre", INCH: "four thousandths of an inch"}
"""The whole squeeze of the usual ring, on the diameter, in words."""
INCH_PLACES = {0: 2, 1: 3, 2: 4, 3: 4, 4: 5}
"""Decimals in inch, by those that the length has in mm: 0.0001 in is 0.0025 mm."""

_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_IN_MM = re.compile(r"(\d+(?:\.\d+)?(?: to \d+(?:\.\d+)?)?) mm\b")
_SPOKEN: ContextVar[str] = ContextVar("unit in which lengths are said", default=MM)


@contextmanager
def speaking(unit: str) -> Iterator[None]:
    """Within it lengths are said in this unit."""
    before = _SPOKEN.set(unit)
    try:
        yield
    finally:
        _SPOKEN.reset(before)


def spoken() -> str:
    """The unit in which lengths are said now."""
    return _SPOKEN.get()


def short(unit: str = "") -> str:
    """How a unit stands behind a figure; that which is spoken where none is named."""
    return SHORT[unit or spoken()]


def in_unit(value_mm: float, unit: str) -> float:
    """A length in a unit; `unit` may also be the short form.

    >>> in_unit(25.4, "inch"), in_unit(25.4, "mm")
    (1.0, 25.4)
    """
    return value_mm / MM_PER_INCH if unit in (INCH, SHORT[INCH]) else value_mm


def bare(value_mm: float, places: int = 2, unit: str = "") -> str:
    """The figure of a length without its unit; `places` are those in mm.

    >>> bare(28.4)
    '28.40'
    >>> with speaking("inch"):
    ...     bare(28.4)
    '1.1181'
    """
    if (unit or spoken()) == MM:
        return fixed(value_mm, places)
    return fixed(value_mm / MM_PER_INCH, INCH_PLACES[places])


def length(value_mm: float, places: int = 2, unit: str = "") -> str:
    """A length with its unit.

    >>> length(0.545, 3), length(28.4, unit="inch")
    ('0.545 mm', '1.1181 in')
    """
    return f"{bare(value_mm, places, unit)} {short(unit)}"


def size(value_mm: float) -> str:
    """The figure of a size that was decided: as many decimals as its step needs, in mm three at most, as one
    decided in steps of an inch has no end there.

    >>> size(32.036), size(24.8818)
    ('32.036', '24.882')
    """
    if spoken() == MM:
        return min(size_text(value_mm), fixed(value_mm, 3), key=len)
    return fixed(value_mm / MM_PER_INCH, INCH_PLACES[2])


def plainly(value_mm: float) -> str:
    """A length with its unit and no noughts behind: a round value in mm, what it is in inch.

    >>> plainly(0.1)
    '0.1 mm'
    >>> with speaking("inch"):
    ...     plainly(0.1)
    '0.0039 in'
    """
    if spoken() == MM:
        return f"{value_mm:g} mm"
    inches = value_mm / MM_PER_INCH
    return f"{plain(inches, 5 if inches < 0.001 else 4 if inches < 0.1 else 3)} in"


def good_to(value_mm: float, places: int = 2, unit: str = "") -> str:
    """The figure of an uncertainty: never nothing, but the next decimal that says something, rounded up.

    >>> good_to(0.0027), good_to(0.013), good_to(0.00004)
    ('0.003', '0.01', '0.00004')
    """
    said = bare(value_mm, places, unit)
    if float(said) or value_mm <= 0.0:
        return said
    value = in_unit(value_mm, unit or spoken())
    more = math.ceil(-math.log10(value) - 1e-9)
    return f"{math.ceil(value * 10**more - 1e-9) / 10**more:.{more}f}"


def by_rule(value_mm: float) -> str:
    """A length that is set by a rule: in tenths of a millimetre, or in sixteenths of an inch.

    >>> with speaking("inch"):
    ...     by_rule(12.4)
    '8/16 in'
    """
    return f"{value_mm:.1f} mm" if spoken() == MM else f"{sixteenths(value_mm)}/16 in"


def sixteenths(value_mm: float) -> int:
    """A length in whole sixteenths of an inch, as a rule shows it."""
    return round(16.0 * value_mm / MM_PER_INCH)


def translated(text: str) -> str:
    """A refusal or a warning as it is said now: in it every length carries its unit.

    >>> with speaking("inch"):
    ...     translated("wall: 0.11 mm is outside 0.2 to 5 mm; measure again")
    'wall: 0.0043 in is outside 0.0079 to 0.1969 in; measure again'
    """
    if spoken() == MM:
        return text
    return _IN_MM.sub(lambda found: f"{_NUMBER.sub(_as_inch, found[1])} in", text)


def _as_inch(found: re.Match[str]) -> str:
    return fixed(float(found[0]) / MM_PER_INCH, INCH_PLACES[2])


def microns(value_um: float) -> str:
    """A length of a few thousandths of a millimetre, as it is spoken at the bench.

    >>> microns(40.2), microns(3.2)
    ('0.04 mm', '0.003 mm')
    >>> microns(0.7)
    'under 0.001 mm'
    >>> with speaking("inch"):
    ...     microns(40.2)
    '0.0016 in'
    """
    if spoken() == MM:
        return (
            f"{value_um / 1000.0:.{2 if value_um >= 9.5 else 3}f} mm" if value_um >= 1.0 else "under 0.001 mm"
        )
    return f"{good_to(value_um / 1000.0, 2)} in"
