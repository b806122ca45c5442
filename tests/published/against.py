"""Each outside figure beside what is computed here.

Invariant: nothing is loosened for a figure: it agrees to half its last digit, or its difference is stated.
"""

from __future__ import annotations

from tests.published import gasket_checks, oring_checks, other_checks, plastic_checks, sizing_checks
from tests.published.figures import Figure

CHECKS = (
    sizing_checks.CHECKS
    | plastic_checks.CHECKS
    | other_checks.CHECKS
    | gasket_checks.CHECKS
    | oring_checks.CHECKS
)
STATED_TO_PCT = 0.05
"""A stated difference is right to this."""


def computed(figure: Figure) -> float:
    """What is computed here for the published case."""
    return float(CHECKS[figure.check](**figure.given))


def difference_pct(figure: Figure) -> float:
    """How far what is computed here lies above what is printed, per cent."""
    return 100.0 * (computed(figure) / figure.value - 1.0)


def stands(figure: Figure) -> bool:
    """Whether it agrees as printed, or differs by just what is stated."""
    if figure.differs_pct is not None:
        return abs(difference_pct(figure) - figure.differs_pct) <= STATED_TO_PCT
    allowed = figure.within * abs(figure.value) or figure.half_digit
    return abs(computed(figure) - figure.value) <= allowed * (1.0 + 1e-9)
