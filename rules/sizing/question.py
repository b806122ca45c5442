"""What is asked of the sizing: the sizes, how well they are known, what is known of case, glass and shop.

Invariant: a value that is not given is None here; where a usual value stands in for it, `assumed` says so
in words.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules import limits
from rules.checks import known, number
from rules.measuring.budget import Combined, Line, combine
from rules.sizing.climate import REFERENCE_C
from rules.sizing.joint import Joint, joint
from rules.tables import Glass, Metal, Plastic, glasses, metals, plastics

USUAL_CASE_BORE_U_MM = 0.04
"""A seat read directly with a calliper (common practice)."""
USUAL_GLASS_U_MM = 0.02
"""A glass read with a calliper's outside jaws (common practice)."""
USUAL_TURNING_SPREAD_MM = 0.010
"""Standard deviation of what is turned, on the diameter, when it is measured and corrected on the way; the
wall spreads by half of it (own judgement: a wall within +-0.01 mm)."""
USUAL_HEIGHT_SPREAD_MM = 0.02
"""Standard deviation of the dressed height (own judgement)."""
TEMPERATURE_U_K = 1.0
"""Standard uncertainty of the temperature at which was measured (own judgement)."""
COVERAGE = 2.0
"""An expanded uncertainty as keyed is taken as this many standard ones (GUM 6.3.3, 95 %)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One job to size. Materials are table keys or entries; uncertainties are expanded (95 %), mm."""

    case_bore_mm: float
    glass_mm: float
    outside_mm: float | None = None
    """Of the ring; None is the seat, to a hundredth."""
    bore_mm: float | None = None
    """With `outside_mm`: a given ring to assess instead of a proposed one."""
    height_mm: float | None = None
    seat_depth_mm: float | None = None
    glass_edge_mm: float | None = None
    material: str | Plastic | None = None
    """None takes acetal and says so."""
    case_metal: str | Metal | None = None
    case_wall_mm: float | None = None
    case_height_mm: float | None = None
    ring_offset_mm: float | None = None
    case_yield_mpa: float | None = None
    glass_material: str | Glass | None = None
    glass_thickness_mm: float | None = None
    glass_domed: bool = False
    old_glass: str | None = None
    """"same", "other" (thinner or of other material) or None, not known."""
    support_mm: float | None = None
    friction: float | None = None
    rigid: bool = False
    case_bore_u_mm: float | None = None
    glass_u_mm: float | None = None
    ovality_mm: float | None = None
    turning_spread_mm: float | None = None
    """Standard deviation of what is turned, mm on the diameter."""
    height_spread_mm: float = USUAL_HEIGHT_SPREAD_MM
    overpressure_bar: float | None = None
    press_force_n: float | None = None
    temperature_c: float | None = None
    lathe_step_mm: float = limits.SIZE_STEP_MM
    """Smallest step of the ring's bore on the lathe, mm on the diameter."""


@dataclass(frozen=True, slots=True)
class Case:
    """The question with every value checked, corrected to 20 C, and usual values put in."""

    joint: Joint
    budget: Combined
    """Of the radial interference."""
    gap_sigma_mm: float
    """Standard deviation of the gap."""
    wall_sigma_mm: float
    """Standard deviation of the turned wall."""
    ovality_mm: float
    room_mm: float | None
    assumed: tuple[str, ...]


def _at_20(size_mm: float, cte: float | None, temperature_c: float) -> float:
    return size_mm / (1.0 + (cte or 0.0) * (temperature_c - REFERENCE_C))


def _usual(question: Question) -> tuple[tuple[float, float, float, float, float, float], list[str]]:
    """Seat, glass, turning uncertainty, ovality, friction, temperature, and words for what was assumed."""
    said: list[str] = []

    def take(value: float | None, usual: float, words: str) -> float:
        if value is None:
            said.append(words)
            return usual
        return value

    if question.material is None:
        said.append("gasket plastic: acetal")
    values = (
        take(
            question.case_bore_u_mm,
            USUAL_CASE_BORE_U_MM,
            "case bore good to 0.04 mm (calliper read directly)",
        ),
        take(question.glass_u_mm, USUAL_GLASS_U_MM, "glass good to 0.02 mm (calliper)"),
        take(
            question.turning_spread_mm,
            USUAL_TURNING_SPREAD_MM,
            "turned wall good to 0.01 mm",
        ),
        take(question.ovality_mm, 0.0, "seat round"),
        take(question.friction, 0.2, "friction 0.20"),
        take(question.temperature_c, REFERENCE_C, "measured at 20 C"),
    )
    away = question.temperature_c is not None and abs(question.temperature_c - REFERENCE_C) > 0.5
    if away and None in (question.case_metal, question.glass_material):
        said.append("sizes not brought to 20 C where the material is not known")
    if question.ring_offset_mm is None and question.case_height_mm is not None:
        said.append("ring at mid-height of the metal round it")
    model = question.rigid or None not in (
        question.case_metal,
        question.case_wall_mm,
        question.case_height_mm,
    )
    if model and not question.rigid and None in (question.glass_material, question.glass_thickness_mm):
        said.append("glass rigid (material or thickness not given)")
    if question.rigid:
        said.append("walls and glass rigid: model figures are upper bounds")
    return values, said


