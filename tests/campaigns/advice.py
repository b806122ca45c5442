"""What is advised where no bore works or the chance is poor, beside rings drawn before and after.

    python -m tests.campaigns.advice [--long]

30 such places, with --long 2,000: every remedy named raises the chance by what it says, to 2 points, by an
independent model that draws the rings; and no limit is left out afterwards that was judged before.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from dataclasses import replace

import numpy as np

from rules.checks import OutOfRange
from rules.ring import RingSizes
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import Sizing, size
from tests.campaigns.common import Counts, main
from tests.independent.drawn_rings import Drawn, chance_by_drawing
from tests.independent.random_jobs import drawn, wide_job

RINGS = 40_000
CLOSE = 0.02
POOR = 0.5

Sizer = Callable[[SizingQuestion], Sizing]


def as_drawn(question: SizingQuestion, ring: RingSizes) -> Drawn:
    """The ring in its place, at 20 C."""
    assert question.temperature_c is None
    return drawn(question, ring, seat_mm=question.case_bore_mm, glass_mm=question.glass_mm)


def unknown(one: Drawn) -> set[str]:
    """Figures that limits need and that are not known here."""
    found = {
        name for name in ("modulus", "cap", "left_1h", "left_10y", "cte", "nu") if one.plastic[name] is None
    }
    return found | ({"section"} if one.metal is None or one.height is None else set())


def judge(question: SizingQuestion, answer: Sizing, counts: Counts, seed: int) -> None:
    """Every remedy of one answer; one whose chance is good is not tried."""
    before = as_drawn(question, answer.ring)
    chance = chance_by_drawing(before, rings=RINGS, dice=np.random.default_rng(seed))
    counts.tried += 1
    counts.seen["no bore works" if not answer.window.feasible else "chance poor"] += 1
    counts.seen["nothing helps"] += not answer.remedies
    if not answer.window.help:
        counts.fail("nothing said", f"{question}")
    for one in answer.remedies:
        kind = re.sub(r"[\d.]+", "_", one.words)
        counts.seen[f"remedy: {kind}" if ", with " not in kind else "remedy: two together"] += 1
        told = re.search(r": (\d+) %", one.said)
        after = as_drawn(one.question, one.ring)
        then = chance_by_drawing(after, rings=RINGS, dice=np.random.default_rng(seed))
        if told is None or abs(int(told[1]) / 100 - then) > CLOSE + 0.005:
            counts.fail("another chance after it", f"{one.said}, drawn {100 * then:.1f} %: {question}")
        if then <= chance:
            counts.fail(
                "no better", f"{one.said}, drawn {100 * chance:.1f} to {100 * then:.1f} %: {question}"
            )
        if unknown(after) - unknown(before):
            counts.fail("a limit is dropped", f"{one.said}: {question}")
        if one.said not in answer.window.help:
            counts.fail("not said", one.said)


def run(*, long: bool = False, sizer: Sizer = size, count: int | None = None) -> Counts:
    """Draws questions until so many are closed or poor; `sizer` answers."""
    counts, dice, seed = Counts(), random.Random(13), 0
    while counts.tried < (count or (2_000 if long else 30)):
        seed += 1
        question = replace(wide_job(dice), temperature_c=None)
        try:
            answer = sizer(question)
        except OutOfRange:
            continue
        counts.seen["drawn"] += 1
        if not answer.window.feasible or answer.window.ring_chance < POOR:
            judge(question, answer, counts, seed)
    return counts


if __name__ == "__main__":
    main(run)
