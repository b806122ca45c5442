"""Plastics, case metals and glasses: every number with its unit, its source and how it is known.

Invariant: a property that the table does not hold is None, which means unknown; nothing is filled in.
"""

from __future__ import annotations

import sys
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from functools import lru_cache
from pathlib import Path
from types import MappingProxyType
from typing import Any, TypeVar

from rules.checks import OutOfRange
from rules.warmth import AT_TEMPERATURES, WarmthCurve, part_at, points

DATA = Path(__file__).with_name("data")
"""Where the tables lie."""
BASES = ("published", "memory", "common practice")
"""How a number can be known."""
CAP_OVER_10PCT = 1.075
"""Stress cap of the squeeze law over the compressive stress at 10 % (own choice between 1.05 and 1.10)."""


@dataclass(frozen=True, slots=True)
class Cited:
    """One number of a table and where it comes from."""

    value: float
    unit: str
    source: str
    """Key of the list of sources, or the words of a shop's own entry."""
    basis: str
    """published, memory or common practice."""
    low: float | None = None
    high: float | None = None
    note: str = ""
    of: tuple[str, ...] = ()
    """Keys of the sources it is worked out from; empty where its source prints it."""
    at: WarmthCurve = ()
    """For what changes with warmth."""

    @property
    def words(self) -> str:
        """How it is known, and from where, in words."""
        listed = sources()
        if self.of:
            return f"worked out from {' and '.join(listed[key] for key in self.of)}"
        return f"{self.basis}: {listed.get(self.source, self.source)}"


@dataclass(frozen=True, slots=True)
class Plastic:
    """A plastic a ring is turned from; None means unknown."""

    key: str
    name: str
    advice: str
    """One line: what choosing it means."""
    cited: Mapping[str, Cited] = field(hash=False)
    """Every number with its source, by field name."""
    advised: bool = True
    youngs_modulus_mpa: float | None = None
    compressive_stress_10pct_mpa: float | None = None
    stress_cap_mpa: float | None = None
    """Stress the squeeze law tends to, MPa; from the 10 % stress where the table gives no cap."""
    poisson_ratio: float | None = None
    cte_per_k: float | None = None
    density_kg_m3: float | None = None
    water_growth: float | None = None  # in length, saturated with water, fraction
    relaxation_1h: float | None = None
    """Stress left after one hour at constant squeeze, fraction."""
    relaxation_1000h: float | None = None
    relaxation_10y: float | None = None
    friction: float | None = None
    warmest_c: float | None = None
    youngs_modulus_at: float | None = None
    """By the source that gives it at other temperatures too: `cited` holds them."""
    stress_cap_at: float | None = None

    def parts_at(self, temperature_c: float) -> tuple[float, float] | None:
        """Modulus and stress cap at a temperature over those at 23 C; None where one is not known there."""
        curves = (self.cited[name].at if name in self.cited else () for name in AT_TEMPERATURES)
        modulus, cap = (part_at(curve, temperature_c) for curve in curves)
        return None if modulus is None or cap is None else (modulus, cap)


@dataclass(frozen=True, slots=True)
class Metal:
    """What a case is made of; None means unknown."""

    key: str
    name: str
    advice: str
    cited: Mapping[str, Cited] = field(hash=False)
    brittle: bool = False
    """True when it cracks instead of yielding."""
    gentle: str = ""
    """When the lower half of the band is kept to:
    "plated" always, "thin" when its wall is thin or unknown.
    """
    youngs_modulus_mpa: float | None = None
    poisson_ratio: float | None = None
    yield_soft_mpa: float | None = None
    yield_usual_mpa: float | None = None  # of usual bar, where the table gives it
    yield_hard_mpa: float | None = None
    cte_per_k: float | None = None


@dataclass(frozen=True, slots=True)
class Glass:
    """What a watch glass is made of; None means unknown."""

    key: str
    name: str
    advice: str
    cited: Mapping[str, Cited] = field(hash=False)
    plate_formula: bool = True
    """False where the formula of a flat brittle plate does not apply."""
    youngs_modulus_mpa: float | None = None
    poisson_ratio: float | None = None
    cte_per_k: float | None = None
    design_stress_mpa: float | None = None


@dataclass(frozen=True, slots=True)
class Rubber:
    """Of a flat gasket, of an O-ring; None means unknown."""

    key: str
    name: str
    advice: str
    cited: Mapping[str, Cited] = field(hash=False)
    silicone_grease: bool = True  # False where it swells in it
    mineral_grease: bool = True  # False where that swells it
    fluids: str = ""  # what it bears and what it does not
    youngs_modulus_mpa: float | None = None
    flow_part: float | None = None  # of what its shape resists: less than all with carbon black
    set_part: float | None = None  # of its squeeze, gone after years
    coldest_c: float | None = None
    warmest_c: float | None = None
    cte_per_k: float | None = None


