"""Speeds, times and tolerance grades against published values, each with its source."""

from __future__ import annotations

import pytest

from rules.checks import OutOfRange
from rules.turning.grades import grade_held, grade_words, tolerance_um
from rules.turning.schedule import cutting_minutes, spindle_rpm

MM_PER_INCH = 25.4
MM_PER_FOOT = 304.8


@pytest.mark.parametrize(("speed", "rpm"), [(60.0, 579), (100.0, 965), (150.0, 1447)])
def test_spindle_speed_at_33_mm(speed: float, rpm: int) -> None:
    # Computed by hand from n = 1000 v/(pi D), the formula of every machining handbook.
    assert round(spindle_rpm(speed_m_per_min=speed, diameter_mm=33.0)) == rpm


@pytest.mark.parametrize(("feet_per_min", "inches"), [(100.0, 2.0), (400.0, 3.5), (980.0, 1.3)])
def test_spindle_speed_by_the_inch_formula(feet_per_min: float, inches: float) -> None:
    # Turning formulas of a tooling catalogue (opened): n = 3.82 v_c / D, ft/min and inch;
    # 3.82 is printed to 0.14 %.
    metric = spindle_rpm(
        speed_m_per_min=feet_per_min * MM_PER_FOOT / 1000.0, diameter_mm=inches * MM_PER_INCH
    )
    assert metric == pytest.approx(3.82 * feet_per_min / inches, rel=0.0014)


def test_speed_and_time_of_the_textbook_rod() -> None:
    # Kalpakjian and Schmid, Manufacturing Engineering and Technology, example on turning: a 150 mm long,
    # 12.5 mm stainless rod turned to 12.0 mm, 400 rpm, 200 mm/min (problem opened in a public copy).
    # Printed answers from memory: surface speed 15.7 m/min, cutting time 0.75 min.
    feed = 200.0 / 400.0
    assert spindle_rpm(speed_m_per_min=15.7, diameter_mm=12.5) == pytest.approx(400.0, abs=0.5)
    assert cutting_minutes(length_mm=150.0, feed_mm=feed, rpm=400.0) == pytest.approx(0.75)


# ISO 286-1, table 1, as printed on engineersvault.blogspot.com (2007)
# and mechguru.com (both opened, both agree), um.
PRINTED = {
    (3.0, 6.0): {5: 5, 6: 8, 7: 12, 8: 18, 9: 30, 10: 48, 11: 75},
    (6.0, 10.0): {5: 6, 6: 9, 7: 15, 8: 22, 9: 36, 10: 58, 11: 90},
    (10.0, 18.0): {5: 8, 6: 11, 7: 18, 8: 27, 9: 43, 10: 70, 11: 110},
    (18.0, 30.0): {5: 9, 6: 13, 7: 21, 8: 33, 9: 52, 10: 84, 11: 130},
    (30.0, 50.0): {5: 11, 6: 16, 7: 25, 8: 39, 9: 62, 10: 100, 11: 160},
    (50.0, 80.0): {5: 13, 6: 19, 7: 30, 8: 46, 9: 74, 10: 120, 11: 190},
    (80.0, 120.0): {5: 15, 6: 22, 7: 35, 8: 54, 9: 87, 10: 140, 11: 220},
}


@pytest.mark.parametrize(("sizes", "widths"), PRINTED.items())
def test_grades_are_the_printed_table(sizes: tuple[float, float], widths: dict[int, int]) -> None:
    above, up_to = sizes
    for grade, width in widths.items():
        for size in (above + 0.001, (above + up_to) / 2.0, up_to):
            assert tolerance_um(size_mm=size, grade=grade) == width
            assert grade_held(size_mm=size, width_um=width) == grade
            assert grade_held(size_mm=size, width_um=width - 0.1) == grade - 1


def test_grade_is_said_in_words() -> None:
    assert grade_words(size_mm=33.2, width_um=40.0) == "IT8 (39 um at 33.20 mm)"
    assert grade_words(size_mm=33.2, width_um=1.0) == "finer than IT1 at 33.20 mm"


@pytest.mark.parametrize("size", [0.0, -1.0, 120.1, float("nan"), float("inf")])
def test_sizes_outside_the_table_are_refused(size: float) -> None:
    with pytest.raises(OutOfRange, match="size: "):
        tolerance_um(size_mm=size, grade=6)
