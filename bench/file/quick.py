"""A block as it is written here, read several times as quickly as any TOML may be read.

Invariant: what is read is what the TOML reader reads; whatever is not plainly so is left to it.
"""

from __future__ import annotations

import json
import re
from typing import NoReturn

_LINE = re.compile(r"([a-z_]+) = (.+)")
_OTHER = re.compile(rb"[\x00-\x09\x0b-\x1f\x7f]|\\[/u]")
"""What JSON and TOML take differently: control characters, some escapes."""


def _left(what: object) -> NoReturn:
    raise ValueError("this is left to the TOML reader")


_read = json.JSONDecoder(parse_float=_left, parse_constant=_left, object_pairs_hook=_left).decode


def plain_fields(block: bytes) -> dict[str, object] | None:
    """The fields of a block of plain lines; None where it has to be read as TOML."""
    if _OTHER.search(block):
        return None
    fields: dict[str, object] = {}
    try:
        for line in block.decode("utf-8").split("\n"):
            if not line or line.startswith("#"):
                continue
            found = _LINE.fullmatch(line)
            if found is None or found[1] in fields:
                return None
            value = _read(found[2])
            if value is None:
                return None
            fields[found[1]] = value
    except (ValueError, RecursionError):
        return None
    return fields
