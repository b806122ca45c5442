"""The proposed ring beside every step of the lathe in its window, by drawing rings at each of them.

    python -m tests.campaigns.best_steps [--long]

150 drawn questions, with --long 20,000: the proposed ring lies inside its own window wherever there is one,
and no other step of the lathe in the window lands more often, by rings drawn through the whole model.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace

import numpy as np

from rules.checks import OutOfRange
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import Sizing, size
from tests.campaigns.common import Counts, main
from tests.independent.drawn_rings import chance_by_drawing
from tests.independent.random_jobs import drawn, wide_job

RINGS = 4_000
"""For each step, all from the same draws: the difference of two steps scatters by 0.2 points or so."""
MORE_RINGS = 100_000
"""For a step that seemed better."""
LOOK = 0.01
BETTER = 0.01
"""How much oftener another step has to land to count as better: as near as the chance itself is stated."""
LEEWAY_MM = 0.00006
"""A bore is written with four decimals."""

NOISE_MM = 1e-9
"""Of sums in floating point, at the ends of a window."""

Sizer = Callable[[SizingQuestion], Sizing]


def steps_in(answer: Sizing, step_mm: float) -> list[float]:
    """Every step of the lathe between the ends of the window, mm."""
    low, high = answer.window.bore_low_mm, answer.window.bore_high_mm
    if low is None or high is None:
        return []
    first = int(low / step_mm)
    steps = (count * step_mm for count in range(first, first + int((high - low) / step_mm) + 2))
    return [bore for bore in steps if low - NOISE_MM <= bore <= high + NOISE_MM]


def lands(question: SizingQuestion, answer: Sizing, bore_mm: float, rings: int, seed: int) -> float:
    """Share of drawn rings of this bore that meet every requirement."""
    joint = answer.resolved.joint
    one = drawn(
        question,
        replace(answer.ring, bore_mm=bore_mm),
        seat_mm=joint.case_bore_mm,
        glass_mm=joint.glass_mm,
    )
    return chance_by_drawing(one, rings=rings, dice=np.random.default_rng(seed))


def better_step(question: SizingQuestion, answer: Sizing, steps: list[float], seed: int) -> float | None:
    """Another step of the lathe that lands oftener; None where there is none."""
    own = lands(question, answer, answer.ring.bore_mm, RINGS, seed)
    found = max(steps, key=lambda bore: lands(question, answer, bore, RINGS, seed))
    if lands(question, answer, found, RINGS, seed) <= own + LOOK:
        return None
    more, less = (lands(question, answer, bore, MORE_RINGS, seed) for bore in (found, answer.ring.bore_mm))
    return found if more > less + BETTER else None


def judge(question: SizingQuestion, answer: Sizing, counts: Counts, seed: int) -> None:
    """One proposal."""
    low, high = answer.window.bore_low_mm, answer.window.bore_high_mm
    counts.tried += 1
    if low is None or high is None:
        counts.seen["no bore works"] += 1
        return
    bore, steps = answer.ring.bore_mm, steps_in(answer, question.lathe_step_mm)
    counts.seen["open"] += 1
    counts.seen["several steps in the window"] += len(steps) > 1
    if not low - NOISE_MM <= bore <= high + NOISE_MM:
        counts.fail("outside its own window", f"{bore} not in {low} to {high}: {question}")
    elif steps and min(abs(bore - step) for step in steps) > LEEWAY_MM:
        counts.fail("on no step", f"{bore}: {question}")
    elif len(steps) > 1 and (other := better_step(question, answer, steps, seed)) is not None:
        counts.fail("another step lands oftener", f"{other} before {bore}: {question}")


def run(*, long: bool = False, sizer: Sizer = size, count: int | None = None) -> Counts:
    """Draws the questions and judges each proposal; `sizer` proposes."""
    counts, dice = Counts(), random.Random(7)
    for seed in range(count or (20_000 if long else 150)):
        question = wide_job(dice)
        try:
            answer = sizer(question)
        except OutOfRange:
            counts.seen["refused"] += 1
            continue
        judge(question, answer, counts, seed)
    return counts


if __name__ == "__main__":
    main(run)
