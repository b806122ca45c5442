"""Random jobs for the sizing, and the same jobs in the form the drawing check takes."""

from __future__ import annotations

import random
from dataclasses import replace
from typing import Any

import numpy as np

from rules import tables
from rules.ring import RingSizes
from rules.sizing.question import SizingQuestion
from tests.independent.drawn_rings import Drawn

PLASTICS = ("acetal", "acetal", "pa66", "pa6", "pa12", "peek", "pvdf", "uhmwpe", "pvc", "ptfe")
METALS = (
    "316L",
    "304",
    "titanium2",
    "titanium5",
    "brass",
    "brass_plated",
    "gold18",
    "silver",
    "aluminium",
    "ceramic",
)
STEPS_MM = (0.01, 0.01, 0.01, 0.02, 0.005, 0.05, 0.0254)
"""Steps of lathes on the diameter: read-outs and dials, one of them in inches."""
GLASSES = ("sapphire", "mineral", "toughened", "acrylic")


def job(dice: random.Random) -> SizingQuestion:
    """One job from the whole range a bench sees, with as much known as chance has it."""
    glass = dice.uniform(18.0, 42.0)
    gap = dice.uniform(0.30, 1.20)
    height = round(dice.uniform(0.8, 2.4), 2)
    known = dice.random() < 0.75
    asked = SizingQuestion(
        case_bore_mm=round(glass + 2 * gap, 2),
        glass_mm=round(glass, 2),
        height_mm=height,
        material=dice.choice(PLASTICS),
        case_bore_u_mm=round(dice.uniform(0.005, 0.05), 3),
        glass_u_mm=round(dice.uniform(0.004, 0.03), 3),
        turning_spread_mm=round(dice.uniform(0.002, 0.02), 3),
        ovality_mm=dice.choice((0.0, 0.0, 0.02, 0.05, 0.08)),
        friction=round(dice.uniform(0.08, 0.35), 2),
    )
    if not known:
        return asked
    asked = replace(
        asked,
        case_metal=dice.choice(METALS),
        case_wall_mm=round(dice.uniform(0.8, 4.0), 1),
        case_height_mm=round(dice.uniform(1.5, 5.0), 1),
        ring_offset_mm=round(dice.uniform(0.0, 0.4), 2),
        glass_material=dice.choice(GLASSES),
        glass_thickness_mm=round(dice.uniform(1.0, 3.0), 1),
    )
    if dice.random() < 0.4:
        asked = replace(asked, press_force_n=dice.choice((1000.0, 2000.0, 3000.0)))
    if dice.random() < 0.4:
        asked = replace(asked, overpressure_bar=dice.choice((2.0, 3.0, 5.0)))
    if dice.random() < 0.4:
        asked = replace(asked, seat_depth_mm=round(height * dice.uniform(1.02, 1.10), 2))
    if dice.random() < 0.3:
        asked = replace(asked, case_yield_mpa=dice.choice((250.0, 400.0, 600.0)))
    return asked


def wide_job(dice: random.Random) -> SizingQuestion:
    """The same with gaps of 0.2 to 1.4 mm, ovals to 0.12, thin gold, any lathe; every third height is left
    open.
    """
    asked = replace(
        job(dice),
        lathe_step_mm=dice.choice(STEPS_MM),
        ovality_mm=round(dice.choice((0.0, 1.0)) * dice.random() * 0.12, 3),
    )
    glass = round(asked.case_bore_mm - 2 * dice.uniform(0.2, 1.4), 2)
    if glass < asked.case_bore_mm - 0.4:
        asked = replace(asked, glass_mm=glass)
    if asked.case_metal is not None and dice.random() < 0.2:
        asked = replace(asked, case_metal=dice.choice(("gold9", "gold14")), case_wall_mm=0.8)
    if dice.random() < 0.3:
        depth = asked.seat_depth_mm or (asked.height_mm or 1.0) + 0.2
        asked = replace(asked, height_mm=None, seat_depth_mm=depth)
    return asked


def stiff_at(plastic: str) -> dict[float, tuple[float, float]]:
    """Modulus and cap at -10 and +60 C over those at 23 C, straight between the points of the table."""
    raw = tables.raw_table("plastics")[plastic]
    parts: list[list[float]] = []
    for name in ("youngs_modulus_at", "stress_cap_at"):
        if name not in raw:
            return {}
        known = sorted([*raw[name]["at"], [23, raw[name]["value"]]])
        where, what = [point[0] for point in known], [point[1] for point in known]
        at = np.interp([-10.0, 60.0], where, what, left=np.nan, right=np.nan) / raw[name]["value"]
        parts.append(at.tolist())
    by = zip((-10.0, 60.0), parts[0], parts[1], strict=True)
    return {degrees: (modulus, cap) for degrees, modulus, cap in by if modulus == modulus and cap == cap}


def drawn(asked: SizingQuestion, ring: RingSizes, *, seat_mm: float, glass_mm: float) -> Drawn:
    """The job as the drawing check takes it, with the figures of its materials."""
    plastic = tables.plastics()[str(asked.material)]
    metal = tables.metals()[str(asked.case_metal)] if asked.case_metal else None
    glass = tables.glasses()[str(asked.glass_material)] if asked.glass_material else None
    section: dict[str, Any] | None = None
    pane: dict[str, Any] | None = None
    if metal is not None and glass is not None:
        section = {
            "modulus": metal.youngs_modulus_mpa,
            "nu": metal.poisson_ratio,
            "cte": metal.cte_per_k,
            "wall": asked.case_wall_mm,
            "height": asked.case_height_mm,
            "offset": asked.ring_offset_mm or 0.0,
        }
        pane = {
            "modulus": glass.youngs_modulus_mpa,
            "nu": glass.poisson_ratio,
            "cte": glass.cte_per_k,
            "thickness": asked.glass_thickness_mm,
        }
    gentle = metal is not None and (
        metal.key == "brass_plated" or (metal.key.startswith("gold") and (asked.case_wall_mm or 0.0) < 1.5)
    )
    return Drawn(
        seat=seat_mm,
        glass=glass_mm,
        seat_sigma=(asked.case_bore_u_mm or 0.0) / 2,
        glass_sigma=(asked.glass_u_mm or 0.0) / 2,
        wall=ring.wall_mm,
        wall_sigma=(asked.turning_spread_mm or 0.0) / 2,
        height=ring.height_mm,
        height_sigma=asked.height_spread_mm,
        oval=asked.ovality_mm or 0.0,
        most_squeeze=0.09 if gentle else 0.13,
        plastic={
            "modulus": plastic.youngs_modulus_mpa,
            "cap": plastic.stress_cap_mpa,
            "nu": plastic.poisson_ratio,
            "cte": plastic.cte_per_k,
            "left_1h": plastic.relaxation_1h,
            "left_10y": plastic.relaxation_10y,
        },
        hard=metal.yield_hard_mpa if metal is not None and section is not None else None,
        stiff_at=stiff_at(str(asked.material)),
        metal=section,
        pane=pane,
        friction=asked.friction or 0.2,
        overpressure=asked.overpressure_bar,
        press=asked.press_force_n,
        room=asked.seat_depth_mm,
        yields_at=asked.case_yield_mpa,
    )
