"""Speeds and tolerance grades: the formula by hand, the table turned back, words and refusals."""

from __future__ import annotations

import pytest

from rules.checks import OutOfRange
from rules.turning.grades import grade_held, grade_words, tolerance_um
from rules.turning.schedule import spindle_rpm


@pytest.mark.parametrize(("speed", "rpm"), [(60.0, 579), (100.0, 965), (150.0, 1447)])
def test_spindle_speed_at_33_mm(speed: float, rpm: int) -> None:
    # Computed by hand from n = 1000 v/(pi D), the formula of every machining handbook.
    assert round(spindle_rpm(speed_m_per_min=speed, diameter_mm=33.0)) == rpm


@pytest.mark.parametrize("size", [3.001, 18.0, 24.0, 33.2, 50.0, 120.0])
@pytest.mark.parametrize("grade", range(5, 12))
def test_grade_of_a_width(size: float, grade: int) -> None:
    """A width is its own grade, and a little less the grade before."""
    width = tolerance_um(size_mm=size, grade=grade)
    assert grade_held(size_mm=size, width_um=width) == grade
    assert grade_held(size_mm=size, width_um=width - 0.1) == grade - 1


def test_grade_is_said_in_words() -> None:
    assert grade_words(size_mm=33.2, width_um=40.0) == "IT8 (39 um at 33.20 mm)"
    assert grade_words(size_mm=33.2, width_um=1.0) == "finer than IT1 at 33.20 mm"


@pytest.mark.parametrize("size", [0.0, -1.0, 120.1, float("nan"), float("inf")])
def test_sizes_outside_the_table_are_refused(size: float) -> None:
    with pytest.raises(OutOfRange, match="size: "):
        tolerance_um(size_mm=size, grade=6)
