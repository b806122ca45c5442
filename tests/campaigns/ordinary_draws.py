"""Jobs for the campaign over ordinary jobs: the ones of every day, and the whole range a bench sees."""

from __future__ import annotations

import random
from dataclasses import replace

from rules import tables
from rules.sizing.question import SizingQuestion

STEPS_MM = (0.01, 0.01, 0.02, 0.005, 0.05)
"""Steps of lathes on the diameter."""


def ordinary(dice: random.Random) -> SizingQuestion:
    """One usual job: 316L, mostly acetal and sapphire, calliper and micrometer, a small bench lathe."""
    glass = round(dice.uniform(24.0, 38.0), 2)
    gap = dice.uniform(0.3, 1.0)
    thickness = round(dice.uniform(1.2, 2.5), 1)
    depth = round(dice.uniform(1.2, 2.6), 2)
    return SizingQuestion(
        case_bore_mm=round(glass + 2 * gap, 2),
        glass_mm=glass,
        seat_depth_mm=depth,
        glass_edge_mm=round(max(0.6, thickness - 0.2), 2),
        material=dice.choices(("acetal", "pa66", "pa12", "peek"), (17, 1, 1, 1))[0],
        case_metal="316L",
        case_wall_mm=round(dice.uniform(1.0, 4.0), 1),
        case_height_mm=round(dice.uniform(2.0, 5.0), 1),
        ring_offset_mm=round(dice.uniform(0.0, 0.4), 1),
        glass_material=dice.choices(("sapphire", "mineral"), (3, 1))[0],
        glass_thickness_mm=thickness,
        case_bore_u_mm=dice.choice((0.015, 0.015, 0.02, 0.04)),
        glass_u_mm=dice.choice((0.005, 0.01, 0.02)),
        ovality_mm=dice.choices((0.0, 0.01, 0.02, 0.04), (4, 3, 2, 1))[0],
        turning_spread_mm=dice.choice((0.005, 0.01, 0.015)),
        overpressure_bar=dice.choice((None, 2.0, 3.0, 5.0)),
    )


def wide(dice: random.Random) -> SizingQuestion:
    """One job from everything there is: all metals, glasses and plastics, gaps of 0.2 to 1.4 mm, ovals to
    0.12, thin bezels, pressures to 20 bar, benches from 5 to 38 C; every fifth with the metal unknown, every
    fourth with a press that is known, some with the yield of the very case.
    """
    glass, thickness = round(dice.uniform(14.0, 44.0), 2), round(dice.uniform(0.8, 3.5), 1)
    case_bore = round(glass + 2 * dice.uniform(0.2, 1.4), 2)
    asked = SizingQuestion(
        case_bore_mm=case_bore,
        glass_mm=glass,
        seat_depth_mm=round(dice.uniform(0.6, 3.5), 2),
        glass_edge_mm=dice.choice((None, round(dice.uniform(0.5, 3.0), 2))),
        material=dice.choice(("acetal", "acetal", *tables.plastics())),
        glass_material=dice.choice((None, *tables.glasses())),
        glass_thickness_mm=dice.choice((None, thickness, thickness, thickness)),
        glass_domed=dice.random() < 0.1,
        case_bore_u_mm=round(dice.uniform(0.004, 0.05), 3),
        glass_u_mm=round(dice.uniform(0.003, 0.03), 3),
        ovality_mm=round(dice.choice((0.0, 0.02, 0.05, 0.12)) * dice.random(), 3),
        turning_spread_mm=round(dice.uniform(0.002, 0.02), 3),
        overpressure_bar=dice.choice((None, round(dice.uniform(0.5, 20.0), 1))),
        friction=round(dice.uniform(0.08, 0.35), 2),
        temperature_c=dice.choice((None, round(dice.uniform(5.0, 38.0), 1))),
        press_force_n=dice.choice((None, None, None, round(dice.uniform(100.0, 4000.0), -1))),
        lathe_step_mm=dice.choice(STEPS_MM),
        old_glass=dice.choice((None, "same", "other")),
    )
    if dice.random() < 0.2:
        return asked
    asked = replace(
        asked,
        case_metal=dice.choice(tuple(tables.metals())),
        case_wall_mm=round(dice.choice((dice.uniform(0.3, 1.5), dice.uniform(1.0, 6.0))), 1),
        case_height_mm=round(dice.uniform(0.8, 5.0), 1),
        ring_offset_mm=round(dice.uniform(0.0, 0.6), 1),
    )
    if dice.random() < 0.2:
        asked = replace(asked, case_yield_mpa=round(dice.uniform(100.0, 700.0), -1))
    return asked


def given(dice: random.Random, asked: SizingQuestion, outside_mm: float, bore_mm: float) -> SizingQuestion:
    """The same job with a ring that is there: near the proposed one, at an end of the band, or anywhere."""
    off = dice.choice((0.0, dice.uniform(-0.05, 0.05), dice.uniform(-0.15, 0.15)))
    most = outside_mm - 0.4
    return replace(asked, outside_mm=outside_mm, bore_mm=min(most, round(bore_mm + off, 2)))
