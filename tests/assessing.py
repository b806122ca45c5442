"""A given ring assessed, for tests of the squeeze model."""

from __future__ import annotations

from typing import Any

from rules.sizing.fit import Fit
from rules.sizing.question import SizingQuestion
from rules.sizing.resolved import resolve
from rules.sizing.seated import seat
from rules.sizing.thumb import ring


def assess(*, outside_diameter_mm: float, **known: Any) -> Fit:
    """What a ring of this outside does; the rest as in a question to the sizing."""
    return fit_of(SizingQuestion(outside_mm=outside_diameter_mm, **known))


def fit_of(question: SizingQuestion) -> Fit:
    """What the ring that is asked about does, without the window and the advice that `size` works out."""
    resolved = resolve(question)
    assert question.outside_mm is not None and question.bore_mm is not None
    made = ring(
        outside_mm=question.outside_mm,
        bore_mm=question.bore_mm,
        height_mm=question.height_mm,
        gap=resolved.joint.gap_mm,
    )
    return seat(resolved.joint, wall_mm=made.wall_mm, height_mm=made.height_mm)
