"""Outside figures: what a published source prints, what is computed here, and how far apart they lie.

Invariant: every figure names its source and the place in it. It either agrees to half the last digit printed,
or states by how many per cent what is computed here lies above it, and why.

A table in a file of `data/` is one place, however many rows it has. A figure from which a constant here was
taken tests nothing: it is kept, marked `taken`, and counts for no kind of seal.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

DATA = Path(__file__).parent / "data"
RAW = ("nist_univariate.toml", "nist_norris.toml")
"""Observations alone, without figures."""
AREAS = ("sizing", "measuring", "turning", "testing")
KINDS = ("ring", "glass", "gasket", "foot", "oring")
"""Kinds of seal, and the glass, that figures on sizing are of."""


@dataclass(frozen=True, slots=True)
class Source:
    """Where figures were read."""

    key: str
    title: str
    where: str
    """Address, or the copy that was read."""
    area: str


@dataclass(frozen=True, slots=True)
class Figure:
    """One printed value."""

    source: Source
    place: str
    check: str
    """Name in the checks of `against`."""
    given: Mapping[str, Any]
    printed: str
    """As printed, so that its last digit is known."""
    row: int
    """Its row in a table; 0 where it stands alone."""
    differs_pct: float | None = None
    """How far what is computed here lies above it, per cent; None where it agrees as printed."""
    why: str = ""
    within: float = 0.0
    """Part of the value by which it may be off, instead of half a digit."""
    kind: str = ""
    """Of which seal; empty where it is no figure on sizing."""
    taken: str = ""
    """What was taken from this very place; empty where nothing was."""

    @property
    def value(self) -> float:
        """The printed value."""
        return float(self.printed)

    @property
    def half_digit(self) -> float:
        """Half a unit of the last digit printed."""
        mantissa, _, exponent = self.printed.lower().partition("e")
        places = len(mantissa.partition(".")[2]) - int(exponent or 0)
        return 0.5 * 10.0**-places


def _rows(entry: Mapping[str, Any]) -> Iterator[tuple[int, dict[str, Any], str]]:
    """Row, what it gives and what is printed, of a figure that stands alone or of a table."""
    given = dict(entry.get("given", {}))
    if "rows" not in entry:
        yield 0, given, entry["printed"]
        return
    for number, row in enumerate(entry["rows"], start=1):
        *values, printed = row
        yield number, given | dict(zip(entry["each"], values, strict=True)), printed


@lru_cache(maxsize=1)
def figures() -> tuple[Figure, ...]:
    """Every outside figure in use, file by file."""
    found: list[Figure] = []
    for path in sorted(DATA.glob("*.toml")):
        if path.name in RAW:
            continue
        raw = tomllib.loads(path.read_text("utf-8"))
        sources = {key: Source(key=key, **entry) for key, entry in raw["source"].items()}
        for entry in raw["figure"]:
            found += [
                Figure(
                    source=sources[entry["source"]],
                    place=entry["place"],
                    check=entry["check"],
                    given=given,
                    printed=printed,
                    row=row,
                    differs_pct=entry.get("differs_pct"),
                    why=entry.get("why", ""),
                    within=entry.get("within", 0.0),
                    kind=raw.get("kind", ""),
                    taken=entry.get("taken", ""),
                )
                for row, given, printed in _rows(entry)
            ]
    return tuple(found)
