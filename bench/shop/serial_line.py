"""A gauge or read-out on a serial line, as shop.toml says it.

Invariant: a pattern that is kept compiles and has a group for the number.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from rules.checks import OutOfRange, numbers, one_of
from rules.lengths import LENGTH_UNITS

FIRST_NUMBER = "([-+]?[0-9]*[.,]?[0-9]+) *([Mm][Mm]|[Ii][Nn])?"
"""The usual pattern: the first number on a line, and its unit where one follows."""
PARITIES = ("none", "even", "odd")


@dataclass(frozen=True, slots=True, kw_only=True)
class SerialLine:
    """One line: where it is, how fast, and what on it is a reading."""

    name: str = "gauge"
    """What messages call it."""
    port: str
    """As the system names it: /dev/ttyUSB0, COM3."""
    speed_baud: int = 9600
    data_bits: int = 8
    parity: str = PARITIES[0]
    pattern: str = FIRST_NUMBER
    """A regular expression; its first group is the number, a second one the unit."""
    unit: str = LENGTH_UNITS[0]
    """What it is set to where its lines do not say."""

    def __post_init__(self) -> None:
        if not self.port.strip():
            raise OutOfRange('port is empty; write port = "/dev/ttyUSB0"')
        numbers(("speed baud", self.speed_baud, 50, 4_000_000, "baud"), advice="write speed_baud = 9600")
        numbers(("data bits", self.data_bits, 7, 8, "bits"), advice="write data_bits = 8")
        one_of("parity", self.parity, PARITIES)
        one_of("unit", self.unit, LENGTH_UNITS)
        try:
            groups = re.compile(self.pattern).groups
        except re.error as why:
            raise OutOfRange(f"pattern cannot be read as one: {why}; write {as_written()}") from why
        if not 1 <= groups <= 2:
            raise OutOfRange(
                "pattern needs a group (...) round the number, and may have a second one round the unit; "
                f"write {as_written()}"
            )


def as_written() -> str:
    """How a pattern is written in the file."""
    return f"pattern = '{FIRST_NUMBER}'"
