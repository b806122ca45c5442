"""A given ring assessed, for tests of the squeeze model."""

from __future__ import annotations

from typing import Any

from rules.sizing.fit import Fit
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import size


def assess(*, outside_diameter_mm: float, **known: Any) -> Fit:
    """What a ring of this outside does; the rest as in a question to the sizing."""
    return size(SizingQuestion(outside_mm=outside_diameter_mm, **known)).fit
