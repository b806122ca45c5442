"""A question made whole: its sizes corrected to 20 C, its materials looked up, and usual values put in.

Invariant: where a usual value stands in for one that was not given, `assumed` says so in words.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from rules.checks import Item, known
from rules.measuring.budget import COVERAGE, Combined, Component, combine
from rules.measuring.instruments import GLASS_BY_CALLIPER_U_MM, SEAT_BY_CALLIPER_U_MM
from rules.sizing.casing import RIGID, surround
from rules.sizing.chance import Spread
from rules.sizing.climate import REFERENCE_C
from rules.sizing.demands import Demands, most_squeeze
from rules.sizing.joint import USUAL_FRICTION, Joint
from rules.sizing.learned import Belief, learned
from rules.sizing.question import SizingQuestion
from rules.tables import glasses, metals, plastics

USUAL_TURNING_SPREAD_MM = 0.010
"""Standard deviation of what is turned, on the diameter, when it is measured and corrected on the way; the
wall spreads by half of it (own judgement: a wall within +-0.01 mm)."""
TEMPERATURE_U_K = 1.0
"""Standard uncertainty of the temperature at which was measured (own judgement)."""
USUAL_PLASTIC = "acetal"
AFTER_RINGS = "gap"
"""Component of the budget in place of case bore and glass, once rings were tried."""


@dataclass(frozen=True, slots=True)
class Resolved:
    """A question with its sizes at 20 C, its materials looked up, and usual values put in."""

    question: SizingQuestion
    demands: Demands
    budget: Combined
    """Of the radial interference."""
    spread: Spread
    assumed: tuple[str, ...]
    of_the_gap: tuple[Component, ...]
    """How well the gap is known as measured."""
    measured: Belief
    """The gap at 20 C as seat and glass were measured."""
    believed: Belief
    """The same after the rings tried."""

    @property
    def joint(self) -> Joint:
        """What the ring goes into."""
        return self.demands.joint


@dataclass(frozen=True, slots=True)
class _Usual:
    """What is given or usual."""

    case_bore_u_mm: float
    glass_u_mm: float
    turning_spread_mm: float
    ovality_mm: float
    friction: float
    temperature_c: float


def _usual(question: SizingQuestion) -> tuple[_Usual, list[str]]:
    """Usual values for what was not given, and words for each that stands in."""
    said = [] if question.material is not None else [f"gasket plastic: {USUAL_PLASTIC}"]

    def take(value: float | None, usual: float, words: str) -> float:
        if value is None:
            said.append(words)
        return usual if value is None else value

    seat_u, glass_u = SEAT_BY_CALLIPER_U_MM, GLASS_BY_CALLIPER_U_MM
    return _Usual(
        take(question.case_bore_u_mm, seat_u, f"case bore good to {seat_u:.2f} mm (calliper read directly)"),
        take(question.glass_u_mm, glass_u, f"glass good to {glass_u:.2f} mm (calliper)"),
        take(question.turning_spread_mm, USUAL_TURNING_SPREAD_MM, "turned wall good to 0.01 mm"),
        take(question.ovality_mm, 0.0, "seat round"),
        take(question.friction, USUAL_FRICTION, f"friction {USUAL_FRICTION:.2f}"),
        take(question.temperature_c, REFERENCE_C, f"measured at {REFERENCE_C:.0f} C"),
    ), said


def _taken_for_granted(question: SizingQuestion) -> list[str]:
    """What was left out or made simpler, in words."""
    away = question.temperature_c is not None and abs(question.temperature_c - REFERENCE_C) > 0.5
    case = question.case_metal, question.case_wall_mm, question.case_height_mm
    rows = (
        (
            away and None in (question.case_metal, question.glass_material),
            "sizes not corrected to 20 C where the material is not known",
        ),
        (
            question.ring_offset_mm is None and question.case_height_mm is not None,
            "ring at mid-height of the metal round it",
        ),
        (question.rigid, "walls and glass rigid: model figures are upper bounds"),
        (
            not question.rigid
            and None not in case
            and None in (question.glass_material, question.glass_thickness_mm),
            "glass rigid (material or thickness not given)",
        ),
    )
    return [words for due, words in rows if due]


def _at_20(size_mm: float, cte: float | None, temperature_c: float) -> float:
    return size_mm / (1.0 + (cte or 0.0) * (temperature_c - REFERENCE_C))


def _entry(name: str, named: str | Item | None, table: Mapping[str, Item]) -> Item | None:
    """The entry of a table that is named by its key, or given."""
    return known(name, named, table) if isinstance(named, str) else named


def _joint(question: SizingQuestion, usual: _Usual) -> Joint:
    """The joint at 20 C; raises OutOfRange for a material that is not in the tables."""
    metal = _entry("case metal", question.case_metal, metals())
    glass = _entry("glass material", question.glass_material, glasses())
    case_bore = _at_20(question.case_bore_mm, metal.cte_per_k if metal else None, usual.temperature_c)
    glass_mm = _at_20(question.glass_mm, glass.cte_per_k if glass else None, usual.temperature_c)
    around = (
        RIGID
        if question.rigid
        else surround(
            case_bore_mm=case_bore,
            glass_mm=glass_mm,
            metal=metal,
            case_wall_mm=question.case_wall_mm,
            case_height_mm=question.case_height_mm,
            ring_offset_mm=question.ring_offset_mm or 0.0,
            glass=glass,
            glass_thickness_mm=question.glass_thickness_mm,
        )
    )
    return Joint(
        case_bore_mm=case_bore,
        glass_mm=glass_mm,
        plastic=_entry("material", question.material, plastics()) or plastics()[USUAL_PLASTIC],
        metal=metal,
        glass=glass,
        around=around,
        friction=usual.friction,
        rigid=question.rigid,
        case_yield_mpa=question.case_yield_mpa,
    )


def _warmth_mm(joint: Joint) -> float:
    """Standard uncertainty that the temperature brings to the gap, mm; 0 where an expansion is not known."""
    metal, glass = joint.metal, joint.glass
    if metal is None or glass is None or metal.cte_per_k is None or glass.cte_per_k is None:
        return 0.0
    return (
        abs(joint.case_bore_mm * metal.cte_per_k - joint.glass_mm * glass.cte_per_k) / 2.0 * TEMPERATURE_U_K
    )


def _of_the_gap(joint: Joint, usual: _Usual) -> tuple[Component, ...]:
    """How well the gap is known as measured."""
    return (
        Component(
            "case bore", usual.case_bore_u_mm / COVERAGE / 2.0, basis="half its uncertainty, on the radius"
        ),
        Component("glass", usual.glass_u_mm / COVERAGE / 2.0, basis="half its uncertainty, on the radius"),
        Component("temperature", _warmth_mm(joint), basis="expansion of case less glass, 1 K"),
    )


def _turning(sd_mm: float, dof: float) -> Component:
    """The spread of the turned wall as a component; one learned from few rings as the scale of Student's t
    that has this standard deviation.
    """
    if math.isinf(dof):
        return Component("turning", sd_mm, basis="half the spread on the diameter")
    return Component("turning", sd_mm * math.sqrt((dof - 2.0) / dof), dof, basis="of the rings finished here")


def resolve(question: SizingQuestion) -> Resolved:
    """The question made whole; raises OutOfRange for a material that is not in the tables."""
    usual, said = _usual(question)
    joint = _joint(question, usual)
    turning = usual.turning_spread_mm / 2.0
    of_the_gap = _of_the_gap(joint, usual)
    measured = Belief(joint.gap_mm, math.sqrt(sum(one.u_mm**2 for one in of_the_gap)))
    counted, believed = of_the_gap, learned(measured, question.tried, question.hand_scale_pct)
    if believed != measured:
        joint = replace(joint, learned_mm=believed.mean_mm - measured.mean_mm)
        counted = (Component(AFTER_RINGS, believed.sd_mm, basis="the gap after the rings tried"),)
    return Resolved(
        question=question,
        demands=Demands(
            joint=joint,
            ovality_mm=usual.ovality_mm,
            overpressure_bar=question.overpressure_bar,
            press_force_n=question.press_force_n,
            room_mm=question.room_mm,
            most_squeeze=most_squeeze(joint, question.case_wall_mm),
        ),
        budget=combine((*counted, _turning(turning, question.turning_dof))),
        spread=Spread(gap_mm=believed.sd_mm, wall_mm=turning, height_mm=question.height_spread_mm),
        assumed=(*said, *_taken_for_granted(question)),
        of_the_gap=of_the_gap,
        measured=measured,
        believed=believed,
    )
