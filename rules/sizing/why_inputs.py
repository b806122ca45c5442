"""What the formulas of the figures take: read off the answer, or a value of the tables.

Invariant: an input that is not known reads None.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from rules.lengths import length
from rules.measuring.budget import COVERAGE
from rules.sizing import climate
from rules.sizing.glass import SUPPORT_LESS_MM
from rules.sizing.sizing import Sizing

FigureValue = float | str | bool | None


@dataclass(frozen=True, slots=True)
class Input:
    """Something a formula takes."""

    words: str
    unit: str
    take: Callable[[Sizing], FigureValue]
    """Reads it off the answer; None where it is not known."""
    table: tuple[str, str] | None = None
    """Material (plastic, metal, glass) and property, when it comes from a table."""


def _tabled(words: str, unit: str, material: str, name: str) -> Input:
    """A property of the job's plastic, metal or glass."""

    def take(sizing: Sizing) -> FigureValue:
        value: FigureValue = getattr(getattr(sizing.resolved.joint, material), name, None)
        return value

    return Input(words, unit, take, (material, name))


def _at(words: str, unit: str, name: str, temperature_c: float) -> Input:
    """Modulus or stress cap of the plastic at a temperature."""

    def take(sizing: Sizing) -> FigureValue:
        plastic = sizing.resolved.joint.plastic
        parts, room = plastic.parts_at(temperature_c), getattr(plastic, name)
        if parts is None or room is None:
            return None
        return float(room) * parts[0 if name == "youngs_modulus_mpa" else 1]

    words = f"{words} of the plastic {climate.at_words(temperature_c)}"
    return Input(words, unit, take, ("plastic", name.replace("_mpa", "_at")))


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
        "; ".join(
            f"ring {one.number}, wall {length(one.wall_mm, 3)}, {one.outcome.replace('_', ' ')}"
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
    "modulus_cold": _at("modulus", "MPa", "youngs_modulus_mpa", climate.COLDEST_C),
    "modulus_warm": _at("modulus", "MPa", "youngs_modulus_mpa", climate.WARMEST_C),
    "cap_cold": _at("stress cap", "MPa", "stress_cap_mpa", climate.COLDEST_C),
    "cap_warm": _at("stress cap", "MPa", "stress_cap_mpa", climate.WARMEST_C),
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
