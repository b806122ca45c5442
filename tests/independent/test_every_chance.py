"""The chance of single rings beside drawing, and the proposed bore beside its neighbours, quick."""

from __future__ import annotations

import math
import random
from dataclasses import replace

import numpy as np
import pytest
from scipy import integrate, optimize, stats

from rules.checks import OutOfRange
from rules.ring import RingSizes
from rules.sizing.chance import Landing, Spread
from rules.sizing.demands import Limit
from rules.sizing.proposal import asked_about
from rules.sizing.question import SizingQuestion
from rules.sizing.resolved import Resolved, resolve
from rules.sizing.thumb import ring
from rules.sizing.window import Window, window_of
from tests.independent.drawn_rings import chance_by_drawing
from tests.independent.random_jobs import drawn, wide_job

CLOSE = 0.013
"""Within a point, and two standard deviations of 40,000 rings."""


def job(seed: int) -> tuple[SizingQuestion, Resolved, RingSizes, Window]:
    """A drawn job at 20 C whose window is open."""
    for attempt in range(60):
        question = wide_job(random.Random(1000 * seed + attempt))
        try:
            resolved = resolve(question)
            made, window = asked_about(resolved)
        except OutOfRange:
            continue
        if window.feasible:
            return question, resolved, made, window
    raise AssertionError("no open window")


@pytest.mark.parametrize("seed", range(3))
def test_chances_beside_drawing(seed: int) -> None:
    """Of the ring proposed, of one nearer either end, and of the two rules of thumb."""
    question, resolved, made, window = job(seed)
    assert window.bore_low_mm is not None and window.bore_high_mm is not None
    outside, gap, dice = made.outside_diameter_mm, resolved.joint.gap_mm, np.random.default_rng(seed)

    def by_drawing(bore: float) -> float:
        sizes = replace(made, bore_mm=bore)
        one = drawn(question, sizes, seat_mm=question.case_bore_mm, glass_mm=question.glass_mm)
        return chance_by_drawing(one, rings=40_000, dice=dice)

    assert window.chance == pytest.approx(by_drawing(made.bore_mm), abs=CLOSE)
    for part in (0.1, 0.9):
        bore = window.bore_low_mm + part * (window.bore_high_mm - window.bore_low_mm)
        given = ring(outside_mm=outside, bore_mm=bore, height_mm=made.height_mm, gap=gap)
        found = window_of(resolved, given).ring_chance
        assert found == pytest.approx(by_drawing(bore), abs=CLOSE)
    for found, bore in (
        (window.tenth_chance, outside - 2 * gap - 0.1),
        (window.nine_chance, outside - 2 * gap / 0.91),
    ):
        assert found == pytest.approx(by_drawing(round(bore + 1e-9, 2)), abs=CLOSE)


@pytest.mark.parametrize(("oval", "doubt"), [(0.0, 0.04), (0.03, 0.01)])
def test_a_chance_of_the_squeeze_alone_by_an_integral(oval: float, doubt: float) -> None:
    """Over the gap: the wall has to lie between (gap + oval/4)/0.95 and (gap - oval/4)/0.87."""
    plain = SizingQuestion(case_bore_mm=31.46, glass_mm=30.44, glass_u_mm=0.01, turning_spread_mm=0.012)
    asked = replace(plain, case_bore_u_mm=doubt, ovality_mm=oval)
    resolved = resolve(asked)
    made, window = asked_about(resolved)
    sd_gap, wall = math.hypot(doubt / 2, 0.005) / 2, made.wall_mm

    def lands(gap: float) -> float:
        low, high = (gap + oval / 4) / 0.95, (gap - oval / 4) / 0.87
        turned = stats.norm(wall, 0.006)
        return float(stats.norm.pdf(gap, 0.51, sd_gap) * max(turned.cdf(high) - turned.cdf(low), 0.0))

    whole = integrate.quad(lands, 0.51 - 8 * sd_gap, 0.51 + 8 * sd_gap, limit=60)[0]
    assert window.chance == pytest.approx(whole, abs=0.002)
    assert window.landing_sigma_mm == pytest.approx(2 * math.hypot(sd_gap, 0.006))


@pytest.mark.parametrize("seed", range(20, 23))
def test_no_neighbouring_step_has_a_better_chance(seed: int) -> None:
    question, resolved, made, window = job(seed)
    assert window.target_bore_mm == made.bore_mm and window.best_chance >= window.chance
    for steps in (-8, -3, -2, -1, 1, 2, 3, 8):
        bore = round(made.bore_mm + steps * question.lathe_step_mm, 4)
        given = replace(made, bore_mm=bore)
        if given.wall_mm < 0.2:
            continue
        beside = window_of(resolved, given)
        if not window.off_words(bore):
            assert beside.ring_chance <= window.chance + 1e-8, (steps, question)
    assert not window.off_words(made.bore_mm)