def _check(question: Question) -> None:
    """Refuse what lies outside its range; raises OutOfRange."""
    for name, value in (
        ("seat depth", question.seat_depth_mm),
        ("glass edge", question.glass_edge_mm),
        ("height", question.height_mm),
        ("case bore uncertainty", question.case_bore_u_mm),
        ("glass uncertainty", question.glass_u_mm),
        ("ovality", question.ovality_mm),
        ("overpressure", question.overpressure_bar),
        ("press force", question.press_force_n),
        ("turning spread", question.turning_spread_mm),
        ("temperature", question.temperature_c),
        ("support diameter", question.support_mm),
        ("outside", question.outside_mm),
        ("bore", question.bore_mm),
    ):
        limits.within_or_none(name, value)
    number("lathe step", question.lathe_step_mm, low=0.0005, high=0.5, unit="mm")
    number("height spread", question.height_spread_mm, low=0.0, high=0.2, unit="mm")
    if question.outside_mm is not None and question.bore_mm is not None:
        limits.under("bore", question.bore_mm, "ring's outside", question.outside_mm)


def resolve(question: Question) -> Case:
    """The question checked and made whole; raises OutOfRange."""
    _check(question)
    (seat_u, glass_u, turning, ovality, friction, temperature), said = _usual(question)
    metal, glass = question.case_metal, question.glass_material
    metal = known("case metal", metal, metals()) if isinstance(metal, str) else metal
    glass = known("glass material", glass, glasses()) if isinstance(glass, str) else glass
    plastic = question.material if question.material is not None else "acetal"
    plastic = known("material", plastic, plastics()) if isinstance(plastic, str) else plastic
    limits.within("case bore", question.case_bore_mm)
    limits.under("glass", limits.within("glass", question.glass_mm), "case bore", question.case_bore_mm)
    case_cte, glass_cte = metal.cte_per_k if metal else None, glass.cte_per_k if glass else None
    place = joint(
        case_bore_mm=_at_20(question.case_bore_mm, case_cte, temperature),
        glass_mm=_at_20(question.glass_mm, glass_cte, temperature),
        material=plastic,
        case_metal=metal,
        case_wall_mm=question.case_wall_mm,
        case_height_mm=question.case_height_mm,
        ring_offset_mm=question.ring_offset_mm or 0.0,
        glass_material=glass,
        glass_thickness_mm=question.glass_thickness_mm,
        friction=friction,
        rigid=question.rigid,
        case_yield_mpa=question.case_yield_mpa,
    )
    warmth = 0.0
    if case_cte is not None and glass_cte is not None:
        warmth = abs(place.case_bore_mm * case_cte - place.glass_mm * glass_cte) / 2.0 * TEMPERATURE_U_K
    lines = (
        Line("case bore", seat_u / COVERAGE / 2.0, basis="half its uncertainty, on the radius"),
        Line("glass", glass_u / COVERAGE / 2.0, basis="half its uncertainty, on the radius"),
        Line("temperature", warmth, basis="expansion of case less glass, 1 K"),
        Line("turning", turning / 2.0, basis="half the spread on the diameter"),
    )
    depths = [value for value in (question.seat_depth_mm, question.glass_edge_mm) if value is not None]
    return Case(
        joint=place,
        budget=combine(lines),
        gap_sigma_mm=math.sqrt(sum(line.u_mm**2 for line in lines[:3])),
        wall_sigma_mm=turning / 2.0,
        ovality_mm=ovality,
        room_mm=min(depths) if depths else None,
        assumed=tuple(said),
    )
