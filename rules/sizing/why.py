"""Every shown figure opened: its formula in words, its inputs with units, its source and how that is known.

Invariant: each figure of `figures.flat` has a reason; each input is either read off the answer or is itself
a figure.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from rules.checks import OutOfRange
from rules.sizing.figures import flat
from rules.sizing.sizing import Sizing
from rules.sizing.why_inputs import INPUTS, FigureValue, Input
from rules.tables import raw_table, sources

STRETCHED = "fit.yielded"
"""Before the names of the figures of a case that stays stretched."""
IF_ELASTIC = ", as if the bezel did not yield"
"""Behind the name of a figure that is not the answer, as the case yields."""
FROM_TABLE = "table"
"""Source of a figure that is a value of the tables."""
NAMELESS = {
    "trade": "common practice; nothing printed is cited",
    "own": "worked out for this program; nothing printed is cited",
}
"""What is said where there is no source that could be named."""


@dataclass(frozen=True, slots=True)
class Reason:
    """Where one figure comes from."""

    figure: str
    """Its dotted name."""
    name: str
    """In the trade's words."""
    unit: str
    formula: str
    inputs: tuple[str, ...]
    """Names of inputs or of other figures."""
    source: str
    """Key of the list of sources, or "table": that of its first input, which it is."""
    basis: str
    """published, memory or common practice."""
    holds: str = ""
    """Where it is valid."""


@lru_cache(maxsize=1)
def reasons() -> dict[str, Reason]:
    """Every reason by the dotted name of its figure."""
    return {
        figure: Reason(figure=figure, **(entry | {"inputs": tuple(entry["inputs"])}))
        for figure, entry in raw_table("why").items()
    }


def reason(figure: str) -> Reason:
    """The reason of one figure, by its dotted name; raises OutOfRange when there is none."""
    known = reasons()
    stretched, base = known[STRETCHED], f"fit.{figure.removeprefix(f'{STRETCHED}.')}"
    if figure.startswith(f"{STRETCHED}.") and base in known:
        return replace(
            stretched, figure=figure, name=f"{known[base].name}, bezel stretched", unit=known[base].unit
        )
    if figure.startswith(STRETCHED):
        figure = STRETCHED
    if figure not in known:
        raise OutOfRange(f"figure: {figure!r} is not known; known are {', '.join(known)}")
    return known[figure]


def first_the_answer(sizing: Sizing, figure: str) -> tuple[str, ...]:
    """A figure of the fit with that of the stretched case, the one that is the answer first."""
    beside = f"{STRETCHED}.{figure.removeprefix('fit.')}"
    if not (sizing.fit.stretched or sizing.fit.perhaps) or beside not in flat(sizing):
        return (figure,)
    return (beside, figure) if sizing.fit.stretched else (figure, beside)


@dataclass(frozen=True, slots=True)
class OpenedFigure:
    """One figure of one answer, opened."""

    reason: Reason
    value: Any
    inputs: tuple[tuple[str, FigureValue, str, str], ...]
    """Words, value and unit of each input, and its own source where it comes from a table."""
    grounds: str
    """The source in words, and how it is known."""


def opened(sizing: Sizing, figure: str) -> OpenedFigure:
    """One figure with the values that went into it; raises OutOfRange for an unknown name."""
    why, figures = reason(figure), flat(sizing)
    if sizing.fit.stretched is not None and f"{STRETCHED}.{figure.removeprefix('fit.')}" in figures:
        why = replace(why, name=why.name + IF_ELASTIC)
    taken: list[tuple[str, FigureValue, str, str]] = []
    for name in why.inputs:
        if name in INPUTS:
            one = INPUTS[name]
            taken.append((one.words, one.take(sizing), one.unit, _table_source(sizing, one)))
        else:
            taken.append((reason(name).name, figures.get(name), reason(name).unit, ""))
    grounds = grounds_of(why)
    if why.source == FROM_TABLE:
        grounds = taken[0][3] or "not in the tables"
    return OpenedFigure(reason=why, value=figures.get(figure), inputs=tuple(taken), grounds=grounds)


def grounds_of(of: Reason) -> str:
    """The source of a reason by its name, and how it is known where the name does not say that."""
    if of.source in NAMELESS:
        return NAMELESS[of.source]
    title = str(sources().get(of.source))
    return title if of.basis in title else f"{title}; {of.basis if of.basis != 'memory' else 'from memory'}"


def _table_source(sizing: Sizing, one: Input) -> str:
    """How a table value is known and from where; empty for what was measured or computed."""
    keyed = sizing.resolved.joint.case_yield_mpa is not None
    if one.table is None or (keyed and one.table[1].startswith("yield")):
        return ""
    material = getattr(sizing.resolved.joint, one.table[0])
    cited = material.cited if material is not None else {}
    found = cited.get(one.table[1])
    if found is None and one.table[1] == "stress_cap_mpa":
        found = cited.get("compressive_stress_10pct_mpa")
    return "" if found is None else found.words + (f" ({found.note})" if found.note else "")
