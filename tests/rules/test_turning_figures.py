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


@pytest.mark.parametrize(
    ("size", "first", "last"), [(0.01, 0.8, 250.0), (3.0, 0.8, 250.0), (120.0, 2.5, 870.0)]
)
def test_first_and_last_grade(size: float, first: float, last: float) -> None:
    """ISO 286-1, table 1: a nominal size up to and including its end."""
    assert (tolerance_um(size_mm=size, grade=1), tolerance_um(size_mm=size, grade=14)) == (first, last)
    for grade in (0, 15):
        with pytest.raises(
            OutOfRange, match=f"IT grade: {grade} is outside 1 to 14; give a grade of the table"
        ):
            tolerance_um(size_mm=size, grade=grade)
    assert grade_held(size_mm=size, width_um=first) == 1 and grade_held(size_mm=size, width_um=1e5) == 14
    assert grade_held(size_mm=size, width_um=first - 0.01) is None


def test_widths_that_cannot_be() -> None:
    assert grade_held(size_mm=33.0, width_um=0.0) is None
    for width in (-0.1, 100000.1):
        with pytest.raises(
            OutOfRange, match=r"tolerance: .* um is outside 0 to 100000 um; give its whole width"
        ):
            grade_held(size_mm=33.0, width_um=width)
    with pytest.raises(OutOfRange, match="size: 0 mm has no grade; give more than 0 mm"):
        tolerance_um(size_mm=0.0, grade=6)
    with pytest.raises(OutOfRange, match=r"size: 120.1 mm is outside 0 to 120 mm; the table goes no further"):
        tolerance_um(size_mm=120.1, grade=6)
    assert grade_words(size_mm=3.0, width_um=0.8) == "IT1 (0.8 um at 3.00 mm)"