@pytest.mark.parametrize("seed", range(30, 33))
def test_what_is_off_and_what_works_as_keyed(seed: int) -> None:
    """Hundredths inside the window, and words beyond either end of it."""
    _, _, made, window = job(seed)
    low, high = window.bore_low_mm, window.bore_high_mm
    assert low is not None and high is not None
    assert not window.off_words(low) and not window.off_words(high)
    assert window.off_words(low - 1e-6) == f"bore under the smallest that works: {window.binds_low}"
    assert window.off_words(high + 1e-6) == f"bore over the largest that works: {window.binds_high}"
    works = window.works_mm
    assert works is not None and low - 1e-9 <= works[0] <= works[1] <= high + 1e-9
    places = 2 if math.ceil(100 * low - 1e-9) <= math.floor(100 * high + 1e-9) else 3
    if high - low > 0.001:
        assert all(one == round(one, places) for one in works)
        assert works[0] - low < 10.0**-places and high - works[1] < 10.0**-places
    assert window.outside_low_mm == pytest.approx(made.bore_mm + made.outside_diameter_mm - high)
    assert window.outside_high_mm == pytest.approx(made.bore_mm + made.outside_diameter_mm - low)
    gap = (made.outside_diameter_mm - high) / 2 * (1 - window.squeeze_low_pct / 100)
    other = (made.outside_diameter_mm - low) / 2 * (1 - window.squeeze_high_pct / 100)
    assert gap == pytest.approx(other)


@pytest.mark.parametrize(
    ("steeper", "higher", "sd_gap"),
    [(1.0, 0.0, 0.004), (1.6, 0.0, 0.004), (1.0, 0.25, 0.004), (0.0, 0.25, 0.004), (0.0, 0.0, 0.03)],
)
def test_the_best_wall_is_where_the_chance_is_greatest(steeper: float, higher: float, sd_gap: float) -> None:
    """Between two limits that move with the gap, the upper also with the height, by a search of scipy's."""
    limits = (
        Limit("least", False, lambda gap, _: gap / 0.95),
        Limit(
            "most", True, lambda gap, high: 0.58 + steeper * (gap - 0.51) + higher * (high - 1), bool(higher)
        ),
    )
    least, most, sd_wall, sd_height = 0.51 / 0.95, 0.58, 0.006, 0.03
    spread = Spread(gap_mm=sd_gap, wall_mm=sd_wall, height_mm=sd_height)
    landing = Landing(limits, gap_mm=0.51, height_mm=1.0, spread=spread, least_mm=least, most_mm=most)
    at = np.linspace(-5.0, 5.0, 201)
    gaps, heights = np.meshgrid(at, at if higher else np.zeros(1))
    weights = stats.norm.pdf(gaps) * stats.norm.pdf(heights)

    def chance(wall: float) -> float:
        low, high = (
            (0.51 + gaps * sd_gap) / 0.95,
            0.58 + steeper * gaps * sd_gap + higher * heights * sd_height,
        )
        lands = stats.norm.cdf((high - wall) / sd_wall) - stats.norm.cdf((low - wall) / sd_wall)
        return float(np.sum(np.clip(lands, 0, 1) * weights) / np.sum(weights))

    best = optimize.minimize_scalar(lambda wall: -chance(wall), bounds=(least, most), method="bounded").x
    found = landing.best_wall(least, most)
    assert found == pytest.approx(best, abs=0.002) and chance(found) >= chance(best) - 0.002
    for wall in (least, best, most):
        assert landing.chance(wall) == pytest.approx(chance(wall), abs=0.01)


def test_nothing_is_left_to_chance_where_nothing_spreads() -> None:
    """Inside it lands, outside it does not, and the middle of what is left is the best."""
    limits = (
        Limit("least", False, lambda gap, _: gap / 0.95),
        Limit("most", True, lambda gap, _: gap / 0.87),
    )
    least, most = 0.5 / 0.95, 0.5 / 0.87
    landing = Landing(
        limits, gap_mm=0.5, height_mm=None, spread=Spread(0.0, 0.0, 0.0), least_mm=least, most_mm=most
    )
    assert [landing.chance(wall) for wall in (least - 1e-6, least + 1e-6, most - 1e-6, most + 1e-6)] == [
        0,
        1,
        1,
        0,
    ]
    assert landing.best_wall(least, most) == pytest.approx((least + most) / 2, abs=3e-5)
    narrow = landing.best_bore(
        31.0 - 2 * 0.55005, outside_mm=31.0, least_mm=0.55001, most_mm=0.55009, step_mm=0.01
    )
    assert narrow == 31.0 - 2 * 0.55005
