"""The proposed ring beside every other step of the lathe in its window,
and beside drawing rings at each of them.
"""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import replace

import numpy as np
import pytest

from rules.checks import OutOfRange
from rules.sizing.proposal import asked_about
from rules.sizing.question import SizingQuestion
from rules.sizing.resolved import resolve
from rules.sizing.sizing import Sizing, size
from tests.independent.drawn_rings import chance_by_drawing
from tests.independent.random_jobs import STEPS_MM, drawn, job

LEEWAY_MM = 0.00005
"""A bore is written with four decimals."""
QUESTIONS = 200
DRAWN = 6
RINGS = 60_000
BY_CHANCE = 0.01
"""Two shares of that many drawn rings differ by less than this where the rings are equally good."""


def asked(dice: random.Random) -> SizingQuestion:
    """A random job on a random lathe; thin gold among the metals, the height left open every third time."""
    question = replace(job(dice), lathe_step_mm=dice.choice(STEPS_MM))
    if question.case_metal is not None and dice.random() < 0.15:
        question = replace(question, case_metal="gold9", case_wall_mm=0.8)
    if dice.random() < 0.3:
        depth = question.seat_depth_mm or (question.height_mm or 1.0) + 0.2
        question = replace(question, height_mm=None, seat_depth_mm=depth)
    return question


def ends(answer: Sizing) -> tuple[float, float] | None:
    """The window of an answer, mm; None where it is shut."""
    low, high = answer.window.bore_low_mm, answer.window.bore_high_mm
    return None if low is None or high is None else (low, high)


def inside(answer: Sizing, step_mm: float) -> list[float]:
    """Every step of the lathe in the window, mm."""
    found = ends(answer)
    assert found is not None
    first = int(found[0] / step_mm)
    steps = [count * step_mm for count in range(first, first + int((found[1] - found[0]) / step_mm) + 2)]
    return [bore for bore in steps if found[0] <= bore <= found[1]]


def promised(question: SizingQuestion, answer: Sizing, bore_mm: float) -> float:
    """The chance of another bore in the same place, the height as proposed."""
    outside, height = answer.ring.outside_diameter_mm, answer.ring.height_mm
    given = replace(question, outside_mm=outside, bore_mm=bore_mm, height_mm=height)
    return asked_about(resolve(given))[1].ring_chance


def fault(question: SizingQuestion, answer: Sizing, counts: Counter[str]) -> str:
    """What is wrong with a proposal; empty when it is the best step of its own window."""
    found, bore, window = ends(answer), answer.ring.bore_mm, answer.window
    if found is None:
        counts["shut"] += 1
        return ""
    steps = inside(answer, question.lathe_step_mm)
    counts["open" if steps else "open, no step in it"] += 1
    if not found[0] - 1e-9 <= bore <= found[1] + 1e-9:
        return f"bore {bore} lies outside {found}"
    if bore != window.target_bore_mm or window.ring_chance != window.chance:
        return f"bore {bore} is not the aim {window.target_bore_mm}"
    if steps and min(abs(bore - step) for step in steps) > LEEWAY_MM + 1e-9:
        return f"bore {bore} is on no step of {question.lathe_step_mm}"
    best = max((promised(question, answer, step) for step in steps), default=0.0)
    if best > window.ring_chance + 1e-6:
        return f"bore {bore}: {window.ring_chance}, another step {best}"
    return ""


def faults(count: int, *, seed: int) -> tuple[list[str], Counter[str]]:
    """What is wrong over that many questions, and how many windows were open."""
    dice, counts, wrong = random.Random(seed), Counter[str](), []
    for _ in range(count):
        question = asked(dice)
        try:
            answer = size(question)
        except OutOfRange:
            counts["refused"] += 1
            continue
        if said := fault(question, answer, counts):
            wrong.append(f"{said} ({question})")
    return wrong, counts


def test_the_proposed_ring_is_the_best_step_of_its_own_window() -> None:
    wrong, counts = faults(QUESTIONS, seed=5)
    assert wrong == []
    assert counts["open"] > QUESTIONS / 2 and counts["shut"] > 0, "both kinds have to be drawn"


def test_no_step_in_the_window_is_better_by_drawing() -> None:
    """Rings drawn at every step of the window: none lands more often than the proposed one."""
    dice, done = random.Random(12), 0
    while done < DRAWN:
        question = replace(asked(dice), lathe_step_mm=0.01)
        answer = size(question)
        if ends(answer) is None or len(inside(answer, 0.01)) < 3 or not 0.2 < answer.window.chance < 0.98:
            continue
        done += 1
        joint = answer.resolved.joint
        shares = {}
        for bore in {answer.ring.bore_mm, *inside(answer, 0.01)}:
            ring = replace(answer.ring, bore_mm=bore)
            one = drawn(question, ring, seat_mm=joint.case_bore_mm, glass_mm=joint.glass_mm)
            shares[bore] = chance_by_drawing(one, rings=RINGS, dice=np.random.default_rng(done))
        assert max(shares.values()) - shares[answer.ring.bore_mm] < BY_CHANCE, (question, shares)


@pytest.mark.parametrize(
    ("question", "works"),
    [
        # gap 0.4625; 5 % of the wall 0.4868, bore 26.656; 9 % (thin gold) 0.5082, bore 26.6135
        (
            SizingQuestion(
                case_bore_mm=27.63,
                glass_mm=26.705,
                case_metal="gold9",
                case_wall_mm=0.8,
                case_height_mm=2.0,
            ),
            (26.62, 26.65),
        ),
        # gap 0.225; 5 % of the wall 0.2368, bore 26.526; 13 % 0.2586, bore 26.483
        (SizingQuestion(case_bore_mm=27.00, glass_mm=26.55), (26.49, 26.52)),
    ],
)
def test_a_rule_of_thumb_outside_the_window_is_not_proposed(
    question: SizingQuestion, works: tuple[float, float]
) -> None:
    answer = size(question)
    assert works[0] <= answer.ring.bore_mm <= works[1]
    assert answer.window.works_mm == works
    hundredths = range(round(100 * works[0]) - 4, round(100 * works[1]) + 5)
    best = max(promised(question, answer, bore / 100) for bore in hundredths)
    assert best == pytest.approx(answer.window.ring_chance)
