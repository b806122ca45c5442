"""Every shown figure opened: its formula in words, its inputs with units, its source and how that is known.

Invariant: each figure of `figures.flat` has a reason; each input is either read off the answer or is itself
a figure.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from rules.checks import OutOfRange
from rules.measuring.budget import COVERAGE
from rules.sizing.figures import flat
from rules.sizing.glass import SUPPORT_LESS_MM
from rules.sizing.sizing import Sizing
from rules.tables import raw_table, sources

FigureValue = float | str | bool | None
STRETCHED = "fit.yielded"
"""Before the names of the figures of a case that stays stretched."""
IF_ELASTIC = ", as if the bezel did not yield"
"""Behind the name of a figure that is not the answer, as the case yields."""
FROM_TABLE = "table"
"""Source of a figure that is a value of the tables."""


@dataclass(frozen=True, slots=True)
class Input:
    """Something a formula takes."""

    words: str
    unit: str
    take: Callable[[Sizing], FigureValue]
    """Reads it off the answer; None where it is not known."""
    table: tuple[str, str] | None = None
    """Material (plastic, metal, glass) and property, when it comes from a table."""


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


def _tabled(words: str, unit: str, material: str, name: str) -> Input:
    """A property of the job's plastic, metal or glass."""

    def take(sizing: Sizing) -> FigureValue:
        value: FigureValue = getattr(getattr(sizing.resolved.joint, material), name, None)
        return value

    return Input(words, unit, take, (material, name))


def _asked(name: str) -> Callable[[Sizing], FigureValue]:
    return lambda sizing: getattr(sizing.resolved.question, name)


def _compliance(name: str) -> Callable[[Sizing], FigureValue]:
    def take(sizing: Sizing) -> FigureValue:
        around = sizing.resolved.joint.around
        return None if around is None else 1000.0 * float(getattr(around, name))

    return take


def _yield(name: str) -> Callable[[Sizing], FigureValue]:
    def take(sizing: Sizing) -> FigureValue:
        given = sizing.resolved.joint.case_yield_mpa
        return given if given is not None else getattr(sizing.resolved.joint.metal, name, None)

    return take


def _support(sizing: Sizing) -> FigureValue:
    given = sizing.resolved.question.support_mm
    return (given if given is not None else sizing.resolved.joint.glass_mm - SUPPORT_LESS_MM) / 2.0


def _good_to(name: str) -> Callable[[Sizing], FigureValue]:
    """An expanded uncertainty on the diameter back from its component of the gap as measured."""
    return lambda sizing: (
        2.0 * COVERAGE * next(one.u_mm for one in sizing.resolved.of_the_gap if one.name == name)
    )


def _rings_tried(sizing: Sizing) -> FigureValue:
    """The rings that count and what happened to each; None where none does."""
    return (
        ", ".join(
            f"ring {one.number} wall {one.wall_mm:.3f} {one.outcome.replace('_', ' ')}"
            for one in sizing.resolved.question.tried
        )
        or None
    )


