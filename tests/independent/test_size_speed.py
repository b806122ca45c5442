"""How long a full answer takes, beside the same chance drawn 10,000 times with numpy: reported, not
asserted.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import replace
from statistics import median
from typing import Any

import numpy as np
import pytest

from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import size
from tests.independent.drawn_rings import chance_by_drawing
from tests.independent.random_jobs import drawn

pytestmark = pytest.mark.alone
FULL = SizingQuestion(
    case_bore_mm=33.20,
    glass_mm=32.14,
    seat_depth_mm=1.45,
    glass_edge_mm=1.5,
    material="acetal",
    case_metal="316L",
    case_wall_mm=3.5,
    case_height_mm=4.0,
    glass_material="sapphire",
    glass_thickness_mm=1.5,
    case_bore_u_mm=0.02,
    glass_u_mm=0.01,
    turning_spread_mm=0.01,
    overpressure_bar=3.0,
    press_force_n=3500.0,
    case_yield_mpa=400.0,
)


def test_full_answer() -> None:
    answer = size(FULL)
    assert answer.window.feasible
    assert answer.fit.contact_pressure_10y_mpa is not None


def _median_ms(work: Callable[[], Any], times: int) -> float:
    spent = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        spent.append(1000 * (time.perf_counter() - start))
    return median(spent)


def test_beside_drawing_with_numpy(capsys: pytest.CaptureFixture[str]) -> None:
    """A full answer against one chance of one bore by drawing; the window would take dozens of these."""
    asked = replace(FULL, seat_depth_mm=1.45, glass_edge_mm=None)
    answer = size(asked)
    place = answer.resolved.joint
    job = drawn(asked, answer.ring, seat_mm=place.case_bore_mm, glass_mm=place.glass_mm)
    dice = np.random.default_rng(1)
    ours = _median_ms(lambda: size(asked), 40)
    theirs = _median_ms(lambda: chance_by_drawing(job, rings=10_000, dice=dice), 5)
    with capsys.disabled():
        print(f"\nfull answer {ours:.2f} ms, 10,000 rings drawn {theirs:.1f} ms: {ours / theirs:.3f} of it")
    assert answer.window.ring_chance == pytest.approx(
        chance_by_drawing(job, rings=40_000, dice=dice), abs=0.01
    )
