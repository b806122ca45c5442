"""Markings in bar.

Sources: 1 ft = 0.3048 m and 1 atm = 1.013 25 bar by definition; 10 m read as
1 bar is common practice, no source.
"""

from __future__ import annotations

import pytest

from rules.checks import OutOfRange
from rules.testing.pressure import marking, to_bar


@pytest.mark.parametrize(
    ("figure", "unit", "bar"),
    [
        (5.0, "bar", 5.0),
        (3.0, "atm", 3.03975),
        (50.0, "m", 5.0),
        (100.0, "ft", 3.048),
        (660.0, "ft", 20.1168),
    ],
)
def test_markings(figure: float, unit: str, bar: float) -> None:
    assert to_bar(figure, unit) == pytest.approx(bar, rel=1e-12)
    found = marking(figure=figure, unit=unit)
    assert found.overpressure_bar == pytest.approx(bar, rel=1e-12)
    assert ("10 m taken as 1 bar (common practice)" in found.how) == (unit in ("m", "ft"))


def test_marking_without_a_figure() -> None:
    assert marking(worded=True).overpressure_bar == 2.0
    assert marking().overpressure_bar is None


@pytest.mark.parametrize(
    ("figure", "unit"), [(0.0, "bar"), (-3.0, "m"), (float("nan"), "bar"), (1e9, "m"), (3.0, "psi")]
)
def test_absurd_markings_are_refused(figure: float, unit: str) -> None:
    with pytest.raises(OutOfRange):
        to_bar(figure, unit)
