"""The gauges on serial lines as shop.toml says them.

Invariant: as in `sections`: every word is read, and the rest refused with the line.
"""

from __future__ import annotations

from bench.shop.file import ShopTable
from bench.shop.serial_line import FIRST_NUMBER, PARITIES, SerialLine

PORT_TWICE = "the port {port!r} stands twice; give each [[line]] its own"


def serial_lines(top: ShopTable, works_in: str) -> tuple[SerialLine, ...]:
    """The lines that a file says; raises ShopWrong."""
    found: list[SerialLine] = []
    for one in top.sections("line") or []:
        line = serial_line(one, works_in)
        if line.port in {other.port for other in found}:
            raise one.wrong(PORT_TWICE.format(port=line.port), "port")
        found.append(line)
    return tuple(found)


def serial_line(one: ShopTable, works_in: str) -> SerialLine:
    """One of them; its unit is that of the shop where it is not said."""
    return one.build(
        lambda: SerialLine(
            name=one.text("name", "gauge"),
            port=one.text("port"),
            speed_baud=one.whole("speed_baud", 9600),
            data_bits=one.whole("data_bits", 8),
            parity=one.text("parity", PARITIES[0]),
            pattern=one.text("pattern", FIRST_NUMBER),
            unit=one.text("unit", works_in),
        )
    )