Material = TypeVar("Material", Plastic, Metal, Glass, Rubber)
LARGEST = sys.float_info.max
"""Largest number that can be computed with; a whole number may be written larger."""
_FLAGS = ("advised", "brittle", "plate_formula", "silicone_grease", "mineral_grease")
_WORDS = {"name", "advice", "gentle", "fluids", *_FLAGS}


def _cited(where: str, entry: Any) -> Cited:
    """A number with its source from one inline table;
    raises OutOfRange when a part is missing or of another kind.
    """
    if not isinstance(entry, Mapping):
        value = entry if isinstance(entry, int | float) else 1
        raise OutOfRange(
            f'{where}: give it as {{ value = {value}, unit = "MPa", source = "...", basis = "memory" }}'
        )
    missing = [part for part in ("value", "unit", "source", "basis") if part not in entry]
    if missing:
        raise OutOfRange(
            f"{where}: {', '.join(missing)} missing; every number needs value, unit, source and basis"
        )
    if entry["basis"] not in BASES:
        raise OutOfRange(f"{where}: basis {entry['basis']!r} is not one of {', '.join(BASES)}")
    for part in ("value", "low", "high"):
        value = entry.get(part, 0.0)
        if isinstance(value, bool) or not isinstance(value, int | float) or not abs(value) <= LARGEST:
            raise OutOfRange(f"{where}: {part} {value!r} is not a finite number")
    known = {
        part: entry[part] for part in ("unit", "source", "basis", "low", "high", "note") if part in entry
    }
    return Cited(value=float(entry["value"]), of=tuple(entry.get("of", ())), at=points(where, entry), **known)


def read(kind: type[Material], raw: Mapping[str, Any]) -> dict[str, Material]:
    """Materials of one kind from a table as TOML gives it; raises OutOfRange: material, property, reason."""
    properties = {field.name for field in fields(kind)} - _WORDS - {"key", "cited"}
    found: dict[str, Material] = {}
    for key, entry in raw.items():
        if not isinstance(entry, Mapping) or not isinstance(entry.get("name"), str):
            raise OutOfRange(f"{key}: a material needs at least a name")
        unknown = set(entry) - properties - _WORDS
        if unknown:
            raise OutOfRange(
                f"{key}: {', '.join(sorted(unknown))} unknown; properties are {', '.join(sorted(properties))}"
            )
        cited = {name: _cited(f"{key}.{name}", entry[name]) for name in entry if name in properties}
        rest: dict[str, Any] = {name: entry[name] for name in _WORDS if name in entry}
        numbers = {name: item.value for name, item in cited.items()}
        if kind is Plastic and "stress_cap_mpa" not in numbers and "compressive_stress_10pct_mpa" in numbers:
            numbers["stress_cap_mpa"] = CAP_OVER_10PCT * numbers["compressive_stress_10pct_mpa"]
        rest.setdefault("advice", "added by the shop; check its figures")
        found[key] = kind(key=key, cited=MappingProxyType(cited), **(rest | numbers))
    return found


def raw_table(name: str) -> dict[str, Any]:
    """One of the tables that lie beside the code, as TOML gives it."""
    return tomllib.loads(DATA.joinpath(f"{name}.toml").read_text("utf-8"))


@lru_cache(maxsize=1)
def _plastics() -> dict[str, Plastic]:
    return read(Plastic, raw_table("plastics"))


@lru_cache(maxsize=1)
def _metals() -> dict[str, Metal]:
    return read(Metal, raw_table("metals"))


@lru_cache(maxsize=1)
def _glasses() -> dict[str, Glass]:
    return read(Glass, raw_table("glasses"))


def plastics(own: Mapping[str, Any] | None = None) -> dict[str, Plastic]:
    """The plastics by key; `own` adds or replaces entries in the same shape as the table."""
    return _plastics() | (read(Plastic, own) if own else {})


def metals(own: Mapping[str, Any] | None = None) -> dict[str, Metal]:
    """The case metals by key; `own` adds or replaces entries."""
    return _metals() | (read(Metal, own) if own else {})


def glasses(own: Mapping[str, Any] | None = None) -> dict[str, Glass]:
    """The glasses by key; `own` adds or replaces entries."""
    return _glasses() | (read(Glass, own) if own else {})


@lru_cache(maxsize=1)
def rubbers() -> dict[str, Rubber]:
    """The rubbers by key."""
    return read(Rubber, raw_table("rubbers"))


@lru_cache(maxsize=1)
def sources() -> dict[str, str]:
    """The sources by key, each as one line: title, and where it was read."""
    return {
        key: str(entry["title"]) + (f" ({entry['where']})" if entry["where"] != "-" else "")
        for key, entry in raw_table("sources").items()
    }
