"""The chance beside drawing 100,000 rings through the whole model;
the drawing knows nothing of the window.
"""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import replace

import numpy as np
import pytest

from rules import limits
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import Sizing, size
from tests.independent.drawn_rings import chance_by_drawing
from tests.independent.random_jobs import drawn, job

JOBS = 26
RINGS = 100_000
CLOSE = 0.01


def _open_jobs(seed: int, count: int) -> list[tuple[SizingQuestion, Sizing]]:
    """The first jobs of a seed that have a window, each limit of the model represented."""
    dice = random.Random(seed)
    found: list[tuple[SizingQuestion, Sizing]] = []
    kinds: Counter[tuple[str, str]] = Counter()
    while len(found) < count:
        asked = job(dice)
        answer = size(asked)
        kind = (answer.window.binds_low[:9], answer.window.binds_high[:9])
        if answer.window.feasible and answer.window.chance > 0.02 and kinds[kind] < 4:
            kinds[kind] += 1
            found.append((asked, answer))
    return found


def _difference(asked: SizingQuestion, answer: Sizing, bore_mm: float, seed: int) -> float:
    """Chance of a ring by the sizing less that by drawing."""
    outside = answer.ring.outside_diameter_mm
    given = size(replace(asked, outside_mm=outside, bore_mm=bore_mm))
    joint = answer.resolved.joint
    by_drawing = chance_by_drawing(
        drawn(asked, given.ring, seat_mm=joint.case_bore_mm, glass_mm=joint.glass_mm),
        rings=RINGS,
        dice=np.random.default_rng(seed),
    )
    return given.window.ring_chance - by_drawing


def test_chance_agrees_with_drawing(capsys: pytest.CaptureFixture[str]) -> None:
    """Within a percentage point at the best aim, over jobs that between them are bound by every kind of
    limit.
    """
    jobs = _open_jobs(20, JOBS)
    off = []
    for seed, (asked, answer) in enumerate(jobs):
        assert answer.window.target_bore_mm is not None
        off.append(_difference(asked, answer, answer.window.target_bore_mm, seed))
    bound = Counter(end for _, a in jobs for end in (a.window.binds_low[:9], a.window.binds_high[:9]))
    with capsys.disabled():
        print(
            f"\nchance less drawn chance, {len(off)} jobs: worst {max(map(abs, off)):.4f}; "
            f"bound by {dict(bound)}"
        )
    assert max(map(abs, off)) < CLOSE
    assert len(bound) >= 6, "the jobs have to reach the limits of the model, not only the band"


def test_a_wrong_limit_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    """The comparison fails when a limit is off by one per cent of the wall, so it can see."""
    jobs = _open_jobs(20, 8)
    monkeypatch.setattr(limits, "LEAST_SQUEEZE", 0.06)
    off = [_difference(asked, a, a.window.target_bore_mm or 0.0, k) for k, (asked, a) in enumerate(jobs)]
    assert max(map(abs, off)) > CLOSE


def test_the_least_wall_does_not_move_with_the_gap() -> None:
    """In a gap of 0.19 the thinnest wall that can be turned meets 13 %: it lies across the other limits."""
    asked = SizingQuestion(
        case_bore_mm=19.68,
        glass_mm=19.30,
        height_mm=1.7,
        material="acetal",
        case_bore_u_mm=0.014,
        glass_u_mm=0.019,
        turning_spread_mm=0.013,
    )
    answer = size(asked)
    assert answer.window.target_bore_mm is not None
    assert abs(_difference(asked, answer, answer.window.target_bore_mm, 3)) < CLOSE
