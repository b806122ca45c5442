"""What came over a serial line, as the desk gets it: a reading, or words about what is no reading.

Invariant: a line with a byte that cannot be read gives no reading, whatever else stands in it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bench.shop.serial_line import SerialLine

NUMBER = re.compile(r"[-+]?[0-9]*[.,]?[0-9]+")
NOUGHTS = re.compile(r"^(-?)0+(?=[0-9])")
UNITS = {"mm": "mm", "in": "in", "inch": "in", '"': "in"}
HALF = "half a line came from the {name}: nothing is taken of it; send it again."
NO_NUMBER = "from the {name} came {line!r}: no number in it. Send it again; ringwright keys shows more."


@dataclass(frozen=True, slots=True)
class Heard:
    """Arrival: one line, or what happened to the port."""

    name: str
    """Which gauge."""
    number: str = ""
    """The reading, its comma a point, without noughts before it; empty where there is none."""
    unit: str = ""
    """mm or in."""
    words: str = ""
    """What is to be told where there is no reading."""
    gone: bool = False
    """The line is not there."""
    line: str = ""
    """As it came."""
    at: float = 0.0
    wall: str = ""
    kind: str = "heard"
    """As every token has one: the screen asks for it."""

    @property
    def reading(self) -> str:
        """Number and unit."""
        return f"{self.number} {self.unit}"


def heard_in(raw: bytes, setup: SerialLine, *, at: float, wall: str) -> Heard:
    """What stands in one line."""
    text = raw.strip(b"\x02\x03\x00 \t").decode("latin-1")
    line = text if text.isascii() and text.isprintable() else ascii(text)[1:-1]
    found = re.search(setup.pattern, text) if line == text else None
    number, unit = (*found.groups(), None)[:2] if found else (None, None)
    says = UNITS.get(unit.lower()) if unit else None
    if number is None or not NUMBER.fullmatch(number) or (unit and says is None):
        return Heard(
            setup.name, words=NO_NUMBER.format(name=setup.name, line=line), line=line, at=at, wall=wall
        )
    return Heard(
        setup.name,
        number=NOUGHTS.sub(r"\1", number.replace(",", ".").removeprefix("+")),
        unit=says or UNITS.get(setup.unit, setup.unit),
        line=line,
        at=at,
        wall=wall,
    )