INPUTS: dict[str, Input] = {
    "case_bore": Input("case bore at 20 C", "mm", lambda a: a.resolved.joint.case_bore_mm),
    "glass": Input("glass at 20 C", "mm", lambda a: a.resolved.joint.glass_mm),
    "ovality": Input("ovality of the seat", "mm", lambda a: a.resolved.demands.ovality_mm),
    "seat_depth": Input("seat depth", "mm", _asked("seat_depth_mm")),
    "glass_edge": Input("straight edge of the glass", "mm", _asked("glass_edge_mm")),
    "interference": Input("radial interference", "mm", lambda a: a.fit.interference_mm),
    "interference_u": Input("combined standard uncertainty", "mm", lambda a: a.resolved.budget.u_mm),
    "chamfer_needed": Input("width the glass edge needs", "mm", lambda a: a.consequences.chamfer_needed_mm),
    "squeezed_wall": Input("squeezed wall", "mm", lambda a: a.fit.squeezed_wall_mm),
    "modulus": _tabled("modulus of the plastic", "MPa", "plastic", "youngs_modulus_mpa"),
    "stress_cap": _tabled("stress cap of the plastic", "MPa", "plastic", "stress_cap_mpa"),
    "relaxation_1h": _tabled("stress left after an hour", "1", "plastic", "relaxation_1h"),
    "relaxation_1000h": _tabled("stress left after 1000 hours", "1", "plastic", "relaxation_1000h"),
    "relaxation_10y": _tabled("stress left after ten years", "1", "plastic", "relaxation_10y"),
    "ring_cte": _tabled("expansion of the plastic", "1/K", "plastic", "cte_per_k"),
    "friction": Input("friction", "1", lambda a: a.resolved.joint.friction),
    "case_compliance": Input("compliance of the case", "um per N/mm", _compliance("case_mm2_per_n")),
    "glass_compliance": Input("compliance of the glass", "um per N/mm", _compliance("glass_mm2_per_n")),
    "case_wall": Input("metal outside the seat", "mm", _asked("case_wall_mm")),
    "case_height": Input("height of the metal", "mm", _asked("case_height_mm")),
    "ring_offset": Input(
        "ring's distance from the metal's middle", "mm", lambda a: a.resolved.question.ring_offset_mm or 0.0
    ),
    "case_modulus": _tabled("modulus of the case", "MPa", "metal", "youngs_modulus_mpa"),
    "case_poisson": _tabled("Poisson's ratio of the case", "1", "metal", "poisson_ratio"),
    "case_cte": _tabled("expansion of the case", "1/K", "metal", "cte_per_k"),
    "yield_soft": Input(
        "yield of the soft temper", "MPa", _yield("yield_soft_mpa"), ("metal", "yield_soft_mpa")
    ),
    "yield_hard": Input(
        "yield of the hard temper", "MPa", _yield("yield_hard_mpa"), ("metal", "yield_hard_mpa")
    ),
    "yield_taken": Input("yield taken", "MPa", lambda a: getattr(a.fit.yielded, "yield_mpa", None)),
    "glass_name": _tabled("glass", "words", "glass", "name"),
    "glass_cte": _tabled("expansion of the glass", "1/K", "glass", "cte_per_k"),
    "glass_modulus": _tabled("modulus of the glass", "MPa", "glass", "youngs_modulus_mpa"),
    "glass_poisson": _tabled("Poisson's ratio of the glass", "1", "glass", "poisson_ratio"),
    "design_stress": _tabled("published design stress of the glass", "MPa", "glass", "design_stress_mpa"),
    "glass_thickness": Input("thickness of the glass", "mm", _asked("glass_thickness_mm")),
    "support": Input("support radius", "mm", _support),
    "overpressure": Input("test overpressure", "bar", _asked("overpressure_bar")),
    "rings_tried": Input("rings tried", "words", _rings_tried),
    "hand_scale": Input("softness of the hand", "points of squeeze", _asked("hand_scale_pct")),
    "lathe_step": Input("step of the lathe", "mm", _asked("lathe_step_mm")),
    "landing": Input("spread of the bore as cut", "mm", lambda a: a.window.landing_sigma_mm),
    "case_bore_u": Input("case bore good to", "mm", _good_to("case bore")),
    "glass_u": Input("glass good to", "mm", _good_to("glass")),
    "turning_spread": Input(
        "turning spread on the diameter", "mm", lambda a: 2.0 * a.resolved.spread.wall_mm
    ),
    "height_spread": Input("spread of the height", "mm", _asked("height_spread_mm")),
}


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
    grounds = f"{sources().get(why.source)}; {why.basis}"
    if why.source == FROM_TABLE:
        grounds = taken[0][3] or "not in the tables"
    return OpenedFigure(reason=why, value=figures.get(figure), inputs=tuple(taken), grounds=grounds)


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
